import type { OneSolutionToken } from '../argument/kernel.ts';
import { mintToken } from '../exact/token.ts';
import { argueOnSheet } from '../hint/argue.ts';
import { hintFor } from '../hint/ladder.ts';
import type { View } from '../path/step.ts';
import { isRight } from '../sheet/look-over.ts';
import type { Engine } from '../terminal/engine.ts';
import { askSheet } from './ask-sheet.ts';
import { nothingSoFar, type SoFar } from './so-far.ts';

/** How much of a search *am I right so far?* may take before it says that it does not know. */
export const budget = { nodes: 200_000 };

/** What the engine may take for granted. */
export interface Granted {
  /** Whether arguments may build on there being one solution, where the givens have one. */
  readonly oneSolution: boolean;
}

/**
 * The engine in this very thread. Whether givens have one solution is counted once for each grid. What it has so
 * far of an answer it writes into `soFar`.
 */
export function engineHere({ oneSolution }: Granted, soFar: SoFar = nothingSoFar()): Engine {
  let counted: { readonly givens: string; readonly token: OneSolutionToken | undefined } | null = null;
  const tokenFor = ({ position }: View): OneSolutionToken | undefined => {
    if (!oneSolution) return undefined;
    const givens = `${position.layout.name} ${position.givens.join()}`;
    if (counted?.givens !== givens) {
      counted = { givens, token: mintToken(position.layout, position.givens) ?? undefined };
    }
    return counted.token;
  };
  return {
    findHint: (view) => hintFor(view, tokenFor(view)),
    argue: (view, text) => {
      soFar.argued = null;
      return argueOnSheet(view, text, tokenFor(view), (known) => {
        soFar.argued = known;
      });
    },
    ask: (view, about, text) => {
      soFar.steps = null;
      soFar.found = null;
      return askSheet(view, about, text, tokenFor(view), soFar);
    },
    isRight: (state) => isRight(state, budget),
  };
}
