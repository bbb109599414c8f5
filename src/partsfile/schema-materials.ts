import { z } from 'zod';
import { FAMILIES } from '../model/stock.ts';
import { board, lumber, onHand } from './schema-stock.ts';
import { length, number, point, points, price, sides, size, text } from './schema-values.ts';

/** The form of the materials and of the sheets that they come in. */

export const keepOut = z
  .strictObject(
    {
      at: point.describe(
        'lower-left corner, from the lower-left corner of the sheet, or in the coordinates of its points',
      ),
      size: size.describe('length x width'),
      why: text.optional().describe('the reason, for the drawing'),
    },
    'a keep-out, such as { at: [0, 0], size: 120 x 80, why: broken corner }',
  )
  .describe('a place on the sheet that no piece may touch');

const liftedEdge = z
  .strictObject(
    {
      gap: length.describe('how high it stands above the table'),
      depth: length.describe('how far in from the edge it does so'),
    },
    'a gap and how far in it reaches, such as { gap: 0.3, depth: 150 }',
  )
  .optional();

const lifted = z
  .strictObject(
    {
      left: liftedEdge.describe('the left edge, as the sheet is drawn'),
      right: liftedEdge.describe('the right edge'),
      bottom: liftedEdge.describe('the bottom edge'),
      top: liftedEdge.describe('the top edge'),
    },
    'edges, such as { right: { gap: 0.3, depth: 150 } }',
  )
  .describe('edges that a warped sheet keeps off the table, by feeler gauge with the pump on');

const sheet = z
  .strictObject(
    {
      name: text.optional().describe('what the outputs call this sheet; its size if left out'),
      size: size.optional().describe('length x width of the whole sheet'),
      points: points
        .optional()
        .describe('corners of an odd-shaped sheet instead of its size, y upwards'),
      price: price.optional().describe('price of one sheet in the currency of the file'),
      'on-hand': onHand,
      pack: z
        .int('a whole number')
        .min(1)
        .max(1000)
        .optional()
        .describe('how many are sold together, at so many times the price; 1 if left out'),
      trim: z
        .union([length, sides], 'a length for all sides, or { left, right, bottom, top }')
        .optional()
        .describe('border that is never part of a piece'),
      grain: z
        .enum(['first', 'second', 'long-side', 'short-side', 'none'])
        .optional()
        .describe(
          'which number of size, or of the box round points, the grain runs along; the longer side if left out',
        ),
      'keep-out': z.array(keepOut, 'a list of keep-outs').optional().describe('places to avoid'),
      lifted: lifted.optional(),
    },
    'a sheet, such as { size: 2440 x 1220, price: 92.00, trim: 10 }',
  )
  .describe('one kind of sheet');

export const material = z
  .strictObject(
    {
      name: text.optional().describe('what the outputs call the material; its key if left out'),
      family: z
        .enum([...FAMILIES, 'solid'])
        .optional()
        .describe('kind of stock, for weight and cutting force; solid is read as hardwood'),
      thickness: length.describe('thickness of the stock'),
      density: number
        .optional()
        .describe('kg per cubic metre; a usual value of the family if left out'),
      surface: z
        .enum(['raw', 'film-faced'])
        .optional()
        .describe('film-faced (film, melamine, laminate) slips more easily'),
      sheets: z.array(sheet, 'a list of sheets').optional().describe('the sheets it comes in'),
      boards: z
        .array(board, 'a list of boards')
        .optional()
        .describe('the boards it comes in, for parts with a length'),
      lumber: lumber.optional(),
      'least-leftover': length
        .optional()
        .describe('shortest end of a board that is worth keeping; 300 mm or 12 in if left out'),
    },
    'a material, such as { thickness: 18, sheets: [{ size: 2440 x 1220 }] }',
  )
  .describe('a kind of stock');
