import type { CheckedArgument } from '../argument/kernel.ts';
import { sayRestsOn, tellStep } from '../hint/path-words.ts';
import { sentence } from '../hint/words.ts';
import { strikesBehind } from '../path/behind.ts';
import { signedText } from './signed-lines.ts';

/** How wide the column of step numbers is. */
const column = (count: number): number => String(count).length + 2;

/** The lines of steps, step by step, as `stepsText` has them. */
export function* eachStepText(steps: readonly CheckedArgument[], unicode: boolean): Generator<string[]> {
  const width = column(steps.length);
  const behind = strikesBehind(steps).map(sayRestsOn);
  for (const [index, checked] of steps.entries()) {
    const { concluded, by, lines, prose } = tellStep(checked);
    const rest = behind[index] === '' ? [] : [behind[index]];
    const number = String(index + 1).padEnd(width);
    const indent = ' '.repeat(width);
    if (checked.argument.conclusions.kind === 'placements') {
      yield [`${number}${[sentence(concluded), ...prose, ...rest].join(' ')}`];
    } else {
      yield [
        `${number}${[sentence(by), ...rest].join(' ')}`,
        ...signedText(lines, unicode).map((line) => `${indent}${line}`),
      ];
    }
  }
}

/**
 * Steps told one after the other, numbered from 1: a single with its reason on one line, everything else
 * with its facts below it.
 */
export const stepsText = (steps: readonly CheckedArgument[], unicode: boolean): string[] =>
  [...eachStepText(steps, unicode)].flat();

/** The same in Markdown: a numbered list, facts as points below a step. */
export function stepsMarkdown(steps: readonly CheckedArgument[]): string[] {
  const behind = strikesBehind(steps).map(sayRestsOn);
  return steps.flatMap((checked, index) => {
    const { concluded, by, lines, prose } = tellStep(checked);
    const number = `${index + 1}. `;
    const head = `${number}**${sentence(concluded)}** ${sentence(by)}`;
    const rest = behind[index] === '' ? [] : [behind[index]];
    if (checked.argument.conclusions.kind === 'placements') return [[head, ...prose, ...rest].join(' ')];
    const indent = ' '.repeat(number.length);
    const facts = lines.filter(({ sign }) => /^[A-Z]/.test(sign));
    return [
      head,
      '',
      ...facts.map(({ sign, text }) => `${indent}- ${sign}: ${text}`),
      '',
      ...[...prose, ...rest].map((text) => `${indent}${text}`),
      '',
    ];
  });
}
