import { z } from 'zod';
import { length, size } from './schema-values.ts';

const count = z.int('a whole number').min(1).max(100).optional();

export const labels = z
  .strictObject(
    {
      paper: z
        .union(
          [z.string(), z.tuple([length, length], 'two lengths')],
          'a4, letter, or a size such as 210 x 297',
        )
        .optional()
        .describe('a4, letter, or width x height, upright as it is read'),
      columns: count.describe('labels side by side'),
      rows: count.describe('labels one below the other'),
      size: size
        .optional()
        .describe('width x height of a label; known for usual numbers of columns and rows'),
      pitch: size
        .optional()
        .describe('from one label to the next, across x down; the size if left out'),
      margin: z
        .strictObject(
          {
            left: length
              .optional()
              .describe('from the edge of the paper to the first label; in the middle if left out'),
            top: length.optional().describe('the same from above'),
          },
          'margins, such as { left: 7.2, top: 12.9 }',
        )
        .optional()
        .describe('where the first label begins'),
      roll: size
        .optional()
        .describe('width x height of the labels of a roll, in place of all other keys'),
    },
    'labels, such as { paper: a4, columns: 3, rows: 8 } or { roll: 62 x 40 }',
  )
  .describe('the labels that the pieces get; 3 x 8 on A4 or 3 x 10 on letter paper if left out');
