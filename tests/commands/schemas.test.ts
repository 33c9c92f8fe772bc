import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { argueGrid, argueUnfinished } from '../../source/commands/argue.ts';
import { commands, openCommand } from '../../source/commands/catalogue.ts';
import { checkGrid } from '../../source/commands/check.ts';
import type { Command } from '../../source/commands/command.ts';
import { convertGrid } from '../../source/commands/convert.ts';
import { type FoundSoFar, findInGrid, findUnfinished } from '../../source/commands/find.ts';
import { hintGrid, hintUnfinished } from '../../source/commands/hint.ts';
import { makePuzzles } from '../../source/commands/make.ts';
import { type PathSoFar, pathOfGrid, pathUnfinished } from '../../source/commands/path.ts';
import { parseAsked, traceGrid, traceUnfinished } from '../../source/commands/trace.ts';
import { verifiedSoFar, verifyJson } from '../../source/commands/verify.ts';
import { weighGrid, weighUnfinished } from '../../source/commands/weigh.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { type NamedGrid, readGrid } from '../../source/grid/read.ts';
import { gridForms } from '../../source/grid/write.ts';
import { rungs } from '../../source/hint/rung.ts';
import { parseStatement } from '../../source/hint/statement.ts';
import type { ArguedSoFar } from '../../source/path/argue.ts';
import { type VerifiedSoFar, verifyPath } from '../../source/path/verify.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { clashing, essayGrid, essaySolution, fiveSolutions, noSolution, twoSolutions } from './grids.ts';
import { inkling } from './run-inkling.ts';
import { newState, openOn, settled, shelfIn } from './shelf.ts';

const folder = fileURLToPath(new URL('../../docs/schemas/', import.meta.url));
const schemaOf = (name: string) =>
  JSON.parse(readFileSync(`${folder}${name}.json`, 'utf8')) as { $id: string };
const validate = (name: string) =>
  new Ajv2020({ strict: true, strictTypes: false, strictRequired: false }).compile(schemaOf(name));

const grids = [essayGrid, essaySolution, noSolution, twoSolutions, fiveSolutions, clashing].map(
  (text): NamedGrid => {
    const read = readGrid(text);
    if (!read.ok) throw new Error(read.error.message);
    return read.value;
  },
);

const techniqueNamed = (id: string) => {
  const technique = techniqueById(id);
  if (!technique) throw new Error(`no technique ${id}`);
  return technique;
};

/** Statements that hold, break or are refused in one way or another. */
const statements = [
  'r1c3<>1 by r1c3',
  'r1c4<>2 by r1c3 1@r1',
  'r5c5=5 by r5c5',
  'r5c5=5 by r1c3',
  'r1c1<>7 by r1c1',
  'breaks by r1c3 1@r1',
].map((text) => {
  const read = parseStatement(text, plain);
  if (!read.ok) throw new Error(read.error.message);
  return read.value;
});

const asked = ['r1c3', 'r1c3=4', 'r1c3<>9', 'r5c5=1', 'r4c4'].map((text) => {
  const read = parseAsked(plain, text);
  if (read === null) throw new Error(text);
  return read;
});

/** Paths, whole and with something wrong in them. */
const paths = grids.flatMap((grid) => {
  const { json } = pathOfGrid(grid);
  const { steps } = json as { readonly steps: readonly object[] };
  const changed = steps.map((step) => ({ ...step, facts: ['r1c1', '7@c2'] }));
  return [json, { ...json, steps: changed }, { ...json, steps: [null, ...steps].reverse(), solved: true }];
});

/** What `sheets` prints without sheets, with two of them, one open and one damaged, and for each thing it does. */
async function sheetsPrinted(): Promise<object[]> {
  const state = newState();
  const run = async (...args: string[]) => {
    const { stdout } = await inkling(['sheets', '--json', ...args], {
      environment: { XDG_STATE_HOME: state },
    });
    return JSON.parse(stdout) as object;
  };
  const empty = await run();
  openOn(shelfIn(state), essayGrid, 'one').close();
  openOn(shelfIn(state), twoSolutions, 'two').close();
  const held = openOn(shelfIn(state), fiveSolutions, 'held');
  await settled(held);
  const folder = join(state, 'inkling/sheets');
  for (const id of readdirSync(folder).slice(0, 1)) writeFileSync(join(folder, id, 'journal'), 'damaged');
  const listed = await run();
  held.close();
  openOn(shelfIn(state), essayGrid, 'new', true).close();
  const done = [
    await run('export', 'new'),
    await run('export', 'new', '--to', 'candidates'),
    await run('name', 'new', 'other'),
    await run('remove', 'other'),
  ];
  return [empty, listed, ...done];
}

