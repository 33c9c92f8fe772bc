import { type Claim, withClaims } from '../argument/claim.ts';
import { factCount } from '../argument/fact.ts';
import {
  type Argument,
  type CheckedArgument,
  type Conclusions,
  check,
  type Fact,
  type OneSolutionToken,
  placesOf,
  type Refusal,
  type Verdict,
} from '../argument/kernel.ts';
import { type Candidate, cellOf, conflicts } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { patterns } from '../techniques/catalogue.ts';
import type { Finding } from '../techniques/technique.ts';
import { exhaustiveFacts, fewestFacts } from './fewest-facts.ts';
import { unnamed } from './minimal.ts';
import { concludes, nameOfPattern } from './name-of-pattern.ts';
import { factsThatRefute, fewestOf, refutationNodes } from './refute.ts';

/** What somebody argues: these conclusions, from these facts. */
export interface Stated {
  /** As they are written, each once; ties among sets that suffice go to those written first. */
  readonly facts: readonly Fact[];
  readonly conclusions: Conclusions;
}

/** What may be drawn on beside the position. */
export interface ArgueOptions {
  /** What the person's marks claim: a fact that is cited and claimed has the places of the marks. */
  readonly claims?: readonly Claim[];
  /** Whether the argument may rest on the puzzle's having one solution, with the token that says so, if any. */
  readonly oneSolution?: { readonly token: OneSolutionToken | null };
  /** Is told whether it holds as soon as that is known: all but what else follows and what would repair it. */
  readonly watch?: (known: ArguedSoFar) => void;
}

/** What is known of an argument before all is: that it holds, or why not. */
export type ArguedSoFar = Pick<Holds, 'kind'> | Refused;

/** A cited claim whose marks leave out places that nothing else on the sheet rules out. */
export interface WeakSpot {
  readonly fact: Fact;
  /** The marked places. */
  readonly marked: readonly Candidate[];
  /** The places that the marks leave out. */
  readonly leftOut: readonly Candidate[];
}

/** The argument holds. */
export interface Holds {
  readonly kind: 'holds';
  /** On the facts that are needed, and with the name that the catalogue has for it; `facts` where it has none. */
  readonly checked: CheckedArgument;
  /**
   * The smallest part of the stated facts that suffices, in the order in which they are written; with
   * one-solution the stated facts of the pattern's cells as well.
   */
  readonly needed: readonly Fact[];
  /** The stated facts that could be left out, as written. */
  readonly notNeeded: readonly Fact[];
  /**
   * The same argument by what each conclusion needs: one part where all rest on the same facts, as it must be
   * to be one argument; more where it is several in one.
   */
  readonly parts: readonly CheckedArgument[];
  /** The stated strikes that there was nothing left of to strike. */
  readonly alreadyStruck: readonly Candidate[];
  /** The stated strikes that the marks of the cited facts leave out, and nothing else. */
  readonly leftOut: readonly Candidate[];
  /** Claims that it rests on and that the sheet does not bear out. Empty where it holds without the marks. */
  readonly weakSpots: readonly WeakSpot[];
}

/** The argument does not hold. */
export interface Refused {
  readonly kind: 'refused';
  readonly reason: Refusal;
  /** The position in which it was judged: what the cited claims leave out counts as struck. */
  readonly position: Position;
  /** The conclusion that does not follow. */
  readonly candidate: Candidate | undefined;
  /** With `open`: one place for each stated fact, in their order, that leaves the conclusion open. */
  readonly arrangement: readonly Candidate[] | undefined;
  /** The other stated conclusions that do follow. */
  readonly supported: readonly Candidate[];
  readonly alreadyStruck: readonly Candidate[];
  readonly leftOut: readonly Candidate[];
  /** Whether with some one fact more, which the position has, all of it would follow. */
  readonly isRepairable: boolean;
}

type Bare = Omit<Argument, 'facts' | 'conclusions'>;
const plainly: Bare = { technique: unnamed, assumes: 'nothing' };

/** Conclusions of the same kind with other candidates. */
const withCandidates = (conclusions: Conclusions, candidates: readonly Candidate[]): Conclusions =>
  conclusions.kind === 'breaks' ? conclusions : { kind: conclusions.kind, candidates };

