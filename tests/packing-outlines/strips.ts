import { boxOf } from '../../src/geometry/box.ts';
import type { Job } from '../../src/model/job.ts';
import { toMm } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { turnsOf } from '../../src/partsfile/turns.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { polygon } from '../helpers/shapes.ts';

/** Corners in the file's units, in either sense. */
export type Outline = readonly (readonly [number, number])[];

/** A strip as its file has it: all items are to be laid within the width, as short as possible. */
export interface Strip {
  readonly name: string;
  readonly stripWidth: number;
  readonly items: readonly {
    readonly quantity: number;
    /** Null for any angle. */
    readonly allowedRotationsDegrees: readonly number[] | null;
    readonly outline: Outline;
  }[];
}

/** How a strip becomes a sheet: one unit of the file as `mm` millimetres; its length over the least that the items need, and the most it may be. */
export interface StripSheet {
  readonly mm: number;
  readonly lengths: number;
  readonly longestMm: number;
}

/** Whether a parsed file holds one strip. */
export function isStrip(value: unknown): value is Strip {
  return typeof value === 'object' && value !== null && 'stripWidth' in value && 'items' in value;
}

/** The strip as a job with one long sheet; any angle is what a parts file means by it. */
export function stripJob(strip: Strip, { mm, lengths, longestMm }: StripSheet): Job {
  const parts = strip.items.map(({ quantity, allowedRotationsDegrees, outline }) =>
    partOf(polygon(...normalised(outline, mm)), {
      count: quantity,
      turns: allowedRotationsDegrees ?? turnsOf('any'),
    }),
  );
  const length = Math.min(longestMm, (lengths * areaOf(strip) * mm) / strip.stripWidth);
  return jobOf({ spacing: 0, sheets: [sheetOf(length, strip.stripWidth * mm)], parts });
}

/** The strip as a task, with two and a half times the length that its items need. */
export function stripTask(strip: Strip): PackingTask {
  return packingTask(stripJob(strip, { mm: 1, lengths: 2.5, longestMm: Infinity }), 0);
}

/** The share of the used length of the strip that the items fill, in percent. */
export function densityOf(strip: Strip, task: PackingTask, { sheets }: Candidate): number {
  const ends = (sheets[0]?.spots ?? []).map(
    ({ body, orientation, x }) => x + (task.bodies[body]?.orientations[orientation]?.width ?? 0),
  );
  return (100 * areaOf(strip)) / (strip.stripWidth * toMm(Math.max(...ends)));
}

/** Total area of the items, in the file's units squared. */
function areaOf(strip: Strip): number {
  return strip.items.reduce(
    (sum, { quantity, outline }) => sum + quantity * Math.abs(signedArea(outline)),
    0,
  );
}

function signedArea(outline: Outline): number {
  return outline.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length] ?? [0, 0];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

/** Counter-clockwise, with the lower-left corner of the box at the origin, in mm. */
export function normalised(outline: Outline, mm = 1): (readonly [number, number])[] {
  const { minX, minY } = boxOf(outline.map(([x, y]) => ({ x, y })));
  const moved = outline.map(([x, y]) => [(x - minX) * mm, (y - minY) * mm] as const);
  return signedArea(outline) > 0 ? moved : moved.reverse();
}
