import { z } from 'zod';
import { LAYER_CLASSES, LAYER_KINDS, type LayerClass, TAB_FORMS } from '../model/machine-layers.ts';
import { text } from './schema-values.ts';

const names = Object.fromEntries(
  LAYER_CLASSES.map((name) => {
    const { holds, usual, mayBeNone } = LAYER_KINDS[name];
    const none = mayBeNone ? '; none leaves it out' : '';
    return [name, text.optional().describe(`${holds}; ${usual} if left out${none}`)];
  }),
) as Record<LayerClass, z.ZodOptional<typeof text>>;

export const layers = z
  .strictObject(
    {
      ...names,
      tabs: z
        .enum(TAB_FORMS)
        .optional()
        .describe(
          'marks across a closed outline, or gaps in it, as long as the tab and the cutter are wide; marks if left out',
        ),
    },
    'names of layers, such as { outline: CUT, hole: "DRILL_{diameter}_{depth}", tabs: gaps }',
  )
  .describe('the names of the layers in the DXF files');
