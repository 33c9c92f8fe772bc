import { withClaims } from '../argument/claim.ts';
import type { OneSolutionToken } from '../argument/kernel.ts';
import { type InstanceSoFar, instancesOf } from '../path/find.ts';
import type { View } from '../path/step.ts';
import { techniqueById } from '../techniques/catalogue.ts';
import { type ShownInstance, showInstance } from './find-words.ts';

/** All instances of a technique on a sheet, each as it is said and drawn. */
export interface ShownTechnique {
  /** `X-wing`. */
  readonly name: string;
  readonly instances: readonly ShownInstance[];
}

/**
 * All instances of a technique on what a person has before them, what their claims leave out counted as
 * struck; null if no technique has the id. One-solution techniques show none without a token. `watch`
 * is told how to ask for what there is so far.
 */
export function findOnSheet(
  view: View,
  id: string,
  token?: OneSolutionToken,
  watch?: (soFar: () => readonly InstanceSoFar[]) => void,
): ShownTechnique | null {
  const technique = techniqueById(id);
  if (!technique) return null;
  const position = withClaims(view.position, view.claims);
  const instances = instancesOf(position, technique, token, watch);
  return { name: technique.name, instances: instances.map((each) => showInstance(position, each)) };
}
