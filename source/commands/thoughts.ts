import { CandidateSet } from '../grid/candidates.ts';
import { type Layout, plain } from '../grid/layout.ts';
import { readWritten, type WrittenLayout, writeLayout } from '../grid/layout-text.ts';
import { Position } from '../grid/position.ts';
import type { View } from '../path/step.ts';
import { viewOf } from '../sheet/view.ts';
import type { Asking } from '../terminal/engine.ts';
import type { Question } from '../terminal/series.ts';

/** A view as plain data, as it passes from thread to thread. One number or digit mask a cell. */
export interface SentView {
  readonly layout: WrittenLayout;
  readonly givens: readonly number[];
  readonly placed: readonly number[];
  readonly live: readonly number[];
  readonly claims: View['claims'];
  readonly kind: View['kind'];
}

/** A question as it is sent: what it is about stands in `view`. */
export interface Thought {
  readonly kind: Asking['kind'];
  readonly view: SentView;
  /** Of an argument or a question as it was typed. */
  readonly text: string;
  readonly about: Question;
}

/** A question as it is sent. */
export function packThought(asking: Asking): Thought {
  const view = 'view' in asking ? asking.view : viewOf(asking.state);
  return {
    kind: asking.kind,
    view: packView(view),
    text: 'text' in asking ? asking.text : '',
    about: 'about' in asking ? asking.about : 'find',
  };
}

function packView({ position, claims, kind }: View): SentView {
  const { layout, givens, placed, candidates } = position;
  return {
    layout: writeLayout(layout),
    givens: [...givens],
    placed: [...placed],
    live: [...candidates.toMasks()],
    claims,
    kind,
  };
}

/** The view that was sent; `like` is a layout that it may well have. */
export function unpackView(sent: SentView, like: Layout = plain): View {
  const layout = readWritten(sent.layout, like);
  if (layout === null) throw new Error('a thread was sent a layout that cannot be read');
  const struck = sent.live.map((mask) => layout.allDigits & ~mask);
  const { givens, placed, claims, kind } = sent;
  const position = Position.from(layout, givens, placed, CandidateSet.fromMasks(layout, struck));
  return { position, claims, kind };
}
