import type { Costs } from './costs.ts';
import type { Influence, SheetHolding } from './holding.ts';
import type { Job } from './job.ts';
import type { BoardLayout, Layout, SheetLayout } from './layout.ts';

export const EFFORTS = ['quick', 'normal', 'long'] as const;
export type Effort = (typeof EFFORTS)[number];

/** What the search was told; complete, defaults filled in at the door. */
export interface SearchOptions {
  readonly effort: Effort;
  readonly seed: number;
  /** Extra stop by the clock; null for none, which alone gives the same bytes everywhere. */
  readonly seconds: number | null;
}

/** What ended a search before its counted work was done. */
export type StopCause = 'time' | 'interrupt';

/** Everything together: what the outputs are made from. */
export interface Plan {
  readonly job: Job;
  readonly options: SearchOptions;
  /** Null where the counted work, or a proof, ended the search. */
  readonly stopped: StopCause | null;
  /** One a material, in the order of the file; a material without pieces has an empty one. */
  readonly layouts: readonly Layout[];
  /** One a sheet, in the order of `numberedSheets`; none at a saw. */
  readonly holding: readonly SheetHolding[];
  /** Which inputs move the margins of the pieces, the strongest first. */
  readonly sensitivity: readonly Influence[];
  /** What the file asks of the cutter that is not usual, a sentence each. */
  readonly cutWarnings: readonly string[];
  readonly costs: Costs;
}

/** A sheet with its number in the whole job, from 1. */
export interface NumberedSheet {
  readonly number: number;
  readonly material: number;
  readonly sheet: SheetLayout;
}

/** Sheets are numbered through the whole job, material by material, so that one number names one sheet. */
export function numberedSheets(layouts: readonly Layout[]): readonly NumberedSheet[] {
  const sheets: NumberedSheet[] = [];
  for (const layout of layouts) {
    for (const sheet of layout.sheets) {
      sheets.push({ number: sheets.length + 1, material: layout.material, sheet });
    }
  }
  return sheets;
}

/** A board with its number in the whole job, from 1. */
export interface NumberedBoard {
  readonly number: number;
  readonly material: number;
  readonly board: BoardLayout;
}

/** Boards are numbered through the whole job as sheets are, but on their own: a board is cut on another day, at another machine. */
export function numberedBoards(layouts: readonly Layout[]): readonly NumberedBoard[] {
  return layouts
    .flatMap(({ material, boards }) => boards.map((board) => ({ material, board })))
    .map((each, i) => ({ number: i + 1, ...each }));
}
