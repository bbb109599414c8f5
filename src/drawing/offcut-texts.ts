import { type Box, sameBox } from '../geometry/box.ts';
import type { Offcut } from '../model/costs.ts';
import { joinedLengths, keptNumber, lengthNumber } from '../model/format.ts';
import type { Job } from '../model/job.ts';

/** What its two lengths are written as. */
type Sizes = Pick<Job, 'machine' | 'unit'>;

/** "536.8 × 1200", without the unit. */
export function offcutNumbers(job: Sizes, { box }: Pick<Offcut, 'box'>): string {
  return offcutLengths(job, box).join(' × ');
}

/** "536.8 × 1200 mm", `23-1/4" × 12"`. */
export function offcutSize(job: Sizes, { box }: Pick<Offcut, 'box'>): string {
  return joinedLengths(offcutLengths(job, box), job.unit);
}

/** The size with the raw edges that it falls off with, without the unit; null where it has none. */
export function rawNumbers(job: Sizes, { box, panel }: Offcut): string | null {
  return sameBox(box, panel) ? null : offcutLengths(job, panel).join(' × ');
}

/** The same with its unit. */
export function rawSize(job: Sizes, { box, panel }: Offcut): string | null {
  return sameBox(box, panel) ? null : joinedLengths(offcutLengths(job, panel), job.unit);
}

/** Both lengths without their unit. What is promised of a leftover of a saw is never more than there is. */
export function offcutLengths(
  { machine, unit }: Sizes,
  { minX, minY, maxX, maxY }: Box,
): readonly string[] {
  const number = machine.kind === 'router' ? lengthNumber : keptNumber;
  return [number(maxX - minX, unit), number(maxY - minY, unit)];
}
