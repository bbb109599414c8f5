/**
 * Lengths inside are whole numbers of one eighth of a micrometre, so that 1 µm (8) and 1/64 inch (3,175) are both exact.
 * Readers convert in, writers convert out, nobody else.
 */
export const UNITS_PER_MM = 8000;
export const UNITS_PER_INCH = 203_200;

/** Longest side of a sheet, 8.38 m: an orientation test in plain doubles is exact for spans up to this. */
export const MAX_SHEET_SPAN = 2 ** 26;

/** Longest side of a part that is packed by its true shape, 4.19 m: two of them side by side stay within the sheet's span. */
export const MAX_SHAPE_SPAN = 2 ** 25;

/** Longest board, 268 m: lengths along a line are added and compared only. */
export const MAX_BOARD_LENGTH = 2 ** 31;

/** The nearest whole number of base lengths to `value` millimetres. */
export function fromMm(value: number): number {
  return Math.round(value * UNITS_PER_MM);
}

/** Millimetres, exact to the sixth decimal for every whole number of base lengths. */
export function toMm(length: number): number {
  return Math.round((length / UNITS_PER_MM) * 1e6) / 1e6;
}

/** Square millimetres of an area given in squared base lengths. */
export function toMm2(area: number): number {
  return area / (UNITS_PER_MM * UNITS_PER_MM);
}

/** Pound-force and pound, exact by definition. */
export const N_PER_LBF = 4.448_221_615_260_5;
export const KG_PER_LB = 0.453_592_37;
