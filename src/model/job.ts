import type { LabelGrid } from './label-grid.ts';
import type { Lumber } from './lumber.ts';
import type { Machine, Router, Table } from './machine.ts';
import type { MachineLayers } from './machine-layers.ts';
import type { OffcutRule } from './offcut-rule.ts';
import type { LengthPart, MatchedSet, Part, Piece } from './part.ts';
import type { Place } from './place.ts';
import type { Rates } from './rates.ts';
import type { Material } from './stock.ts';

export type FileUnit = 'mm' | 'in';

export type HoldingLimit = 'no piece moves' | 'no piece marginal';

/** What `check` holds the plan against; null where the file sets no limit. */
export interface Limits {
  readonly sheets: number | null;
  readonly yieldShare: number | null;
  readonly costCents: number | null;
  readonly holding: HoldingLimit | null;
  /** Whether nothing less than a proof passes. */
  readonly proof: boolean;
  /** At the machine and the bench together. */
  readonly timeS: number | null;
  readonly weightKg: number | null;
  /** The record that the plan may not drift from, counted from the folder of the parts file. */
  readonly drift: string | null;
  /** Where each of them stands in the file. */
  readonly places: Readonly<Partial<Record<LimitName, Place>>>;
}

export type LimitName =
  | 'sheets'
  | 'yield'
  | 'cost'
  | 'holding'
  | 'proof'
  | 'time'
  | 'weight'
  | 'drift';

export const NO_LIMITS: Limits = {
  sheets: null,
  yieldShare: null,
  costCents: null,
  holding: null,
  proof: false,
  timeS: null,
  weightKg: null,
  drift: null,
  places: {},
};

/** A drawing that the parts file names, as it was read. */
export interface DrawingSource {
  readonly path: string;
  readonly sha256: string;
}

/** The rack file that the parts file names, counted from its own folder; `none` where it wants no rack. */
export interface NamedRack {
  readonly name: string;
  readonly place: Place;
}

/** What the parts file means, checked and complete. Indices point into these lists. */
export interface Job {
  readonly name: string;
  readonly unit: FileUnit;
  /** ISO 4217 code and the number of decimals of its minor unit; prices inside are whole minor units ("cents"). */
  readonly currency: { readonly code: string; readonly decimals: number };
  readonly machine: Machine;
  readonly table: Table;
  readonly materials: readonly Material[];
  readonly parts: readonly Part[];
  readonly pieces: readonly Piece[];
  readonly sets: readonly MatchedSet[];
  /** The parts that are cut from boards. */
  readonly lengthParts: readonly LengthPart[];
  /** Rough lumber with the parts that are made from it. */
  readonly lumber: readonly Lumber[];
  readonly limits: Limits;
  readonly offcuts: OffcutRule;
  /** Null: the file prices nothing but its stock. */
  readonly rates: Rates | null;
  /** Null where the file says nothing of one; what is on it is no part of the job yet. */
  readonly rack: NamedRack | null;
  readonly drawings: readonly DrawingSource[];
  readonly layers: MachineLayers;
  /** Null: the usual one of the paper that the outputs are printed on. */
  readonly labels: LabelGrid | null;
}

/** A job for a router: only there is anything to hold down. */
export interface RouterJob extends Job {
  readonly machine: Router;
}

export function isRouterJob(job: Job): job is RouterJob {
  return job.machine.kind === 'router';
}
