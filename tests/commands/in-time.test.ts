import { describe, expect, test } from 'vitest';
import { argueGrid, argueUnfinished } from '../../source/commands/argue.ts';
import { checkGrid } from '../../source/commands/check.ts';
import { engineHere } from '../../source/commands/engine-here.ts';
import { type FoundSoFar, findInGrid, findUnfinished } from '../../source/commands/find.ts';
import { hintGrid, hintUnfinished } from '../../source/commands/hint.ts';
import { withinSeconds } from '../../source/commands/in-time.ts';
import { pathOfGrid } from '../../source/commands/path.ts';
import { nothingSoFar, type StepsSoFar } from '../../source/commands/so-far.ts';
import { thinkHere } from '../../source/commands/think-here.ts';
import { parseAsked, traceGrid, traceUnfinished } from '../../source/commands/trace.ts';
import { verifiedSoFar } from '../../source/commands/verify.ts';
import { weighGrid, weighUnfinished } from '../../source/commands/weigh.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { type NamedGrid, readGrid } from '../../source/grid/read.ts';
import { parseStatement } from '../../source/hint/statement.ts';
import type { ArguedSoFar } from '../../source/path/argue.ts';
import { type VerifiedSoFar, verifyPath } from '../../source/path/verify.ts';
import { newSheet } from '../../source/sheet/sheet.ts';
import { viewOf } from '../../source/sheet/view.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { Random } from '../random.ts';
import { inkling } from './run-inkling.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);
console.log(`in-time.test.ts: seed ${seed}`);

