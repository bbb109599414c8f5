import { keptNumber, lengthNumber } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import type { Rack } from '../model/rack.ts';
import { toMm } from '../model/units.ts';
import { parseLength } from '../partsfile/lengths.ts';
import type { Line } from './change-rack.ts';
import { type PlanRecord, planMark } from './plan-record.ts';

/** What is common to all that is added at once. */
export interface Adding {
  readonly planSha256: string;
  readonly date: string | null;
}

/**
 * The leftovers of a plan that was cut, each with the next label. Sizes are told a little too small rather than too large, to a tenth of a millimetre or
 * a 64th of an inch; the thickness stays exact.
 */
export function linesOfPlan(
  { unit, nextNumber }: Rack,
  { job, left }: PlanRecord,
  { planSha256, date }: Adding,
): readonly Line[] {
  // What rounds to nothing is no offcut.
  const kept = left.filter(({ length, width }) =>
    [length, width].every((side) => Number.parseFloat(keptNumber(side, unit)) > 0),
  );
  return kept.map((offcut, i) => ({
    id: `R${nextNumber + i}`,
    material: offcut.material,
    thickness: exactLength(offcut.thickness, unit),
    size: `${keptNumber(offcut.length, unit)} x ${keptNumber(offcut.width, unit)}`,
    grain: offcut.grain,
    price: null,
    from: { job, sheet: offcut.sheet, plan: planMark(planSha256), date },
    note: null,
  }));
}

/** In the unit of the file where that is exact, else in millimetres, which always are. */
function exactLength(length: number, unit: FileUnit): string {
  const text = lengthNumber(length, unit);
  const read = parseLength(text, unit);
  return read.ok && read.length === length ? text : `${toMm(length)}mm`;
}