/** As a command prints it where time has run out. */
const stopped = ({ json }: { readonly json: object }): object => ({ ...json, stopped: 60 });
/** Runs a path up to its end, as somebody who looks at it meanwhile sees it. */
function pathSoFar(grid: NamedGrid): PathSoFar | null {
  let seen: PathSoFar | null = null;
  pathOfGrid(grid, {
    watch: (soFar) => {
      seen = soFar;
    },
  });
  return seen;
}
/** Asks for the instances that there are just before the answer, of which it is known what is new. */
function foundSoFar(grid: NamedGrid, id: string): FoundSoFar | null {
  let seen: FoundSoFar | null = null;
  findInGrid(grid, techniqueNamed(id), true, (soFar) => {
    seen = soFar;
  });
  return seen;
}
/** What is printed where there was no time: 25x25 cells without a digit, and the grids above. */
const endless: NamedGrid = {
  grid: {
    layout: makeLayout({ name: '25x25', size: 25, boxOf: rectangularBoxes(5, 5) }),
    givens: Array.from({ length: 625 }, (_, cell) => (cell % 26 === 0 ? 1 + (cell % 25) : 0)),
  },
  remarks: [],
  line: 1,
};

/** Everything that each command can print for the grids above. */
const printed: Readonly<Record<string, readonly object[]>> = {
  check: [
    {
      ...checkGrid(endless, { redundant: false, minimal: false, symmetries: false, settle: false }, 0.1).json,
      stopped: 1,
    },
    ...grids.flatMap((grid) =>
      [false, true].map((all) => {
        const counted = all ? { count: 3 } : {};
        return checkGrid(grid, { redundant: all, minimal: all, symmetries: all, settle: all, ...counted })
          .json;
      }),
    ),
  ],
  hint: grids.flatMap((grid) => [
    ...rungs.map((rung) => hintGrid(grid, rung).json),
    stopped(hintUnfinished(grid, 60)),
  ]),
  find: grids.flatMap((grid) =>
    ['hidden-single', 'pointing', 'x-wing'].flatMap((id) => [
      findInGrid(grid, techniqueNamed(id)).json,
      stopped(findUnfinished(grid, techniqueNamed(id), null, 60)),
      stopped(findUnfinished(grid, techniqueNamed(id), foundSoFar(grid, id), 60)),
    ]),
  ),
  argue: grids.flatMap((grid) => [
    ...statements.flatMap((statement) => {
      const known: ArguedSoFar[] = [];
      const watch = (soFar: ArguedSoFar) => known.push(soFar);
      const whole = argueGrid(grid, statement, { oneSolution: true, watch }).json;
      return [
        whole,
        stopped(argueUnfinished(grid, statement, null, 60)),
        ...known.map((soFar) => stopped(argueUnfinished(grid, statement, soFar, 60))),
      ];
    }),
  ]),
  path: grids.flatMap((grid) => [
    pathOfGrid(grid).json,
    stopped(pathUnfinished(grid, pathSoFar(grid), 60)),
    stopped(pathUnfinished(grid, null, 60)),
  ]),
  trace: grids.flatMap((grid) =>
    asked.flatMap((one) => [traceGrid(grid, one).json, stopped(traceUnfinished(grid, one, null, 60))]),
  ),
  weigh: grids.flatMap((grid) => [
    ...[1, 2, 3].map((upTo) => weighGrid(grid, upTo).json),
    stopped(weighUnfinished(grid, 60)),
  ]),
  verify: [
    ...paths.map((path) => verifyJson(JSON.stringify(path))),
    ...paths.map((path) => {
      let soFar: () => VerifiedSoFar = () => expect.unreachable();
      verifyPath(plain, path, (known) => {
        soFar = known;
      });
      return verifiedSoFar(soFar(), 60).json;
    }),
  ],
  make: (['none', 'half-turn', 'diagonal'] as const).flatMap((symmetry) => {
    const puzzles = makePuzzles({ layout: plain, seed: 1, symmetry }, gridForms[0]);
    return [puzzles.next().value.json, puzzles.next().value.json];
  }),
  convert: grids.flatMap((grid) => gridForms.map((form) => convertGrid(grid, form).json)),
  sheets: await sheetsPrinted(),
};

test('every command that prints JSON has a schema, and every schema a command', () => {
  const printsJson = ({ flags }: Command) => flags.some(({ name }) => name === 'json' || name === 'jsonl');
  const named = commands
    .filter((command) => command !== openCommand && printsJson(command))
    .map(({ name }) => name);
  expect(readdirSync(folder).sort()).toEqual(named.map((name) => `${name}.json`).sort());
  expect(Object.keys(printed).sort()).toEqual(named.sort());
});

const onlyWhereAsked: ReadonlySet<string> = new Set([
  'redundant',
  'minimal',
  'symmetries',
  'found',
  'stopped',
]);

describe.each(Object.keys(printed))('the schema of %s', (name) => {
  const holds = validate(name);

  test('holds for everything that is printed', () => {
    expect(printed[name].length).toBeGreaterThan(5);
    for (const json of printed[name]) {
      expect(holds(JSON.parse(JSON.stringify(json))), JSON.stringify([json, holds.errors])).toBe(true);
    }
  });

  test('does not hold where a field is missing, changed in kind, or one too many', () => {
    for (const json of printed[name]) {
      for (const field of Object.keys(json)) {
        const { [field]: value, ...rest } = json as Record<string, unknown>;
        if (!onlyWhereAsked.has(field)) expect(holds(rest), `${field} missing`).toBe(false);
        expect(holds({ ...rest, [field]: { odd: value } }), `${field} changed`).toBe(false);
      }
      expect(holds({ ...json, more: 1 })).toBe(false);
    }
  });
});
