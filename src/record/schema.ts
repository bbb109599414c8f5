import { z } from 'zod';
import { SAW_CARES } from '../model/layout.ts';
import { EFFORTS } from '../model/plan.ts';

/** Longer than any board, so that sums of lengths stay whole. */
const FARTHEST_MM = 1_000_000;
/** More pieces and cuts than any job has; a record beyond it is none, rather than hours of work. */
const MOST_ENTRIES = 100_000;
const MOST_OFFCUTS = 1000;

const mm = z.number().min(-FARTHEST_MM).max(FARTHEST_MM);
const point = z.tuple([mm, mm]);
const ring = z.array(point).min(3);
const hash = z.string().regex(/^[0-9a-f]{64}$/);
const count = z.int().nonnegative();
const named = { part: z.string(), piece: z.int() };
const box = z.object({ x: mm, y: mm, length: mm, width: mm });

const placement = z.looseObject({
  ...named,
  x: mm,
  y: mm,
  turn: z.number(),
  mirrored: z.boolean(),
  outline: ring,
  cutOuts: z.array(ring),
});

const cut = z.looseObject({
  axis: z.enum(['along', 'across']),
  panel: z.object({ minX: mm, minY: mm, maxX: mm, maxY: mm }),
  at: mm,
  fence: z.enum(['low', 'high']),
  stage: count,
  care: z.array(z.enum(SAW_CARES)),
});

const sheet = z.looseObject({
  number: count,
  stock: z.string(),
  rack: z.string().nullable().default(null),
  placements: z.array(placement).max(MOST_ENTRIES),
  offcuts: z.array(box).max(MOST_OFFCUTS),
  cuts: z.array(cut).max(MOST_ENTRIES),
});

const board = z.looseObject({
  number: count,
  stock: z.string(),
  length: mm,
  pieces: z.array(z.looseObject({ ...named, at: mm, length: mm })).max(MOST_ENTRIES),
});

const material = z.looseObject({
  material: z.string(),
  status: z.enum(['proved', 'limit', 'impossible']),
  objective: z.enum(['sheets', 'cost']),
  used: z.number(),
  atLeast: z.number(),
  provedBy: z
    .enum(['area', 'dual feasible functions', 'incompatible pieces', 'linear programme'])
    .nullable(),
  unplaced: z.array(z.object({ ...named, why: z.enum(['no-room', 'no-stock']) })).max(MOST_ENTRIES),
  sheets: z.array(sheet).max(MOST_ENTRIES),
  boards: z.array(board).max(MOST_ENTRIES),
});

const loose = z.looseObject({
  kind: z.enum(['piece', 'slug', 'sliver']),
  part: z.string().nullable(),
  piece: z.int().nullable(),
  sheet: count,
});

/** What a layout is rebuilt from. Other keys stay as they are, to be compared with what is reckoned anew. */
export const RECORD = z.looseObject({
  format: z.literal('holdfast-plan/1'),
  toolVersion: z.string(),
  partsFileSha256: hash,
  drawings: z.array(z.object({ path: z.string(), sha256: hash })),
  options: z.object({
    effort: z.enum(EFFORTS),
    seed: z.int().nonnegative(),
    seconds: z.number().nullable(),
  }),
  stoppedByTime: z.boolean(),
  interrupted: z.boolean().default(false),
  materials: z.array(material).max(MOST_ENTRIES),
  holding: z.array(loose),
  costs: z
    .looseObject({
      sheets: z.array(z.looseObject({ number: count, priceMinor: z.number().nullable() })),
    })
    .optional(),
});

export type PlanFile = z.infer<typeof RECORD>;
export type MaterialRecord = z.infer<typeof material>;
export type SheetRecord = z.infer<typeof sheet>;
export type BoardRecord = z.infer<typeof board>;
export type PlacementRecord = z.infer<typeof placement>;
