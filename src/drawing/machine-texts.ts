// What is written on a sheet for the person at the machine: numbers in the cutting order, names, grain. Nothing is cut by it.
// Idea: of the free rectangles of a piece the one is taken in which the rows get largest, lying or standing.
// Source: the free rectangles of `free-rectangles.ts`; a letter of the plain font of drawing programs is taken as 0.9 of its height wide.
// Cost: that of the free rectangles.
// Degenerate cases: where there is no free rectangle the rows lie on the middle of the piece, in the least size.
import { type Box, boxContains, boxesOverlap, boxOf, growBox } from '../geometry/box.ts';
import { placePoint } from '../geometry/pose.ts';
import { cutWidth } from '../model/machine.ts';
import type { LayerClass } from '../model/machine-layers.ts';
import { freeRectangles } from './free-rectangles.ts';
import { type Classed, lineShape, type MachineShape } from './machine-shapes.ts';
import { type Frame, frameAt } from './marks.ts';
import { drawnBox, middleOf } from './outline.ts';
import { cutLine } from './saw-marks.ts';
import type { LaidPiece, SheetView } from './sheet-view.ts';

export function machineTexts(view: SheetView): readonly Classed[] {
  return [
    ...view.pieces.flatMap((laid) => pieceTexts(view, laid)),
    ...view.waste.flatMap(({ holding, outline }) => {
      const own = boxOf(outline);
      const within = view.pieces.map(({ box }) => box).filter((box) => boxContains(own, box));
      const free = freeRectangles({ outer: outline, holes: [] }, within);
      return write(free, own, [numberRow(holding.cutOrder)]);
    }),
    ...sawNumbers(view),
  ];
}

/** One thing under another; lengths for letters of the height 1. */
interface Row {
  readonly class: LayerClass;
  /** Size along and across the rows, lying and standing. */
  readonly size: Readonly<Record<0 | 90, readonly [number, number]>>;
  /** With its middle at this height of the frame. */
  readonly draw: (frame: Frame, y: number) => readonly MachineShape[];
}

const LETTER_WIDTH = 0.9;
const NUMBER_SIZE = 1.6;
const ROW_GAP = 0.6;
const ARROW = { length: 4, head: 0.6 };
/** Share of a free rectangle that the rows may take, and their height in millimetres. */
const FILL = 0.85;
const LARGEST = 10;
const LEAST = 0.5;

function pieceTexts(view: SheetView, laid: LaidPiece): readonly Classed[] {
  const { holding, part, placement, region, box, name, count } = laid;
  const grain = view.stock.grainAxis;
  const holes = part.holes.map((hole) => {
    const centre = placePoint(hole, placement);
    return growBox(boxOf([centre]), hole.diameter / 2);
  });
  return write(freeRectangles(region, holes), box, [
    ...(holding === null ? [] : [numberRow(holding.cutOrder)]),
    textRow('label', count === '1/1' ? name : `${name} ${count}`, 1),
    ...(grain === null ? [] : [grainRow(grain)]),
  ]);
}

function numberRow(order: number): Row {
  return textRow('order', `${order}`, NUMBER_SIZE);
}

function textRow(own: LayerClass, text: string, height: number): Row {
  const size = [[...text].length * LETTER_WIDTH * height, height] as const;
  return {
    class: own,
    size: { 0: size, 90: size },
    draw: (frame, y) => [
      { kind: 'text', at: frame.at(0, y), text, height: height * frame.unit, turn: frame.turn },
    ],
  };
}

/** A line with a head at both ends, since grain has no forward. */
function grainRow(axis: 'x' | 'y'): Row {
  const { length, head } = ARROW;
  const [lying, standing] = [
    [length, head],
    [head, length],
  ] as const;
  return {
    class: 'grain',
    size: axis === 'x' ? { 0: lying, 90: standing } : { 0: standing, 90: lying },
    draw: (frame, y) => {
      const isAlong = (axis === 'x') === (frame.turn === 0);
      const at = (on: number, off: number) =>
        isAlong ? frame.at(on, y + off) : frame.at(off, y + on);
      const half = length / 2;
      const heads = [-1, 1].flatMap((end) =>
        [-1, 1].map((side) =>
          lineShape(at(end * half, 0), at(end * (half - head), (side * head) / 2)),
        ),
      );
      return [lineShape(at(-half, 0), at(half, 0)), ...heads];
    },
  };
}

/** The rows one under another in the best of the free rectangles, which are in base lengths as `box` is. */
function write(free: readonly Box[], box: Box, rows: readonly Row[]): readonly Classed[] {
  let best = { unit: LEAST, turn: 0 as 0 | 90, middle: middleOf(drawnBox(box)) };
  for (const room of free.map(drawnBox)) {
    for (const turn of [0, 90] as const) {
      const unit = unitIn(room, turn, rows);
      if (unit > best.unit) best = { unit, turn, middle: middleOf(room) };
    }
  }
  const frame = frameAt(best.middle, best.unit, best.turn);
  let y = heightOf(rows, best.turn) / 2;
  return rows.flatMap((row) => {
    const own = row.size[best.turn][1];
    const shapes = row.draw(frame, y - own / 2);
    y -= own + ROW_GAP;
    return shapes.map((shape): Classed => ({ class: row.class, shape }));
  });
}

/** How high a letter of the height 1 gets in this room. */
function unitIn({ minX, minY, maxX, maxY }: Box, turn: 0 | 90, rows: readonly Row[]): number {
  const [along, across] = turn === 0 ? [maxX - minX, maxY - minY] : [maxY - minY, maxX - minX];
  const width = Math.max(...rows.map(({ size }) => size[turn][0]));
  return Math.min(LARGEST, (FILL * along) / width, (FILL * across) / heightOf(rows, turn));
}

function heightOf(rows: readonly Row[], turn: 0 | 90): number {
  return rows.reduce((sum, { size }) => sum + size[turn][1] + ROW_GAP, -ROW_GAP);
}

/** Each beside the start of its cut, to be read along it; further on where another number stands already. */
function sawNumbers({ sawing, job }: SheetView): readonly Classed[] {
  const taken: Box[] = [];
  return (sawing?.steps ?? []).map((step) => {
    const { from } = cutLine(step, cutWidth(job.machine));
    const text = `${step.number}`;
    const half = ([...text].length * LETTER_WIDTH) / 2;
    const { turn, at } = frameAt(from, SAW_NUMBER, step.axis === 'along' ? 0 : 90);
    // Above its cut, or left of it; right of it at the left edge of the sheet.
    const off = turn === 90 && from.x < 2 * SAW_NUMBER ? -1 : 1;
    const boxAt = (on: number) => boxOf([at(on - half, off - 0.5), at(on + half, off + 0.5)]);
    let on = 1 + half;
    while (taken.some((box) => boxesOverlap(box, boxAt(on)))) on += 1;
    taken.push(boxAt(on));
    const shape = { kind: 'text', at: at(on, off), text, height: SAW_NUMBER, turn } as const;
    return { class: 'order', shape };
  });
}

/** In millimetres. */
const SAW_NUMBER = 8;
