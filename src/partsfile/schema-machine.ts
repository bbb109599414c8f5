import { z } from 'zod';
import { SPIRALS, STAGE_LIMITS } from '../model/machine.ts';
import { length, number, size, yesOrNo } from './schema-values.ts';

/** The form of the router or the saw. */

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

export const machine = z
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
