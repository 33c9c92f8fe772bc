import type { Claim } from '../argument/claim.ts';
import type { CheckedArgument } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';

/** What a person has before them: the position of their givens, ink and strikes, and what their marks claim. */
export interface View {
  /** Without the claims; `withClaims(position, claims)` is what they are taken to know. */
  readonly position: Position;
  readonly claims: readonly Claim[];
  /** `full`: every open cell lists its candidates. `sparse`: what follows by one fact counts as known. */
  readonly kind: 'full' | 'sparse';
}

/** What a step ends in that can be written on the sheet. */
export type Written =
  | { readonly kind: 'placements' | 'strikes'; readonly candidates: readonly Candidate[] }
  /** On a sparse sheet: a digit with two places left in a box. */
  | { readonly kind: 'spot'; readonly fact: number; readonly places: readonly Candidate[] };

/**
 * One step: on a full sheet a single argument; on a sparse one a run of arguments, each checked in the
 * position that the earlier ones leave, of which the last leads to something that can be written.
 */
export interface Step {
  readonly kind: 'step';
  readonly parts: readonly CheckedArgument[];
  /** The weight of each part. */
  readonly weights: readonly number[];
  /** The heaviest of `weights`. */
  readonly weight: number;
  readonly written: Written;
}

/** Some facts of the sheet cannot all hold: something on it is wrong. The argument's conclusion is `breaks`. */
export interface Broken {
  readonly kind: 'broken';
  readonly part: CheckedArgument;
  readonly weight: number;
}
