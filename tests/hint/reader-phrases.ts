import { excludeEachOther, hasArrangement } from '../judges/arguments.ts';
import {
  type Candidate,
  candidateAt,
  cellAt,
  cellPattern,
  cellsIn,
  cellsOfHouse,
  cellsPattern,
  digitOf,
  digitsIn,
  digitsPattern,
  type Fact,
  housePattern,
  housesIn,
  housesPattern,
} from './reader-words.ts';

/** What a reader has before them where a phrase stands: the facts told, what goes, and their own pencil marks. */
export interface Scene {
  readonly facts: readonly Fact[];
  readonly strikes: readonly Candidate[];
  readonly isLive: (x: Candidate) => boolean;
  /** 0 where the cell is open. */
  readonly placed: readonly number[];
}

const sees = (a: Candidate, b: Candidate): boolean => excludeEachOther(a, b);
const at = (cells: readonly number[], digit: number): Candidate[] =>
  cells.map((cell) => candidateAt(cell, digit));
const isSubset = (some: readonly Candidate[], all: readonly Candidate[]): boolean =>
  some.every((x) => all.includes(x));
const left = (fact: Fact | undefined, x: Candidate): Candidate[] =>
  (fact?.places ?? []).filter((place) => !sees(place, x));
const named = ({ facts }: Scene, name: string): Fact | undefined => facts.find((fact) => fact.name === name);
const unionOf = (facts: readonly (Fact | undefined)[]): Candidate[] =>
  facts.flatMap((fact) => fact?.places ?? []);
const cellsOf = (candidates: readonly Candidate[]): number[] =>
  [...new Set(candidates.map(cellAt))].sort((a, b) => a - b);
const inHouses = (name: string): number[] => housesIn(name).flatMap(cellsOfHouse);

/** Who sees what: `r4c4 and r5c1 see both`, `the cells that lose their 3 see both`. */
const seers = `(?:${cellsPattern}|[Tt]he cells that lose (?:their \\d|a candidate)) sees?`;

/** Chains: `If r1c1 is not 1, then r1c4 is 1, so 1 is in r8c5 or r8c6. With that, ...` and how it ends. */
function chainHolds(scene: Scene, said: string): boolean {
  const node = (text: string): Candidate[] => {
    const single = /^(r\dc\d) is (?:not )?(\d)$/.exec(text);
    const group = /^(\d) is (?:not )?in (.*)$/.exec(text);
    if (single) return at(cellsIn(single[1]), Number(single[2]));
    return group ? at(cellsIn(group[2]), Number(group[1])) : [];
  };
  const [, start, rest] = /^If (.*?), then (.*)$/.exec(said) ?? [];
  if (start === undefined) return false;
  const first = node(start);
  const [links, end] =
    /^(.*?)\. ((?:One of|So |r\dc\d is \d, or|\d is in .*, or|r\dc\d is \d in any).*)$/
      .exec(rest)
      ?.slice(1) ?? [];
  if (links === undefined) return false;
  const steps = links.split(/, so |\. With that, /).map(node);
  let excluded: readonly Candidate[] = first;
  let before: readonly Candidate[] | null = null;
  for (const step of steps) {
    const isForced = scene.facts.some((fact) => {
      const rest = fact.places.filter((place) =>
        before === null ? !excluded.includes(place) : !before.every((x) => sees(x, place)),
      );
      return rest.length > 0 && isSubset(rest, step) && rest.length < fact.places.length;
    });
    if (step.length === 0 || !isForced) return false;
    before = step;
    excluded = [];
  }
  const last = steps[steps.length - 1];
  return end !== '' && scene.strikes.every((x) => [...first, ...last].every((place) => sees(place, x)));
}

