import { ringArea } from '../../geometry/area.ts';
import { assert } from '../../geometry/assert.ts';
import { type Box, boxOf } from '../../geometry/box.ts';
import { convexParts } from '../../geometry/convex-parts.ts';
import {
  CHECKING_CHORD_ERROR,
  flattenShape,
  PACKING_CHORD_ERROR,
  ROUNDING_SHORTFALL,
} from '../../geometry/flatten.ts';
import { convexHull } from '../../geometry/hull.ts';
import { OFFSET_SHORTFALL, offsetRegion } from '../../geometry/offset.ts';
import type { Point } from '../../geometry/point.ts';
import { boxOfShape, placeShape } from '../../geometry/pose.ts';
import type { Contour, Region, Ring, Shape } from '../../geometry/shape.ts';
import type { Placement } from '../../model/layout.ts';
import type { Orientation, PackingTask } from '../task.ts';
import { clipConvex } from './clip-convex.ts';
import { fillConcave } from './fill-concave.ts';
import { growRectilinear } from './grow-rectilinear.ts';
import { type Growth, simplifyOutline } from './simplify-outline.ts';

/**
 * Forms: for each kind of body and each of its orientations the area that its pieces need, as convex parts, spacing included.
 *
 * Idea: every form is grown by about half the spacing, so that two pieces keep their distance exactly where their forms do not overlap.
 * Level and upright outlines grow by the lower half of the spacing to the left and down and by the upper half to the right and up, which adds
 * up to the exact spacing also when it is odd. All others grow by the upper half plus a shortfall of a few base lengths, so that they are
 * on the safe side against one another and against the first sort; where a straight side of theirs lies on their box the shortfall is taken back.
 * The shortfall covers the offset's own rounding and, for outlines with arcs, the finer ring of a checker, which may cut the arcs elsewhere
 * and so stand out of the true outline by its own chord error, and the rounding of both rings.
 * Cut-outs stay only where the part lets pieces nest inside, and the cut-out is wide enough for some piece.
 * Cost: by the corners of an outline, for each orientation that is not another one turned by quarters; `spend` is told of it.
 * Degenerate cases: without spacing, outlines of straight sides are used as they are, so that they may touch exactly.
 */
export function formsOf(task: PackingTask, spend: (work: number) => void): Forms {
  const narrowest = narrowestSide(task);
  const forms: Form[] = [];
  const ofKind = new Map<number, readonly number[]>();
  for (const { kind, orientations } of task.bodies) {
    if (ofKind.has(kind)) continue;
    const own: Form[] = [];
    for (const orientation of orientations) {
      const { width, height } = orientation;
      const parts =
        partsFromTurning(task, orientations, own) ?? partsOf(task, orientation, narrowest, spend);
      own.push(formOf(width, height, parts));
    }
    ofKind.set(
      kind,
      own.map((form) => forms.push(form) - 1),
    );
  }
  return { forms, ofBody: task.bodies.map(({ kind }) => ofKind.get(kind) ?? []) };
}

export interface Form {
  /** Box of the pieces themselves; its lower-left corner is the origin of the parts. */
  readonly width: number;
  readonly height: number;
  /** Convex rings that together cover the grown outline. */
  readonly parts: readonly Ring[];
  /** The box around the parts, and their area. */
  readonly reach: Box;
  readonly area: number;
}

export interface Forms {
  readonly forms: readonly Form[];
  /** For each body the form of each of its orientations. */
  readonly ofBody: readonly (readonly number[])[];
}

/** A rectangle that no piece may come nearer to than the spacing, as a form at its own lower-left corner. */
export function rectangleForm(width: number, height: number, spacing: number): Form {
  return formOf(width, height, [grownBox(width, height, spacing)]);
}

/** A convex ring as a form, as it is; the lower-left corner of its box is the origin. */
export function ringForm(ring: Ring): Form {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  return formOf(maxX - minX, maxY - minY, [ring.map(({ x, y }) => ({ x: x - minX, y: y - minY }))]);
}

