/**
 * The vacuum pods that fit under a piece.
 *
 * A pod has to lie whole under the piece, a cutter's width inside every edge, or the cut would go through it. Pods
 * are tried on a grid over the piece, both ways round, first as far out as they go and then inwards; of those that
 * fit, the two farthest apart are taken first and then each that is farthest from those taken.
 * Source: common practice, no source. Cost: one shrinking and one intersection a place of the grid, 2 times 121.
 * Degenerate: a piece that is smaller than a pod gets none.
 */
import { regionArea } from '../geometry/area.ts';
import { subtract } from '../geometry/boolean.ts';
import { type Box, boxesOverlap, boxOf } from '../geometry/box.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { type Region, rectangle } from '../geometry/shape.ts';
import type { Seal } from '../model/machine.ts';

type Pods = Extract<Seal, { readonly kind: 'pods' }>;

/** As the piece lies. At most `perPiece`; they never overlap. */
export function podsUnder(region: Region, pods: Pods, clear: number): Region[] {
  const inside = offsetRegion(region, -clear, 'mitre');
  const ways = [
    placesOf(inside, pods.length, pods.width),
    placesOf(inside, pods.width, pods.length),
  ].map((places) => spreadOut(places, pods.perPiece));
  const best = ways[1]!.length > ways[0]!.length ? ways[1]! : ways[0]!;
  return best.map(({ minX, minY, maxX, maxY }) => ({
    outer: rectangle(minX, minY, maxX - minX, maxY - minY),
    holes: [],
  }));
}

/** Places a way along each side of the piece at which a pod is tried. */
const PLACES = 11;

function placesOf(inside: readonly Region[], length: number, width: number): Box[] {
  const box = boxOf(inside.flatMap(({ outer }) => outer));
  const [roomX, roomY] = [box.maxX - box.minX - length, box.maxY - box.minY - width];
  if (inside.length === 0 || roomX < 0 || roomY < 0) return [];
  const places: Box[] = [];
  for (let row = 0; row < PLACES; row++) {
    for (let column = 0; column < PLACES; column++) {
      const minX = box.minX + Math.round((roomX * column) / (PLACES - 1));
      const minY = box.minY + Math.round((roomY * row) / (PLACES - 1));
      const place = { minX, minY, maxX: minX + length, maxY: minY + width };
      if (liesIn(place, inside)) places.push(place);
    }
  }
  return places;
}

function liesIn({ minX, minY, maxX, maxY }: Box, inside: readonly Region[]): boolean {
  const pod: Region = { outer: rectangle(minX, minY, maxX - minX, maxY - minY), holes: [] };
  return subtract([pod], inside).every((left) => regionArea(left) === 0);
}

/** The two places farthest apart, then always the one farthest from those taken; the first of equals. */
function spreadOut(places: readonly Box[], most: number): Box[] {
  const taken: Box[] = [];
  while (taken.length < most) {
    let [best, farthest]: [Box | null, number] = [null, -1];
    for (const place of places) {
      if (taken.some((each) => boxesOverlap(each, place))) continue;
      const others = taken.length === 0 ? places : taken;
      const reach = taken.length === 0 ? Math.max : Math.min;
      const away = others.map((each) => gap2(each, place)).reduce((a, b) => reach(a, b));
      if (away > farthest) [best, farthest] = [place, away];
    }
    if (best === null) break;
    taken.push(best);
  }
  return taken;
}

/** Squared distance between two places of one size. */
function gap2(a: Box, b: Box): number {
  return (a.minX - b.minX) ** 2 + (a.minY - b.minY) ** 2;
}
