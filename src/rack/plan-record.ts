import { z } from 'zod';
import type { FileUnit } from '../model/job.ts';
import { ID_PATTERN } from '../model/rack.ts';
import { fromMm, MAX_SHEET_SPAN } from '../model/units.ts';
import { Report } from '../partsfile/report.ts';
import { acceptName, plainName } from '../partsfile/values.ts';
import { jsonOf, pathText } from '../record/json.ts';

/** What of a plan's record matters to the rack; lengths in base lengths. */
export interface PlanRecord {
  readonly job: string;
  /** Of its parts file. */
  readonly unit: FileUnit;
  readonly taken: readonly TakenOffcut[];
  readonly left: readonly LeftOffcut[];
}

/** An offcut that the plan takes off the rack. */
export interface TakenOffcut {
  readonly id: string;
  readonly material: string;
  readonly length: number;
  readonly width: number;
}

/** A leftover that the plan calls worth keeping. */
export interface LeftOffcut {
  readonly material: string;
  readonly thickness: number;
  readonly sheet: number;
  readonly length: number;
  readonly width: number;
  readonly grain: 'first' | 'second' | 'none';
}

/** What a rack file takes for a name, it has to be here as well, for that is where it goes. */
const name = z.string().refine((text) => {
  const spot = { place: { line: 1, column: 1 }, path: '' };
  return plainName(text) === text && acceptName(text, spot, new Report()) !== null;
}, 'a name');
const length = z
  .number()
  .refine((mm) => 1 <= fromMm(mm) && fromMm(mm) <= MAX_SHEET_SPAN, 'a length of a sheet');
const label = z.string().regex(ID_PATTERN);
/** As in a rack file. */
const MOST_OFFCUTS = 10_000;

const sheet = z
  .object({
    number: z.int().positive().max(1_000_000_000),
    rack: label.nullable().optional(),
    length,
    width: length,
    grainDeg: z.union([z.literal(0), z.literal(90), z.null()]),
    offcuts: z.array(z.object({ length, width: length })).max(MOST_OFFCUTS),
  })
  .refine(
    (own) => own.offcuts.every((each) => each.length <= own.length && each.width <= own.width),
    { path: ['offcuts'] },
  );

/** Keys that do not matter to the rack are passed over, as later plans may have more of them. */
const PLAN = z.object({
  format: z.literal('holdfast-plan/1'),
  job: name,
  unit: z.enum(['mm', 'in']).default('mm'),
  materials: z.array(z.object({ material: name, thickness: length, sheets: z.array(sheet) })),
});

/** By so much of the hash of its record a plan is known again. */
const MARK_LENGTH = 16;

export function planMark(planSha256: string): string {
  return planSha256.slice(0, MARK_LENGTH);
}

/** Reads the text of a `plan.json`, as strictly as a rack is read; where it is none, which of its keys is wrong, or an empty text. */
export function readPlanRecord(text: string): PlanRecord | { readonly fault: string } {
  const { data: plan, error } = PLAN.safeParse(jsonOf(text));
  if (plan === undefined) return { fault: pathText(error?.issues[0]?.path ?? []) };
  const sheets = plan.materials.flatMap(({ material, thickness, sheets: own }) =>
    own.map((each) => ({ ...each, material, thickness })),
  );
  const labels = sheets.flatMap(({ rack }) => rack?.toUpperCase() ?? []);
  if (new Set(labels).size < labels.length) return { fault: 'rack' };
  return {
    job: plan.job,
    unit: plan.unit,
    taken: sheets.flatMap(({ rack, material, length, width }) =>
      typeof rack === 'string'
        ? [{ id: rack, material, length: fromMm(length), width: fromMm(width) }]
        : [],
    ),
    left: sheets.flatMap(({ material, thickness, number, grainDeg, offcuts }) =>
      offcuts.map(({ length, width }) => ({
        material,
        thickness: fromMm(thickness),
        sheet: number,
        length: fromMm(length),
        width: fromMm(width),
        grain: grainDeg === null ? 'none' : grainDeg === 0 ? 'first' : 'second',
      })),
    ),
  };
}
