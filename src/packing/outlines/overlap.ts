import { depthAt, isInside, type Sides } from './depth.ts';
import type { EdgeForms } from './forbidden.ts';
import type { Form } from './forms.ts';
import { type Circles, circlesOverlap, inscribedCircles } from './inscribed.ts';
import { kept } from './kept.ts';
import { doMeet, type FlatParts, flatParts } from './meet.ts';
import type { PairTable } from './pair-table.ts';

/**
 * By what the overlap of two forms is measured. The depth of their convex parts vanishes gently at contact, which suits outlines of straight sides
 * that are to fit without play. Circles tell better which way out is near where hollow or round outlines lie deep in one another.
 */
export type Measure = 'depth' | 'circles';

/** What tells whether forms overlap and by how much; made when first asked for. */
export interface Overlaps {
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
}

/** The tail begins at this share of the longer side. */
const TAIL = 0.01;

/** Two forms count as simple when the product of the numbers of their parts, which is that of their sums, is not greater. */
const MOST_SUMS = 30;

/** For two forms that are not simple the sums are only made each so often that such a pair is asked for. */
const ASKED_FOR_SUMS = 512;

export function overlapsOf(
  forms: readonly Form[],
  sides: PairTable<Sides>,
  { bare, from }: EdgeForms,
  spend: (work: number) => void,
): Overlaps {
  return {
    sides,
    circlesOf: kept((form) => inscribedCircles(forms[form] as Form, spend)),
    tails: forms.map(
      ({ reach }) => TAIL * Math.max(reach.maxX - reach.minX, reach.maxY - reach.minY),
    ),
    partsOf: kept((form) => flatParts(forms[form] as Form)),
    barePartsOf: kept((form) => flatParts(bare[form] as Form)),
    edgesFrom: from,
    asked: 0,
  };
}

/** Whether the sums of two forms are so few that they are made at once, and that the depth tells their overlap well. */
function areSimple({ partsOf }: Overlaps, first: number, second: number): boolean {
  return (partsOf(first)[0] as number) * (partsOf(second)[0] as number) <= MOST_SUMS;
}

/**
 * The sides of the sums of a pair that has none yet, or null where they are not worth their while: two forms that seldom come near to one another
 * are told apart by their parts sooner than by sums. Which pairs come near often is found by chance, so that no count of each is kept.
 */
export function sidesWorthMaking(overlaps: Overlaps, first: number, second: number): Sides | null {
  if (areSimple(overlaps, first, second)) return overlaps.sides(first, second);
  overlaps.asked++;
  return overlaps.asked % ASKED_FOR_SUMS === 0 ? overlaps.sides(first, second) : null;
}

/** Two forms, the sides of their sums where they have been made, and the first one's origin seen from the second one's. */
export function overlapAt(
  overlaps: Overlaps,
  measure: Measure,
  sides: Sides | null,
  first: number,
  second: number,
  x: number,
  y: number,
  bound: number,
): number {
  const byDepth = measure === 'depth' && areSimple(overlaps, first, second);
  if (byDepth && sides !== null) return depthAt(sides, x, y);
  const meet =
    sides === null
      ? doMeet(movingParts(overlaps, first, second), overlaps.partsOf(second), x, y)
      : isInside(sides, x, y);
  if (!meet) return 0;
  const { tails, circlesOf } = overlaps;
  const [circles, others] = [circlesOf(first), circlesOf(second)];
  const tail = Math.max(tails[first] as number, tails[second] as number);
  // Divided by a radius the area that circles give is a length, as a depth is.
  const radius = measure === 'depth' ? Math.min(circles[2] ?? 1, others[2] ?? 1) : 1;
  return circlesOverlap(circles, others, x, y, tail, bound * radius) / radius;
}

function movingParts(overlaps: Overlaps, moving: number, still: number): FlatParts {
  return still < overlaps.edgesFrom ? overlaps.partsOf(moving) : overlaps.barePartsOf(moving);
}
