import { boxOf } from '../../src/geometry/box.ts';
import { toMm } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { polygon } from '../helpers/shapes.ts';

/** A strip as its file has it: all items are to be laid within the width, as short as possible. */
export interface Strip {
  readonly name: string;
  readonly stripWidth: number;
  readonly items: readonly {
    readonly quantity: number;
    /** Null for any angle. */
    readonly allowedRotationsDegrees: readonly number[] | null;
    readonly outline: readonly (readonly [number, number])[];
  }[];
}

/** Whether a parsed file holds one strip. */
export function isStrip(value: unknown): value is Strip {
  return typeof value === 'object' && value !== null && 'stripWidth' in value && 'items' in value;
}

/** The strip as a task with one long sheet, one unit of the file taken as `mm` millimetres; any angle becomes quarter turns. */
export function stripTask(strip: Strip, mm = 1): PackingTask {
  const parts = strip.items.map(({ quantity, allowedRotationsDegrees, outline }) =>
    partOf(polygon(...normalised(outline, mm)), {
      count: quantity,
      turns: allowedRotationsDegrees ?? [0, 90, 180, 270],
    }),
  );
  const longest = (2.5 * areaOf(strip) * mm) / strip.stripWidth;
  const job = jobOf({ spacing: 0, sheets: [sheetOf(longest, strip.stripWidth * mm)], parts });
  return packingTask(job, 0);
}

/** The share of the used length of the strip that the items fill, in percent. */
export function densityOf(strip: Strip, task: PackingTask, { sheets }: Candidate, mm = 1): number {
  const ends = (sheets[0]?.spots ?? []).map(
    ({ body, orientation, x }) => x + (task.bodies[body]?.orientations[orientation]?.width ?? 0),
  );
  return (100 * areaOf(strip) * mm) / (strip.stripWidth * toMm(Math.max(...ends)));
}

/** Total area of the items, in the file's units squared. */
function areaOf(strip: Strip): number {
  return strip.items.reduce(
    (sum, { quantity, outline }) => sum + quantity * Math.abs(signedArea(outline)),
    0,
  );
}

function signedArea(outline: readonly (readonly [number, number])[]): number {
  return outline.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length] ?? [0, 0];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

/** Counter-clockwise, with the lower-left corner of the box at the origin. */
function normalised(
  outline: readonly (readonly [number, number])[],
  mm: number,
): (readonly [number, number])[] {
  const { minX, minY } = boxOf(outline.map(([x, y]) => ({ x, y })));
  const moved = outline.map(([x, y]) => [(x - minX) * mm, (y - minY) * mm] as const);
  return signedArea(outline) > 0 ? moved : moved.reverse();
}