function formOf(width: number, height: number, parts: readonly Ring[]): Form {
  const area = parts.reduce((sum, ring) => sum + ringArea(ring), 0);
  return { width, height, parts, reach: boxOf(parts.flat()), area };
}

/** The hull of a form may be larger than its parts by so much, to stand for them. */
const HULL_EXCESS = 1.1;

/** The parts of a form, or its hull alone where they fill that nearly. */
export function coarseParts({ parts, area }: Form): readonly Ring[] {
  if (parts.length === 1) return parts;
  const hull = convexHull(parts.flat());
  return ringArea(hull) > HULL_EXCESS * area ? parts : [hull];
}

/** The parts of the orientation that comes after those of `known`, if it is one of them turned by quarters; quarter turns are exact. */
function partsFromTurning(
  { spacing }: PackingTask,
  orientations: readonly Orientation[],
  known: readonly Form[],
): readonly Ring[] | null {
  const wanted = orientations[known.length];
  // Turned halves of an odd spacing would be on the wrong sides.
  if (wanted === undefined || spacing % 2 !== 0) return null;
  for (const [i, form] of known.entries()) {
    const { turn, mirrored } = orientations[i] as Orientation;
    const quarters = (wanted.turn - turn + 360) / 90;
    if (mirrored === wanted.mirrored && Number.isInteger(quarters))
      return form.parts.map((ring) => ring.map((point) => turnedInBox(point, form, quarters % 4)));
  }
  return null;
}

/** A point turned together with its box, whose lower-left corner is put back to the origin. */
function turnedInBox({ x, y }: Point, { width, height }: Form, quarters: number): Point {
  if (quarters === 1) return { x: height - y, y: x };
  if (quarters === 2) return { x: width - x, y: height - y };
  if (quarters === 3) return { x: y, y: width - x };
  return { x, y };
}

function narrowestSide(task: PackingTask): number {
  return task.bodies
    .flatMap(({ orientations }) => orientations)
    .reduce((least, { width, height }) => Math.min(least, width, height), Number.POSITIVE_INFINITY);
}

function partsOf(
  task: PackingTask,
  orientation: Orientation,
  narrowest: number,
  spend: (work: number) => void,
): readonly Ring[] {
  const shapes = orientation.placements.map((placement) => placedShape(task, placement, narrowest));
  if (orientation.rectangular && shapes.every(({ inner }) => inner.length === 0))
    return [grownBox(orientation.width, orientation.height, task.spacing)];
  return shapes.flatMap((shape) => grownParts(shape, task.spacing, spend));
}

/** The shape of a piece as it lies, less the cut-outs that count as material. */
function placedShape(task: PackingTask, placement: Placement, narrowest: number): Shape {
  const piece = task.job.pieces[placement.piece];
  const part = piece && task.job.parts[piece.part];
  assert(part, 'a placement names a piece of the job');
  const inner = part.nestInside
    ? part.shape.inner.filter((contour) => isWider(contour, narrowest))
    : [];
  return placeShape({ outer: part.shape.outer, inner }, placement);
}

function isWider(contour: Contour, narrowest: number): boolean {
  const box = boxOfShape({ outer: contour, inner: [] });
  return Math.min(box.maxX - box.minX, box.maxY - box.minY) >= narrowest;
}

function grownBox(width: number, height: number, spacing: number): Ring {
  const below = 0 - Math.floor(spacing / 2);
  const above = Math.ceil(spacing / 2);
  return [
    { x: below, y: below },
    { x: width + above, y: below },
    { x: width + above, y: height + above },
    { x: below, y: height + above },
  ];
}

/**
 * Outlines with more corners are simplified, by 0.4 mm and a thousandth of their area at most; if more than `MOST_CORNERS` are left, twice as
 * freely, and again twice. Where even that is not enough the convex hull stands for them: taking them apart would cost more than it saves.
 */
