import { z } from 'zod';
import { length, price, text } from './schema-values.ts';

/** The form of stock that is cut to length. */

const defect = z.strictObject(
  {
    at: length.describe('where it begins, from the left end of the whole board'),
    length: length.describe('how long it is along the board'),
    why: text.optional().describe('the reason, for the cutting list'),
  },
  'a defect, such as { at: 800, length: 60, why: knot }',
);

export const board = z
  .strictObject(
    {
      name: text.optional().describe('what the outputs call this board; its length if left out'),
      length: length.describe('length of the whole board'),
      price: price.optional().describe('price of one board in the currency of the file'),
      'on-hand': z
        .int('a whole number')
        .min(0)
        .max(100_000)
        .optional()
        .describe('how many there are; as many as needed if left out'),
      trim: length.optional().describe('cut off each end before anything else; 0 if left out'),
      defects: z
        .array(defect, 'a list of defects')
        .optional()
        .describe('stretches that no piece may have any of'),
    },
    'a board, such as { length: 2400, price: 14.50, trim: 15 }',
  )
  .describe('one kind of board');
