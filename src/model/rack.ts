import type { Job } from './job.ts';
import type { SheetStock } from './stock.ts';

export const RACK_FORMAT = 'holdfast-rack/1';

/** Where an offcut comes from, or what it went into; what nobody said is null. */
export interface Deed {
  readonly job: string | null;
  /** Number of the sheet in its plan. */
  readonly sheet: number | null;
  /** The mark of the plan: the beginning of its record's hash. */
  readonly plan: string | null;
  /** As the caller gave it, such as 2026-03-31. */
  readonly date: string | null;
}

/** One offcut on the rack. */
export interface RackEntry {
  /** Printed on its label. */
  readonly id: string;
  /** The key of the material in parts files. */
  readonly material: string;
  readonly thickness: number;
  /** The offcut as a sheet; its `rack` is the id. */
  readonly stock: SheetStock;
  readonly from: Deed;
  readonly note: string | null;
  /** Null while it is on the rack. */
  readonly used: Deed | null;
}

/** What a rack file means, checked and complete. */
export interface Rack {
  readonly unit: Job['unit'];
  /** Null where no entry has a price and the file names none. */
  readonly currency: Job['currency'] | null;
  readonly entries: readonly RackEntry[];
  /** The number of the next label, so that none is ever printed twice. */
  readonly nextNumber: number;
}

/** What an id may be: short enough for a label, and no path. */
export const ID_PATTERN = /^[A-Za-z0-9][A-Za-z0-9_-]{0,7}$/;
