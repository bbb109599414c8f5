import { z } from 'zod';
import { RACK_FORMAT } from '../model/rack.ts';
import { keepOut } from '../partsfile/schema-materials.ts';
import { length, price, size, text } from '../partsfile/schema-values.ts';

/** The form of a rack file. What the values mean together is checked by its reader. */

const wholeNumber = z.int('a whole number').min(1).max(1_000_000_000);

const origin = z.strictObject(
  {
    job: text.optional().describe('the name of the job'),
    sheet: wholeNumber.optional().describe('the number of the sheet in its plan'),
    plan: text.optional().describe('the mark of the plan, by which it is known again'),
  },
  'where it comes from, such as { job: Window seat, sheet: 2 }',
);

const use = z.strictObject(
  {
    job: text.optional().describe('the name of the job'),
    plan: text.optional().describe('the mark of the plan'),
    date: text.optional().describe('such as 2026-03-31'),
  },
  'what it went into, such as { job: Stool, date: 2026-03-31 }',
);

const offcut = z.strictObject(
  {
    id: text.describe('what its label says, such as R12'),
    material: text.describe('key of the material in parts files'),
    thickness: length.describe('of the offcut; it must be that of the material'),
    size: size.describe('length x width'),
    grain: z
      .enum(['first', 'second', 'none'])
      .describe('which number of size the grain runs along, or none'),
    trim: length.optional().describe('border that is never part of a piece; none if left out'),
    'keep-out': z.array(keepOut, 'a list of keep-outs').optional().describe('places to avoid'),
    price: price.optional().describe('what it counts; nothing if left out'),
    from: origin.optional().describe('where it comes from'),
    date: text.optional().describe('when it came, such as 2026-03-31'),
    note: text.optional().describe('a remark'),
    state: z.enum(['on-rack', 'used']).optional().describe('on-rack if left out'),
    'used-by': use.optional().describe('what it went into, with state: used'),
  },
  'an offcut, such as { id: R1, material: birch18, thickness: 18, size: 800 x 400, grain: first }',
);

/** The whole file. */
export const RACK_SCHEMA = z
  .strictObject(
    {
      format: z.enum([RACK_FORMAT]).describe('the form of this file'),
      unit: z.enum(['mm', 'in']).describe('unit of every length that has none of its own'),
      currency: text.optional().describe('of the prices, such as EUR'),
      'next-number': wholeNumber.optional().describe('of the next label'),
      offcuts: z
        .array(offcut, 'a list of offcuts')
        .nullable()
        .optional()
        .describe('what is on the rack, and what was'),
    },
    `the keys of a rack file: format: ${RACK_FORMAT}, unit, offcuts`,
  )
  .describe('A rack file of Holdfast');

export function rackFileSchema(): object {
  return z.toJSONSchema(RACK_SCHEMA, { io: 'input', target: 'draft-7' });
}
