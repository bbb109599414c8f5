import { type Affine, carry, carryVector, product, scaling } from './affine.ts';
import type { FinePoint, FineSide } from './arcs-from-curves.ts';
import { type ConicArc, conicPoint, conicSides } from './conic-arcs.ts';
import type { DxfEntity, DxfGroups } from './dxf-parse.ts';
import { PLANE } from './dxf-screen.ts';
import type { Fault } from './fault.ts';
import { CURVE_DISTANCE, FARTHEST, type FinePath } from './fine-path.ts';
import { splineFault, splinePath } from './spline-arcs.ts';

/** An entity that draws something. */
export type DxfCurve = Exclude<DxfEntity, { type: 'INSERT' }>;

/** The run of lines and arcs that an entity draws after `carried`, not far beyond `mostSides` of them; null where it draws nothing; or what is wrong with it. */
export function curvePath(
  curve: DxfCurve,
  carried: Affine,
  mostSides: number,
): FinePath | null | Fault {
  const path = drawnPath(curve, carried, mostSides);
  if (path === null || 'code' in path) return path;
  const points = [
    path.start,
    ...path.sides.flatMap(({ via, to }) => (via === null ? to : [via, to])),
  ];
  return points.every(inReach) ? path : entityFault(curve, TOO_LARGE);
}

const TOO_LARGE = 'a number in it is too large';

function inReach({ x, y }: FinePoint): boolean {
  return Math.abs(x) < FARTHEST && Math.abs(y) < FARTHEST;
}

/** Says what is wrong with an entity, and where it stands. */
export function entityFault({ type, handle }: DxfEntity, what: string): Fault {
  const message = `line ${handle} of the drawing: the ${type} cannot be read: ${what}`;
  return { code: 'drawing-broken', message, hint: 'draw it anew, or leave it out' };
}

function drawnPath(curve: DxfCurve, carried: Affine, mostSides: number): FinePath | null | Fault {
  switch (curve.type) {
    case 'LINE': {
      const [from, to] = curve.vertices;
      if (from === undefined || to === undefined) return entityFault(curve, 'an end is missing');
      return cornersPath([{ ...from }, { ...to }], false, carried);
    }
    case 'ARC':
      return arcPath(curve, carried);
    case 'CIRCLE':
      return circlePath(curve, carried);
    case 'ELLIPSE':
      return ellipsePath(curve, carried);
    case 'LWPOLYLINE':
      return withFacing(curve, facingOf(curve), carried, (facing) =>
        cornersPath(curve.vertices, curve.shape, facing),
      );
    case 'POLYLINE':
      return polylinePath(curve, carried);
    case 'SPLINE':
      return splineOf(curve, carried, mostSides);
    default:
      return null;
  }
}

/** The direction in which an entity's plane faces, as DXF writes it; upwards where nothing is written. */
export interface Facing {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

function facingOf(entity: {
  readonly extrusionDirectionX?: number;
  readonly extrusionDirectionY?: number;
  readonly extrusionDirectionZ?: number;
}): Facing {
  const {
    extrusionDirectionX: x = 0,
    extrusionDirectionY: y = 0,
    extrusionDirectionZ: z = 1,
  } = entity;
  return { x, y, z };
}

/** Carries on with the plane of an entity that faces up, or down, where it is seen mirrored left to right. */
export function withFacing<T>(
  entity: DxfEntity,
  { x, y, z }: Facing,
  carried: Affine,
  then: (facing: Affine) => T,
): T | Fault {
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(Math.abs(z) > (1 - 1e-6) * length)) {
    const message = `line ${entity.handle} of the drawing: the ${entity.type} does not lie flat`;
    return { code: 'drawing-feature', message, hint: 'outlines are drawn in the plane of x and y' };
  }
  return then(z < 0 ? product(carried, scaling(-1, 1)) : carried);
}

interface Corner extends FinePoint {
  readonly bulge?: number;
}

/** The bulge of a corner is that of the side after it: the tangent of a quarter of its sweep. */
function cornersPath(
  corners: readonly Corner[],
  closed: boolean,
  carried: Affine,
): FinePath | null {
  const start = corners[0];
  if (start === undefined) return null;
  const sides: FineSide[] = [];
  corners.forEach((corner, i) => {
    const next = corners[i + 1] ?? (closed ? start : undefined);
    if (next === undefined || (next.x === corner.x && next.y === corner.y)) return;
    const to = carry(carried, next);
    const { bulge = 0 } = corner;
    if (Math.abs(bulge) < STRAIGHT) sides.push({ via: null, to });
    else for (const side of bulgeSides(corner, next, bulge, carried)) sides.push(side);
  });
  return { start: carry(carried, start), sides, closed };
}

/** A bulge this small is a line: on a side of 4 m it stands out 0.02 µm. */
const STRAIGHT = 1e-8;

function bulgeSides(from: FinePoint, to: FinePoint, bulge: number, carried: Affine): FineSide[] {
  const aside = (1 - bulge * bulge) / (4 * bulge);
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const centre = { x: (from.x + to.x) / 2 - dy * aside, y: (from.y + to.y) / 2 + dx * aside };
  const u = { x: from.x - centre.x, y: from.y - centre.y };
  const conic = { centre, u, v: { x: -u.y, y: u.x }, start: 0, sweep: 4 * Math.atan(bulge) };
  return conicSides(
    carriedConic(conic, carried),
    carry(carried, from),
    carry(carried, to),
    CURVE_DISTANCE,
  );
}

function carriedConic({ centre, u, v, ...range }: ConicArc, carried: Affine): ConicArc {
  return {
    centre: carry(carried, centre),
    u: carryVector(carried, u),
    v: carryVector(carried, v),
    ...range,
  };
}

