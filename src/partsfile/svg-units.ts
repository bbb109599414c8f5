import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';

/** Base lengths of a user unit across and upwards, and whether the drawing says so or pixels had to be assumed. */
export interface SvgScale {
  readonly scaleX: number;
  readonly scaleY: number;
  readonly assumedPixels: boolean;
}

/** The standard's pixel, 1/96 of an inch. */
const PIXEL = UNITS_PER_INCH / 96;

const BASE_LENGTHS: ReadonlyMap<string, number> = new Map([
  ['mm', UNITS_PER_MM],
  ['cm', 10 * UNITS_PER_MM],
  ['in', UNITS_PER_INCH],
  ['pt', UNITS_PER_INCH / 72],
  ['pc', UNITS_PER_INCH / 6],
]);

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?`;
const WHOLE = new RegExp(`^${NUMBER}$`, 'i');
const LENGTH = new RegExp(`^(${NUMBER})\\s*([a-z]+|%)?$`, 'i');

/** The scale of a drawing from the attributes of its root; null where they contradict themselves or are no numbers. */
export function svgScale(attributes: Readonly<Record<string, string>>): SvgScale | null {
  const { width, height, viewBox, preserveAspectRatio = '' } = attributes;
  const pixels: SvgScale = { scaleX: PIXEL, scaleY: PIXEL, assumedPixels: true };
  if (viewBox === undefined) return pixels;
  const [, , boxWidth = 0, boxHeight = 0] = numbersOf(viewBox) ?? [];
  if (!(0 < boxWidth && 0 < boxHeight)) return null;
  const across = width === undefined ? null : pageLength(width);
  const upwards = height === undefined ? null : pageLength(height);
  if (across === null && upwards === null) return pixels;
  const scaleX = (across?.length ?? 0) / boxWidth || (upwards?.length ?? 0) / boxHeight;
  const scaleY = (upwards?.length ?? 0) / boxHeight || scaleX;
  if (!(0 < scaleX && 0 < scaleY)) return null;
  const assumedPixels = across?.pixels === true || upwards?.pixels === true;
  if (preserveAspectRatio.trim().startsWith('none')) return { scaleX, scaleY, assumedPixels };
  const scale = Math.min(scaleX, scaleY);
  return { scaleX: scale, scaleY: scale, assumedPixels };
}

/** A length among the attributes of a shape, in user units; null where it is none or a share of the page. */
export function userLength(text: string): number | null {
  const [, number = '', unit] = LENGTH.exec(text.trim()) ?? [];
  if (number === '') return null;
  if (unit === undefined || unit === 'px') return Number(number);
  const base = BASE_LENGTHS.get(unit.toLowerCase());
  return base === undefined ? null : (Number(number) * base) / PIXEL;
}

/** The numbers of a list with blanks or commas between them; null where anything else is in it. */
export function numbersOf(text: string): number[] | null {
  const words = text.trim().split(/[\s,]+/);
  return words.every((word) => WHOLE.test(word)) ? words.map(Number) : null;
}

/** Width or height of the page in base lengths; null for a share of the window, which has no size. */
function pageLength(text: string): { readonly length: number; readonly pixels: boolean } | null {
  const [, number = '', unit] = LENGTH.exec(text.trim()) ?? [];
  if (number === '' || unit === '%') return null;
  const base = BASE_LENGTHS.get((unit ?? '').toLowerCase());
  if (base !== undefined) return { length: Number(number) * base, pixels: false };
  return unit === undefined || unit === 'px'
    ? { length: Number(number) * PIXEL, pixels: true }
    : null;
}
