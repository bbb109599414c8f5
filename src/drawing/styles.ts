import type { Action } from '../model/holding.ts';

/** Parallel lines at `angleDeg` counter-clockwise, `crossed` with as many at right angles. Lengths in millimetres of paper. */
export interface Hatch {
  readonly angleDeg: number;
  readonly gap: number;
  readonly weight: number;
  readonly colour: string;
  readonly crossed: boolean;
}

/** How an item looks: its fill first, the hatch over it, the line last. Weights and dashes in millimetres of paper. */
export interface Style {
  readonly fill: string | null;
  readonly hatch: Hatch | null;
  readonly stroke: string | null;
  readonly weight: number;
  /** Length of the dashes and of the gaps; null for a whole line. */
  readonly dash: readonly [number, number] | null;
}

/** Our own few colours: ink on warm paper, and four muted signal colours of different lightness. */
const INK = '#2a2723';
const SOFT_INK = '#615a50';
const BLACK = '#000000';
const PAPER = '#fbf9f4';
const STOCK = '#e9e1d2';
const CLEAN = '#fffefb';
const PALE_LINE = '#b9ad98';
const SLATE = '#3f5f78';
const OCHRE = '#8a5f14';
const RUST = '#9a3f1c';
const WINE = '#6d1f2b';
const PALE_SLATE = '#eaf0f3';
const PALE_OCHRE = '#f8f0dc';
const PALE_RUST = '#f7e9df';
const PALE_WINE = '#f1e2e2';

/** One table for every line, fill and letter of every drawing. */
export const STYLES = {
  background: filled(PAPER),
  sheet: drawn(INK, 0.4, { fill: STOCK }),
  trim: drawn(SOFT_INK, 0.15, { dash: [1.4, 0.9] }),
  'keep-out': drawn(INK, 0.25, { fill: STOCK, hatch: hatched(INK, 45, 1.3, true) }),
  offcut: drawn(SOFT_INK, 0.3, { dash: [4, 1.2] }),
  waste: drawn(SOFT_INK, 0.15, { fill: STOCK, hatch: hatched(SOFT_INK, 45, 0.8, false) }),
  piece: drawn(INK, 0.28, { fill: CLEAN }),
  'piece-earlier': drawn(INK, 0.28, {
    fill: PALE_SLATE,
    hatch: hatched('#8ba3b4', 90, 1.5, false),
  }),
  'piece-skin': drawn(INK, 0.28, {
    fill: PALE_OCHRE,
    hatch: hatched('#c4a262', 135, 1.5, false),
  }),
  'piece-tabs': drawn(INK, 0.28, {
    fill: PALE_RUST,
    hatch: hatched('#cb8f76', 0, 1.5, false),
  }),
  'piece-clamp': drawn(INK, 0.28, {
    fill: PALE_WINE,
    hatch: hatched('#ae7b83', 0, 1.5, true),
  }),
  'plate-keep-out': filled(CLEAN),
  'plate-number': filled(CLEAN),
  'plate-waste': filled(STOCK),
  'plate-earlier': filled(PALE_SLATE),
  'plate-skin': filled(PALE_OCHRE),
  'plate-tabs': filled(PALE_RUST),
  'plate-clamp': filled(PALE_WINE),
  band: drawn(INK, 0.6, {}),
  'band-thin': drawn(INK, 0.25, {}),
  pocket: drawn(SOFT_INK, 0.18, { dash: [0.8, 0.5] }),
  'hole-through': drawn(INK, 0.15, { fill: STOCK }),
  'hole-blind': filled(SOFT_INK),
  'hole-cross': drawn(INK, 0.1, {}),
  set: filled(SLATE),
  'set-link': drawn(CLEAN, 0.12, { fill: SLATE }),
  tab: drawn(CLEAN, 0.12, { fill: RUST }),
  'tab-waste': drawn(CLEAN, 0.12, { fill: INK }),
  order: drawn(INK, 0.18, { fill: CLEAN }),
  'order-waste': drawn(SOFT_INK, 0.18, { fill: CLEAN, dash: [0.5, 0.35] }),
  'saw-cut': drawn(RUST, 0.35, {}),
  'cut-number': drawn(RUST, 0.2, { fill: CLEAN }),
  'cut-number-care': drawn(RUST, 0.2, { fill: '#f2c94c' }),
  'sign-earlier': filled(SLATE),
  'sign-skin': filled(OCHRE),
  'sign-tabs': filled(RUST),
  'sign-clamp': filled(WINE),
  'sign-alert': drawn(INK, 0.25, { fill: '#f2c94c' }),
  'sign-stop': drawn(WINE, 0.25, { fill: '#a01c1c' }),
  tag: drawn(SLATE, 0.2, { fill: CLEAN }),
  grain: drawn(SOFT_INK, 0.2, {}),
  'grain-head': filled(SOFT_INK),
  dimension: drawn(SOFT_INK, 0.13, {}),
  rule: drawn(PALE_LINE, 0.15, {}),
  'rule-strong': drawn(INK, 0.3, {}),
  vacuum: drawn(SLATE, 0.4, {}),
  'vacuum-alarm': drawn(RUST, 0.25, { dash: [1.4, 0.9] }),
  'yield-pieces': drawn(INK, 0.15, { fill: '#8ba3b4' }),
  'yield-offcuts': drawn(INK, 0.15, { fill: PALE_SLATE, hatch: hatched(SLATE, 90, 1.1, false) }),
  'yield-kerf': drawn(INK, 0.15, { fill: INK }),
  'yield-trim': drawn(INK, 0.15, { fill: CLEAN, hatch: hatched(SOFT_INK, 0, 0.8, false) }),
  'yield-skeleton': drawn(INK, 0.15, { fill: STOCK }),
  template: drawn(INK, 0.25, {}),
  register: drawn(INK, 0.13, {}),
  seam: drawn(SOFT_INK, 0.13, { dash: [2, 1.5] }),
  check: drawn(INK, 0.18, {}),
  'bar-dark': drawn(INK, 0.15, { fill: INK }),
  'bar-light': drawn(INK, 0.15, { fill: CLEAN }),
  // A label printer knows black only.
  'sticker-outline': drawn(BLACK, 0.22, {}),
  'sticker-recess': drawn(BLACK, 0.15, { dash: [0.8, 0.5] }),
  'sticker-band': drawn(BLACK, 0.8, {}),
  'sticker-grain': drawn(BLACK, 0.25, {}),
  'sticker-mark': filled(BLACK),
  'sticker-code': filled(BLACK),
  'sticker-text': filled(BLACK),
  text: filled(INK),
  'text-soft': filled(SOFT_INK),
  'text-set': filled(SLATE),
  'text-reversed': filled(CLEAN),
} as const satisfies Readonly<Record<string, Style>>;

