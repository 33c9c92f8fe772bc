import { type CheckedArgument, check, type OneSolutionToken } from '../../source/argument/kernel.ts';
import { plain } from '../../source/grid/layout.ts';
import { tellStep } from '../../source/hint/path-words.ts';
import { argumentsIn } from '../../source/path/minimal.ts';
import { Board } from '../../source/techniques/board.ts';
import type { Technique } from '../../source/techniques/technique.ts';
import { expandFinding, scene, showFinding } from '../techniques/notation.ts';
import type { Row } from '../techniques/table-row.ts';

/** A step as text: what it goes by, then its lines, each with its sign. */
export function toldLines(checked: CheckedArgument): string[] {
  const { by, lines } = tellStep(checked);
  return [`${by}.`, ...lines.map(({ sign, text }) => `  ${sign.padEnd(2)} ${text}`)];
}

/** Takes one solution for granted: the scenes of the table are no puzzles. */
const trust = { vouchesFor: () => true } as unknown as OneSolutionToken;

/**
 * The first instance that a row of the table expects: what of it rests on all its facts, or the whole of it where
 * every part of it can do with fewer.
 */
export function argumentOfRow(technique: Technique, row: Row): CheckedArgument {
  const position = scene(row.scene);
  const wanted = expandFinding(plain, row.finds[0]);
  const finding = technique.find(Board.from(position)).find((each) => showFinding(plain, each) === wanted);
  if (!finding) throw new Error(`${technique.id}: ${row.why}: not found`);
  const { assumes } = technique;
  const token = assumes === 'one-solution' ? trust : undefined;
  const own = argumentsIn(position, finding, token).find(
    ({ argument }) => argument.technique === technique.id,
  );
  if (own) return own;
  const verdict = check(position, { ...finding, assumes }, token);
  if (verdict.verdict !== 'holds') throw new Error(`${technique.id}: ${row.why}: refused`);
  return verdict.checked;
}
