import type { Contour } from '../../src/geometry/shape.ts';
import type { Job } from '../../src/model/job.ts';
import type { Hole, Part } from '../../src/model/part.ts';
import type { BoardStock, SheetStock } from '../../src/model/stock.ts';
import { MAX_BOARD_LENGTH, MAX_SHAPE_SPAN, MAX_SHEET_SPAN } from '../../src/model/units.ts';

const MOST_PIECES = 10_000;

/** What of a job is not as every stage takes it for granted. */
export function jobFaults(job: Job): string[] {
  const faults = new Faults();
  faults.finite(job, 'job');
  for (const material of job.materials) {
    faults.length(material.thickness, 1, MAX_SHEET_SPAN, `thickness of ${material.id}`);
    for (const stock of material.sheets) sheetFaults(stock, faults);
    for (const stock of material.boards) boardFaults(stock, faults);
  }
  for (const part of job.parts) partFaults(part, job, faults);
  for (const part of job.lengthParts) {
    faults.length(part.length, 1, MAX_BOARD_LENGTH, `length of ${part.name}`);
    faults.length(part.count, 1, MOST_PIECES, `count of ${part.name}`);
    faults.index(part.material, job.materials, `material of ${part.name}`);
  }
  const counts = job.parts.reduce((sum, { count }) => sum + count, 0);
  if (job.pieces.length !== counts) faults.add(`${job.pieces.length} pieces of ${counts}`);
  if (MOST_PIECES < job.pieces.length) faults.add(`${job.pieces.length} pieces`);
  job.pieces.forEach(({ index, part, set }, i) => {
    if (index !== i) faults.add(`piece ${i} has the index ${index}`);
    faults.index(part, job.parts, `part of piece ${i}`);
    if (set !== null) faults.index(set, job.sets, `set of piece ${i}`);
  });
  const { machine } = job;
  faults.length(machine.spacing, 0, MAX_SHEET_SPAN, 'spacing');
  if (machine.kind === 'router') {
    faults.length(machine.cutter.diameter, 1, MAX_SHEET_SPAN, 'cutter');
    for (const value of [machine.spindleRpm, machine.feedMmPerMin, machine.passDepth])
      if (!(0 < value)) faults.add(`a router with ${value}`);
  }
  return faults.list;
}

/** Collects what is wrong. */
class Faults {
  readonly list: string[] = [];

  add(what: string): void {
    if (this.list.length < 10) this.list.push(what);
  }

  length(value: number, least: number, most: number, what: string): void {
    if (!Number.isInteger(value) || value < least || most < value) this.add(`${what}: ${value}`);
  }

  index(value: number, list: readonly unknown[], what: string): void {
    if (list[value] === undefined) this.add(`${what}: ${value}`);
  }

  /** No number in it, however deep, is NaN or without end. */
  finite(value: unknown, where: string): void {
    if (typeof value === 'number') {
      if (!Number.isFinite(value)) this.add(`${where} is ${value}`);
    } else if (typeof value === 'function' || value === undefined)
      this.add(`${where} is ${typeof value}`);
    else if (typeof value === 'object' && value !== null)
      for (const [key, each] of Object.entries(value)) this.finite(each, `${where}.${key}`);
  }
}

function sheetFaults(stock: SheetStock, faults: Faults): void {
  const { length, width, trim, name } = stock;
  faults.length(length, 1, MAX_SHEET_SPAN, `length of ${name}`);
  faults.length(width, 1, MAX_SHEET_SPAN, `width of ${name}`);
  for (const side of Object.values(trim)) faults.length(side, 0, MAX_SHEET_SPAN, `trim of ${name}`);
  if (length <= trim.left + trim.right || width <= trim.top + trim.bottom)
    faults.add(`${name} is all trim`);
  for (const { box } of stock.keepOuts)
    if (!Object.values(box).every(Number.isInteger) || box.maxX <= box.minX || box.maxY <= box.minY)
      faults.add(`a keep-out of ${name} has no size`);
  for (const { x, y } of stock.boundary ?? []) {
    faults.length(x, 0, length, `a corner of ${name}`);
    faults.length(y, 0, width, `a corner of ${name}`);
  }
  if (stock.onHand !== null) faults.length(stock.onHand, 0, 100_000, `on hand of ${name}`);
  if (stock.priceCents !== null) faults.length(stock.priceCents, 0, 1e10, `price of ${name}`);
  faults.length(stock.pack, 1, 1000, `pack of ${name}`);
}

function boardFaults(
  { length, endTrim, defects, name, priceCents }: BoardStock,
  faults: Faults,
): void {
  faults.length(length, 1, MAX_BOARD_LENGTH, `length of ${name}`);
  faults.length(endTrim, 0, length, `trim of ${name}`);
  if (length <= 2 * endTrim) faults.add(`${name} is all trim`);
  for (const { from, to } of defects) {
    faults.length(from, 0, length, `defect of ${name}`);
    faults.length(to, from + 1, length, `defect of ${name}`);
  }
  if (priceCents !== null) faults.length(priceCents, 0, 1e10, `price of ${name}`);
}

function partFaults(part: Part, job: Job, faults: Faults): void {
  const { name, width, height, shape, holes, turns } = part;
  const most = part.rectangular ? MAX_SHEET_SPAN : MAX_SHAPE_SPAN;
  faults.length(width, 1, most, `width of ${name}`);
  faults.length(height, 1, most, `height of ${name}`);
  faults.length(part.count, 1, MOST_PIECES, `count of ${name}`);
  faults.index(part.material, job.materials, `material of ${name}`);
  if (turns.length === 0 || !turns.every((turn) => 0 <= turn && turn < 360))
    faults.add(`turns of ${name}`);
  contourFaults(shape.outer, { x: 0, y: 0, width, height }, name, faults);
  for (const inner of shape.inner)
    contourFaults(inner, { x: 0, y: 0, width, height }, name, faults);
  for (const hole of holes) holeFaults(hole, part, faults);
}

interface Room {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Corners on the grid and inside the box of the part. An arc may bulge beyond its three points, but by no more than it could with the box as its size. */
function contourFaults(
  contour: Contour,
  { width, height }: Room,
  name: string,
  faults: Faults,
): void {
  if (contour.length < 2) faults.add(`an outline of ${name} has ${contour.length} corners`);
  for (const { x, y, via } of contour)
    for (const point of via === null ? [{ x, y }] : [{ x, y }, via]) {
      faults.length(point.x, 0, width, `a corner of ${name}`);
      faults.length(point.y, 0, height, `a corner of ${name}`);
    }
}

function holeFaults({ x, y, diameter, depth }: Hole, part: Part, faults: Faults): void {
  faults.length(diameter, 1, MAX_SHEET_SPAN, `hole of ${part.name}`);
  if (!Number.isInteger(x) || !Number.isInteger(y))
    faults.add(`hole of ${part.name} at ${x}, ${y}`);
  if (depth !== null) faults.length(depth, 1, MAX_SHEET_SPAN, `hole of ${part.name}`);
}
