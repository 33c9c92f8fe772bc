import { houseFact } from '../argument/fact.ts';
import type { Conclusions, Fact } from '../argument/kernel.ts';
import { type Candidate, candidateOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName, parseCell, parseDigit, parseHouse } from '../grid/names.ts';
import { failure, type LocatedError, type Result, success } from '../text/result.ts';
import { quoteSafe } from '../text/safe.ts';

/** What somebody argues: that something follows from some facts. Nothing is judged yet. */
export interface Statement {
  /** In the order in which they are written, each once; at least one. */
  readonly facts: readonly Fact[];
  /** Candidates in the order in which they are written, each once. */
  readonly conclusions: Conclusions;
}

/** Why a text is no statement. The codes are stable. */
export type StatementErrorCode =
  | 'no-conclusion'
  | 'mixed'
  | 'no-by'
  | 'no-fact'
  | 'too-many-facts'
  | 'no-cell'
  | 'no-house'
  | 'no-digit'
  | 'unexpected';

/** An error of a statement; `column` is where the trouble starts. */
export interface StatementError extends LocatedError {
  readonly code: StatementErrorCode;
}

/** Carries an error out of the reader's depths; never leaves this file. */
class Stop extends Error {
  readonly error: StatementError;
  constructor(error: StatementError) {
    super(error.message);
    this.error = error;
  }
}

/** More facts than anybody holds in mind; beyond, judging them can take minutes. */
const mostFacts = 100;

const separators = /[\s,;]+/y;
const word = /[^\s,;]+/y;
const byWord = /by(?![^\s,;])/iy;
const breaksWord = /breaks(?![^\s,;])/iy;
const address = /r\d+c\d+/iy;
const operator = /\s*(=|<>|!=|≠)\s*/y;

/** The beginning of `7@c2`, or of `7c2`: not every keyboard has an @ without a second hand. */
const digitInHouse = /[^\s,;]@|[1-9a-p](?=[rcbdx]\d)/iy;

/** Reads a statement from left to right. */
class StatementReader {
  readonly text: string;
  readonly layout: Layout;
  /** How many facts there may be. */
  readonly most: number;
  at = 0;

  constructor(text: string, layout: Layout, most: number) {
    this.text = text;
    this.layout = layout;
    this.most = most;
  }

  look(pattern: RegExp): string | null {
    pattern.lastIndex = this.at;
    return pattern.exec(this.text)?.[0] ?? null;
  }

  take(pattern: RegExp): string | null {
    const found = this.look(pattern);
    this.at += found?.length ?? 0;
    return found;
  }

  stop(code: StatementErrorCode, expected: string, at = this.at, written?: string): never {
    this.at = at;
    if (written === undefined) this.take(separators);
    const before = this.text.slice(0, this.at).split('\n');
    const column = [...before[before.length - 1]].length + 1;
    const there = written ?? this.look(word);
    const found = there === null ? 'nothing more' : quoteSafe(there, 24);
    const place = before.length === 1 ? `Column ${column}` : `Line ${before.length}, column ${column}`;
    const message = `${place}: found ${found}; expected ${expected}.`;
    throw new Stop({ code, line: before.length, column, found, expected, message });
  }

  digit(): number {
    const digit = parseDigit(this.layout, this.text[this.at] ?? '');
    if (digit === null) {
      this.stop('no-digit', `a digit from ${digitName(1)} to ${digitName(this.layout.size)}`);
    }
    this.at += 1;
    return digit;
  }

  cell(): number {
    const start = this.at;
    const written = this.take(address) ?? '';
    const { layout } = this;
    const range = `a cell from r1c1 to ${cellName(layout, layout.cellCount - 1)}`;
    return parseCell(layout, written) ?? this.stop('no-cell', range, start, written);
  }

  atEnd(): boolean {
    return this.at >= this.text.length || /[\s,;]/.test(this.text[this.at]);
  }