const candidatesOf = (conclusions: Conclusions): readonly Candidate[] =>
  conclusions.kind === 'breaks' ? [] : conclusions.candidates;

/** Of more facts than this the kernel does not try to leave out each: that could take minutes. */
const tryableFacts = 30;

/**
 * Many facts brought down to those that a bounded search rests on when it refutes the denial of each
 * conclusion, in the order in which they are written. All of them where it does not last.
 */
function coreOf(position: Position, facts: readonly Fact[], conclusions: Conclusions): readonly Fact[] {
  const board = Board.from(position);
  const nodes = refutationNodes(position.layout);
  const assumed = conclusions.kind === 'breaks' ? [null] : conclusions.candidates;
  const needed = new Set<Fact>();
  for (const candidate of assumed) {
    const core = factsThatRefute(board, candidate, nodes, facts);
    if (!core) return facts;
    const written = facts.filter((fact) => core.includes(fact));
    for (const fact of fewestOf(board, candidate, nodes, written)) needed.add(fact);
  }
  return facts.filter((fact) => needed.has(fact));
}

/** An instance of a one-solution technique that makes the conclusions and cites nothing that is not stated. */
function oneSolutionFinding(position: Position, { facts, conclusions }: Stated): Finding | null {
  const board = Board.from(position);
  for (const technique of patterns) {
    if (technique.assumes !== 'one-solution') continue;
    const found = technique
      .find(board)
      .find(
        (finding) => concludes(finding, conclusions) && finding.facts.every((fact) => facts.includes(fact)),
      );
    if (found) return found;
  }
  return null;
}

/**
 * Whether some one more fact of the position makes all of the conclusions follow. A fact that is claimed has
 * the places of the marks.
 */
function canBeRepaired(
  position: Position,
  { facts, conclusions }: Stated,
  claims: readonly Claim[],
  refused: Extract<Verdict, { verdict: 'refused' }>,
): boolean {
  const { layout } = position;
  const { candidate, arrangement } = refused;
  /** Whether the arrangement that refutes the argument can be drawn out to the fact: then it repairs nothing. */
  const goesOn = (places: readonly Candidate[]): boolean => {
    if (conclusions.kind === 'placements' || !arrangement) return false;
    const kept = candidate === undefined ? arrangement : [...arrangement, candidate];
    return places.some((place) => kept.every((other) => !conflicts(layout, place, other)));
  };
  for (let fact = 0; fact < factCount(layout); fact += 1) {
    if (facts.includes(fact)) continue;
    const claim = claims.find((each) => each.fact === fact);
    const known = claim ? withClaims(position, [claim]) : position;
    const places = placesOf(known, fact);
    if (places.length === 0 || goesOn(places)) continue;
    const live = candidatesOf(conclusions).filter((x) => known.candidates.has(x));
    const wanted = conclusions.kind === 'strikes' ? withCandidates(conclusions, live) : conclusions;
    if (conclusions.kind === 'strikes' && live.length === 0) return true;
    const verdict = check(known, { ...plainly, facts: [...facts, fact], conclusions: wanted });
    if (verdict.verdict !== 'refused') return true;
  }
  return false;
}

/**
 * Judges an argument by the kernel: that it holds, with its name and what it needs, or why not, with an
 * arrangement of the facts that leaves the conclusion open. Stated strikes that had been made before are told
 * apart; where nothing else is stated, that is the refusal.
 */
