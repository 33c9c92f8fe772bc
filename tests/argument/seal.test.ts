import { describe, expect, it } from 'vitest';
import { houseFact } from '../../source/argument/fact.ts';
import { type Argument, CheckedArgument, check, isChecked } from '../../source/argument/kernel.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';

/** Row 1 holds 1 to 8: its 9 goes to the last cell. */
const position = Position.from(
  plain,
  Array.from({ length: 81 }, (_, cell) => (cell < 8 ? cell + 1 : 0)),
);
const hiddenNine = (): Argument => ({
  technique: 'hidden-single',
  facts: [houseFact(plain, plain.houses[0], 9)],
  conclusions: { kind: 'placements', candidates: [80] },
  assumes: 'nothing',
});
function sealed(argument = hiddenNine()): CheckedArgument {
  const verdict = check(position, argument);
  if (verdict.verdict !== 'holds') throw new Error(`the kernel refuses: ${verdict.verdict}`);
  return verdict.checked;
}

describe('the seal of a CheckedArgument', () => {
  it('cannot be made from outside', () => {
    for (const key of [Symbol('made by check'), Symbol.for('made by check'), 'seal', undefined]) {
      expect(() => Reflect.construct(CheckedArgument, [key, position, hiddenNine()])).toThrow(
        new TypeError('only the kernel makes a CheckedArgument'),
      );
    }
    const made = sealed();
    expect(() => Reflect.construct(made.constructor as typeof CheckedArgument, [position])).toThrow(
      TypeError,
    );
    class Sub extends CheckedArgument {}
    expect(() => Reflect.construct(Sub, [Symbol('made by check'), position, hiddenNine()])).toThrow(
      TypeError,
    );
  });

  it('is not taken from look-alikes', () => {
    const made = sealed();
    expect(isChecked(made)).toBe(true);
    const lookAlikes: unknown[] = [
      { ...made },
      Object.create(CheckedArgument.prototype),
      Object.assign(Object.create(CheckedArgument.prototype), { position, argument: hiddenNine() }),
      Object.create(made),
      new Proxy(made, {}),
      structuredClone({ argument: made.argument }),
      JSON.parse(JSON.stringify({ argument: made.argument })),
      null,
      undefined,
      'checked',
    ];
    for (const value of lookAlikes) expect(isChecked(value)).toBe(false);
  });

  it('keeps an argument that nobody can change', () => {
    const stated = hiddenNine();
    const made = sealed(stated);
    const parts = [made, made.argument, made.argument.facts, made.argument.conclusions];
    for (const part of parts) expect(Object.isFrozen(part)).toBe(true);
    if (made.argument.conclusions.kind === 'breaks') throw new Error('it places');
    expect(Object.isFrozen(made.argument.conclusions.candidates)).toBe(true);
    for (const change of [
      () => Reflect.set(made, 'argument', stated),
      () => Reflect.set(made.argument, 'facts', []),
      () => Reflect.set(made.argument.facts, '0', 5),
      () => Reflect.set(made.argument.conclusions, 'candidates', [1]),
      () => Reflect.defineProperty(made.argument.facts, '1', { value: 7 }),
      () => Reflect.setPrototypeOf(made, null),
    ]) {
      expect(change()).toBe(false);
    }
    Reflect.set(stated.facts, '0', 0);
    Reflect.set(stated, 'conclusions', { kind: 'strikes', candidates: [3] });
    expect(made.argument).toEqual(hiddenNine());
  });

  it('holds what was looked at, though the stated argument answers differently each time', () => {
    let reads = 0;
    const shifting: Argument = {
      ...hiddenNine(),
      get conclusions(): Argument['conclusions'] {
        reads += 1;
        return { kind: 'placements', candidates: [reads === 1 ? 80 : 79] };
      },
    };
    expect(sealed(shifting).argument.conclusions).toEqual({ kind: 'placements', candidates: [80] });
    const late: Argument = {
      ...hiddenNine(),
      conclusions: new Proxy({ kind: 'placements', candidates: [80] } as const, {
        get: (target, key) => (key === 'candidates' && reads++ > 1 ? [79] : Reflect.get(target, key)),
      }),
    };
    const verdict = check(position, late);
    if (verdict.verdict === 'holds') {
      expect(verdict.checked.argument.conclusions).toEqual({ kind: 'placements', candidates: [80] });
    }
  });
});
