// Measures the edge bands of a part.
// Idea: a side with a band takes its finished length; left and right run along the height of the part, bottom and top along its width.
// Source: none needed.
// Where we differ: shops add an overhang at each end; that is part of the allowance for waste, which the file gives.
// Cost: four sums.
// Degenerate cases: a part without bands takes nothing; a band of no thickness is none.
import type { Part } from '../model/part.ts';

/** Of one piece, in base lengths. */
export function bandLength({ edgeBands, finishedWidth, finishedHeight }: Part): number {
  const { left, right, bottom, top } = edgeBands;
  const banded = (first: number, second: number) => Number(first > 0) + Number(second > 0);
  return banded(left, right) * finishedHeight + banded(bottom, top) * finishedWidth;
}
