import type { Point } from '../geometry/point.ts';
import type { FileUnit } from '../model/job.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';

/** The units that a drawing may be in, in base lengths. */
export const DRAWING_UNITS = {
  mm: UNITS_PER_MM,
  cm: 10 * UNITS_PER_MM,
  m: 1000 * UNITS_PER_MM,
  in: UNITS_PER_INCH,
  ft: 12 * UNITS_PER_INCH,
} as const;

export type DrawingUnit = keyof typeof DRAWING_UNITS;

/** What the parts file says of the unit of a drawing: at the part, which holds whatever the drawing says, and for all that say nothing. */
export interface SaidUnit {
  readonly own: DrawingUnit | null;
  readonly usual: DrawingUnit | null;
}

export const NO_UNIT_SAID: SaidUnit = { own: null, usual: null };

/** How places of a drawing are told to the person who drew it. */
export interface Frame {
  readonly unit: DrawingUnit;
  /** Whether y runs downwards in the drawing. */
  readonly down: boolean;
  /** Layers, blocks or ids that could be named. */
  readonly names: readonly string[];
  /** What would show the way out where several outlines have no names. */
  readonly howToName: string;
}

/** Of path text, which counts in the unit of its file. */
export function pathFrame(unit: FileUnit): Frame {
  return { unit, down: true, names: [], howToName: 'give each outline a part of its own' };
}

/** As the drawing program would show it: `(12.5, 30 mm)`. */
export function framePoint({ x, y }: Point, frame: Frame): string {
  return `(${number(x, frame)}, ${number(frame.down ? -y : y, frame)} ${frame.unit})`;
}

export function frameLength(length: number, frame: Frame): string {
  return `${number(length, frame)} ${frame.unit}`;
}

/** Enough to tell a gap that is just too wide from one that is not: about 0.1 µm. */
const DECIMALS: Readonly<Record<DrawingUnit, number>> = { mm: 4, cm: 5, m: 7, in: 5, ft: 6 };

function number(length: number, { unit }: Frame): string {
  const scale = 10 ** DECIMALS[unit];
  // Adding 0 makes an ordinary 0 of -0.
  return String(Math.round((length / DRAWING_UNITS[unit]) * scale) / scale + 0);
}
