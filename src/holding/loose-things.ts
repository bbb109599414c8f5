/** Everything that comes free on one sheet, each with the cut that frees it and what a tab on it could hang on. */

import { regionArea } from '../geometry/area.ts';
import { assert } from '../geometry/assert.ts';
import { closerThan } from '../geometry/distance.ts';
import { pointInRegion } from '../geometry/inside.ts';
import type { Point } from '../geometry/point.ts';
import { type Pose, placePoint } from '../geometry/pose.ts';
import type { Region } from '../geometry/shape.ts';
import { cosDeg, sinDeg } from '../geometry/trigonometry.ts';
import type { LooseKind } from '../model/holding.ts';
import type { Side } from '../model/part.ts';
import type { SheetStock } from '../model/stock.ts';
import { fromMm, toMm2 } from '../model/units.ts';
import { type Body, bodyOf } from './body.ts';
import type { CutMoment } from './kerf-timeline.ts';
import type { LaidPiece } from './laid-pieces.ts';
import { isLargeMm2, type Slug, skeletonOf, slugsOf } from './loose-waste.ts';
import { type Footing, heldRegions, liftedMm } from './reach.ts';
import type { TabSite } from './tab-places.ts';

export interface LooseThing {
  readonly kind: LooseKind;
  /** Index in the list of laid pieces: the piece itself, or the one with the opening; null for a sliver. */
  readonly laid: number | null;
  readonly body: Body;
  /** As it lies on the sheet, openings taken out. */
  readonly region: Region;
  readonly moment: CutMoment;
  /** The laid pieces with an outline along it, for a sliver; none for other things. */
  readonly beside: readonly number[];
  readonly site: TabSite;
}

export interface Scene {
  readonly stock: SheetStock;
  readonly footing: Footing;
  readonly laid: readonly LaidPiece[];
  readonly bodies: readonly Body[];
  readonly moments: readonly CutMoment[];
  /** Whether a laid piece that is cut already stays by itself with so much kerf open. */
  readonly stays: (laid: number, openKerfMm: number) => boolean;
}

/** In the order in which they come free; a slug before a piece before a sliver. */
export function looseThings(scene: Scene): LooseThing[] {
  const { stock, laid } = scene;
  const { cutter } = scene.footing;
  const slugs = slugsOf(laid, cutter);
  const skeleton = skeletonOf(stock, laid, cutter);
  // Pieces inside a cut-out are cut before it; what is tied to a small slug then comes free with that.
  const large = slugs
    .map(({ region }) => region)
    .filter((region) => isLargeMm2(toMm2(regionArea(region))));
  const firm = [...skeleton.firm, ...large];
  const things = [
    ...slugs.map((slug) => slugThing(scene, slug)),
    ...laid.map((_, i) => pieceThing(scene, i, firm)),
    ...skeleton.slivers.map((region) => sliverThing(scene, region)),
  ];
  return things.sort((a, b) => a.moment.place - b.moment.place);
}

function pieceThing(scene: Scene, index: number, firm: readonly Region[]): LooseThing {
  const { stock, footing, laid, bodies, moments } = scene;
  const { cutter } = footing;
  const { part, pose, region } = laid[index]!;
  const moment = moments.find(({ laid: i, step }) => i === index && step.kind === 'outline')!;
  const holes = part.holes.map((hole) => ({
    at: placePoint(hole, pose),
    radius: hole.diameter / 2,
  }));
  const isShow = (out: Point): boolean => part.showEdges.includes(sideOf(out, pose));
  const edges = { isShow, grainAxis: stock.grainAxis };
  const site = { ring: region.outer, holes, isFirm: inAny(firm), cutter, ...edges };
  return { kind: 'piece', laid: index, body: bodies[index]!, region, moment, beside: [], site };
}

function slugThing(scene: Scene, { laid: index, opening, region }: Slug): LooseThing {
  const { footing, laid, moments } = scene;
  const { cutter } = footing;
  const moment = moments.find(
    ({ laid: i, step }) =>
      i === index && step.kind === opening.kind && step.feature === opening.feature,
  )!;
  const isFirm = inAny([laid[index]!.region]);
  const site = { ring: region.outer, holes: [], isFirm, cutter, ...wasteEdges(scene) };
  const body = bodyOf(region, heldRegions(footing, region, 'slug'), liftedMm(footing, region));
  return { kind: 'slug', laid: index, body, region, moment, beside: [], site };
}

/**
 * The last outline beside it sets a sliver free. By then all pieces round it are loose, so a tab can hang only on one that
 * is as large as skeleton has to be and stays by itself.
 */
function sliverThing(scene: Scene, region: Region): LooseThing {
  const { footing, laid, moments } = scene;
  const { cutter } = footing;
  const reach = cutter + fromMm(BESIDE_MM);
  const beside = new Set(
    laid.flatMap((l, i) => (closerThan(region, outlineOf(l), reach) ? [i] : [])),
  );
  const moment = moments.findLast(({ laid: i, step }) => step.kind === 'outline' && beside.has(i));
  assert(moment !== undefined, 'a sliver lies between outlines');
  const firm = laid.map((_, i) => {
    const { areaMm2 } = scene.bodies[i]!;
    return beside.has(i) && isLargeMm2(areaMm2) && scene.stays(i, moment.openKerfMm);
  });
  const isFirm = inAny(laid.filter((_, i) => firm[i]).map(outlineOf));
  const site = { ring: region.outer, holes: [], isFirm, cutter, ...wasteEdges(scene) };
  const body = bodyOf(region, heldRegions(footing, region, 'sliver'), liftedMm(footing, region));
  return { kind: 'sliver', laid: null, body, region, moment, beside: [...beside], site };
}

/** Nobody sees the edges of waste. */
function wasteEdges({ stock }: Scene): Pick<TabSite, 'isShow' | 'grainAxis'> {
  return { isShow: () => false, grainAxis: stock.grainAxis };
}

/** The side of the part's own box that an edge faces, by the direction out of the piece as it lies. */
function sideOf(out: Point, { turn, mirrored }: Pose): Side {
  const [cos, sin] = [cosDeg(turn), sinDeg(turn)];
  const along = cos * out.x + sin * out.y;
  const x = mirrored ? -along : along;
  const y = cos * out.y - sin * out.x;
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? 'right' : 'left';
  return y > 0 ? 'top' : 'bottom';
}

/** More than the rounding of curves to polygons. */
const BESIDE_MM = 0.5;

function outlineOf({ region }: LaidPiece): Region {
  return { outer: region.outer, holes: [] };
}

function inAny(regions: readonly Region[]): (point: Point) => boolean {
  return (point) => regions.some((region) => pointInRegion(point, region) === 1);
}
