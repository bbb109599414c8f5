import type { Place } from './place.ts';

/** What rough lumber is sold by. */
export type Measure = 'bf' | 'm3';

/** Rules by which boards are measured in board feet: hardwood in whole feet of length and of surface, softwood to a hundredth by nominal sizes. */
export type TallyRule = 'hardwood' | 'softwood';

/** `net`: so much is added to what the parts take; `gross`: so much of what is bought is lost. */
export type WasteOf = 'net' | 'gross';

/** A part that is sawn out of rough boards by hand and eye. */
export interface LumberPart {
  readonly name: string;
  readonly group: string | null;
  readonly note: string | null;
  readonly count: number;
  /** Finished, along the grain and across it. */
  readonly length: number;
  readonly width: number;
  readonly place: Place;
}

/** Boards that lie in the shop already. */
export interface OwnBoards {
  readonly length: number;
  readonly width: number;
  readonly count: number;
}

/** Rough boards of whatever width, bought by volume: they are reckoned, not laid out. */
export interface Lumber {
  /** The key in the parts file. */
  readonly id: string;
  readonly name: string;
  readonly thickness: number;
  /** The thickness that is paid for. */
  readonly rough: number;
  /** Length of the longest boards; null where the file does not say. */
  readonly longest: number | null;
  readonly measure: Measure;
  readonly tally: TallyRule;
  /** Of one measure. */
  readonly priceCents: number | null;
  readonly waste: { readonly share: number; readonly of: WasteOf };
  readonly onHand: readonly OwnBoards[];
  readonly parts: readonly LumberPart[];
  readonly place: Place;
}
