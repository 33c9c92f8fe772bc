import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readJournal } from '../../source/journal/journal.ts';
import { bundleFixture } from './bundle.ts';
import { openInkling } from './harness.ts';

const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';

export interface RaceTally {
  rounds: number;
  /** Rounds in which the lock of a killed process lay there at the start. */
  stale: number;
  /** Rounds won by the one that was started second. */
  second: number;
  readonly failures: string[];
}

const isSettled = (text: string): boolean => /\bsaved\b|read-only/.test(text);

/** What the only sheet of a home has been left with. */
function moves(home: string): number {
  const shelf = join(home, 'state/inkling/sheets');
  const [id] = readdirSync(shelf);
  const read = readJournal(readFileSync(join(shelf, id, 'journal'), 'latin1'));
  if (!read.ok) throw new Error(read.error.message);
  if (read.value.damage) throw new Error(read.value.damage.message);
  return read.value.timeline.moves;
}

/**
 * Two instances start for one sheet at the same time, round after round: one must write, and the other say
 * that it does not. Half of the winners are killed, so that the next two find a lock that was left behind.
 */
export async function raceMany(rounds: number): Promise<RaceTally> {
  const tally: RaceTally = { rounds: 0, stale: 0, second: 0, failures: [] };
  const home = mkdtempSync(join(tmpdir(), 'inkling-race-'));
  let isStale = false;
  let expected = 0;
  for (let round = 1; round <= rounds; round += 1) {
    tally.rounds += 1;
    if (isStale) tally.stale += 1;
    const apps = [openInkling([grid], { home }), openInkling([grid], { home })];
    try {
      for (const app of apps) await app.waitFor((at) => isSettled(at.text()));
      const writers = apps.filter((app) => !app.text().includes('read-only'));
      if (writers.length !== 1) throw new Error(`${writers.length} writers`);
      const [writer] = writers;
      const reader = apps.find((app) => app !== writer)!;
      if (writer === apps[1]) tally.second += 1;
      // A note, toggled: one move more each round.
      for (const app of [reader, writer]) app.type(':r5c4\rn2');
      expected += 1;
      await reader.waitFor('only be looked');
      await writer.waitFor((at) => /\bsaved\b/.test(at.text()) && moves(home) === expected);
      isStale = round % 2 === 1;
      if (isStale) writer.signal('SIGKILL');
      else writer.press('q');
      reader.press('q');
      await Promise.all(apps.map((app) => app.exit));
      if (moves(home) !== expected) throw new Error(`${moves(home)} moves instead of ${expected}`);
    } catch (error) {
      tally.failures.push(`round ${round}: ${String(error)}`);
      for (const app of apps) app.close();
      break;
    } finally {
      for (const app of apps) app.close();
    }
  }
  rmSync(home, { recursive: true, force: true });
  return tally;
}

/** A child process that takes locks when it is told to. */
class Racer {
  readonly child: ChildProcess;
  constructor(path: string) {
    this.child = fork(path, { stdio: 'ignore' });
  }

  get answer(): Promise<string> {
    return new Promise((resolve) => {
      this.child.once('message', (message) => resolve(String(message)));
    });
  }

  ask(order: object): Promise<string> {
    const { answer } = this;
    this.child.send(order);
    return answer;
  }

  async kill(): Promise<void> {
    const gone = new Promise((resolve) => this.child.once('exit', resolve));
    this.child.kill('SIGKILL');
    await gone;
  }
}

/**
 * The bare lock, taken by three processes at the same millisecond, round after round; now and then the one who
 * has it is killed, and the rest find its lock. Answers the number of rounds that did not have exactly one holder.
 */
export async function raceForLock(
  rounds: number,
  random: () => number,
): Promise<{ readonly wrong: number; readonly healed: number }> {
  const bundle = bundleFixture('lock-racer.ts');
  const folder = mkdtempSync(join(tmpdir(), 'inkling-lock-'));
  const racers: Racer[] = [];
  const hire = async () => {
    const racer = new Racer(bundle.path);
    await racer.answer;
    return racer;
  };
  for (let count = 0; count < 3; count += 1) racers.push(await hire());
  let wrong = 0;
  let healed = 0;
  let isStale = false;
  for (let round = 0; round < rounds; round += 1) {
    const at = Date.now() + 4;
    const answers = await Promise.all(racers.map((racer) => racer.ask({ kind: 'take', folder, at })));
    const holders = racers.filter((_, i) => answers[i].startsWith('has'));
    if (holders.length !== 1) wrong += 1;
    if (isStale) healed += 1;
    isStale = random() < 0.1 && holders.length === 1;
    if (isStale) {
      const [holder] = holders;
      await holder.kill();
      racers[racers.indexOf(holder)] = await hire();
    } else for (const holder of holders) await holder.ask({ kind: 'release' });
  }
  for (const racer of racers) await racer.kill();
  bundle.remove();
  rmSync(folder, { recursive: true, force: true });
  return { wrong, healed };
}
