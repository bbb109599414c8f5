import { z } from 'zod';
import { costs } from './schema-costs.ts';
import { labels } from './schema-labels.ts';
import { layers } from './schema-layers.ts';
import { machine } from './schema-machine.ts';
import { material } from './schema-materials.ts';
import { drawingUnit, part } from './schema-parts.ts';
import { table } from './schema-table.ts';
import { number, price, size, text, yesOrNo } from './schema-values.ts';

/**
 * The form of a parts file: which keys there are and what kind of value each takes. What the values mean together is
 * checked by the readers of the sections. The text given with a type completes "write …" in hints.
 */

const limits = z
  .strictObject(
    {
      sheets: z.int('a whole number').min(0).max(100_000).optional().describe('most sheets'),
      yield: number.optional().describe('least share used, such as 70 %'),
      cost: price.optional().describe('highest price of the sheets'),
      holding: z
        .enum(['no piece moves', 'no piece marginal'])
        .optional()
        .describe('the worst hold-down verdict that passes'),
      proof: yesOrNo
        .optional()
        .describe('yes: every material has to be proved to take as little as can be'),
      time: text
        .optional()
        .describe('most time at the machine and the bench together, such as 90 min'),
      weight: text.optional().describe('most that a sheet or a piece may weigh, such as 25 kg'),
      drift: text
        .optional()
        .describe(
          'plan.json that the plan is held against, beside or below this file: its stock, cost, parts and pieces at risk must be the same',
        ),
    },
    'limits, such as { sheets: 6, yield: 70 % }',
  )
  .describe('what check fails on');

const offcuts = z
  .strictObject(
    {
      least: size
        .optional()
        .describe('smaller leftovers are waste; 300 x 150 mm or 12 x 6 in if left out'),
      prefer: z
        .enum(['area', 'strips'])
        .optional()
        .describe(
          'which leftovers are wanted most: the largest, or twice as much those as long or as wide as the sheet; area if left out',
        ),
    },
    'offcuts, such as { least: 600 x 300, prefer: strips }',
  )
  .describe('which leftovers are kept');

const variant = z
  .looseObject(
    { name: text.describe('what the comparison calls it') },
    'a variant, such as { name: Saw, machine: { kind: panel-saw, kerf: 3.2 } }',
  )
  .describe('a name, and beside it the keys of the file that are otherwise, with parts by name');

/** The whole file. */
export const FILE_SCHEMA = z
  .strictObject(
    {
      job: text.optional().describe('name of the job'),
      unit: z.enum(['mm', 'in']).describe('unit of every length that has none of its own'),
      'drawing-unit': drawingUnit
        .optional()
        .describe('unit of the drawings that do not say theirs'),
      currency: z.string('a currency code, such as EUR').optional().describe('ISO 4217 code'),
      machine: machine.optional(),
      table: table.optional(),
      materials: z
        .record(z.string(), material, 'materials, each under a key of its own')
        .describe('kinds of stock, each under the key that parts name'),
      parts: z.array(part, 'a list of parts').min(1).describe('the parts to cut'),
      limits: limits.optional(),
      offcuts: offcuts.optional(),
      costs: costs.optional(),
      layers: layers.optional(),
      labels: labels.optional(),
      rack: text
        .optional()
        .describe(
          'rack of offcuts, counted from the folder of this file, or none; rack.yaml beside it if left out',
        ),
      variants: z
        .array(variant, 'a list of variants')
        .optional()
        .describe('the same job with something changed, for holdfast compare'),
    },
    'the keys of a parts file: unit, materials, parts …',
  )
  .describe('A parts file of Holdfast');

/** The JSON Schema (draft 7) of a parts file, for editors. */
export function partsFileSchema(): object {
  return z.toJSONSchema(FILE_SCHEMA, { io: 'input', target: 'draft-7' });
}