/** One grammar for each phrase: what it looks like, and whether it is enough to see why. */
const phrases: readonly {
  readonly pattern: RegExp;
  readonly holds: (scene: Scene, parts: string[]) => boolean;
}[] = [
  {
    pattern: new RegExp(
      `^(${housePattern}) has its (\\d) inside (${housePattern}), so \\3 has it nowhere else\\.$`,
      'i',
    ),
    holds: (scene, [line, digit, box]) =>
      inside(scene, `${digit} of ${line.toLowerCase()}`, box, Number(digit)),
  },
  {
    pattern: new RegExp(
      `^Wherever (${housePattern}) puts its (\\d), that \\2 is in (${housePattern}), which has no other\\.$`,
    ),
    holds: (scene, [box, digit, line]) => inside(scene, `${digit} of ${box}`, line, Number(digit)),
  },
  {
    pattern: new RegExp(
      `^(${housesPattern}) have their (\\d)s in (${housesPattern}), one in each, so (${housePattern}) has its \\2 in (${housePattern})\\.$`,
      'i',
    ),
    holds: ({ isLive, placed, strikes }, [boxes, digit, lines, box, line]) => {
      const used = inHouses(lines);
      const open = housesIn(boxes).map((name) => at(cellsOfHouse(name), Number(digit)).filter(isLive));
      const stays = cellsOfHouse(line);
      return (
        housesIn(boxes).length === housesIn(lines).length &&
        open.every((places) => isSubset(cellsOf(places), used)) &&
        !inHouses(boxes).some((cell) => placed[cell] === Number(digit)) &&
        strikes.every(
          (x) =>
            cellsOfHouse(box).includes(cellAt(x)) &&
            !stays.includes(cellAt(x)) &&
            digitOf(x) === Number(digit),
        )
      );
    },
  },
  {
    pattern: new RegExp(
      `^The (${digitsPattern}) of (${housePattern}) fill (${cellsPattern}) between them, so nothing else fits there\\.$`,
    ),
    holds: (scene, [digits, house, cells]) => {
      const own = digitsIn(digits);
      const facts = own.map((digit) => named(scene, `${digit} of ${house}`));
      return (
        cellsOf(unionOf(facts)).join() === cellsIn(cells).join() &&
        cellsIn(cells).length === own.length &&
        scene.strikes.every((x) => cellsIn(cells).includes(cellAt(x)) && !own.includes(digitOf(x)))
      );
    },
  },
  {
    pattern: new RegExp(
      `^(${cellsPattern}) take (${digitsPattern}) between them, so no other cell that sees (?:both|all three|all four) has one of these\\.$`,
    ),
    holds: (scene, [names, digits]) => {
      const cells = cellsIn(names);
      const own = digitsIn(digits);
      const facts = (names.match(/r\dc\d/g) ?? []).map((name) => named(scene, name));
      return (
        own.length === cells.length &&
        unionOf(facts).every((x) => own.includes(digitOf(x))) &&
        scene.strikes.every(
          (x) => own.includes(digitOf(x)) && at(cells, digitOf(x)).every((place) => sees(place, x)),
        )
      );
    },
  },
  {
    pattern: new RegExp(
      `^(${digitsPattern}) are shut out of (${cellsPattern}), so they fill the other (?:two|three) open cells of (${housePattern}), and nothing else fits there\\.( .* take .*)?$`,
    ),
    holds: (scene, [digits, cells, house, more]) => {
      const { isLive, placed } = scene;
      const inside = (x: Candidate) => cellsOfHouse(house).includes(cellAt(x));
      const strikes = more ? scene.strikes.filter(inside) : scene.strikes;
      const own = digitsIn(digits);
      const open = cellsOfHouse(house).filter((cell) => placed[cell] === 0 && !cellsIn(cells).includes(cell));
      return (
        open.length === own.length &&
        own.every((digit) => !at(cellsIn(cells), digit).some(isLive)) &&
        own.every((digit) => !cellsOfHouse(house).some((cell) => placed[cell] === digit)) &&
        strikes.length > 0 &&
        strikes.every((x) => open.includes(cellAt(x)) && !own.includes(digitOf(x))) &&
        (!more || phraseHolds(scene, more.trim()) === true)
      );
    },
  },
  {
    pattern: new RegExp(
      `^If (${cellPattern}) is (\\d), then (${cellPattern}) is \\2\\. If (${cellPattern}) is \\2, then (${cellPattern}) is \\2\\. Either way (${housesPattern}) have their \\2\\.$`,
    ),
    holds: ({ facts, strikes }, [a, digit, b, c, d, covers]) => {
      const [p, q, r, s] = [a, b, c, d].map((name) => at(cellsIn(name), Number(digit))[0]);
      const follows = (x: Candidate, y: Candidate) =>
        facts.some((fact) => left(fact, x).join() === String(y));
      const isCase = facts.some(({ places }) => places.join() === [p, r].sort((x, y) => x - y).join());
      const lines = inHouses(covers);
      const meets = strikes.every((x) =>
        [
          [p, q],
          [r, s],
        ].every((way) => way.some((y) => sees(x, y))),
      );
      return (
        isCase &&
        follows(p, q) &&
        follows(r, s) &&
        meets &&
        [p, q, r, s].every((x) => lines.includes(cellAt(x)))
      );
    },
  },
  {
    pattern: new RegExp(
      `^(${housesPattern}) put their (?:two|three|four) (\\d)s into (${housesPattern}), one in each\\. So each of \\3 has its \\2 here\\.$`,
      'i',
    ),
    holds: (scene, [bases, digit, covers]) => {
      const facts = housesIn(bases).map((house) => named(scene, `${digit} of ${house}`));
      const lines = housesIn(covers).map(cellsOfHouse);
      const places = unionOf(facts);
      const takes = (x: Candidate) =>
        lines.some((line) =>
          places.filter((place) => line.includes(cellAt(place))).every((place) => sees(place, x)),
        );
      return (
        facts.length === lines.length && isSubset(cellsOf(places), lines.flat()) && scene.strikes.every(takes)
      );
    },
  },
  {
    pattern: new RegExp(
      `^(\\d) in .* would leave (${housesPattern}) only (${housesPattern}) for their \\1, and there is no room for (?:both|all three)\\.$`,
    ),
    holds: (scene, [digit, bases, covers]) => {
      const facts = housesIn(bases).map((house) => named(scene, `${digit} of ${house}`));
      const lines = inHouses(covers);
      return (
        housesIn(covers).length < facts.length &&
        scene.strikes.every((x) => facts.every((fact) => isSubset(cellsOf(left(fact, x)), lines)))
      );
    },
  },
  {
    pattern: new RegExp(
      `^(\\d) in .* would leave (${housePattern}) only (${cellsPattern}) for its \\1, and then (${housePattern}) would have none\\.$`,
    ),
    holds: (scene, [digit, box, , line]) =>
      scene.strikes.every((x) => {
        const near = left(named(scene, `${digit} of ${box}`), x);
        const far = left(named(scene, `${digit} of ${line}`), x);
        return near.length > 0 && far.every((place) => near.every((other) => sees(other, place)));
      }),
  },
  {
    pattern: new RegExp(
      `^(\\d) in .* would leave (${housePattern}) only ${cellsPattern} and (${housePattern}) only ${cellsPattern}, all in one box\\.$`,
    ),
    holds: (scene, [digit, row, column]) =>
      scene.strikes.every((x) => {
        const [a, b] = [row, column].map((house) => left(named(scene, `${digit} of ${house}`), x));
        return a.every((one) => b.every((other) => sees(one, other)));
      }),
  },
  {
    pattern: new RegExp(
      `^(${cellPattern}) and (${cellPattern}) cannot both be (\\d), so (${cellPattern}) or (${cellPattern}) is\\. ${seers} both\\.$`,
    ),
    holds: ({ facts, strikes }, [a, b, digit, c, d]) => {
      const [p, q, r, s] = [a, b, c, d].map((name) => at(cellsIn(name), Number(digit))[0]);
      const isFact = (x: Candidate, y: Candidate) =>
        facts.some(({ places }) => places.join() === [x, y].sort((m, n) => m - n).join());
      const isTied = (isFact(p, r) && isFact(q, s)) || (isFact(p, s) && isFact(q, r));
      return isTied && sees(p, q) && strikes.every((x) => sees(x, r) && sees(x, s));
    },
  },
  {
    pattern: new RegExp(
      `^If (${cellPattern}) is (\\d), then (${cellPattern}) is (\\d); if it is (\\d), then (${cellPattern}) is \\4(; else it is \\4 itself)?\\. ${seers} (?:both|all three)\\.$`,
    ),
    holds: (scene, [pivot, a, first, digit, b, second, itself]) => {
      const [p, q, r] = [pivot, first, second].map((name) => named(scene, name));
      const [one] = at(cellsIn(pivot), Number(a));
      const [other] = at(cellsIn(pivot), Number(b));
      const ends = at(cellsIn(`${first} ${second} ${itself ? pivot : ''}`), Number(digit));
      const cases = (p?.places ?? []).every((x) => x === one || x === other || (itself && ends.includes(x)));
      const follows = (fact: Fact | undefined, x: Candidate) =>
        isSubset(left(fact, x), ends) && left(fact, x).length === 1;
      return (
        Boolean(cases) &&
        follows(q, one) &&
        follows(r, other) &&
        scene.strikes.every((x) => ends.every((end) => sees(end, x)))
      );
    },
  },
  {
    pattern: new RegExp(
      `^Were both (${cellPattern}) and (${cellPattern}) (\\d), (${housePattern}) would have no place for its \\3: one of them is (\\d)\\. ${seers} both\\.$`,
    ),
    holds: (scene, [a, b, digit, house, other]) => {
      const both = at(cellsIn(`${a} ${b}`), Number(digit));
      const ends = at(cellsIn(`${a} ${b}`), Number(other));
      const places = named(scene, `${digit} of ${house}`)?.places ?? [];
      const isPair = [a, b].every((name) =>
        named(scene, name)?.places.every((x) => [...both, ...ends].includes(x)),
      );
      return (
        isPair &&
        places.every((x) => both.some((y) => sees(x, y))) &&
        scene.strikes.every((x) => ends.every((end) => sees(end, x)))
      );
    },
  },
  {
    pattern:
      /^(.*\.) (?:Only one of the two can have (\d); the other then has all its other digits, \d(?: and \d)* among them|Without \d(?: or \d)* the first must have (\d); (.*))\. .* sees? every place there for (.*)\.$/,
    holds: ({ facts, strikes }, [said, tie, first, then, lost]) => {
      const sets = said.split(/; |\./).filter((part) => part.trim() !== '');
      const cells = sets.map((part) => cellsIn(part));
      const digits = sets.map((part) => digitsIn(part.replace(/r\dc\d/g, '')));
      const ties = tie
        ? [Number(tie)]
        : [Number(first), ...[...then.matchAll(/has no (\d)/g)].slice(1).map(([, digit]) => Number(digit))];
      const placesIn = (i: number, digit: number) =>
        facts
          .filter(({ name }) => cells[i].includes(cellsIn(name)[0]))
          .flatMap(({ places }) => places.filter((x) => digitOf(x) === digit));
      const isSet = (i: number) =>
        digits[i].length === cells[i].length + 1 &&
        facts
          .filter(({ name }) => cells[i].includes(cellsIn(name)[0]))
          .every(({ places }) => places.every((x) => digits[i].includes(digitOf(x))));
      const isTied = (digit: number, i: number) =>
        placesIn(i, digit).every((a) => placesIn(i + 1, digit).every((b) => sees(a, b)));
      const last = cells.length - 1;
      return (
        cells.flat().length === facts.length &&
        cells.every((_, i) => isSet(i)) &&
        ties.length === last &&
        ties.every((digit, i) => isTied(digit, i) && digit !== ties[i - 1]) &&
        strikes.every(
          (x) =>
            digitsIn(lost).includes(digitOf(x)) &&
            digitOf(x) !== ties[0] &&
            digitOf(x) !== ties[last - 1] &&
            [...placesIn(0, digitOf(x)), ...placesIn(last, digitOf(x))].every((place) => sees(place, x)),
        )
      );
    },
  },
  {
    pattern: new RegExp(
      `^(${cellsPattern}) have only (${digitsPattern}), and none of these fits there twice, so each is there once\\. .* sees? every place there for .*\\.$`,
    ),
    holds: ({ facts, strikes }, [cells, digits]) => {
      const placesFor = (digit: number) => unionOf(facts).filter((x) => digitOf(x) === digit);
      const own = digitsIn(digits);
      return (
        cellsIn(cells).length === own.length &&
        facts.length === own.length &&
        unionOf(facts).every((x) => own.includes(digitOf(x)) && cellsIn(cells).includes(cellAt(x))) &&
        own.every((digit) =>
          placesFor(digit).every((a) => placesFor(digit).every((b) => a === b || sees(a, b))),
        ) &&
        strikes.every((x) => placesFor(digitOf(x)).every((place) => sees(place, x)))
      );
    },
  },
  {
    pattern: /^(If .* is not .*)$/,
    holds: (scene, [said]) => chainHolds(scene, said),
  },
];

