import { argue } from '../path/argue.ts';
import type { View } from '../path/step.ts';
import { failure, type Result, success } from '../text/result.ts';
import { type ArgueAnswer, sayArgued } from './argue-words.ts';
import { parseStatement, type StatementError } from './statement.ts';

/** So many facts are judged while somebody waits at the keyboard. */
const mostTyped = 30;

/**
 * Judges a typed argument on what a person has before them, such as `r5c1<>3 by 3@r1 3@c8`: what is said and
 * drawn of it, or where the text cannot be read. Facts that their marks claim have the places of the marks.
 */
export function argueOnSheet({ position, claims }: View, text: string): Result<ArgueAnswer, StatementError> {
  const read = parseStatement(text, position.layout, mostTyped);
  if (!read.ok) return failure(read.error);
  return success(sayArgued(read.value, argue(position, read.value, { claims })));
}
