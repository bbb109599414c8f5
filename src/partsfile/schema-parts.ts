import { z } from 'zod';
import { SIDES } from '../model/part.ts';
import { RESOURCE_LIMITS } from '../model/resource-limits.ts';
import { DRAWING_UNITS, type DrawingUnit } from './drawing-frame.ts';
import { mountedHardware } from './schema-costs.ts';
import { length, point, points, sides, size, text, yesOrNo } from './schema-values.ts';

/** The form of the parts, with their holes, cut-outs and pockets. */

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

export const drawingUnit = z.enum(Object.keys(DRAWING_UNITS) as DrawingUnit[]);

export const part = z
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
      points: points
        .optional()
        .describe('corners, y upwards; holes, cut-outs and pockets share their coordinates'),
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
        .max(RESOURCE_LIMITS.pieces.most)
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
        .describe(
          'turns allowed on each sheet, from where the grain is right there; what the grain leaves of quarter turns if left out',
        ),
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
