import { z } from 'zod';
import type { FileUnit } from '../model/job.ts';
import { fromMm } from '../model/units.ts';

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

const PLAN = z.object({
  format: z.literal('holdfast-plan/1'),
  job: z.string(),
  unit: z.enum(['mm', 'in']).default('mm'),
  materials: z.array(
    z.object({
      material: z.string(),
      thickness: z.number().positive(),
      sheets: z.array(
        z.object({
          number: z.int().positive(),
          rack: z.string().nullable().optional(),
          length: z.number().positive(),
          width: z.number().positive(),
          grainDeg: z.union([z.literal(0), z.literal(90), z.null()]),
          offcuts: z.array(
            z.object({ length: z.number().positive(), width: z.number().positive() }),
          ),
        }),
      ),
    }),
  ),
});

/** By so much of the hash of its record a plan is known again. */
const MARK_LENGTH = 16;

export function planMark(planSha256: string): string {
  return planSha256.slice(0, MARK_LENGTH);
}

/** Reads the text of a `plan.json`; null where it is none. */
export function readPlanRecord(text: string): PlanRecord | null {
  const plan = PLAN.safeParse(jsonOf(text)).data;
  if (plan === undefined) return null;
  const sheets = plan.materials.flatMap(({ material, thickness, sheets: own }) =>
    own.map((sheet) => ({ ...sheet, material, thickness })),
  );
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

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
