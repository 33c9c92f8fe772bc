import { parentPort, workerData } from 'node:worker_threads';
import type { ToldLadder } from '../hint/rung.ts';
import type { View } from '../path/step.ts';
import { standingOf } from '../sheet/look-over.ts';
import type { Heard } from '../terminal/engine.ts';
import { budget, engineHere, type Granted } from './engine-here.ts';
import { nothingSoFar } from './so-far.ts';
import { thinkHere } from './think-here.ts';
import { type Thought, unpackView } from './thoughts.ts';

/** What the thread is told at its start. */
export interface ThinkTask {
  readonly granted: Granted;
  /** How long a question may take. */
  readonly seconds: number;
}

const { granted, seconds } = workerData as ThinkTask;
const soFar = nothingSoFar();
const engine = engineHere(granted, soFar);

/** Checked arguments are sealed and stay in this thread; what the rungs tell of them is plain data. */
function tell(view: View): ToldLadder | null {
  const ladder = engine.findHint(view);
  return ladder && { kind: ladder.kind, rungs: ladder.rungs, written: ladder.written };
}

function conclude({ kind, text, about }: Thought, view: View): Heard {
  switch (kind) {
    case 'find-hint':
      return { kind: 'hint-found', ladder: tell(view) };
    case 'argue':
      return { kind: 'argued', text, answer: engine.argue(view, text) };
    case 'ask':
      return { kind: 'answered', text: `${about} ${text}`, answer: engine.ask(view, about, text) };
    case 'is-right':
      return { kind: 'standing', standing: standingOf(view, budget) };
    case 'why-no-hint':
      return { kind: 'no-hint', standing: standingOf(view, budget) };
    case 'how-many-solutions':
      return { kind: 'solutions', standing: standingOf(view, budget) };
  }
}

/** The entry of the thread that thinks for the workbench: answers Thoughts in turn. */
parentPort?.on('message', (thought: Thought) => {
  const view = unpackView(thought.view);
  parentPort?.postMessage(thinkHere({ ...thought, view }, soFar, seconds, () => conclude(thought, view)));
});