const MANY_CORNERS = 120;
const MOST_CORNERS = 500;
const GROWTHS: readonly Growth[] = [1, 2, 4].map((times) => ({
  distance: 3200 * times,
  areaShare: 0.001 * times,
}));

/** Units of work for each corner of an outline that is grown and taken apart. */
const CORNER_WORK = 1000;

function grownParts(shape: Shape, spacing: number, spend: (work: number) => void): readonly Ring[] {
  const { outer, holes } = flattenShape(shape, 'outside', PACKING_CHORD_ERROR);
  spend(CORNER_WORK * (outer.length + holes.flat().length));
  const [around, ...apart] = growRing(outer, isCurved(shape.outer), spacing);
  assert(around, 'a grown outline does not vanish');
  const shrunk = holes.flatMap((hole, i) =>
    growRing(hole, isCurved(shape.inner[i] ?? []), spacing).map(({ outer: ring }) => ring),
  );
  const grown = [{ outer: around.outer, holes: [...around.holes, ...shrunk] }, ...apart];
  const regions = grown.map(simplified);
  if (regions.some((region) => cornersOf(region) > MOST_CORNERS))
    return [convexHull(regions.flatMap((region) => region.outer))];
  const limits = limitsOf(shape.outer, outer, spacing);
  return regions
    .flatMap((region) => convexParts(fillConcave(region)))
    .map((part) => clipConvex(part, limits))
    .filter((part) => part !== null);
}

/** Outlines of few corners stay exact, so that their straight sides may touch. */
function simplified(region: Region): Region {
  if (cornersOf(region) <= MANY_CORNERS) return region;
  let simple = region;
  for (const growth of GROWTHS) {
    simple = simplifyOutline(region, growth);
    if (cornersOf(simple) <= MOST_CORNERS) break;
  }
  return simple;
}

function cornersOf({ outer, holes }: Region): number {
  return outer.length + holes.flat().length;
}

/**
 * How far the form has to reach at most: where a straight side of the outline lies on a side of its box, the exact half of the spacing beyond it,
 * which takes the shortfall back, so that straight sides fit without any play whatever the rest of the outline is like.
 */
function limitsOf(contour: Contour, ring: Ring, spacing: number): Box {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  const below = Math.floor(spacing / 2);
  const above = Math.ceil(spacing / 2);
  const isStraight = (axis: 'x' | 'y', at: number) =>
    contour.some((corner, i) => {
      const next = contour[(i + 1) % contour.length] as Point;
      return corner.via === null && corner[axis] === at && next[axis] === at;
    });
  return {
    minX: isStraight('x', minX) ? minX - below : Number.NEGATIVE_INFINITY,
    minY: isStraight('y', minY) ? minY - below : Number.NEGATIVE_INFINITY,
    maxX: isStraight('x', maxX) ? maxX + above : Number.POSITIVE_INFINITY,
    maxY: isStraight('y', maxY) ? maxY + above : Number.POSITIVE_INFINITY,
  };
}

/** Moves a ring out of its material: an outer ring grows, a hole, which runs clockwise, shrinks and may vanish or fall apart. */
function growRing(ring: Ring, curved: boolean, spacing: number): readonly Region[] {
  const above = Math.ceil(spacing / 2);
  const square = curved ? null : growRectilinear(ring, Math.floor(spacing / 2), above);
  if (square !== null) return [{ outer: square, holes: [] }];
  if (spacing === 0 && !curved) return [{ outer: ring, holes: [] }];
  const by =
    above + OFFSET_SHORTFALL + (curved ? CHECKING_CHORD_ERROR + 2 * ROUNDING_SHORTFALL : 0);
  if (ringArea(ring) > 0) return offsetRegion({ outer: ring, holes: [] }, by, 'mitre');
  return offsetRegion({ outer: [...ring].reverse(), holes: [] }, -by, 'mitre').map((region) => ({
    outer: [...region.outer].reverse(),
    holes: [],
  }));
}

function isCurved(contour: Contour): boolean {
  return contour.some(({ via }) => via !== null);
}
