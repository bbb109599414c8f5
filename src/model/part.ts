import type { Contour, Shape } from '../geometry/shape.ts';
import type { Place } from './place.ts';

/** The direction of the grain, seen from the part: parallel to its own x axis, to its own y axis, or of no account. */
export type PartGrain = 'along' | 'across' | 'any';

/** `up`: the good face stays up, the piece is never mirrored; `either`: it may be. */
export type PartFace = 'up' | 'either';

/** A drilled hole in the part's own coordinates; `depth` null goes through. */
export interface Hole {
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
  readonly depth: number | null;
}

/** A recess in the face that lies up, in the part's own coordinates, counter-clockwise; it does not go through. */
export interface Pocket {
  readonly contour: Contour;
  readonly depth: number;
}

/** Of a rectangle. */
export const SIDES = ['left', 'right', 'bottom', 'top'] as const;
export type Side = (typeof SIDES)[number];

/** A value for each side. */
export type Sides = Readonly<Record<Side, number>>;

export const NO_SIDES: Sides = { left: 0, right: 0, bottom: 0, top: 0 };

/** A design that is cut one or more times. The members of a matched set are one part each, under one name. */
export interface Part {
  readonly index: number;
  readonly name: string;
  readonly material: number;
  readonly group: string | null;
  readonly note: string | null;
  readonly count: number;
  /** As cut, edge bands deducted and oversize added; the lower-left corner of its box is the origin. */
  readonly shape: Shape;
  /** Whether the outer contour is just its box: such a part needs no true-shape search. */
  readonly rectangular: boolean;
  /** Box of the part as cut. */
  readonly width: number;
  readonly height: number;
  /** Box of the finished part, with its edge bands and without oversize. */
  readonly finishedWidth: number;
  readonly finishedHeight: number;
  /** Thickness of the edge band on each side of a rectangular part. */
  readonly edgeBands: Sides;
  /** Sides of its box whose edges are seen later: no tab is put there while there is another place. */
  readonly showEdges: readonly Side[];
  readonly grain: PartGrain;
  readonly face: PartFace;
  /** In degrees counter-clockwise, ascending, counted on each sheet from where the grain is right there (`turnsOn`). */
  readonly turns: readonly number[];
  /** Whether smaller pieces may be cut from inside this part's cut-outs. */
  readonly nestInside: boolean;
  readonly holes: readonly Hole[];
  readonly pockets: readonly Pocket[];
  readonly place: Place;
}

/** A part that is cut to length from boards. */
export interface LengthPart {
  readonly index: number;
  readonly name: string;
  readonly material: number;
  readonly group: string | null;
  readonly note: string | null;
  readonly count: number;
  readonly length: number;
  readonly place: Place;
}

/** One physical copy of a part. `number` counts from 1 within the part's name. */
export interface Piece {
  readonly index: number;
  readonly part: number;
  readonly number: number;
  /** Index of the matched set it belongs to, and its place in it from 1; null for a piece on its own. */
  readonly set: number | null;
  readonly setOrder: number | null;
}

/**
 * Pieces that lie side by side in order, all with the same turn and face, one spacing apart, so that the figure runs through.
 * In the part's own coordinates the row runs along x to the right, or along y upwards, and starts at 0 across.
 */
export interface MatchedSet {
  readonly index: number;
  readonly name: string;
  readonly number: number;
  readonly axis: 'x' | 'y';
  readonly pieces: readonly number[];
}
