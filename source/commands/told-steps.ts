import type { CheckedArgument } from '../argument/kernel.ts';
import { tellStep } from '../hint/path-words.ts';
import { sentence } from '../hint/words.ts';
import { signedText } from './signed-lines.ts';

/** How wide the column of step numbers is. */
const column = (count: number): number => String(count).length + 2;

/**
 * Steps told one after the other, numbered from 1: a single with its reason on one line, everything else
 * with its facts below it.
 */
export function stepsText(steps: readonly CheckedArgument[], unicode: boolean): string[] {
  const width = column(steps.length);
  return steps.flatMap((checked, index) => {
    const { concluded, by, lines, prose } = tellStep(checked);
    const number = String(index + 1).padEnd(width);
    const indent = ' '.repeat(width);
    if (checked.argument.conclusions.kind === 'placements') {
      return [`${number}${[sentence(concluded), ...prose].join(' ')}`];
    }
    return [`${number}${sentence(by)}`, ...signedText(lines, unicode).map((line) => `${indent}${line}`)];
  });
}

/** The same in Markdown: a numbered list, facts as points below a step. */
export function stepsMarkdown(steps: readonly CheckedArgument[]): string[] {
  return steps.flatMap((checked, index) => {
    const { concluded, by, lines, prose } = tellStep(checked);
    const number = `${index + 1}. `;
    const head = `${number}**${sentence(concluded)}** ${sentence(by)}`;
    if (checked.argument.conclusions.kind === 'placements') return [`${head} ${prose.join(' ')}`];
    const indent = ' '.repeat(number.length);
    const facts = lines.filter(({ sign }) => /^[A-Z]/.test(sign));
    return [
      head,
      '',
      ...facts.map(({ sign, text }) => `${indent}- ${sign}: ${text}`),
      '',
      ...prose.map((text) => `${indent}${text}`),
      '',
    ];
  });
}
