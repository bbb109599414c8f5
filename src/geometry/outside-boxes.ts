// Covers what a box has outside a polygon, and nearer to the polygon's edges than a clearance, with axis-parallel boxes.
// Idea: the box is cut into level bands at the polygon's corners, and at steps along its slanted edges. In each band every edge blocks the whole stretch
//   that it comes near to, and of the gaps between these stretches each lies wholly inside or outside, which one point decides. Every blocked stretch
//   then grows up and down over the bands in which it is blocked as well.
// Source: plane sweep over the slabs of a polygon, see de Berg, Cheong, van Kreveld & Overmars 2008, "Computational Geometry", chapter 6.1; the cover is our own.
// Where we are careful: the cover is never too small. Edges along the axes are exact but for the rounding that a clearance allows at an inward corner,
//   which is covered as a square; a slanted edge becomes a staircase on its inner side, about one step deep at most.
// Cost: bands times edges; at most MOST_STEPS cuts come from slanted edges, then the steps grow. Meant for polygons of some dozens of corners.
// Degenerate cases: boxes may overlap one another; a polygon that fills the box gives none, one without room for the clearance covers all of it.
import type { Box } from './box.ts';
import { midpointInRegion } from './inside.ts';
import { type Edge, edgesOf } from './segments.ts';
import type { Ring } from './shape.ts';

const MOST_STEPS = 64;

/** `clearance` is a whole number of base lengths; `step` is how deep a stair on a slanted edge may be. */
export function boxesOutside(ring: Ring, box: Box, clearance: number, step: number): Box[] {
  const edges = edgesOf(ring);
  const levels = levelsOf(edges, box, clearance, step);
  const bands = levels.slice(1).map((top, i): Band => {
    const bottom = levels[i] as number;
    return {
      bottom,
      top,
      blocked: blockedIn({ ...box, minY: bottom, maxY: top }, ring, clearance),
    };
  });
  return bands.flatMap((band, i) =>
    band.blocked
      .filter((stretch) => i === 0 || !bands[i - 1]?.blocked.some((other) => same(other, stretch)))
      .map((stretch) => grownUpAndDown(stretch, bands, i)),
  );
}

/** A level strip of the box, and what of it is blocked from its bottom to its top. */
interface Band {
  readonly bottom: number;
  readonly top: number;
  /** From left to right, apart from one another. */
  readonly blocked: readonly Stretch[];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

function same(a: Stretch, b: Stretch): boolean {
  return a.from === b.from && a.to === b.to;
}

function levelsOf(edges: readonly Edge[], box: Box, clearance: number, step: number): number[] {
  let depth = step;
  while (edges.reduce((sum, edge) => sum + stepsOf(edge, depth), 0) > MOST_STEPS) depth *= 2;
  const levels = edges.flatMap((edge) => {
    const { from, to } = edge;
    const count = stepsOf(edge, depth);
    const steps = Array.from({ length: count }, (_, i) =>
      Math.floor(from.y + ((to.y - from.y) * (i + 1)) / (count + 1)),
    );
    return [from.y - clearance, from.y, from.y + clearance, ...steps];
  });
  const inside = levels.filter((level) => box.minY < level && level < box.maxY);
  return [...new Set([box.minY, ...inside, box.maxY])].sort((a, b) => a - b);
}

/** How many cuts a slanted edge needs between its ends, so that no stair is deeper than `depth` both ways. */
function stepsOf({ from, to }: Edge, depth: number): number {
  const shorter = Math.min(Math.abs(to.x - from.x), Math.abs(to.y - from.y));
  return Math.max(0, Math.ceil(shorter / depth) - 1);
}

function blockedIn(band: Box, ring: Ring, clearance: number): Stretch[] {
  const stretches = edgesOf(ring)
    .map((edge) => reachOf(edge, band, clearance))
    .filter((stretch) => stretch !== null)
    .sort((a, b) => a.from - b.from || a.to - b.to);
  const blocked: Stretch[] = [];
  let end = band.minX;
  for (const { from, to } of [...stretches, { from: band.maxX, to: band.maxX }]) {
    if (end < from && isOutside(end, from, band, ring))
      addStretch(blocked, { from: end, to: from });
    if (from < to) addStretch(blocked, { from: Math.max(from, end), to });
    end = Math.max(end, to);
  }
  return blocked;
}

/** The stretch of the band that the edge comes nearer to than the clearance, or passes through, cut off at the ends of the band; never too short. */
function reachOf({ from, to }: Edge, band: Box, clearance: number): Stretch | null {
  const bottom = Math.min(from.y, to.y) - clearance;
  const top = Math.max(from.y, to.y) + clearance;
  if (top <= band.minY || band.maxY <= bottom) return null;
  let left = Math.min(from.x, to.x) - clearance;
  let right = Math.max(from.x, to.x) + clearance;
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  if (dx !== 0 && dy !== 0) {
    const atBottom = from.x + ((band.minY - from.y) * dx) / dy;
    const atTop = from.x + ((band.maxY - from.y) * dx) / dy;
    const sideways = (clearance * Math.sqrt(dx * dx + dy * dy)) / Math.abs(dy);
    // One more unit covers the rounding of the quotients.
    left = Math.max(left, Math.floor(Math.min(atBottom, atTop) - sideways) - 1);
    right = Math.min(right, Math.ceil(Math.max(atBottom, atTop) + sideways) + 1);
  }
  const stretch = { from: Math.max(left, band.minX), to: Math.min(right, band.maxX) };
  return stretch.from <= stretch.to ? stretch : null;
}

/** No edge passes through the gap, so its middle speaks for all of it. */
function isOutside(from: number, to: number, { minY, maxY }: Box, ring: Ring): boolean {
  return midpointInRegion({ x: from, y: minY }, { x: to, y: maxY }, { outer: ring, holes: [] }) < 1;
}

function addStretch(blocked: Stretch[], { from, to }: Stretch): void {
  const last = blocked.at(-1);
  if (last === undefined || last.to < from) {
    if (from < to) blocked.push({ from, to });
  } else if (last.to < to) blocked[blocked.length - 1] = { from: last.from, to };
}

function grownUpAndDown({ from, to }: Stretch, bands: readonly Band[], at: number): Box {
  const isBlocked = (band: Band | undefined) =>
    band?.blocked.some((other) => other.from <= from && to <= other.to) ?? false;
  let low = at;
  let high = at;
  while (isBlocked(bands[low - 1])) low--;
  while (isBlocked(bands[high + 1])) high++;
  const bottom = (bands[low] as Band).bottom;
  return { minX: from, minY: bottom, maxX: to, maxY: (bands[high] as Band).top };
}
