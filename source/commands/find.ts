import { factName } from '../argument/fact.ts';
import { placementName, strikeName } from '../grid/names.ts';
import type { NamedGrid } from '../grid/read.ts';
import { showInstance } from '../hint/find-words.ts';
import { instancesOf } from '../path/find.ts';
import { catalogue, techniqueById } from '../techniques/catalogue.ts';
import type { Technique } from '../techniques/technique.ts';
import { quoteSafe } from '../text/safe.ts';
import { assumesOneSolution, tokenFor } from './assume.ts';
import type { Run, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { positionOf } from './grid-text.ts';
import { sayWithin } from './in-time.ts';
import { printsUnicode, signedText } from './signed-lines.ts';

const schema = 1;

/** What `find` says of a technique in a grid. */
export function findInGrid({ grid }: NamedGrid, technique: Technique, unicode = true): Answer {
  const { layout } = grid;
  const position = positionOf(grid);
  const token = technique.assumes === 'one-solution' ? tokenFor(grid) : null;
  const instances = instancesOf(position, technique, token ?? undefined);
  const json = {
    schema,
    instances: instances.map(({ finding, fresh }) => {
      const { facts, conclusions } = finding;
      const isPlacing = conclusions.kind === 'placements';
      const name = isPlacing ? placementName : strikeName;
      const names = conclusions.candidates.map((x) => name(layout, x));
      return {
        technique: finding.technique,
        facts: facts.map((fact) => factName(layout, fact)),
        ...(isPlacing && { placements: names }),
        strikes: isPlacing ? [] : names,
        new: fresh.map((x) => name(layout, x)),
      };
    }),
  };
  const count = instances.length;
  const said = count === 0 ? 'none' : count === 1 ? '1 instance' : `${count} instances`;
  return {
    json,
    lines: [
      `${technique.name}: ${said}.`,
      ...instances.flatMap((instance) => {
        const { headline, does } = showInstance(position, instance);
        return ['', headline, ...signedText(does, unicode)];
      }),
    ],
    negative: count === 0,
    ...(technique.assumes === 'one-solution' && token === null
      ? { notice: 'the grid does not have exactly one solution, so nothing may be built on that' }
      : {}),
  };
}

/** What `find` says where time ran out. */
export const findUnfinished = (technique: Technique, seconds: number): Answer => ({
  json: { schema, instances: [] },
  lines: [`${technique.name}: not looked for everywhere ${sayWithin(seconds)}.`],
  negative: true,
});

async function unknownTechnique(typed: string, surroundings: Surroundings): Promise<ExitCode> {
  const { nearest } = await import('./nearest.ts');
  const ids = catalogue.map(({ id }) => id);
  const near = nearest(typed, ids);
  const meant = near === null ? '' : `did you mean '${near}'? `;
  const message = `no technique is called ${quoteSafe(typed, 24)}`;
  return complain({ message, next: `${meant}the names are: ${ids.join(', ')}` }, surroundings);
}

/** The names of all techniques, lightest first. */
async function listTechniques({ results }: Surroundings): Promise<ExitCode> {
  const width = Math.max(...catalogue.map(({ id }) => id.length));
  for (const { id, name, assumes } of catalogue) {
    const more = assumes === 'one-solution' ? ' (with --assume one-solution)' : '';
    await results.line(`${id.padEnd(width)}  ${name}${more}`);
  }
  return exitCodes.yes;
}

/** The technique comes first, then the grid; without a grid it is read from stdin. */
export const run: Run = (invocation, surroundings) => {
  const [id, ...grids] = invocation.operands;
  if (id === undefined) return listTechniques(surroundings);
  const technique = techniqueById(id.toLowerCase());
  if (!technique) return unknownTechnique(id, surroundings);
  if (technique.assumes === 'one-solution' && !assumesOneSolution(invocation)) {
    const message = `'${technique.id}' takes for granted that the grid has one solution`;
    return complain({ message, next: 'add --assume one-solution to allow for that' }, surroundings);
  }
  const unicode = printsUnicode(surroundings);
  return eachGrid(
    { ...invocation, operands: grids },
    surroundings,
    (named) => findInGrid(named, technique, unicode),
    { unfinished: (_, seconds) => findUnfinished(technique, seconds) },
  );
};
