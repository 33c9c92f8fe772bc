import { factName } from '../argument/fact.ts';
import type { Layout } from '../grid/layout.ts';
import { placementName, strikeName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { showInstance } from '../hint/find-words.ts';
import { type InstanceSoFar, instancesOf } from '../path/find.ts';
import { catalogue, techniqueById } from '../techniques/catalogue.ts';
import type { Technique } from '../techniques/technique.ts';
import { quoteSafe } from '../text/safe.ts';
import { assumesOneSolution, tokenFor } from './assume.ts';
import type { Run, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { positionOf } from './grid-text.ts';
import { lastLook, sayWithin, withinSeconds } from './in-time.ts';
import { printsUnicode, signedText } from './signed-lines.ts';

const schema = 1;

/** Asks for the instances that there are so far. */
export type FoundSoFar = () => readonly InstanceSoFar[];

function jsonOf(layout: Layout, instances: readonly InstanceSoFar[]) {
  return {
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
        ...(fresh && { new: fresh.map((x) => name(layout, x)) }),
      };
    }),
  };
}

const toldInstances = (position: Position, instances: readonly InstanceSoFar[], unicode: boolean) =>
  instances.flatMap((instance) => {
    const fresh = instance.fresh ?? instance.finding.conclusions.candidates;
    const { headline, does } = showInstance(position, { ...instance, fresh });
    return ['', headline, ...signedText(does, unicode)];
  });

const sayInstances = (count: number): string => (count === 1 ? '1 instance' : `${count} instances`);

/** What `find` says of a technique in a grid. `watch` is told how to ask for what there is so far. */
export function findInGrid(
  { grid }: NamedGrid,
  technique: Technique,
  unicode = true,
  watch?: (soFar: FoundSoFar) => void,
): Answer {
  const position = positionOf(grid);
  const token = technique.assumes === 'one-solution' ? tokenFor(grid) : null;
  const instances = instancesOf(position, technique, token ?? undefined, watch);
  const count = instances.length;
  return {
    json: jsonOf(grid.layout, instances),
    lines: [
      `${technique.name}: ${count === 0 ? 'none' : sayInstances(count)}.`,
      ...toldInstances(position, instances, unicode),
    ],
    negative: count === 0,
    ...(technique.assumes === 'one-solution' && token === null
      ? { notice: 'the grid does not have exactly one solution, so nothing may be built on that' }
      : {}),
  };
}

/** What `find` says where time ran out: the instances that there are. */
export function findUnfinished(
  { grid }: NamedGrid,
  technique: Technique,
  soFar: FoundSoFar | null,
  seconds: number,
  unicode = true,
): Answer {
  const position = positionOf(grid);
  const known = withinSeconds(lastLook(seconds), () => {
    const instances = soFar?.() ?? [];
    return { instances, told: toldInstances(position, instances, unicode) };
  });
  const { instances = [], told = [] } = known?.value ?? {};
  const count = instances.length;
  const open = instances.some(({ fresh }) => fresh === null);
  const said = count === 0 ? [] : [`${sayInstances(count)} found by then.`];
  const unsaid = open ? ['What lighter arguments show of it anyway was not found out.'] : [];
  return {
    json: jsonOf(grid.layout, instances),
    lines: [
      [`${technique.name}: not looked for everywhere ${sayWithin(seconds)}.`, ...said, ...unsaid].join(' '),
      ...told,
    ],
    negative: true,
  };
}

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
  let soFar: FoundSoFar | null = null;
  const watch = (found: FoundSoFar) => {
    soFar = found;
  };
  const answer = (named: NamedGrid) => {
    soFar = null;
    return findInGrid(named, technique, unicode, watch);
  };
  return eachGrid({ ...invocation, operands: grids }, surroundings, answer, {
    unfinished: (named, seconds) => findUnfinished(named, technique, soFar, seconds, unicode),
  });
};
