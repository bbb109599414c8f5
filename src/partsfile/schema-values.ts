import { z } from 'zod';

/** The kinds of value that a parts file is made of. The text given with a type completes "write …" in hints. */

export const length = z.union(
  [z.number(), z.string()],
  'a length, such as 18, 18.5, 3/4in or 18mm',
);
export const number = z.union([z.number(), z.string()], 'a number');
export const text = z.union([z.string(), z.number(), z.boolean()], 'a text');
export const yesOrNo = z.union([z.boolean(), z.enum(['yes', 'no'])], 'yes or no');
export const price = z.union([z.number(), z.string()], 'a price, such as 92 or 92.50');

export const size = z.union(
  [z.string(), z.tuple([length, length], 'two lengths')],
  'two lengths, such as 720 x 560 or [720, 560]',
);
export const point = z.tuple([length, length], 'a point of two lengths, such as [50, 40]');
export const points = z.array(point, 'a list of points, such as [[0, 0], [600, 0], [0, 400]]');

export const sides = z.strictObject(
  {
    left: length.optional().describe('the left side; 0 if left out'),
    right: length.optional().describe('the right side; 0 if left out'),
    bottom: length.optional().describe('the bottom side; 0 if left out'),
    top: length.optional().describe('the top side; 0 if left out'),
  },
  'a length for each side, such as { left: 10, bottom: 10 }',
);
