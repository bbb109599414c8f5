import type { Job } from '../model/job.ts';
import type { Objective, Placement } from '../model/layout.ts';
import type { SheetStock } from '../model/stock.ts';
import type { Random } from './random.ts';
import type { WorkBudget } from './work.ts';

/** One allowed way to lay a body down. */
export interface Orientation {
  readonly turn: number;
  readonly mirrored: boolean;
  /** Box of the pieces themselves, without spacing. */
  readonly width: number;
  readonly height: number;
  /** The body's pieces with the lower-left corner of that box at the origin. */
  readonly placements: readonly Placement[];
  /** Whether the body fills its box, so that its box is its true shape. */
  readonly rectangular: boolean;
  /** For each stock of the material, whether its part and the grain allow this orientation on it. */
  readonly allowedOn: readonly boolean[];
}

/** What is placed as one: a piece, or the pieces of a matched set. Bodies of one kind are alike and interchangeable. */
export interface Body {
  readonly index: number;
  readonly kind: number;
  readonly pieces: readonly number[];
  /** Distinct ones only: a turn that gives the same outline and the same grain is listed once. */
  readonly orientations: readonly Orientation[];
}

/** The packing of one material. */
export interface PackingTask {
  readonly job: Job;
  readonly material: number;
  readonly stocks: readonly SheetStock[];
  readonly spacing: number;
  readonly objective: Objective;
  readonly bodies: readonly Body[];
}

/** Where a body lies: the lower-left corner of its box, in sheet coordinates. */
export interface Spot {
  readonly body: number;
  readonly orientation: number;
  readonly x: number;
  readonly y: number;
}

export interface PackedSheet {
  readonly stock: number;
  readonly spots: readonly Spot[];
  /** How the box engine lays the spots out again in their order; missing on sheets of others. */
  readonly again?: LayAgain;
  /** Whether it is a sheet of boxes in which outlines lie, so that it knows nothing of their forms. */
  readonly boxed?: true;
}

/** A rule of the box engine, and how far of the sheet it may use: the stock's own size, or less where the sheet is packed to one end. */
export interface LayAgain {
  readonly rule: number;
  /** At a saw, where each box comes into the cuts (panelsaw/tree-order.ts); null where the rule says it. */
  readonly beside: Int32Array | null;
  readonly width: number;
  readonly height: number;
}

/** A legal packing; bodies left out are in `unplaced`. */
export interface Candidate {
  readonly sheets: readonly PackedSheet[];
  readonly unplaced: readonly number[];
}

/** Where the search stands, for a progress line. */
export interface Progress {
  readonly material: number;
  readonly objective: Objective;
  /** Null until there is a layout. */
  readonly used: number | null;
  readonly atLeast: number;
  /** Share of the counted work that is left, from 1 down to 0. */
  readonly workLeft: number;
}

/** What a strategy may use: randomness, counted work, and the value at which nothing better is possible. */
export interface Search {
  readonly random: Random;
  readonly budget: WorkBudget;
  readonly atLeast: number;
  /** Which of the searches that run side by side this is, from 0. */
  readonly track: number;
  /** The best that is known so far; without sheets at the very start. */
  readonly start: Candidate;
  /** Told of every better candidate at once, so that a stop keeps it. */
  readonly found: (candidate: Candidate) => void;
}

/** All strategies have this one signature; a table in `turns.ts` chooses among them. */
export type Strategy = (task: PackingTask, search: Search) => Candidate;
