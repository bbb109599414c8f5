import { z } from 'zod';
import { SPIRALS, STAGE_LIMITS } from '../model/machine.ts';
import { SIDES } from '../model/part.ts';
import { FAMILIES } from '../model/stock.ts';
import { DRAWING_UNITS, type DrawingUnit } from './drawing-frame.ts';
import { costs, mountedHardware } from './schema-costs.ts';
import { labels } from './schema-labels.ts';
import { layers } from './schema-layers.ts';
import { board, lumber } from './schema-stock.ts';
import { table } from './schema-table.ts';
import {
  length,
  number,
  point,
  points,
  price,
  sides,
  size,
  text,
  yesOrNo,
} from './schema-values.ts';

/**
 * The form of a parts file: which keys there are and what kind of value each takes. What the values mean together is
 * checked by the readers of the sections. The text given with a type completes "write …" in hints.
 */

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
      'on-hand': z
        .int('a whole number')
        .min(0)
        .max(100_000)
        .optional()
        .describe('how many there are; as many as needed if left out'),
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

const material = z
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

const depth = z.union([z.number(), z.string()], 'through or a length');

const hole = z.strictObject(
  {
    at: point.optional().describe('centre of a single hole'),
    row: z.int('a whole number').min(1).max(1000).optional().describe('number of holes in a row'),
    pitch: length.optional().describe('distance between centres in a row'),
    from: point.optional().describe('centre of the first hole of a row'),
    along: z.enum(['length', 'width']).optional().describe('which way a row runs'),
    diameter: length.describe('diameter of the hole'),
    depth: depth.optional().describe('through (if left out) or a length'),
  },
  'a hole, such as { at: [50, 40], diameter: 8, depth: through }',
);

const opening = {
  at: point.optional().describe('lower-left corner of a size or path, or centre of a diameter'),
  size: size.optional().describe('a rectangle'),
  radius: length.optional().describe('corner radius of a size'),
  diameter: length.optional().describe('a round opening'),
  path: z.string('an SVG path text').optional().describe('SVG path text, y downwards'),
  points: points.optional().describe('corners, y upwards'),
};

const cutOut = z.strictObject(opening, 'a cut-out, such as { at: [100, 80], size: 200 x 60 }');

const pocket = z.strictObject(
  { ...opening, depth: length.describe('depth of the recess, less than the thickness') },
  'a pocket, such as { at: [100, 80], size: 200 x 60, depth: 6 }',
);

const side = z.enum([...SIDES, 'all']);

const drawingUnit = z.enum(Object.keys(DRAWING_UNITS) as DrawingUnit[]);

const part = z
  .strictObject(
    {
      name: text.describe('name of the part; no two alike'),
      material: text.describe('key of one of the materials'),
      size: size.optional().describe('finished size, first number x second number'),
      length: length.optional().describe('in place of a size, of a part that is cut from boards'),
      outline: z
        .string('the name of a drawing, such as rail.svg or panel.dxf')
        .optional()
        .describe(
          'an SVG or DXF file beside the parts file; file.svg#id takes one element, file.dxf#name one layer or block',
        ),
      'drawing-unit': drawingUnit
        .optional()
        .describe('unit of the drawing, whatever the drawing itself says'),
      path: z.string('an SVG path text').optional().describe('SVG path text, y downwards'),
      points: points.optional().describe('corners, y upwards'),
      shape: z.enum(['disc', 'rounded']).optional().describe('a round or round-cornered part'),
      diameter: length.optional().describe('of a disc'),
      radius: length.optional().describe('corner radius of a rounded part'),
      matched: z
        .array(size, 'a list of sizes, such as [[450, 180], [450, 240]]')
        .optional()
        .describe('sizes of pieces that lie side by side in this order'),
      run: z
        .enum(['first', 'second'])
        .optional()
        .describe('which number of the sizes the matched pieces follow one another along'),
      count: z
        .int('a whole number')
        .min(1)
        .max(10_000)
        .optional()
        .describe('how many pieces (of matched: how many sets); 1 if left out'),
      grain: z
        .enum(['along', 'across', 'any'])
        .optional()
        .describe('grain parallel to the first number of size, to the second, or of no account'),
      face: z
        .enum(['up', 'either'])
        .optional()
        .describe('up (if left out): never mirrored; either: may be'),
      turns: z
        .enum(['none', 'half', 'quarter', 'any'])
        .optional()
        .describe('turns allowed on the sheet; what the grain leaves of quarter turns if left out'),
      'nest-inside': yesOrNo
        .optional()
        .describe('whether smaller pieces may lie in the cut-outs of this part'),
      edges: sides.optional().describe('thickness of edge bands, deducted from the cut size'),
      'show-edge': z
        .union([side, z.array(side, 'a list of sides')], 'sides, such as [left, top], or all')
        .optional()
        .describe(
          'sides whose edges are seen later: no tab is left there if there is another place',
        ),
      oversize: length.optional().describe('added on every side of the cut size'),
      holes: z.array(hole, 'a list of holes').optional().describe('drilled holes'),
      'cut-outs': z.array(cutOut, 'a list of cut-outs').optional().describe('through openings'),
      pockets: z
        .array(pocket, 'a list of pockets')
        .optional()
        .describe('recesses in the good face'),
      hardware: mountedHardware,
      group: text.optional().describe('assembly that the part belongs to'),
      note: text.optional().describe('for the person at the machine'),
    },
    'a part, such as { name: Side, material: birch18, size: 720 x 560 }',
  )
  .describe('the design of a part');