const FULL = 2 * Math.PI;

/** The whole of it where the sweep is nothing or a full turn. */
function conicPath(conic: ConicArc, carried: Affine): FinePath {
  const shown = carriedConic(conic, carried);
  const from = conicPoint(shown, 0);
  const closed = Math.abs(conic.sweep - FULL) < 1e-9;
  const to = closed ? from : conicPoint(shown, 1);
  return { start: from, sides: conicSides(shown, from, to, CURVE_DISTANCE), closed };
}

/** From one angle on to another, counter-clockwise; a full turn where they are the same. */
function sweepBetween(start: number, end: number): number {
  const sweep = (((end - start) % FULL) + FULL) % FULL;
  return sweep < 1e-9 || FULL - 1e-9 < sweep ? FULL : sweep;
}

function roundConic(centre: FinePoint, radius: number, start: number, sweep: number): ConicArc {
  return { centre, u: { x: radius, y: 0 }, v: { x: 0, y: radius }, start, sweep };
}

function arcPath(curve: DxfCurve & { type: 'ARC' }, carried: Affine): FinePath | Fault {
  const { center, radius, startAngle, endAngle } = curve;
  if (center === undefined || !(0 < radius)) return entityFault(curve, 'it has no radius above 0');
  const conic = roundConic(
    center,
    radius,
    startAngle ?? 0,
    sweepBetween(startAngle ?? 0, endAngle ?? 0),
  );
  return withFacing(curve, facingOf(curve), carried, (facing) => conicPath(conic, facing));
}

function circlePath(curve: DxfGroups & DxfCurve, carried: Affine): FinePath | Fault {
  const radius = numberOf(curve, 40) ?? 0;
  if (!(0 < radius)) return entityFault(curve, 'it has no radius above 0');
  const conic = roundConic(pointOf(curve, 10), radius, 0, FULL);
  return withFacing(curve, groupFacing(curve), carried, (facing) => conicPath(conic, facing));
}

function ellipsePath(curve: DxfGroups & DxfCurve, carried: Affine): FinePath | Fault {
  const u = pointOf(curve, 11);
  const ratio = numberOf(curve, 40) ?? 0;
  if (!(0 < ratio) || (u.x === 0 && u.y === 0)) return entityFault(curve, 'it has no width');
  const facing = groupFacing(curve);
  const side = facing.z < 0 ? -ratio : ratio;
  const start = numberOf(curve, 41) ?? 0;
  const sweep = sweepBetween(start, numberOf(curve, 42) ?? FULL);
  const conic = {
    centre: pointOf(curve, 10),
    u,
    v: { x: -u.y * side, y: u.x * side },
    start,
    sweep,
  };
  // Its points count in the plane of the drawing, whichever way it faces.
  return withFacing(curve, { ...facing, z: Math.abs(facing.z) }, carried, (flat) =>
    conicPath(conic, flat),
  );
}

function polylinePath(
  curve: DxfCurve & { type: 'POLYLINE' },
  carried: Affine,
): FinePath | null | Fault {
  const { is3dPolygonMesh, isPolyfaceMesh, extrusionDirection, is3dPolyline } = curve;
  if (is3dPolygonMesh || isPolyfaceMesh) return null;
  // Where a curve was laid through them, the corners that it was reckoned from are still in the list.
  const corners = curve.vertices.filter(({ splineControlPoint }) => !splineControlPoint);
  if (corners.some(({ x, y }) => x === undefined || y === undefined))
    return entityFault(curve, 'a corner has no place');
  const { x = 0, y = 0, z = 1 } = (is3dPolyline ? undefined : extrusionDirection) ?? {};
  return withFacing(curve, { x, y, z }, carried, (facing) =>
    cornersPath(corners, curve.shape, facing),
  );
}

function splineOf(
  curve: DxfGroups & DxfCurve,
  carried: Affine,
  mostSides: number,
): FinePath | Fault {
  const xs = valuesOf(curve, 10);
  const ys = valuesOf(curve, 20);
  if (xs.length === 0 && (numberOf(curve, 74) ?? 0) > 0) {
    const message = `line ${curve.handle} of the drawing: the SPLINE has fit points only`;
    const hint = 'save it with control points, or convert it to a polyline or arcs';
    return { code: 'drawing-feature', message, hint };
  }
  if (xs.length !== ys.length) return entityFault(curve, 'a control point has no place');
  const weights = valuesOf(curve, 41);
  const spline = {
    degree: numberOf(curve, 71) ?? 0,
    knots: valuesOf(curve, 40),
    controls: xs.map((x, i) => carry(carried, { x, y: ys[i] as number })),
    weights: weights.length === 0 ? null : weights,
  };
  const fault = splineFault(spline);
  if (fault !== null) return entityFault(curve, fault);
  if (!spline.controls.every(inReach)) return entityFault(curve, TOO_LARGE);
  return splinePath(spline, CURVE_DISTANCE, mostSides);
}

function valuesOf({ groups }: DxfGroups, code: number): readonly number[] {
  return groups.filter((group) => group[0] === code).map((group) => group[1]);
}

function numberOf({ groups }: DxfGroups, code: number): number | undefined {
  return groups.find((group) => group[0] === code)?.[1];
}

function pointOf(entity: DxfGroups, code: number): FinePoint {
  return { x: numberOf(entity, code) ?? 0, y: numberOf(entity, code + 10) ?? 0 };
}

function groupFacing(entity: DxfGroups): Facing {
  const [x = 0, y = 0, z = 1] = PLANE.map((code) => numberOf(entity, code));
  return { x, y, z };
}
