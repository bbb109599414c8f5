import { ringLength } from '../geometry/area.ts';
import { flattenShape } from '../geometry/flatten.ts';
import { type Contour, circle, type Region, type Ring, reverseContour } from '../geometry/shape.ts';
import type { Terrace } from '../geometry/terraces.ts';
import type { Part } from '../model/part.ts';
import { toMm } from '../model/units.ts';
import { CHORD_ERROR, floorsOf } from './floors.ts';

/** A through hole or a cut-out, in the coordinates of its part. */
export interface Opening {
  readonly kind: 'hole' | 'cut-out';
  /** Index of the hole or cut-out in its part. */
  readonly feature: number;
  /** Counter-clockwise. */
  readonly ring: Ring;
  /** Length of kerf that it opens. */
  readonly kerfMm: number;
}

/** A part as the air sees it: its outline, what goes through it, and where it is thinner. */
export interface OpenPart {
  readonly openings: readonly Opening[];
  readonly region: Region;
  readonly floors: readonly Terrace[];
}

/** Through holes first, then cut-outs. Holes that do not go through open nothing and leave a floor. */
export function openPart(part: Part): OpenPart {
  const holes = part.holes.flatMap(({ x, y, diameter, depth }, feature) =>
    depth === null ? [openingOf('hole', feature, circle({ x, y }, Math.round(diameter / 2)))] : [],
  );
  const cutOuts = part.shape.inner.map((inner, feature) =>
    openingOf('cut-out', feature, reverseContour(inner)),
  );
  const openings = [...holes, ...cutOuts];
  const region = {
    outer: ringOf(part.shape.outer),
    holes: openings.map(({ ring }) => ring.toReversed()),
  };
  return { openings, region, floors: floorsOf(part, region) };
}

function openingOf(kind: Opening['kind'], feature: number, contour: Contour): Opening {
  const ring = ringOf(contour);
  return { kind, feature, ring, kerfMm: toMm(ringLength(ring)) };
}

function ringOf(contour: Contour): Ring {
  return flattenShape({ outer: contour, inner: [] }, 'curve', CHORD_ERROR).outer;
}
