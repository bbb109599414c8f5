import { z } from 'zod';
import { length, number, price, size, text } from './schema-values.ts';

/** The form of stock that is no sheet. */

export const onHand = z
  .int('a whole number')
  .min(0)
  .max(100_000)
  .optional()
  .describe('how many there are; as many as needed if left out');

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
      'on-hand': onHand,
      trim: length.optional().describe('cut off each end before anything else; 0 if left out'),
      defects: z
        .array(defect, 'a list of defects')
        .optional()
        .describe('stretches that no piece may have any of'),
    },
    'a board, such as { length: 2400, price: 14.50, trim: 15 }',
  )
  .describe('one kind of board');

const ownBoards = z.strictObject(
  {
    size: size.describe('length x width of the board'),
    count: z
      .int('a whole number')
      .min(1)
      .max(10_000)
      .optional()
      .describe('how many of them; 1 if left out'),
  },
  'boards you have, such as { size: 2400 x 180, count: 3 }',
);

export const lumber = z
  .strictObject(
    {
      rough: length.describe('thickness of the rough boards, which is what is paid for'),
      length: length.optional().describe('of the longest boards; parts must not be longer'),
      price: price.optional().describe('such as 9.50 per bf (board foot) or 1450 per m3'),
      waste: number.optional().describe('allowance for waste, such as 30 %; none if left out'),
      'waste-of': z
        .enum(['net', 'gross'])
        .optional()
        .describe('net: added to what the parts take; gross: so much of what is bought is lost'),
      tally: z
        .enum(['hardwood', 'softwood'])
        .optional()
        .describe('rules of the board foot; those of the family if left out'),
      'on-hand': z.array(ownBoards, 'a list of boards').optional().describe('what you have'),
    },
    'lumber, such as { rough: 26, price: 1450 per m3, waste: 30 %, waste-of: net }',
  )
  .describe('rough boards of any width, bought by volume: reckoned from the parts, not laid out');
