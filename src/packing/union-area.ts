import type { Box } from '../geometry/box.ts';

/**
 * Area that the boxes cover together, overlaps once, in squared base lengths: exact while it stays below 2^53. Meant for some dozens of boxes.
 * Counted strip by strip, because a bound should not rest on the clipping library.
 */
export function unionArea(boxes: readonly Box[]): number {
  const edges = [...new Set(boxes.flatMap(({ minX, maxX }) => [minX, maxX]))].sort((a, b) => a - b);
  let area = 0;
  for (let i = 1; i < edges.length; i++) {
    const from = edges[i - 1] as number;
    const to = edges[i] as number;
    const crossing = boxes.filter(({ minX, maxX }) => minX <= from && to <= maxX);
    area += (to - from) * coveredLength(crossing);
  }
  return area;
}

/** Length that the boxes' heights cover together. */
function coveredLength(boxes: readonly Box[]): number {
  const byStart = [...boxes].sort((a, b) => a.minY - b.minY);
  let covered = 0;
  let reached = Number.NEGATIVE_INFINITY;
  for (const { minY, maxY } of byStart) {
    covered += Math.max(0, maxY - Math.max(minY, reached));
    reached = Math.max(reached, maxY);
  }
  return covered;
}