/** The place of a fact inside another house, and everything struck there. */
function inside(scene: Scene, name: string, house: string, digit: number): boolean {
  const fact = named(scene, name);
  const cells = cellsOfHouse(house);
  return (
    fact !== undefined &&
    fact.places.length > 0 &&
    isSubset(cellsOf(fact.places), cells) &&
    scene.strikes.every((x) => digitOf(x) === digit && cells.includes(cellAt(x)) && !fact.places.includes(x))
  );
}

/** Whether a phrase is one that the reader knows, and, read with the facts told, shows every strike; null: unknown. */
export function phraseHolds(scene: Scene, said: string): boolean | null {
  for (const { pattern, holds } of phrases) {
    const match = pattern.exec(said);
    if (match) return holds(scene, match.slice(1));
  }
  return null;
}

/** Whether the facts told, and they alone, refute each strike, and with any one left out some strike is open. */
export function factsAreWhatIsNeeded({ facts, strikes }: Scene): boolean {
  const lists = facts.map(({ places }) => places);
  const refuted = (some: readonly (readonly Candidate[])[]) => strikes.every((x) => !hasArrangement(some, x));
  return (
    hasArrangement(lists) &&
    refuted(lists) &&
    facts.every((_, i) =>
      strikes.every((x) =>
        hasArrangement(
          lists.filter((__, j) => j !== i),
          x,
        ),
      ),
    )
  );
}
