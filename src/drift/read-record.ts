import { z } from 'zod';
import { jsonOf, pathText } from '../record/json.ts';

const named = z.object({ part: z.string(), piece: z.number() });
const ring = z.array(z.tuple([z.number(), z.number()]));
const mm = z.number();
const sides = z.object({ left: mm, right: mm, bottom: mm, top: mm });
const depth = z.union([z.number(), z.literal('through')]);

/** Keys that are not compared are passed over, as later plans may have more of them. */
const RECORD = z.object({
  format: z.literal('holdfast-plan/1'),
  stoppedByTime: z.boolean().default(false),
  interrupted: z.boolean().default(false),
  options: z.object({ effort: z.string(), seed: z.number(), seconds: z.number().nullable() }),
  currency: z.string(),
  machine: z.object({ kind: z.string(), cut: mm, spacing: mm }).nullable().default(null),
  materials: z.array(
    z.object({
      material: z.string(),
      status: z.enum(['proved', 'limit', 'impossible']),
      unplaced: z.array(named),
      sheets: z.array(
        z.object({
          stock: z.string(),
          rack: z.string().nullable().default(null),
          placements: z.array(
            named.extend({
              x: z.number(),
              y: z.number(),
              turn: z.number(),
              mirrored: z.boolean(),
              outline: ring,
              cutOuts: z.array(ring),
              grainDeg: z.number().nullable(),
              holes: z.array(
                z.object({ x: z.number(), y: z.number(), diameter: z.number(), depth }),
              ),
              pockets: z.array(z.object({ outline: ring, depth })).default([]),
              edges: sides.nullable().default(null),
            }),
          ),
        }),
      ),
      boards: z.array(
        z.object({ stock: z.string(), pieces: z.array(named.extend({ length: z.number() })) }),
      ),
    }),
  ),
  lumber: z
    .array(
      z.object({
        material: z.string(),
        measure: z.string(),
        buy: z.number(),
        parts: z.array(
          z.object({
            part: z.string(),
            count: z.number(),
            length: z.number(),
            width: z.number(),
          }),
        ),
      }),
    )
    .default([]),
  holding: z.array(z.object({ kind: z.string(), verdictAfter: z.string() })),
  costs: z.object({ totalMinor: z.number().nullable(), yield: z.number() }),
});

/** What of a plan's record is compared; lengths in millimetres. */
export type ComparedRecord = z.infer<typeof RECORD>;

/** Reads the text of a `plan.json`; where it is none, which of its keys is wrong, or an empty text. */
export function readComparedRecord(text: string): ComparedRecord | { readonly fault: string } {
  const { data, error } = RECORD.safeParse(jsonOf(text));
  return data ?? { fault: pathText(error?.issues[0]?.path ?? []) };
}
