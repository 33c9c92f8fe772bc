import { alsChain } from './als-chain.ts';
import { alsXyWing } from './als-xy-wing.ts';
import { alsXz } from './als-xz.ts';
import { alternatingInferenceChain } from './alternating-inference-chain.ts';
import { bugPlusOne } from './bug-plus-one.ts';
import { cellForcing } from './cell-forcing.ts';
import { claiming } from './claiming.ts';
import { emptyRectangle } from './empty-rectangle.ts';
import { finnedSwordfish } from './finned-swordfish.ts';
import { finnedXWing } from './finned-x-wing.ts';
import { fullHouse } from './full-house.ts';
import { hiddenPair } from './hidden-pair.ts';
import { hiddenQuad } from './hidden-quad.ts';
import { hiddenSingle } from './hidden-single.ts';
import { hiddenTriple } from './hidden-triple.ts';
import { houseForcing } from './house-forcing.ts';
import { jellyfish } from './jellyfish.ts';
import { nakedPair } from './naked-pair.ts';
import { nakedQuad } from './naked-quad.ts';
import { nakedSingle } from './naked-single.ts';
import { nakedTriple } from './naked-triple.ts';
import { nestedSuppositions } from './nested-suppositions.ts';
import { net } from './net.ts';
import { pointing } from './pointing.ts';
import { remotePairs } from './remote-pairs.ts';
import { simpleColouring } from './simple-colouring.ts';
import { skyscraper } from './skyscraper.ts';
import { swordfish } from './swordfish.ts';
import type { Technique } from './technique.ts';
import { twoSectorDisjointSubsets } from './two-sector-disjoint-subsets.ts';
import { twoStringKite } from './two-string-kite.ts';
import { uniqueRectangle } from './unique-rectangle.ts';
import { wWing } from './w-wing.ts';
import { xChain } from './x-chain.ts';
import { xWing } from './x-wing.ts';
import { xyChain } from './xy-chain.ts';
import { xyWing } from './xy-wing.ts';
import { xyzWing } from './xyz-wing.ts';

/** All techniques, lightest first, and among those of a weight the ones that are easier to see first. */
export const catalogue: readonly Technique[] = [
  fullHouse,
  hiddenSingle,
  nakedSingle,
  pointing,
  claiming,
  nakedPair,
  hiddenPair,
  xWing,
  skyscraper,
  twoStringKite,
  emptyRectangle,
  finnedXWing,
  nakedTriple,
  hiddenTriple,
  xyWing,
  xyzWing,
  wWing,
  swordfish,
  finnedSwordfish,
  nakedQuad,
  hiddenQuad,
  jellyfish,
  twoSectorDisjointSubsets,
  remotePairs,
  xChain,
  xyChain,
  alternatingInferenceChain,
  alsXz,
  uniqueRectangle,
  alsXyWing,
  alsChain,
  simpleColouring,
  cellForcing,
  houseForcing,
  net,
  bugPlusOne,
  nestedSuppositions,
];

/** The patterns of the catalogue: all but those that follow candidates to their ends; see Technique. */
export const patterns: readonly Technique[] = catalogue.filter(({ supposes }) => !supposes);

const byId: ReadonlyMap<string, Technique> = new Map(catalogue.map((technique) => [technique.id, technique]));

/** The technique with an id as commands take it, `x-wing`; undefined if there is none. */
export const techniqueById = (id: string): Technique | undefined => byId.get(id);