const large = makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) });
const read = (text: string, layout = plain): NamedGrid => {
  const result = readGrid(text, { layout });
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

/** Line 1333 of the published set random-minimal-2000. */
const few = read('.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7');
/** Line 9 of the published set hard-187, whose grids all weigh more than 4 by a slower search than ours. */
const hard = read('..6.......3...7..11.7.............9.3....6..5.5.8..2....3..5..6...2...4..4..9.8..');
/** Made by `inkling make --layout 16x16 --seed 3`. */
const wide = read(
  '9...41....A....56.54...38..D.A..B.....A....3.4..3F....281..4..6BC7A.5BE..3..8...5......C..G8F9..D...7.8...F..23..23.......E...14.6BDE....83.......8.C97...6...F1.......42..G..C...C.D.F.A....3E....5..6.....9C..1G..3....6C....F.D.....29...5.AE..26G....78E....',
  large,
);

describe('work within a time', () => {
  test('answers, throws what the work throws, and ends what does not end', () => {
    expect(withinSeconds(5, () => 7)).toEqual({ value: 7 });
    expect(withinSeconds(5, () => null)).toEqual({ value: null });
    expect(() =>
      withinSeconds(5, () => {
        throw new RangeError('as it was');
      }),
    ).toThrow('as it was');
    let rounds = 0;
    const endless = () => {
      for (;;) rounds += 1;
    };
    expect(withinSeconds(0.05, endless)).toBeNull();
    expect(rounds).toBeGreaterThan(0);
  });

  test('of one within another the shorter ends', () => {
    const endless = () => {
      for (;;);
    };
    expect(withinSeconds(0.05, () => withinSeconds(60, endless))).toBeNull();
    expect(withinSeconds(60, () => withinSeconds(0.05, endless))).toEqual({ value: null });
  });
});

test('what was ended at whatever moment leaves later answers as they were', { timeout: 120_000 }, () => {
  const random = new Random(seed);
  const asked = parseAsked(plain, 'r5c5');
  const statement = parseStatement('r1c1<>3 by r1c1 3@b1', plain);
  const technique = techniqueById('xy-chain');
  if (!asked || !statement.ok || !technique) throw new Error('not read');
  const none = { redundant: false, minimal: false, symmetries: false, settle: false };
  const answers: Readonly<Record<string, () => object>> = {
    check: () => checkGrid(hard, { ...none, redundant: true, minimal: true }).json,
    several: () => checkGrid(read(`${'.'.repeat(60)}123456789${'.'.repeat(12)}`), none).json,
    wide: () => checkGrid(wide, none).json,
    hint: () => hintGrid(few, 'why').json,
    'wide hint': () => hintGrid(wide, 'why').json,
    path: () => pathOfGrid(few).json,
    weigh: () => weighGrid(few, 3).json,
    trace: () => traceGrid(few, asked).json,
    find: () => findInGrid(few, technique).json,
    argue: () => argueGrid(few, statement.value).json,
  };
  const names = Object.keys(answers);
  const told = () => names.map((name) => `${name}: ${JSON.stringify(answers[name]())}`);
  const before = told();
  let ended = 0;
  for (let round = 0; round < 12; round += 1) {
    // Some are done sooner than they are ended: at least one a round is not.
    for (let cut = 0; cut < 4 || (ended <= round && cut < 200); cut += 1) {
      const name = random.pick([...names, 'hardest']);
      const work = answers[name] ?? (() => pathOfGrid(hard).json);
      if (!withinSeconds((1 + random.below(40)) / 1000, work)) ended += 1;
    }
    expect(told()).toEqual(before);
  }
  expect(ended).toBeGreaterThan(8);
});

/** One that holds in the grid above, by more than it needs: an X-wing, and a fact that has no part in it. */
const holding = 'r2c3<>1 r2c7<>1 by 1@c1 1@c9 2@c2';

describe('what is known when time has run out', () => {
  test('of a hint: how many facts are too few', () => {
    const { json, lines, negative } = hintUnfinished(hard, 60);
    expect(negative).toBe(true);
    expect(json).toEqual({ schema: 1, step: null, tried: 4 });
    expect(lines).toEqual([
      'No step found within 60 seconds.',
      'No argument of 4 facts or fewer strikes anything.',
    ]);
  });

  test('of a weight: a lower bound', () => {
    expect(weighUnfinished(hard, 60).json).toMatchObject({ weight: { atLeast: 5, atMost: null } });
  });

  test('of instances: those that there are, each as whole as it is known', { timeout: 60_000 }, () => {
    const technique = techniqueById('nested-suppositions') ?? expect.unreachable();
    const key = ({ facts, strikes }: { facts: string[]; strikes: string[] }) => `${facts} ${strikes}`;
    type Found = { instances: { facts: string[]; strikes: string[]; new?: string[] }[] };
    const whole = findInGrid(hard, technique).json as Found;
    const all = new Set(whole.instances.flatMap((one) => one.strikes));
    let soFar: FoundSoFar | null = null;
    // Longer and longer, until some are found and not all.
    let found: Found | null = null;
    for (let seconds = 0.01; found === null; seconds *= 1.2) {
      soFar = null;
      const watch = (known: FoundSoFar) => {
        soFar = known;
      };
      expect(seconds).toBeLessThan(20);
      if (withinSeconds(seconds, () => findInGrid(hard, technique, true, watch))) continue;
      const known = findUnfinished(hard, technique, soFar, 60);
      const { instances } = known.json as Found;
      if (instances.length === 0) continue;
      found = { instances };
      const count = instances.length === 1 ? '1 instance' : `${instances.length} instances`;
      expect(known.lines[0]).toContain(
        `not looked for everywhere within 60 seconds. ${count} found by then.`,
      );
      expect(known.lines.filter((line) => / facts?$/.test(line))).toHaveLength(instances.length);
    }
    for (const one of found.instances) for (const strike of one.strikes) expect(all).toContain(strike);
    const known = whole.instances.map(key);
    for (const one of found.instances) if (one.new) expect(known).toContain(key(one));
    // Nothing was found, and nothing was begun.
    expect(findUnfinished(hard, technique, null, 60)).toMatchObject({
      json: { instances: [] },
      lines: ['Nested suppositions: not looked for everywhere within 60 seconds.'],
    });
  });

  test('of an argument: whether it holds', () => {
    const said = (text: string) => {
      const statement = parseStatement(text, plain);
      if (!statement.ok) return expect.unreachable(text);
      let known: ArguedSoFar | null = null;
      argueGrid(few, statement.value, {
        watch: (soFar) => {
          known = soFar;
        },
      });
      const { json, lines } = argueUnfinished(few, statement.value, known, 1);
      return { json, line: lines.at(-1), count: lines.length };
    };
    expect(said('r1c1<>3 by 3@r2 3@c1')).toMatchObject({
      json: { holds: false },
      line: 'It does not hold; what else follows was not found out within 1 second.',
    });
    expect(said('r1c1<>3 by 3@r2 3@c1').count).toBeGreaterThan(2);
    expect(said(holding)).toEqual({
      json: { schema: 1, holds: true, verdict: 'holds' },
      line: 'It holds; which of its facts it needs was not found out within 1 second.',
      count: 1,
    });
  });

  test('of a trace: how many steps there are', () => {
    const target = parseAsked(plain, 'r5c5') ?? expect.unreachable();
    const counts: number[] = [];
    traceGrid(few, target, true, (steps) => counts.push(steps.length));
    expect(counts).toEqual(counts.toSorted((a, b) => a - b));
    expect(counts.at(-1)).toBeGreaterThan(3);
    let seen: StepsSoFar | null = null;
    traceGrid(few, target, true, (steps) => {
      seen = steps;
    });
    const { json, lines } = traceUnfinished(few, target, seen, 1);
    const [count] = /(\d+) steps of the path were found by then/.exec(lines[0])?.slice(1) ?? [];
    expect(json).toEqual({
      schema: 1,
      target: 'r5c5',
      steps: null,
      reason: 'out-of-time',
      found: Number(count),
    });
    expect(Number(count)).toBeGreaterThan(3);
  });

  test('of a path that is verified: what has come of the steps so far', () => {
    const path = pathOfGrid(few).json as { steps: object[] };
    const [first, second, ...more] = path.steps;
    let soFar: () => VerifiedSoFar = () => expect.unreachable();
    const seen: VerifiedSoFar[] = [];
    const spying = {
      ...more[0],
      get facts() {
        seen.push(soFar());
        return [];
      },
    };
    const watch = (known: () => VerifiedSoFar) => {
      soFar = known;
    };
    verifyPath(plain, { ...path, steps: [first, null, second, spying, ...more] }, watch);
    const { json, lines } = verifiedSoFar(seen[0], 1);
    const refused = [{ step: 2, reason: 'no-step' }];
    const steps = path.steps.length + 2;
    expect(json).toMatchObject({ steps, judged: 3, accepted: 2, refused, stopped: 1 });
    expect(lines[0]).toBe(`3 of ${steps} steps judged within 1 second, 2 of them accepted.`);
    expect(lines).toHaveLength(2);
  });

  describe('in the workbench', () => {
    const view = viewOf(newSheet(plain, few.grid.givens, '').state);
    /** Asks, and never comes to an end. */
    const asked = (kind: 'argue' | 'ask', about: 'find' | 'trace', text: string): string => {
      const soFar = nothingSoFar();
      const engine = engineHere({ oneSolution: false }, soFar);
      const news = thinkHere({ kind, about, view }, soFar, 2, () => {
        if (kind === 'argue') engine.argue(view, text);
        else engine.ask(view, about, text);
        for (;;);
      });
      return news.kind === 'unanswered' ? news.why : expect.unreachable(news.kind);
    };

    test('that an argument holds, or does not', () => {
      expect(asked('argue', 'find', holding)).toMatch(/^It holds; which of its facts it needs was not/);
      expect(asked('argue', 'find', 'r1c1<>3 by 3@r2 3@c1')).toMatch(/^It does not hold; /);
      expect(asked('argue', 'find', 'no argument')).toMatch(/^Whether it holds was not decided within 2 s/);
    });

    test('how many instances there are, and a short one as it can be typed', () => {
      const why = asked('ask', 'find', 'empty-rectangle');
      const typed = /^Not all .*\. \d+ instances found by then, (.*) among them\. /.exec(why)?.[1] ?? '';
      expect(parseStatement(typed, plain)).toMatchObject({ ok: true });
    });

    test('how many steps there are', () => {
      expect(asked('ask', 'trace', 'r5c5')).toMatch(
        /^No chain .* \d+ steps of the path were found by then\. /,
      );
    });
  });

  test('the commands end in time, say so, and how it is raised: exit 1', { timeout: 60_000 }, async () => {
    // An empty grid has 6,670,903,752,021,072,936,960 solutions (Felgenhauer and Jarvis 2005): no second is enough.
    const grid = '.'.repeat(81);
    const { code, stdout, stderr } = await inkling([
      'check',
      '--solutions',
      '1000000000',
      '--seconds',
      '1',
      '--json',
      grid,
    ]);
    expect(code).toBe(1);
    const said = JSON.parse(stdout) as { count: number };
    expect(said).toMatchObject({ verdict: 'several', more: true, stopped: 1 });
    expect(said.count).toBeGreaterThanOrEqual(999);
    expect(stderr).toContain('--seconds N allows for more');
  });
});
