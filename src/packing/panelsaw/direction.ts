/** Children side by side: the cuts between them run along y. */
export const ROW = 1;
/** Children one above the other. */
export const COLUMN = 2;
export type Direction = typeof ROW | typeof COLUMN;

export function across(direction: number): Direction {
  return direction === ROW ? COLUMN : ROW;
}
