import { depthAt, isInside, type Sides } from './depth.ts';
import type { Form } from './forms.ts';
import { type Circles, circlesOverlap, inscribedCircles } from './inscribed.ts';

/**
 * By what the overlap of two forms is measured. The depth of their convex parts vanishes gently at contact, which suits outlines of straight sides
 * that are to fit without play. Circles tell better which way out is near where hollow or round outlines lie deep in one another.
 */
export type Measure = 'depth' | 'circles';

/** The circles of each form, made when first asked for, and a depth below which they only have a tail. */
export interface CirclesTable {
  readonly of: (form: number) => Circles;
  readonly tails: readonly number[];
}

/** The tail begins at this share of the longer side. */
const TAIL = 0.01;

export function circlesTable(forms: readonly Form[], spend: (work: number) => void): CirclesTable {
  const known: (Circles | undefined)[] = [];
  return {
    of: (index) => {
      const own = known[index] ?? inscribedCircles(forms[index] as Form, spend);
      known[index] = own;
      return own;
    },
    tails: forms.map(
      ({ reach }) => TAIL * Math.max(reach.maxX - reach.minX, reach.maxY - reach.minY),
    ),
  };
}

/** Two forms, the sides of their sums, and the first one's origin seen from the second one's. */
export function overlapAt(
  measure: Measure,
  circles: CirclesTable,
  sides: Sides,
  first: number,
  second: number,
  x: number,
  y: number,
  bound: number,
): number {
  if (measure === 'depth') return depthAt(sides, x, y);
  if (!isInside(sides, x, y)) return 0;
  const tail = Math.max(circles.tails[first] as number, circles.tails[second] as number);
  return circlesOverlap(circles.of(first), circles.of(second), x, y, tail, bound);
}
