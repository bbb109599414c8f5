import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import type Polygon from 'jsts/org/locationtech/jts/geom/Polygon.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import SnapIfNeededOverlayOp from 'jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js';
import IsValidOp from 'jsts/org/locationtech/jts/operation/valid/IsValidOp.js';

type MmRing = readonly (readonly [number, number])[];

/** A piece as plan.json has it, in mm from the lower-left corner of its sheet; rings are not closed. */
export interface PlacedOutline {
  readonly outline: MmRing;
  /** Those that other pieces may lie in. */
  readonly cutOuts: readonly MmRing[];
}

/** One sheet of a plan in mm. */
export interface PlacedSheet {
  readonly length: number;
  readonly width: number;
  readonly trim: {
    readonly left: number;
    readonly right: number;
    readonly bottom: number;
    readonly top: number;
  };
  /** The edge of the sheet, where it is known; the trim of an odd-shaped one is alike on all sides. */
  readonly boundary?: MmRing | null;
  /** Lower-left corner and size of each. */
  readonly keepOuts: readonly {
    readonly x: number;
    readonly y: number;
    readonly length: number;
    readonly width: number;
  }[];
  readonly placements: readonly PlacedOutline[];
}

const MOST_OVERLAP_MM2 = 0.001;
const SLACK_MM = 0.0005;

/**
 * Everything wrong with a sheet as an independent geometry library sees the outlines, one sentence each; empty where all is well.
 * Outlines are polygons already, so lengths are compared with half a micrometre of slack.
 */
export function complaintsAbout(sheet: PlacedSheet, spacing: number): string[] {
  const pieces = sheet.placements.map(({ outline, cutOuts }) => polygonOf(outline, cutOuts));
  const keepOuts = sheet.keepOuts.map(({ x, y, length, width }) =>
    polygonOf(
      [
        [x, y],
        [x + length, y],
        [x + length, y + width],
        [x, y + width],
      ],
      [],
    ),
  );
  const found: string[] = [];
  pieces.forEach((piece, i) => {
    if (!new IsValidOp(piece).isValid()) found.push(`piece ${i} is no valid polygon`);
    if (reachesOver(piece, sheet)) found.push(`piece ${i} reaches over the trimmed edge`);
    keepOuts.forEach((keepOut, k) => {
      found.push(
        ...pairComplaints(piece, keepOut, spacing).map(
          (what) => `piece ${i} and keep-out ${k}: ${what}`,
        ),
      );
    });
    for (let j = i + 1; j < pieces.length; j++) {
      const other = pieces[j] as Polygon;
      found.push(
        ...pairComplaints(piece, other, spacing).map((what) => `pieces ${i} and ${j}: ${what}`),
      );
    }
  });
  return found;
}

/** Millimetres between two pieces; 0 where they touch or overlap. */
export function distanceBetween(a: PlacedOutline, b: PlacedOutline): number {
  return DistanceOp.distance(polygonOf(a.outline, a.cutOuts), polygonOf(b.outline, b.cutOuts));
}

const factory = new GeometryFactory();

function polygonOf(outline: MmRing, cutOuts: readonly MmRing[]): Polygon {
  return factory.createPolygon(ringOf(outline), cutOuts.map(ringOf));
}

function ringOf(points: MmRing) {
  return factory.createLinearRing(closed(points));
}

function closed(points: MmRing): Coordinate[] {
  return [...points, ...points.slice(0, 1)].map(([x, y]) => new Coordinate(x, y));
}

function reachesOver(piece: Polygon, sheet: PlacedSheet): boolean {
  const { length, width, trim, boundary = null } = sheet;
  const whole = boundary === null ? null : polygonOf(boundary, []);
  if (boundary !== null && whole !== null && whole.getArea() < length * width - 1e-6) {
    const over = SnapIfNeededOverlayOp.overlayOp(piece, whole, OverlayOp.DIFFERENCE);
    const edge = factory.createLineString(closed(boundary));
    return (
      over.getArea() > MOST_OVERLAP_MM2 ||
      DistanceOp.distance(piece.getExteriorRing(), edge) < trim.left - SLACK_MM
    );
  }
  const box = piece.getEnvelopeInternal();
  return (
    box.getMinX() < trim.left - SLACK_MM ||
    box.getMinY() < trim.bottom - SLACK_MM ||
    box.getMaxX() > length - trim.right + SLACK_MM ||
    box.getMaxY() > width - trim.top + SLACK_MM
  );
}

function pairComplaints(a: Polygon, b: Polygon, spacing: number): string[] {
  if (a.getEnvelopeInternal().distance(b.getEnvelopeInternal()) > spacing) return [];
  const found: string[] = [];
  const overlap = SnapIfNeededOverlayOp.overlayOp(a, b, OverlayOp.INTERSECTION);
  const overlapMm2: number = overlap.getArea();
  if (overlapMm2 > MOST_OVERLAP_MM2) found.push(`overlap by ${overlapMm2} mm2`);
  const distance: number = DistanceOp.distance(a, b);
  if (distance < spacing - SLACK_MM) found.push(`lie ${distance} mm apart instead of ${spacing}`);
  return found;
}