  /** `r3c5<>7`, `r3c5<>47`, `r4c7=3`. */
  conclusion(): { readonly kind: 'placements' | 'strikes'; readonly candidates: Candidate[] } {
    if (this.look(address) === null) {
      this.stop('no-conclusion', 'a conclusion such as r3c5<>7, r4c7=3 or breaks');
    }
    const cell = this.cell();
    const sign = this.take(operator)?.trim();
    if (sign === undefined) this.stop('unexpected', '<> or = after the cell');
    const digits = [this.digit()];
    if (sign === '=') {
      if (!this.atEnd()) this.stop('unexpected', 'a space after the digit');
    } else while (!this.atEnd()) digits.push(this.digit());
    return {
      kind: sign === '=' ? 'placements' : 'strikes',
      candidates: digits.map((digit) => candidateOf(this.layout, cell, digit)),
    };
  }

  conclusions(): Conclusions {
    let kind: Conclusions['kind'] | null = null;
    const candidates = new Set<Candidate>();
    for (this.take(separators); this.look(byWord) === null; this.take(separators)) {
      if (this.at >= this.text.length && kind !== null) {
        this.stop('no-by', "'by' and the facts, such as by 7@c2 7@c8");
      }
      const start = this.at;
      const next = this.take(breaksWord) === null ? this.conclusion() : ({ kind: 'breaks' } as const);
      if (kind !== null && (kind !== next.kind || kind === 'breaks')) {
        this.stop('mixed', 'conclusions of one kind: strikes, placements, or breaks alone', start);
      }
      kind = next.kind;
      if (next.kind !== 'breaks') for (const candidate of next.candidates) candidates.add(candidate);
    }
    if (kind === null) this.stop('no-conclusion', 'a conclusion such as r3c5<>7, r4c7=3 or breaks');
    return kind === 'breaks' ? { kind } : { kind, candidates: [...candidates] };
  }

  /** `r4c8`, `7@c2`, `7c2`. */
  fact(): Fact {
    if (this.look(address) !== null) {
      const cell = this.cell();
      if (!this.atEnd()) this.stop('unexpected', 'a space after the cell');
      return cell;
    }
    if (this.look(digitInHouse) === null) this.stop('no-fact', 'a fact such as 7@c2 or r4c8');
    const digit = this.digit();
    this.take(/@/y);
    const name = this.look(word);
    const house = parseHouse(this.layout, name ?? '');
    if (house === null) this.stop('no-house', 'a house such as r4, c2 or b5');
    this.take(word);
    return houseFact(this.layout, house, digit);
  }

  statement(): Statement {
    const conclusions = this.conclusions();
    this.take(byWord);
    const facts = new Set<Fact>();
    for (this.take(separators); this.at < this.text.length || facts.size === 0; this.take(separators)) {
      if (facts.size === this.most) this.stop('too-many-facts', `no more than ${this.most} facts`);
      facts.add(this.fact());
    }
    return { facts: [...facts], conclusions };
  }
}

/** Whether a typed line is meant as a statement, right or wrong: it has the word `by`. */
export const isStatement = (text: string): boolean => /(^|[\s,;])by([\s,;]|$)/i.test(text);

/**
 * Reads what somebody argues: conclusions, `by`, facts, parted by spaces, commas or semicolons.
 * - `r3c5<>7 by 7@c2 7@c8` (`!=`, `≠`; several digits or cells: `r3c5<>47 r5c5<>7 by ...`) strikes
 * - `r4c7=3 by 3@r4` places
 * - `breaks by r1c1 3@b1` says that the facts cannot all hold
 *
 * Letters may be capital. The facts are those of a cell, `r4c8`, and of a digit in a house, `7@c2` or
 * `7c2`; at most so many, 100 unless told otherwise.
 */
export function parseStatement(
  text: string,
  layout: Layout,
  most = mostFacts,
): Result<Statement, StatementError> {
  try {
    return success(new StatementReader(text, layout, most).statement());
  } catch (error) {
    if (error instanceof Stop) return failure(error.error);
    throw error;
  }
}
