import type { Box } from '../../src/geometry/box.ts';
import type { Point } from '../../src/geometry/point.ts';
import { type Pose, placeShape } from '../../src/geometry/pose.ts';
import type { Contour } from '../../src/geometry/shape.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { MatchedSet, Part, Piece } from '../../src/model/part.ts';
import type { SheetStock } from '../../src/model/stock.ts';
import { changeJob, changeTurns, mirrorSheet, turnSheet } from '../helpers/symmetry.ts';

/**
 * The same job for somebody who looks at sheets and parts after a quarter turn. What ran upwards in a matched set then runs to the left.
 * The members of a set must be equal across the row, because a row cannot be said to run upwards and stand level at its right.
 */
export function turnJob(job: RouterJob): RouterJob {
  const turned = changeJob(job, turnSheet, turnPart);
  const sets = job.sets.map(
    (set): MatchedSet =>
      set.axis === 'x'
        ? { ...set, axis: 'y' }
        : { ...set, axis: 'x', pieces: set.pieces.toReversed() },
  );
  return { ...turned, sets, pieces: job.pieces.map((piece) => reordered(piece, sets)) };
}

/** The same job for somebody who looks at sheets and parts from below. Rows of matched sets then run the other way round. */
export function mirrorJob(job: RouterJob): RouterJob {
  const mirrored = changeJob(job, mirrorSheet, (part) => ({
    ...part,
    shape: placeShape(part.shape, { x: part.width, y: 0, turn: 0, mirrored: true }),
    // Where the start is a quarter turn, its mirror image is three quarters: the box is the same, the outline stands on its head.
    turns: changeTurns(part.turns, (t) => 360 - t),
  }));
  const sets = job.sets.map((set) =>
    set.axis === 'x' ? { ...set, pieces: set.pieces.toReversed() } : set,
  );
  return { ...mirrored, sets, pieces: job.pieces.map((piece) => reordered(piece, sets)) };
}

/** Everything twice as long and as wide; the spacing too. */
export function doubleJob(job: RouterJob): RouterJob {
  const doubled = changeJob(job, doubleSheet, doublePart);
  return { ...doubled, machine: { ...job.machine, spacing: 2 * job.machine.spacing } };
}

function turnPart(part: Part): Part {
  const pose: Pose = { x: part.height, y: 0, turn: 90, mirrored: false };
  const grains = { along: 'across', across: 'along', any: 'any' } as const;
  return {
    ...part,
    shape: placeShape(part.shape, pose),
    width: part.height,
    height: part.width,
    grain: grains[part.grain],
  };
}

function reordered(piece: Piece, sets: readonly MatchedSet[]): Piece {
  const set = piece.set === null ? undefined : sets[piece.set];
  return set ? { ...piece, setOrder: set.pieces.indexOf(piece.index) + 1 } : piece;
}

function doubleSheet(stock: SheetStock): SheetStock {
  const { left, right, bottom, top } = stock.trim;
  return {
    ...stock,
    length: 2 * stock.length,
    width: 2 * stock.width,
    boundary: stock.boundary?.map(({ x, y }) => ({ x: 2 * x, y: 2 * y })) ?? null,
    trim: { left: 2 * left, right: 2 * right, bottom: 2 * bottom, top: 2 * top },
    keepOuts: stock.keepOuts.map((keepOut) => ({ ...keepOut, box: doubleBox(keepOut.box) })),
  };
}

function doublePart(part: Part): Part {
  const { outer, inner } = part.shape;
  return {
    ...part,
    shape: { outer: doubleContour(outer), inner: inner.map(doubleContour) },
    width: 2 * part.width,
    height: 2 * part.height,
  };
}

function doubleContour(contour: Contour): Contour {
  return contour.map((v) => ({ ...doublePoint(v), via: v.via && doublePoint(v.via) }));
}

function doublePoint({ x, y }: Point): Point {
  return { x: 2 * x, y: 2 * y };
}

function doubleBox({ minX, minY, maxX, maxY }: Box): Box {
  return { minX: 2 * minX, minY: 2 * minY, maxX: 2 * maxX, maxY: 2 * maxY };
}
