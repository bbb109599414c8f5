/**
 * Where tabs go on an outline.
 *
 * Candidates lie on straight sides, a tab's width away from their corners and from every hole,
 * where firm stock is on the other side of the kerf. From them the first is taken in the middle of
 * the longest side and each further one as far as possible from those already taken, never closer
 * than a tab's width between two. An outline with hardly any such place gets candidates all round
 * instead, with the same distance from holes. Asked for places off the show edges, or with the
 * grain across the kerf besides, it leaves out all others.
 * Source: common practice. Cost: candidates times tabs.
 * Degenerate: where nothing firm is near there is no place, and the list comes back shorter than
 * asked.
 */
import { ringLength } from '../geometry/area.ts';
import type { Point } from '../geometry/point.ts';
import type { Ring } from '../geometry/shape.ts';

export interface TabSite {
  /** Counter-clockwise, so that the kerf is on the right of its sides. */
  readonly ring: Ring;
  readonly holes: readonly { readonly at: Point; readonly radius: number }[];
  /** Whether stock that a tab can hang on is at this point. */
  readonly isFirm: (point: Point) => boolean;
  readonly cutter: number;
  /** Whether an edge is seen later, by the direction out of the thing there. */
  readonly isShow: (out: Point) => boolean;
  /** Which way the grain of the sheet runs; null where it has none. */
  readonly grainAxis: 'x' | 'y' | null;
}

/** Which edges may have tabs: `best` is off the show edges with the grain across the kerf, so that the fibres bridge it. */
export const TAB_EDGES = ['best', 'hidden', 'any'] as const;
export type TabEdges = (typeof TAB_EDGES)[number];

/** All lengths in base lengths. Up to `count` places, on the grid. */
export function tabPlaces(
  site: TabSite,
  width: number,
  spread: number,
  count: number,
  edges: TabEdges = 'any',
): Point[] {
  const { straight, round } = clearSpots(site, width, spread);
  const isStraight = straight.length >= Math.min(count, ENOUGH);
  const spots = (isStraight ? straight : round()).filter((spot) => isOn(site, spot, edges));
  const [first, ...others] = spots.toSorted(byRoom);
  if (first === undefined) return [];
  const chosen = [first];
  while (chosen.length < count) {
    const next = others.reduce(
      (best, spot) => (gap(spot, chosen) > gap(best, chosen) ? spot : best),
      first,
    );
    if (gap(next, chosen) < 2 * width) break;
    chosen.push(next);
  }
  return chosen.map(({ at }) => at);
}

/** Whether an edge that is seen later has one of the places. */
export function isAnyOnShow({ ring, isShow }: TabSite, places: readonly Point[]): boolean {
  return places.some((at) => {
    const ends = ring.map((from, i) => [from, ring[(i + 1) % ring.length] as Point] as const);
    const detour = ([from, to]: readonly [Point, Point]): number =>
      lengthOf(from, at) + lengthOf(at, to) - lengthOf(from, to);
    const [from, to] = ends.reduce((best, side) => (detour(side) < detour(best) ? side : best));
    return isShow({ x: to.y - from.y, y: from.x - to.x });
  });
}

interface ClearSpots {
  readonly straight: readonly Spot[];
  readonly round: () => readonly Spot[];
}

/** What was found for a site, by width and spread: the same spots are asked for with every number of tabs. */
const KNOWN = new WeakMap<TabSite, Map<string, ClearSpots>>();

function clearSpots(site: TabSite, width: number, spread: number): ClearSpots {
  const own = KNOWN.get(site) ?? new Map<string, ClearSpots>();
  KNOWN.set(site, own);
  const key = `${width} ${spread}`;
  const known = own.get(key);
  if (known !== undefined) return known;
  const clear = (spot: Spot): boolean => isClear(site, spot, width);
  let round: readonly Spot[] | null = null;
  const found = {
    straight: spotsOf(site.ring, width, spread).filter(clear),
    round: () => {
      round ??= roundSpots(site).filter(clear);
      return round;
    },
  };
  own.set(key, found);
  return found;
}

/** With so many places on straight sides the curves and corners are left alone. */
const ENOUGH = 3;

/** Middles of long sides first. */
function byRoom(a: Spot, b: Spot): number {
  return b.length - a.length || a.offMiddle - b.offMiddle;
}

/** Distance from the nearest of the chosen spots. */
function gap({ at }: Spot, chosen: readonly Spot[]): number {
  return chosen.reduce(
    (least, each) => Math.min(least, lengthOf(at, each.at)),
    Number.POSITIVE_INFINITY,
  );
}

interface Spot {
  readonly at: Point;
  readonly from: Point;
  readonly to: Point;
  /** Length of its side, and how far from the middle of the side it lies. */
  readonly length: number;
  readonly offMiddle: number;
}

/** An odd number of evenly spaced spots on each straight side, so that one is in the middle. */
function spotsOf(ring: Ring, width: number, spread: number): Spot[] {
  return ring.flatMap((from, i) => {
    const to = ring[(i + 1) % ring.length] as Point;
    const length = lengthOf(from, to);
    const room = length - 3 * width;
    if (room < 0) return [];
    const each = Math.floor(room / (2 * spread));
    return Array.from({ length: 2 * each + 1 }, (_, k) => {
      const along = (length + (k - each) * (each === 0 ? 0 : room / each)) / 2;
      return spotAt(from, to, along, length);
    });
  });
}

/** Spots all round, for an outline that has no straight sides to speak of. */
function roundSpots(site: TabSite): Spot[] {
  const step = ringLength(site.ring) / ROUND_SPOTS;
  let due = step / 2;
  const spots: Spot[] = [];
  site.ring.forEach((from, i) => {
    const to = site.ring[(i + 1) % site.ring.length] as Point;
    const length = lengthOf(from, to);
    for (; due < length; due += step) spots.push(spotAt(from, to, due, length));
    due -= length;
  });
  return spots;
}

const ROUND_SPOTS = 24;

function spotAt(from: Point, to: Point, along: number, length: number): Spot {
  const share = along / length;
  const at = {
    x: Math.round(from.x + share * (to.x - from.x)),
    y: Math.round(from.y + share * (to.y - from.y)),
  };
  return { at, from, to, length, offMiddle: Math.abs(along - length / 2) };
}

function isOn({ isShow, grainAxis }: TabSite, { from, to }: Spot, edges: TabEdges): boolean {
  if (edges === 'any') return true;
  const out = { x: to.y - from.y, y: from.x - to.x };
  if (isShow(out)) return false;
  if (edges === 'hidden' || grainAxis === null) return true;
  const [along, across] = grainAxis === 'x' ? [out.x, out.y] : [out.y, out.x];
  return Math.abs(across) <= MOST_SLANT * Math.abs(along);
}

/** How far the fibres may run off the straight way over the kerf: a third, some 18 degrees. */
const MOST_SLANT = 1 / 3;

function isClear({ holes, isFirm, cutter }: TabSite, spot: Spot, width: number): boolean {
  const { at, from, to, length } = spot;
  const out = (FIRM_DEPTH * cutter) / length;
  const beyond = {
    x: Math.round(at.x + out * (to.y - from.y)),
    y: Math.round(at.y - out * (to.x - from.x)),
  };
  return isFirm(beyond) && holes.every((hole) => lengthOf(hole.at, at) >= hole.radius + width);
}

/** In cutter diameters from the outline: past the kerf and as far again, so that a thin rim of skeleton does not count. */
const FIRM_DEPTH = 2;

function lengthOf(a: Point, b: Point): number {
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);
}