export type StyleName = keyof typeof STYLES;

/** Heights of the letters, in millimetres of paper. */
export const LETTERS = {
  title: 4.4,
  subtitle: 2.5,
  name: 2.7,
  size: 2.35,
  dimension: 2.5,
  table: 2.25,
  smallest: 1.3,
} as const;

/** What a piece that needs care carries: a letter on a signal colour, a fill of its own, and a word. Nothing needed, nothing shown. */
export interface Sign {
  readonly letter: string;
  readonly badge: StyleName;
  readonly piece: StyleName;
  readonly plate: StyleName;
  readonly legend: string;
}

export const SIGNS: Readonly<Record<Exclude<Action, 'none'>, Sign>> = {
  earlier: {
    letter: 'E',
    badge: 'sign-earlier',
    piece: 'piece-earlier',
    plate: 'plate-earlier',
    legend: 'cut earlier',
  },
  skin: {
    letter: 'S',
    badge: 'sign-skin',
    piece: 'piece-skin',
    plate: 'plate-skin',
    legend: 'leave a skin',
  },
  tabs: {
    letter: 'T',
    badge: 'sign-tabs',
    piece: 'piece-tabs',
    plate: 'plate-tabs',
    legend: 'leave tabs',
  },
  clamp: {
    letter: 'C',
    badge: 'sign-clamp',
    piece: 'piece-clamp',
    plate: 'plate-clamp',
    legend: 'clamp',
  },
};

function filled(fill: string): Style {
  return { fill, hatch: null, stroke: null, weight: 0, dash: null };
}

function drawn(stroke: string, weight: number, more: Partial<Style>): Style {
  return { fill: null, hatch: null, dash: null, ...more, stroke, weight };
}

function hatched(colour: string, angleDeg: number, gap: number, crossed: boolean): Hatch {
  return { angleDeg, gap, weight: 0.14, colour, crossed };
}
