/** What a name of a layer may have in it, in braces. */
export const PLACEHOLDERS = [
  'diameter',
  'depth',
  'skin',
  'width',
  'height',
  'thickness',
  'cutter',
] as const;
export type Placeholder = (typeof PLACEHOLDERS)[number];

interface LayerKind {
  /** The name where the file sets none. */
  readonly usual: string;
  /** What it may have in its name besides the thickness of the stock and the width of the cut. */
  readonly values: readonly Placeholder[];
  /** Whether the file may leave it out: nothing is cut by it, or held. */
  readonly mayBeNone: boolean;
  readonly holds: string;
}

/** What a file for a machine tells apart, each kind of thing on a layer of its own unless the names say otherwise. */
export const LAYER_KINDS = {
  sheet: kind('SHEET', [], true, 'the edge of the sheet'),
  trim: kind('TRIM', [], true, 'the line inside its trimmed edges'),
  'keep-out': kind('KEEPOUT', [], true, 'the places that no piece may touch'),
  offcut: kind('OFFCUT', [], true, 'the leftovers worth keeping'),
  hole: kind('HOLE_D{diameter}_{depth}', ['diameter', 'depth'], false, 'the holes'),
  pocket: kind('POCKET_{depth}', ['depth'], false, 'the recesses'),
  'cut-out': kind('CUTOUT', [], false, 'the through openings'),
  'cut-out-skin': kind('CUTOUT_SKIN', ['skin', 'depth'], false, 'openings left on a skin'),
  clear: kind('CLEAR', [], false, 'openings and strips of waste to be cleared to dust'),
  outline: kind('OUTLINE', [], false, 'the outlines of the pieces'),
  skin: kind('SKIN', ['skin', 'depth'], false, 'the outlines of pieces left on a skin'),
  unheld: kind('UNHELD', [], false, 'the outlines of pieces that must not be cut free'),
  tab: kind('TAB', ['width', 'height'], false, 'a mark across the outline for each tab'),
  clamp: kind('CLAMP', [], false, 'where the clamps stand'),
  'saw-cut': kind('SAWCUT', [], false, 'the cuts of a saw'),
  order: kind('ORDER', [], true, 'the numbers of the cutting order'),
  label: kind('LABEL', [], true, 'the names of the pieces'),
  grain: kind('GRAIN', [], true, 'the grain of each piece'),
} as const satisfies Readonly<Record<string, LayerKind>>;
export type LayerClass = keyof typeof LAYER_KINDS;

export const LAYER_CLASSES = Object.keys(LAYER_KINDS) as readonly LayerClass[];

export const TAB_FORMS = ['marks', 'gaps'] as const;

/** How the files for a machine are made. */
export interface MachineLayers {
  /** The name of each layer, placeholders and all; null where it is left out. */
  readonly names: Readonly<Record<LayerClass, string | null>>;
  /** Tabs as marks across a closed outline, or as gaps in an open one. */
  readonly tabs: (typeof TAB_FORMS)[number];
}

export const USUAL_LAYERS: MachineLayers = {
  names: Object.fromEntries(
    LAYER_CLASSES.map((name) => [name, LAYER_KINDS[name].usual]),
  ) as MachineLayers['names'],
  tabs: 'marks',
};

export function placeholdersOf(layer: LayerClass): readonly Placeholder[] {
  return [...LAYER_KINDS[layer].values, 'thickness', 'cutter'];
}

/** In base lengths; null for a depth that goes through. */
export type LayerValues = Readonly<Partial<Record<Placeholder, number | null>>>;

function kind(
  usual: string,
  values: readonly Placeholder[],
  mayBeNone: boolean,
  holds: string,
): LayerKind {
  return { usual, values, mayBeNone, holds };
}
