import { calibrate } from './holding/calibrate.ts';
import { impossibleReadings } from './holding/calibrate-check.ts';
import type { Calibration, TableReadings } from './model/readings.ts';
import { type ResourceLimits, USUAL_LIMITS } from './model/resource-limits.ts';
import type { Problem } from './partsfile/problem.ts';
import { readReadingsFile } from './partsfile/readings.ts';

/** What was read and what it says of the table, or the problems of the file. */
export type GaugeResult =
  | {
      readonly readings: TableReadings;
      readonly calibration: Calibration;
      readonly problems: readonly Problem[];
    }
  | { readonly readings: null; readonly calibration: null; readonly problems: readonly Problem[] };

/** The figures of a table from the text of a readings file. Readings that no table can give are problems of the file. */
export function gaugeTable(text: string, limits: ResourceLimits = USUAL_LIMITS): GaugeResult {
  const { readings, problems, spotOf } = readReadingsFile(text, limits);
  if (readings === null) return { readings, calibration: null, problems };
  const faults = impossibleReadings(readings);
  if (faults.length === 0) return { readings, calibration: calibrate(readings), problems };
  const found = faults.map(({ reading, key, message, hint }): Problem => {
    const spot = spotOf(reading, key);
    return { severity: 'error', code: 'impossible-reading', ...spot, message, hint };
  });
  return { readings: null, calibration: null, problems: [...problems, ...found] };
}
