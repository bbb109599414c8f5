import { ringArea } from '../geometry/area.ts';
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { pointInRing } from '../geometry/inside.ts';
import type { Contour, Ring, Shape } from '../geometry/shape.ts';
import { firstCrossing, ringsCross } from '../geometry/simple.ts';
import type { Pocket } from '../model/part.ts';
import { readOpening } from './cut-outs.ts';
import { isFlat, turned } from './drawn-shape.ts';
import { showLength } from './lengths.ts';
import type { Outline } from './outlines.ts';
import { child, type Field, isFlawed, itemsOf, keySpot, textOf } from './tree.ts';
import { POSITIVE, type Reading, readLength } from './values.ts';

/** A recess with the place it was read from. */
export interface PlacedPocket {
  readonly field: Field;
  readonly pocket: Pocket;
}

/** The pockets of a part, in its own coordinates; those with a problem are left out. `thickness` null is not known. */
export function readPockets(
  part: Field,
  outline: Outline,
  thickness: number | null,
  reading: Reading,
): readonly PlacedPocket[] {
  const field = child(part, 'pockets');
  if (field === null || isFlawed(field)) return [];
  const face = child(part, 'face');
  if (face !== null && textOf(face) === 'either') {
    const message = 'mirrored, the part would have its pockets in the other face';
    reading.report.error(keySpot(part, 'face'), 'misplaced-key', message, 'write face: up');
  }
  return itemsOf(field).flatMap((item) => {
    const contour = readOpening(item, outline, { ...reading, what: 'pocket' });
    const depth = readDepth(child(item, 'depth'), thickness, reading);
    if (contour === null || depth === null) return [];
    return [{ field: item, pocket: { contour: withoutBands(contour, outline), depth } }];
  });
}

/** A groove across the finished part ends where the blank does, since the edge bands come on it afterwards. Other shapes than upright ones stay. */
function withoutBands(contour: Contour, outline: Outline): Contour {
  const { edgeBands, width, height, finishedWidth, finishedHeight, shift } = outline;
  const isUpright = contour.every(({ x, y, via }, i) => {
    const next = contour[(i + 1) % contour.length];
    return via === null && (x === next?.x || y === next?.y);
  });
  if (!isUpright) return contour;
  const { left, right, bottom, top } = edgeBands;
  const [west, south] = [left > 0 ? shift.x : 0, bottom > 0 ? shift.y : 0];
  const east = right > 0 ? shift.x + finishedWidth : width;
  const north = top > 0 ? shift.y + finishedHeight : height;
  return contour.map((vertex) => ({
    ...vertex,
    x: onBlank(vertex.x, west, width, east),
    y: onBlank(vertex.y, south, height, north),
  }));
}

/** A coordinate in a band, below 0 or beyond `span`, is moved to the edge of the blank. */
function onBlank(value: number, least: number, span: number, most: number): number {
  if (value < least || most < value) return value;
  return Math.max(0, Math.min(span, value));
}

function readDepth(field: Field | null, thickness: number | null, reading: Reading): number | null {
  const depth = field === null ? null : readLength(field, reading, POSITIVE);
  if (field === null || depth === null) return null;
  if (thickness === null || depth < thickness) return depth;
  const { unit, report } = reading;
  const message = `a pocket of depth ${showLength(depth, unit)} in stock of ${showLength(thickness, unit)}`;
  report.error(field, 'hole-too-deep', message, 'what goes through belongs under cut-outs');
  return null;
}

/**
 * The pockets, counter-clockwise, of a sound body; null after a problem. They lie in the outline but may run up to it, as a groove does, across one another
 * and across cut-outs, as the rebate of a window does, and holes may lie in them. Curves are looked at as polygons, as those of the body are.
 */
export function soundPockets(
  pockets: readonly PlacedPocket[],
  body: Shape,
  nestInside: boolean,
  reading: Reading,
): readonly Pocket[] | null {
  const outer = ringOf(body.outer);
  const inner = body.inner.map(ringOf);
  const sound = pockets.flatMap(({ field, pocket }) => {
    const ring = ringOf(pocket.contour);
    const fault = faultOf(ring, outer, inner) ?? (nestInside ? nestFault(ring, inner) : null);
    if (fault === null) return [{ ...pocket, contour: turned(pocket.contour, ringArea(ring), 1) }];
    reading.report.error(field, ...fault);
    return [];
  });
  return sound.length === pockets.length ? sound : null;
}

function ringOf(contour: Contour): Ring {
  return contour.length < 2 ? [] : flattenContour(contour, 'curve', DRAWING_CHORD_ERROR);
}

type Fault = readonly ['self-crossing' | 'no-area' | 'cut-out-outside' | 'overlap', string, string];

function faultOf(ring: Ring, outer: Ring, cutOuts: readonly Ring[]): Fault | null {
  if (!isFlat(ring) && firstCrossing(ring) !== null) {
    const hint = 'draw one line round it that meets nothing';
    return ['self-crossing', 'the pocket crosses or touches itself', hint];
  }
  if (ringArea(ring) === 0)
    return ['no-area', 'the pocket has no area', 'are three corners in one line?'];
  if (!liesIn(ring, outer))
    return ['cut-out-outside', 'the pocket leaves the part', 'it may run up to the edge'];
  if (cutOuts.some((other) => liesIn(ring, other)))
    return ['overlap', 'the pocket lies in a cut-out, where no wood is', 'leave one of them out'];
  return null;
}

/** What was cut from inside a cut-out lies there loose when the part around it is worked on. */
function nestFault(ring: Ring, cutOuts: readonly Ring[]): Fault | null {
  const reaches = (other: Ring): boolean =>
    ringsCross(ring, other) || other.every((p) => pointInRing(p, ring) >= 0);
  if (!cutOuts.some(reaches)) return null;
  const message = 'the pocket reaches into a cut-out, where smaller pieces may lie';
  return ['overlap', message, 'leave nest-inside out, or keep the pocket clear of the cut-outs'];
}

/** Touching is inside. */
function liesIn(ring: Ring, outer: Ring): boolean {
  return (
    !ringsCross(ring, outer) &&
    ring.every((p) => pointInRing(p, outer) >= 0) &&
    outer.every((p) => pointInRing(p, ring) < 1)
  );
}
