import { setFlagsFromString } from 'node:v8';
import type { Layout } from '../grid/layout.ts';
import type { NamedGrid } from '../grid/read.ts';
import type { Answer } from './answer.ts';
import { addTallies, answerInputs, emptyTally, type Tally } from './answer-inputs.ts';
import type { Surroundings } from './command.ts';
import { complain } from './complain.ts';
import type { Crew, WrittenPart } from './crew.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type GridInput, type GridSource, type LineBlock, piecesIn, readBlock, readWhole } from './input.ts';

export interface ManyLinesOptions {
  readonly answer: (named: NamedGrid) => Answer;
  readonly layout: Layout;
  /** How many threads may answer side by side; with one, none is started. */
  readonly jobs: number;
  /** Starts so many threads that answer as `answer` does; `name`: of the source, for messages. */
  readonly startCrew: (name: string, layout: Layout, size: number) => Promise<Crew>;
  /** After so many lines threads are worth their start. */
  readonly aloneFor?: number;
  /** Milliseconds between two notices of progress. */
  readonly progressEvery?: number;
}

/** Blocks that may be under way for each thread: one in work, one waiting, one being written. */
const blocksEach = 3;

/** Writes parts in order and says how far it has come. */
class Report {
  tally = emptyTally;
  readonly #surroundings: Surroundings;
  readonly #progressEvery: number;
  #toldAt = performance.now();

  constructor(surroundings: Surroundings, progressEvery: number) {
    this.#surroundings = surroundings;
    this.#progressEvery = progressEvery;
  }

  async write(part: WrittenPart, room?: SharedArrayBuffer): Promise<void> {
    if ('mistake' in part) await complain(part.mistake, this.#surroundings);
    else if ('from' in part) {
      if (room) await this.#surroundings.results.bytes(new Uint8Array(room, part.from, part.to - part.from));
    } else await this.#surroundings.results.line(part.text);
  }

  add(tally: Tally): void {
    this.tally = addTallies(this.tally, tally);
    const { notices, results } = this.#surroundings;
    const now = performance.now();
    if (results.isTerminal || !notices.isTerminal || now - this.#toldAt < this.#progressEvery) return;
    this.#toldAt = now;
    const { answered, bad } = this.tally;
    const said = `${answered.toLocaleString('en-US')} grids`;
    notices.passing(bad === 0 ? said : `${said}, ${bad.toLocaleString('en-US')} bad lines`);
  }
}

/**
 * Prints a line of JSON for each grid of a source, in input order, each bad line told on stderr. Memory does
 * not grow with the input: no more is read than is being answered, and no more is answered than is taken.
 * Throws UnreadableInput.
 */
export async function answerLines(
  source: GridSource,
  surroundings: Surroundings,
  { answer, layout, jobs, startCrew, aloneFor = 4000, progressEvery = 200 }: ManyLinesOptions,
): Promise<ExitCode> {
  const { results, notices } = surroundings;
  const report = new Report(surroundings, progressEvery);
  const answerHere = async (inputs: Iterable<GridInput>): Promise<void> => {
    const answers = answerInputs(inputs, answer, () => performance.now());
    let next = answers.next();
    for (; !next.done && !results.closed; next = answers.next()) await report.write(next.value);
    if (next.done) report.add(next.value);
  };
  let crew: Crew | null = null;
  let sized = false;
  /** The blocks that are with the crew, oldest first, each done once it has been written. */
  const underWay: Promise<void>[] = [];
  let written = Promise.resolve();
  const answerThere = async (block: LineBlock): Promise<void> => {
    crew ??= await startCrew(source.name, layout, jobs);
    const there = crew;
    const before = written;
    const answered = crew.answer(block);
    written = (async () => {
      const [found] = await Promise.all([answered, before]);
      for (const part of found.parts) if (!results.closed) await report.write(part, found.room);
      there.release(found);
      report.add(found.tally);
    })();
    // Whoever waits for it below hears of a failure; until then nobody does.
    written.catch(() => {});
    underWay.push(written);
    if (underWay.length >= jobs * blocksEach) await underWay.shift();
  };
  try {
    for await (const piece of piecesIn(source, layout)) {
      if (results.closed) break;
      if (!sized && piece.kind === 'lines' && piece.firstLine > aloneFor) {
        sized = true;
        // The room for what is new has found its size; V8 would let it grow on for as long as there are lines.
        setFlagsFromString('--semi-space-growth-factor=1');
      }
      if (piece.kind === 'whole') await answerHere(readWhole(source.name, piece.text, layout));
      else if (jobs > 1 && piece.firstLine > aloneFor) await answerThere(piece);
      else await answerHere(readBlock(source.name, piece, layout));
    }
    await written;
  } finally {
    notices.passing('');
    await (crew as Crew | null)?.dismiss();
  }
  if (report.tally.answered + report.tally.bad === 0) await answerHere(readWhole(source.name, '', layout));
  const { answered, negatives, bad } = report.tally;
  if (answered === 0 && bad > 0) return exitCodes.usage;
  return bad + negatives > 0 ? exitCodes.no : exitCodes.yes;
}
