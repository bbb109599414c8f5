// Computes the largest axis-parallel rectangle inside a box that no obstacle box enters, or the one that is worth most.
// Idea: start with the whole box as the only maximal empty rectangle. Each obstacle cuts every rectangle it overlaps into
//   at most four smaller ones that are again maximal, and those that lie inside another are dropped. The largest survivor is the answer.
// Source: Jylänki 2010, "A thousand ways to pack the bin", section 2.4 (maximal rectangles); here only the splitting is used.
// Cost: about n times the number of maximal rectangles, meant for some dozens of obstacles.
// Degenerate cases: touching is not entering; null where the obstacles leave nothing; equals go to the left, then to the bottom.
import { type Box, boxArea, boxContains, boxesOverlap } from './box.ts';

/** No rectangle may be worth more than one that it lies inside. */
export function largestEmptyRectangle(
  box: Box,
  obstacles: readonly Box[],
  worthOf: (rectangle: Box) => number = boxArea,
): Box | null {
  let free: readonly Box[] = box.minX < box.maxX && box.minY < box.maxY ? [box] : [];
  for (const obstacle of obstacles) free = carve(free, obstacle);
  let best: Box | null = null;
  let most = 0;
  for (const candidate of free) {
    const worth = worthOf(candidate);
    if (best !== null && (worth < most || (worth === most && !isBefore(candidate, best)))) continue;
    best = candidate;
    most = worth;
  }
  return best;
}

/** The maximal empty rectangles that are left of `free` once `obstacle` is taken out. */
function carve(free: readonly Box[], obstacle: Box): readonly Box[] {
  const hit = free.filter((rectangle) => boxesOverlap(rectangle, obstacle));
  if (hit.length === 0) return free;
  const kept = free.filter((rectangle) => !boxesOverlap(rectangle, obstacle));
  const cut = hit.flatMap((rectangle) => around(rectangle, obstacle));
  const fresh = cut.filter(
    (strip, i) =>
      !kept.some((other) => boxContains(other, strip)) &&
      !cut.some(
        (other, k) => k !== i && boxContains(other, strip) && (k < i || !boxContains(strip, other)),
      ),
  );
  return [...kept, ...fresh];
}

/** The up to four strips of `rectangle` beside `obstacle`, each as large as it can be. */
function around(rectangle: Box, obstacle: Box): Box[] {
  const strips: Box[] = [];
  if (rectangle.minX < obstacle.minX) strips.push({ ...rectangle, maxX: obstacle.minX });
  if (obstacle.maxX < rectangle.maxX) strips.push({ ...rectangle, minX: obstacle.maxX });
  if (rectangle.minY < obstacle.minY) strips.push({ ...rectangle, maxY: obstacle.minY });
  if (obstacle.maxY < rectangle.maxY) strips.push({ ...rectangle, minY: obstacle.maxY });
  return strips;
}

function isBefore(a: Box, b: Box): boolean {
  return a.minX !== b.minX ? a.minX < b.minX : a.minY < b.minY;
}
