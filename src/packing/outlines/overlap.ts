import { depthAt, isInside, type Sides } from './depth.ts';
import type { EdgeForms } from './forbidden.ts';
import type { Form } from './forms.ts';
import { type Circles, circlesOverlap, inscribedCircles } from './inscribed.ts';
import { kept } from './kept.ts';
import { doMeet, type FlatParts, flatParts } from './meet.ts';
import { addMap, type OverlapMaps, overlapMaps, rootOnMap, UNSURE } from './overlap-map.ts';
import type { PairTable } from './pair-table.ts';

/**
 * By what the overlap of two forms is measured. The depth of their convex parts vanishes gently at contact, which suits outlines of straight sides
 * that are to fit without play. Circles tell better which way out is near where hollow or round outlines lie deep in one another.
 */
export type Measure = 'depth' | 'circles';

/** What tells whether forms overlap and by how much; made when first asked for. */
export interface Overlaps {
  readonly measure: Measure;
  /** The sides of the forbidden sums. */
  readonly sides: PairTable<Sides>;
  readonly circlesOf: (form: number) => Circles;
  /** Depths below which the circles of a form only have a tail. */
  readonly tails: readonly number[];
  readonly partsOf: (form: number) => FlatParts;
  /** The parts of a form as it comes to the edge of an odd-shaped sheet; the forms from `edgesFrom` on are such edges. */
  readonly barePartsOf: (form: number) => FlatParts;
  readonly edgesFrom: number;
  /** How often two forms without sums were asked for. */
  asked: number;
  readonly maps: OverlapMaps;
  readonly spend: (work: number) => void;
  /** How often two forms with sums and no map were asked for. */
  askedForMap: number;
  /** Units of exact answers since it was last set to 0. */
  work: number;
}

/** The tail begins at this share of the longer side. */
const TAIL = 0.01;

/** Two forms count as simple when the product of the numbers of their parts, which is that of their sums, is not greater. */
const MOST_SUMS = 30;

/** For two forms that are not simple the sums are only made each so often that such a pair is asked for. */
const ASKED_FOR_SUMS = 512;

/** A map is only made each so often that a pair without one is asked for. */
const ASKED_FOR_MAP = 512;

/** Units of work that each sum of a map costs; an exact answer, beside the sides of the sums; and circles. */
const MAPPED_SUM_WORK = 250;
const EXACT_WORK = 12;
const CIRCLES_WORK = 32;

export function overlapsOf(
  forms: readonly Form[],
  sides: PairTable<Sides>,
  measure: Measure,
  { bare, from }: EdgeForms,
  spend: (work: number) => void,
): Overlaps {
  const overlaps: Overlaps = {
    measure,
    sides,
    circlesOf: kept((form) => inscribedCircles(forms[form] as Form, spend)),
    tails: forms.map(
      ({ reach }) => TAIL * Math.max(reach.maxX - reach.minX, reach.maxY - reach.minY),
    ),
    partsOf: kept((form) => flatParts(forms[form] as Form)),
    barePartsOf: kept((form) => flatParts(bare[form] as Form)),
    edgesFrom: from,
    asked: 0,
    maps: overlapMaps(forms.length, (first, second, x, y) =>
      measuredRoot(overlaps, first, second, x, y),
    ),
    spend,
    askedForMap: 0,
    work: 0,
  };
  return overlaps;
}

/** Whether the sums of two forms are so few that they are made at once, and that the depth tells their overlap well. */
function areSimple({ partsOf }: Overlaps, first: number, second: number): boolean {
  return (partsOf(first)[0] as number) * (partsOf(second)[0] as number) <= MOST_SUMS;
}

/**
 * The sides of the sums of a pair that has none yet, or null where they are not worth their while: two forms that seldom come near to one another
 * are told apart by their parts sooner than by sums. Which pairs come near often is found by chance, so that no count of each is kept.
 */
function sidesWorthMaking(overlaps: Overlaps, first: number, second: number): Sides | null {
  if (areSimple(overlaps, first, second)) return overlaps.sides(first, second);
  overlaps.asked++;
  return overlaps.asked % ASKED_FOR_SUMS === 0 ? overlaps.sides(first, second) : null;
}

