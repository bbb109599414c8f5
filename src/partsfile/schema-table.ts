import { z } from 'zod';
import { length, number, point, size, text, yesOrNo } from './schema-values.ts';

/** The form of the `table:` section. */

const band = (right: string) => z.union([number, z.tuple([number, number], 'two numbers')], right);
const place = point.describe('lower-left corner, from the lower-left corner of the table');
const extent = size.describe('length x width');

const pump = z
  .strictObject(
    {
      kind: text.optional().describe('blower, vane, claw, liquid-ring, or with a curve any name'),
      curve: z
        .array(
          z.tuple([number, number], 'a pair of flow and vacuum, such as [340, 10]'),
          'a list of pairs, such as [[520, 0], [340, 10], [0, 26]]',
        )
        .optional()
        .describe('flow at vacuum: m3/h at kPa, in an inch file cfm at inHg'),
      volume: z
        .enum(['free-air', 'inlet'])
        .optional()
        .describe('which volume the curve gives; free-air if left out'),
      flow: number.optional().describe('from the plate: what it moves without vacuum'),
      vacuum: number.optional().describe('from the plate: its deepest vacuum'),
      count: z
        .int('a whole number')
        .min(1)
        .max(20)
        .optional()
        .describe('how many such pumps work side by side; 1 if left out'),
    },
    'a pump, such as { kind: vane, flow: 250, vacuum: 90 } or { curve: [[520, 0], [0, 26]] }',
  )
  .describe('the vacuum pump');

const pipe = z
  .strictObject(
    {
      loss: number.optional().describe('vacuum that it was seen to take'),
      flow: number.optional().describe('the flow at which it took that'),
      bore: length.optional().describe('inner diameter, where no loss was read'),
      length: length.optional().describe('length of the pipe'),
      elbows: z.int('a whole number').min(0).max(100).optional().describe('0 if left out'),
    },
    'a pipe, such as { bore: 50, length: 6000, elbows: 3 } or { loss: 2, flow: 300 }',
  )
  .describe('between pump and table; no loss if left out');

const spoilboard = z
  .strictObject(
    {
      kind: text.optional().describe('mdf …'),
      thickness: length.describe('thickness of the spoilboard'),
      permeability: band('a permeability in m2, such as 3e-13')
        .optional()
        .describe('through the board in m2: nominal, or [nominal, cautious]'),
      'along-ratio': number
        .optional()
        .describe('permeability along the board over that through it; 1 if left out'),
    },
    'a spoilboard, such as { kind: mdf, thickness: 18 }',
  )
  .describe('the sacrificial board');

const leak = number.optional().describe('opening of all leaks past the seals together');

const gasket = z
  .strictObject(
    {
      around: z
        .enum(['pieces', 'sheet'])
        .optional()
        .describe('one cord round each piece (if left out), or one round the whole sheet'),
      inset: length.optional().describe('how far inside the edge the cord lies'),
      grooves: size
        .optional()
        .describe('width x pitch of the grooves inside a cord round the sheet'),
      leak,
    },
    'a gasket, such as { around: pieces, inset: 12 }',
  )
  .describe('sealing cord in a grid table, in place of a spoilboard');

const pods = z
  .strictObject(
    {
      size: size.describe('length x width of a pod'),
      'per-piece': z
        .int('a whole number')
        .min(1)
        .max(100)
        .optional()
        .describe('how many a piece gets at most; 2 if left out'),
      leak,
    },
    'pods, such as { size: 140 x 115, per-piece: 2 }',
  )
  .describe('vacuum pods, in place of a spoilboard');

const zone = z.strictObject(
  {
    at: place,
    size: extent,
    shut: yesOrNo.optional().describe('whether its valve is shut'),
  },
  'a zone, such as { at: [0, 0], size: 1250 x 1250, shut: yes }',
);

const mask = z.strictObject(
  { at: place, size: extent },
  'a masked place, such as { at: [0, 0], size: 300 x 1250 }',
);

export const table = z
  .strictObject(
    {
      size: size.optional().describe('vacuum area; as large as the sheet if left out'),
      'sheet-at': point
        .optional()
        .describe('where the lower-left corner of the sheet lies; [0, 0] if left out'),
      zones: z
        .array(zone, 'a list of zones')
        .min(1)
        .optional()
        .describe('parts of the table with a valve each; those without sheet are shut'),
      masked: z.array(mask, 'a list of places').optional().describe('places taped or covered'),
      pump: pump.optional(),
      pipe: pipe.optional(),
      spoilboard: spoilboard.optional(),
      gasket: gasket.optional(),
      pods: pods.optional(),
      altitude: length.optional().describe('above the sea, such as 300 m'),
      friction: band('a number such as 0.4')
        .optional()
        .describe('between stock and table: nominal, or [nominal, low]'),
      'friction-film-faced': band('a number such as 0.25')
        .optional()
        .describe('the same for film-faced stock'),
    },
    'a table, such as { size: 2500 x 1250, altitude: 300 m }',
  )
  .describe('the vacuum table; cautious values are assumed, and named, for what is left out');
