import { z } from 'zod';
import { SAW_CARES } from '../model/layout.ts';
import { EFFORTS } from '../model/plan.ts';
import { RESOURCE_LIMITS } from '../model/resource-limits.ts';

/** Longer than any board, so that sums of lengths stay whole. */
const FARTHEST_MM = 1_000_000;
/** More pieces and cuts than any job has; a record beyond it is none, rather than hours of work. */
const MOST_ENTRIES = RESOURCE_LIMITS.entries.most;
const MOST_OFFCUTS = 100;
const LONGEST_TEXT = 1000;

/** Nobody reads more of them, and a file of another kind may have millions. */
export const MOST_FAULTS = 20;

const text = z.string().max(LONGEST_TEXT);
const mm = z.number().min(-FARTHEST_MM).max(FARTHEST_MM);

/** A list that is read no further than to its first few wrong entries. */
function list<T extends z.ZodType>(entry: T, most = MOST_ENTRIES) {
  return z
    .array(z.unknown())
    .max(most)
    .transform((items, context) => {
      const read: z.output<T>[] = [];
      for (const [i, item] of items.entries()) {
        const { success, data, error } = entry.safeParse(item);
        if (success) read.push(data);
        else
          for (const { message, path } of error.issues)
            context.issues.push({ code: 'custom', message, path: [i, ...path], input: item });
        if (context.issues.length >= MOST_FAULTS) break;
      }
      return context.issues.length > 0 ? z.NEVER : read;
    });
}

type Corner = readonly [x: number, y: number];

/** By hand, as a record is corners for the most part. */
const ring = z.custom<readonly Corner[]>(
  (value) => Array.isArray(value) && value.length >= 3 && value.every(isCorner),
  'expected a list of three or more corners [x, y] in millimetres',
);

function isCorner(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.length === 2 &&
    value.every((each) => typeof each === 'number' && Math.abs(each) <= FARTHEST_MM)
  );
}

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const count = z.int().nonnegative();
const named = { part: text, piece: z.int() };
const box = z.object({ x: mm, y: mm, length: mm, width: mm });

const placement = z.looseObject({
  ...named,
  x: mm,
  y: mm,
  turn: z.number(),
  mirrored: z.boolean(),
  outline: ring,
  cutOuts: list(ring),
});

const cut = z.looseObject({
  axis: z.enum(['along', 'across']),
  panel: z.object({ minX: mm, minY: mm, maxX: mm, maxY: mm }),
  at: mm,
  fence: z.enum(['low', 'high']),
  stage: count,
  care: list(z.enum(SAW_CARES)),
});

const sheet = z.looseObject({
  number: count,
  stock: text,
  rack: text.nullable().default(null),
  placements: list(placement),
  offcuts: list(box, MOST_OFFCUTS),
  cuts: list(cut),
});

const board = z.looseObject({
  number: count,
  stock: text,
  length: mm,
  pieces: list(z.looseObject({ ...named, at: mm, length: mm })),
});

const material = z.looseObject({
  material: text,
  status: z.enum(['proved', 'limit', 'impossible']),
  objective: z.enum(['sheets', 'cost']),
  used: z.number(),
  atLeast: z.number(),
  provedBy: z
    .enum(['area', 'dual feasible functions', 'incompatible pieces', 'linear programme'])
    .nullable(),
  unplaced: list(z.object({ ...named, why: z.enum(['no-room', 'no-stock']) })),
  sheets: list(sheet),
  boards: list(board),
});

const loose = z.looseObject({
  kind: z.enum(['piece', 'slug', 'sliver']),
  part: text.nullable(),
  piece: z.int().nullable(),
  sheet: count,
});

const priced = z.looseObject({ number: count, priceMinor: z.number().nullable() });

/** What a layout is rebuilt from. Other keys stay as they are, to be compared with what is reckoned anew. */
export const RECORD = z.looseObject({
  format: z.literal('holdfast-plan/1'),
  toolVersion: text,
  partsFileSha256: hash,
  drawings: list(z.object({ path: text, sha256: hash })),
  options: z.object({
    effort: z.enum(EFFORTS),
    seed: z.int().nonnegative(),
    seconds: z.number().nullable(),
  }),
  stoppedByTime: z.boolean(),
  interrupted: z.boolean().default(false),
  materials: list(material),
  holding: list(loose),
  costs: z.looseObject({ sheets: list(priced), boards: list(priced).default([]) }).optional(),
});

export type PlanFile = z.infer<typeof RECORD>;
export type MaterialRecord = z.infer<typeof material>;
export type SheetRecord = z.infer<typeof sheet>;
export type BoardRecord = z.infer<typeof board>;
export type PlacementRecord = z.infer<typeof placement>;
