// Draws the piece small on its sticker: outline to scale, holes, banded edges thick, and the grain beside it.
// Idea: the figure keeps the way round of its file, so that left and bottom mean what they say there. An arrow of straight grain lies under or beside
//   the outline, where it crosses no opening; one at an angle lies over its middle.
// Source: our own.
// Cost: linear in the corners and holes.
// Degenerate cases: a figure of next to no width is drawn as a strip of a least width, no longer to scale across.

import { boxOfShape } from '../geometry/pose.ts';
import { toMm } from '../model/units.ts';
import { circle, type DrawnPoint, type Item, line, polygon, type Run } from './display-list.ts';
import { contourRun, drawnBox, drawnPoint, shapeRuns } from './outline.ts';
import type { Figure } from './stickers.ts';

/** A rectangle of the paper, in millimetres. */
export interface Room {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
}

/** Between the outline and the arrow, and what the arrow needs across. */
const ARROW_ROOM = 2.4;
const HEAD = { length: 1.5, half: 0.55 };
const MOST_ARROW = 9;
/** Half the weight of a band, which lies inside the outline. */
const BAND_INSET = 0.4;
const LEAST_HOLE = 0.2;
/** Thinner things are drawn so thick. */
const LEAST_ACROSS = 1.2;

export function drawFigure(figure: Figure, room: Room): readonly Item[] {
  const { grainDeg } = figure;
  const below = grainDeg === 0 ? ARROW_ROOM : 0;
  const beside = grainDeg === 90 ? ARROW_ROOM : 0;
  const fit = fitted(figure, {
    left: room.left,
    bottom: room.bottom + below,
    width: room.width - beside,
    height: room.height - below,
  });
  const { low, high } = fit;
  const middle = { x: (low.x + high.x) / 2, y: (low.y + high.y) / 2 };
  return [
    { kind: 'path', style: 'sticker-outline', runs: shapeRuns(figure.shape).map(fit.run) },
    ...figure.pockets.map(
      (contour): Item => ({
        kind: 'path',
        style: 'sticker-recess',
        runs: [fit.run(contourRun(contour))],
      }),
    ),
    ...drawHoles(figure, fit),
    ...drawBands(figure, fit),
    ...(grainDeg === null ? [] : arrow(grainDeg, arrowPlace(grainDeg, fit, middle))),
  ];
}

/** Where the figure comes to lie: in the middle of its room. */
interface Fit {
  readonly low: DrawnPoint;
  readonly high: DrawnPoint;
  readonly scale: number;
  readonly at: (point: DrawnPoint) => DrawnPoint;
  readonly run: (run: Run) => Run;
}

function fitted({ shape }: Figure, { left, bottom, width, height }: Room): Fit {
  const box = drawnBox(boxOfShape(shape));
  const own = { width: box.maxX - box.minX, height: box.maxY - box.minY };
  const scale = Math.min(width / own.width, height / own.height);
  const size = {
    width: Math.max(own.width * scale, LEAST_ACROSS),
    height: Math.max(own.height * scale, LEAST_ACROSS),
  };
  const stretch = { x: size.width / own.width, y: size.height / own.height };
  const low = { x: left + (width - size.width) / 2, y: bottom + (height - size.height) / 2 };
  const at = ({ x, y }: DrawnPoint) => ({
    x: low.x + (x - box.minX) * stretch.x,
    y: low.y + (y - box.minY) * stretch.y,
  });
  const isTrue = stretch.x === stretch.y;
  const run = ({ start, sides, closed }: Run): Run => ({
    start: at(start),
    closed,
    sides: sides.map(({ x, y, bend }) => ({
      ...at({ x, y }),
      bend: bend === null || !isTrue ? null : { ...bend, radius: bend.radius * scale },
    })),
  });
  return { low, high: { x: low.x + size.width, y: low.y + size.height }, scale, at, run };
}

function drawHoles({ holes }: Figure, { at, scale }: Fit): readonly Item[] {
  return holes.map((hole) => {
    const radius = Math.max(LEAST_HOLE, (toMm(hole.diameter) / 2) * scale);
    const style = hole.depth === null ? 'sticker-outline' : 'sticker-mark';
    return circle(style, at(drawnPoint(hole)), radius);
  });
}

function drawBands({ edgeBands }: Figure, { low, high }: Fit): readonly Item[] {
  const inset = Math.min(BAND_INSET, (high.x - low.x) / 4, (high.y - low.y) / 4);
  const edge = (thickness: number, from: DrawnPoint, to: DrawnPoint): readonly Item[] =>
    thickness === 0 ? [] : [line('sticker-band', from, to)];
  const [west, east] = [low.x + inset, high.x - inset];
  const [south, north] = [low.y + inset, high.y - inset];
  return [
    ...edge(edgeBands.left, { x: west, y: low.y }, { x: west, y: high.y }),
    ...edge(edgeBands.right, { x: east, y: low.y }, { x: east, y: high.y }),
    ...edge(edgeBands.bottom, { x: low.x, y: south }, { x: high.x, y: south }),
    ...edge(edgeBands.top, { x: low.x, y: north }, { x: high.x, y: north }),
  ];
}

interface ArrowPlace {
  readonly centre: DrawnPoint;
  readonly length: number;
}

function arrowPlace(grainDeg: number, { low, high }: Fit, middle: DrawnPoint): ArrowPlace {
  const [across, up] = [high.x - low.x, high.y - low.y];
  const off = ARROW_ROOM - HEAD.half - 0.2;
  const length = (side: number) => Math.max(3 * HEAD.length, Math.min(MOST_ARROW, side * 0.8));
  if (grainDeg === 0) return { centre: { x: middle.x, y: low.y - off }, length: length(across) };
  if (grainDeg === 90) return { centre: { x: high.x + off, y: middle.y }, length: length(up) };
  return { centre: middle, length: Math.min(MOST_ARROW, across * 0.6, up * 0.6) };
}

/** A line with a head at both ends, since grain has no forward. */
function arrow(deg: number, { centre, length }: ArrowPlace): readonly Item[] {
  const along = { x: Math.cos((deg * Math.PI) / 180), y: Math.sin((deg * Math.PI) / 180) };
  const at = (ahead: number, aside: number): DrawnPoint => ({
    x: centre.x + ahead * along.x - aside * along.y,
    y: centre.y + ahead * along.y + aside * along.x,
  });
  const half = length / 2;
  const head = (end: 1 | -1): Item =>
    polygon('sticker-mark', [
      at(end * half, 0),
      at(end * (half - HEAD.length), HEAD.half),
      at(end * (half - HEAD.length), -HEAD.half),
    ]);
  const shaft = half - HEAD.length / 2;
  return [line('sticker-grain', at(-shaft, 0), at(shaft, 0)), head(-1), head(1)];
}