export function argue(start: Position, stated: Stated, options: ArgueOptions = {}): Holds | Refused {
  const { claims = [], oneSolution, watch } = options;
  const token = oneSolution?.token ?? undefined;
  const cited = claims.filter(({ fact }) => stated.facts.includes(fact));
  const position = withClaims(start, cited);
  const all = candidatesOf(stated.conclusions);
  const isStruck = (x: Candidate) => stated.conclusions.kind === 'strikes' && !position.candidates.has(x);
  const alreadyStruck = all.filter((x) => isStruck(x) && !start.candidates.has(x));
  const leftOut = all.filter((x) => isStruck(x) && start.candidates.has(x));
  const fresh = all.filter((x) => !isStruck(x));
  const conclusions = withCandidates(stated.conclusions, fresh.length > 0 ? fresh : all);
  const judge = (how: Bare, facts: readonly Fact[], wanted: Conclusions): Verdict =>
    check(position, { ...how, facts, conclusions: wanted }, token);

  let bare = plainly;
  let verdict = judge(bare, stated.facts, conclusions);
  if (verdict.verdict === 'refused' && verdict.reason === 'open' && oneSolution) {
    const finding = oneSolutionFinding(position, { ...stated, conclusions });
    if (finding) {
      bare = { technique: finding.technique, assumes: 'one-solution', pattern: finding.pattern ?? [] };
      verdict = judge(bare, stated.facts, conclusions);
    }
  }
  if (verdict.verdict === 'refused') {
    const { reason, candidate, arrangement } = verdict;
    const follows = (x: Candidate) =>
      judge(bare, stated.facts, withCandidates(conclusions, [x])).verdict === 'holds';
    const known: Refused = {
      kind: 'refused',
      reason,
      position,
      candidate,
      arrangement: arrangement?.slice(0, stated.facts.length),
      supported: [],
      alreadyStruck,
      leftOut,
      isRepairable: false,
    };
    watch?.(known);
    return {
      ...known,
      supported: reason === 'open' || reason === 'no-fact-holds-it' ? fresh.filter(follows) : [],
      isRepairable:
        (reason === 'open' || reason === 'no-fact-holds-it') &&
        canBeRepaired(position, { ...stated, conclusions }, claims, verdict),
    };
  }

  watch?.({ kind: 'holds' });
  const fewest = (of: readonly Fact[], wanted: Conclusions) => {
    const accepts = (some: readonly Fact[]) => judge(bare, some, wanted).verdict !== 'refused';
    const isMany = of.length > exhaustiveFacts && bare.assumes === 'nothing' && wanted.kind !== 'placements';
    const core = isMany ? coreOf(position, of, wanted) : of;
    if (core.length < of.length && accepts(core)) {
      return core.length > tryableFacts ? [...core] : fewestFacts(core, accepts);
    }
    return fewestFacts(of, accepts);
  };
  const seal = (facts: readonly Fact[], wanted: Conclusions): CheckedArgument[] => {
    const technique =
      bare.assumes === 'nothing' ? nameOfPattern(position, { facts, conclusions: wanted }) : bare.technique;
    const outcome = judge({ ...bare, technique }, facts, wanted);
    return outcome.verdict === 'refused' ? [] : [outcome.checked];
  };
  const facts = fewest(stated.facts, conclusions);
  const [checked = verdict.checked] = seal(facts, conclusions);
  const pattern = new Set(bare.pattern?.map((x) => cellOf(position.layout, x)));
  const needed = stated.facts.filter((fact) => facts.includes(fact) || pattern.has(fact));
  return {
    kind: 'holds',
    checked,
    needed,
    notNeeded: stated.facts.filter((fact) => !needed.includes(fact)),
    parts: partsOf(),
    alreadyStruck,
    leftOut,
    weakSpots: weakSpotsOf(),
  };

  function partsOf(): CheckedArgument[] {
    if (fresh.length < 2) return [checked];
    const groups = new Map<string, { facts: Fact[]; candidates: Candidate[] }>();
    for (const x of fresh) {
      const own = fewest(facts, withCandidates(conclusions, [x]));
      const key = own.join(' ');
      const group = groups.get(key) ?? { facts: own, candidates: [] };
      group.candidates.push(x);
      groups.set(key, group);
    }
    if (groups.size < 2) return [checked];
    return [...groups.values()].flatMap((group) =>
      seal(group.facts, withCandidates(conclusions, group.candidates)),
    );
  }

  function weakSpotsOf(): WeakSpot[] {
    const spots = cited.flatMap(({ fact, places }) => {
      const leftOut = placesOf(start, fact).filter((place) => !places.includes(place));
      return !facts.includes(fact) || leftOut.length === 0 ? [] : [{ fact, marked: places, leftOut }];
    });
    if (spots.length === 0) return [];
    const unmarked = check(start, { ...bare, facts, conclusions }, token);
    return unmarked.verdict === 'refused' ? spots : [];
  }
}
