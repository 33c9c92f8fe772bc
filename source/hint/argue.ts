import type { OneSolutionToken } from '../argument/kernel.ts';
import { type ArguedSoFar, argue } from '../path/argue.ts';
import type { View } from '../path/step.ts';
import { failure, type Result, success } from '../text/result.ts';
import { type ArgueAnswer, sayArgued } from './argue-words.ts';
import { parseStatement, type StatementError } from './statement.ts';

/** So many facts are judged while somebody waits at the keyboard. */
const mostTyped = 30;

/**
 * Judges a typed argument on what a person has before them, such as `r5c1<>3 by 3@r1 3@c8`: what is said and
 * drawn of it, or where the text cannot be read. Facts that their marks claim have the places of the marks. With
 * a token an argument may build on there being one solution. `watch` is told whether it holds as soon as that is known.
 */
export function argueOnSheet(
  { position, claims }: View,
  text: string,
  token?: OneSolutionToken,
  watch?: (known: ArguedSoFar) => void,
): Result<ArgueAnswer, StatementError> {
  const read = parseStatement(text, position.layout, mostTyped);
  if (!read.ok) return failure(read.error);
  const options = { claims, ...(token && { oneSolution: { token } }), ...(watch && { watch }) };
  return success(sayArgued(read.value, argue(position, read.value, options)));
}
