import { z } from 'zod';
import { number, price, text } from './schema-values.ts';

/** The form of what a job costs besides its stock. */

const rate = z.union([z.number(), z.string()], 'a price and its measure, such as 65 per h');
const time = z.union([z.number(), z.string()], 'a time with its unit, such as 20 min or 3 s');

const labour = z.strictObject(
  {
    machine: rate
      .optional()
      .describe('an hour at the router or the saw, loading included, such as 65 per h'),
    bench: rate.optional().describe('an hour by hand: tabs, clamps, edge bands; such as 48 per h'),
  },
  'labour, such as { machine: 65 per h, bench: 48 per h }',
);

const edgeBand = z.strictObject(
  {
    price: rate.optional().describe('such as 0.85 per m or 0.26 per ft'),
    time: time.optional().describe('to put it on, such as 40 s per m; nothing if left out'),
    waste: number
      .optional()
      .describe('added to the length that the parts take, such as 10 %; nothing if left out'),
  },
  'an edge band, such as { price: 0.85 per m, time: 40 s per m, waste: 10 % }',
);

const hardware = z.strictObject(
  {
    name: text.describe('what it is'),
    price: price.optional().describe('of one piece'),
    count: z
      .int('a whole number')
      .min(1)
      .max(100_000)
      .optional()
      .describe('how many of them; if left out 1, or none beside those of parts that name it'),
    group: text.optional().describe('group of parts that it belongs to; the job if left out'),
  },
  'hardware, such as { name: Hinge, price: 2.40, count: 8, group: Carcass }',
);

const mounted = z.strictObject(
  {
    name: text.describe('what it is'),
    price: price
      .optional()
      .describe('of one; if left out that of the same name in the hardware of costs'),
    count: z
      .int('a whole number')
      .min(1)
      .max(1000)
      .optional()
      .describe('how many on each piece; 1 if left out'),
  },
  'hardware of a part, such as { name: Hinge, count: 2, price: 2.40 }',
);

export const mountedHardware = z
  .array(mounted, 'a list of hardware')
  .optional()
  .describe('bought for each piece of the part, which bears its price');

export const costs = z
  .strictObject(
    {
      labour: labour.optional().describe('rates; without them labour is no part of the price'),
      setup: time.optional().describe('machine time once a job; nothing if left out'),
      loading: time.optional().describe('machine time a sheet; nothing if left out'),
      'tool-change': time
        .optional()
        .describe('machine time each; nothing if left out. From the cutter to each drill and back'),
      hole: time.optional().describe('each drilled hole; nothing if left out'),
      'saw-cut': time
        .optional()
        .describe('machine time for each cut of a panel saw; a book of sheets is cut once'),
      'board-cut': time.optional().describe('machine time for each cut of a board'),
      'edge-band': edgeBand
        .optional()
        .describe('of the edges of the parts; without it they are no part of the price'),
      hardware: z.array(hardware, 'a list of hardware').optional().describe('bought by the piece'),
      waste: number
        .optional()
        .describe('added to the price of sheets and boards, for what is spoiled, such as 5 %'),
      margin: number.optional().describe('such as 20 %, on the cost unless margin-of says price'),
      'margin-of': z
        .enum(['cost', 'price'])
        .optional()
        .describe('cost (if left out): added to it; price: share of the price before tax'),
      tax: number.optional().describe('on cost and margin, such as 19 %'),
    },
    'costs, such as { labour: { machine: 65 per h, bench: 48 per h }, margin: 20 %, tax: 19 % }',
  )
  .describe('what the job costs besides its stock, for the price');