const cutter = z.strictObject(
  {
    diameter: length.describe('width that the cutter turns to dust'),
    flutes: z
      .int('a whole number')
      .min(1)
      .max(12)
      .optional()
      .describe('cutting edges; 2 if left out'),
    spiral: z.enum(SPIRALS).optional().describe('straight if left out'),
    upcut: length.optional().describe('length of the up-cut tip of a compression cutter'),
    helix: number.optional().describe('angle of the flutes in degrees; 30 for spirals if left out'),
    worn: yesOrNo.optional().describe('whether the cutter is no longer sharp'),
  },
  'a cutter, such as { diameter: 6.35, flutes: 2, spiral: compression, upcut: 6 }',
);

const machine = z
  .strictObject(
    {
      kind: z
        .enum(['router', 'panel-saw'])
        .optional()
        .describe('router if left out; panel-saw for any saw that cuts from edge to edge'),
      cutter: cutter.optional().describe('the router bit'),
      speed: number.optional().describe('spindle speed, such as 18000 rpm'),
      feed: number.optional().describe('in the unit of the file per minute, or such as 9 m/min'),
      'pass-depth': length.optional().describe('deepest cut of one pass'),
      'last-pass': length
        .optional()
        .describe('depth kept for a pass of its own at the end of each cut'),
      finish: length
        .optional()
        .describe('allowance on the sides, taken by a finishing cut of the whole depth'),
      spacing: length.optional().describe('least distance between pieces; the cutter if left out'),
      'common-cuts': yesOrNo.optional().describe('whether one cut may part two pieces'),
      kerf: length
        .optional()
        .describe(
          'width of the cut of the saw, at a router of the one for boards; 3.2 mm if left out',
        ),
      stages: z
        .literal([...STAGE_LIMITS, 'free'], '2, 3, 4 or free')
        .optional()
        .describe('how often the direction of the cuts may change at a saw; free if left out'),
      'first-cut': z
        .enum(['along', 'across', 'better'])
        .optional()
        .describe('along the length of the sheet, or across it; the better one if left out'),
      'longest-rip': length.optional().describe('longest cut along the sheet that the saw takes'),
      'longest-crosscut': length.optional().describe('longest cut across the sheet'),
      stack: length.optional().describe('how high equal sheets may be stacked to be cut together'),
      'least-feed': size
        .optional()
        .describe(
          'width x length: what is smaller is not fed by hand alone and is marked; 150 x 300 mm or 6 x 12 in if left out',
        ),
    },
    'a machine, such as { kind: router, cutter: { diameter: 6.35 } } or { kind: panel-saw, kerf: 3.2 }',
  )
  .describe('router or saw; cautious values are assumed, and named, for what is left out');

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