/**
 * The root of the overlap of two forms, (x, y) being the first one's origin seen from the second one's; 0 just where they do not overlap.
 * `map` is the number of their map. It may be given up, and then is not less than `bound`, once it reaches that.
 */
export function rootAt(
  overlaps: Overlaps,
  map: number,
  first: number,
  second: number,
  x: number,
  y: number,
  bound: number,
): number {
  const root = map === 0 ? UNSURE : rootOnMap(overlaps.maps, map, x, y, false);
  return root === UNSURE ? exactRootAt(overlaps, map, first, second, x, y, bound) : root;
}

/** The same where no map tells it. */
function exactRootAt(
  overlaps: Overlaps,
  map: number,
  first: number,
  second: number,
  x: number,
  y: number,
  bound: number,
): number {
  const { maps, measure } = overlaps;
  const sides = overlaps.sides.row(first)[second] ?? sidesWorthMaking(overlaps, first, second);
  overlaps.work += exactWork(overlaps, sides, first, second);
  const isByDepth = sides !== null && measure === 'depth' && areSimple(overlaps, first, second);
  // The sides of a single sum are looked at sooner than a map.
  const mayMap = map === 0 && sides !== null && !(isByDepth && sides[0] === 1);
  if (mayMap) countForMap(overlaps, first, second, sides);
  if (isByDepth) return Math.sqrt(depthAt(sides, x, y));
  const doOverlap =
    sides === null
      ? doMeet(movingParts(overlaps, first, second), overlaps.partsOf(second), x, y)
      : isInside(sides, x, y);
  if (!doOverlap) return 0;
  if (map !== 0) return rootOnMap(maps, map, x, y, true);
  overlaps.work += CIRCLES_WORK;
  return Math.sqrt(byCircles(overlaps, first, second, x, y, bound * bound));
}

function exactWork(
  { partsOf }: Overlaps,
  sides: Sides | null,
  first: number,
  second: number,
): number {
  if (sides !== null) return EXACT_WORK + (sides.length >> 4);
  return EXACT_WORK + ((partsOf(first).length * partsOf(second).length) >> 7);
}

/** Makes a map for a pair that is asked for; which pairs are asked for often is found by chance. */
function countForMap(overlaps: Overlaps, first: number, second: number, sides: Sides): void {
  overlaps.askedForMap++;
  if (overlaps.askedForMap % ASKED_FOR_MAP > 0) return;
  const bothMove = first !== second && second < overlaps.edgesFrom;
  addMap(overlaps.maps, [first, second], sides, bothMove);
  overlaps.spend(MAPPED_SUM_WORK * (sides[0] as number));
}

/** The root of the measure, whether the forms overlap or not. */
function measuredRoot(
  overlaps: Overlaps,
  first: number,
  second: number,
  x: number,
  y: number,
): number {
  const isDepth = overlaps.measure === 'depth' && areSimple(overlaps, first, second);
  return Math.sqrt(
    isDepth
      ? depthAt(overlaps.sides(first, second), x, y)
      : byCircles(overlaps, first, second, x, y, Number.POSITIVE_INFINITY),
  );
}

function byCircles(
  { tails, circlesOf, measure }: Overlaps,
  first: number,
  second: number,
  x: number,
  y: number,
  bound: number,
): number {
  const [circles, others] = [circlesOf(first), circlesOf(second)];
  const tail = Math.max(tails[first] as number, tails[second] as number);
  // Divided by a radius the area that circles give is a length, as a depth is.
  const radius = measure === 'depth' ? Math.min(circles[2] ?? 1, others[2] ?? 1) : 1;
  return circlesOverlap(circles, others, x, y, tail, bound * radius) / radius;
}

function movingParts(overlaps: Overlaps, moving: number, still: number): FlatParts {
  return still < overlaps.edgesFrom ? overlaps.partsOf(moving) : overlaps.barePartsOf(moving);
}
