import { parentPort } from 'node:worker_threads';
import { argueOnSheet } from '../hint/argue.ts';
import { hintFor } from '../hint/ladder.ts';
import type { ToldLadder } from '../hint/rung.ts';
import type { View } from '../path/step.ts';
import { standingOf } from '../sheet/look-over.ts';
import type { Heard } from '../terminal/engine.ts';
import { askSheet } from './ask-sheet.ts';
import { type Thought, unpackView } from './thoughts.ts';

/** How much of a search *am I right so far?* may take before it says that it does not know. */
const budget = { nodes: 200_000 };

/** Checked arguments are sealed and stay in this thread; what the rungs tell of them is plain data. */
function tell(view: View): ToldLadder | null {
  const ladder = hintFor(view);
  return ladder && { kind: ladder.kind, rungs: ladder.rungs, written: ladder.written };
}

function conclude({ kind, view: sent, text, about }: Thought): Heard {
  const view = unpackView(sent);
  switch (kind) {
    case 'find-hint':
      return { kind: 'hint-found', ladder: tell(view) };
    case 'argue':
      return { kind: 'argued', text, answer: argueOnSheet(view, text) };
    case 'ask':
      return { kind: 'answered', text: `${about} ${text}`, answer: askSheet(view, about, text) };
    case 'is-right':
      return { kind: 'standing', standing: standingOf(view, budget) };
    case 'why-no-hint':
      return { kind: 'no-hint', standing: standingOf(view, budget) };
  }
}

/** The entry of the thread that thinks for the workbench: answers Thoughts in turn. */
parentPort?.on('message', (thought: Thought) => {
  parentPort?.postMessage(conclude(thought));
});
