import type { Candidate } from '../grid/layout.ts';
import type { Drawing, HintLine } from '../hint/rung.ts';

/** What a technique's name or a cell is typed after: all instances of it, or how one gets to it. */
export const questions = ['find', 'trace'] as const;
export type Question = (typeof questions)[number];

/** An instance of a technique, or a step on the way to a digit: what is said and drawn of it. */
export interface Shown {
  readonly headline: string;
  readonly lines: readonly HintLine[];
  readonly drawing: Drawing;
  /** What has been shown before it and not been written: it is drawn on a sheet with that on it. */
  readonly before: {
    readonly placements: readonly Candidate[];
    readonly strikes: readonly Candidate[];
  };
}

/** What a question comes to. */
export type Answer =
  /** One or more, to be gone through one at a time. */
  | {
      readonly kind: 'series';
      readonly title: string;
      readonly shown: readonly Shown[];
      /** Of steps on a way: how much each asks to hold in mind, one block of a height a step. */
      readonly contour?: string;
    }
  /** There is nothing to draw; sentences say why. */
  | { readonly kind: 'said'; readonly lines: readonly string[] }
  /** The question can't be read; sentences say what could stand there. */
  | { readonly kind: 'unreadable'; readonly lines: readonly string[] };

/** An answer that is gone through, and the line that asks for it. */
export interface Series {
  readonly text: string;
  readonly title: string;
  readonly shown: readonly Shown[];
  /** One block of a height a step, empty where what is shown are no steps. */
  readonly contour: string;
  /** Which of `shown` stands on the screen, counted from 0. */
  readonly at: number;
}
