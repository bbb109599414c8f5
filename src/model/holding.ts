import type { Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Ring } from '../geometry/shape.ts';

export type LooseKind = 'piece' | 'slug' | 'sliver';
export type Verdict = 'stays' | 'marginal' | 'moves';
export type Action = 'none' | 'earlier' | 'skin' | 'tabs' | 'clamp';

/** A bridge left across the kerf; `at` is the middle of its foot on the outline, in sheet coordinates. */
export interface Tab {
  readonly at: Point;
  readonly width: number;
  readonly height: number;
}

/** The reckoning of one loose thing, with the numbers that its explanation prints. Forces and margins are rounded to printed digits. */
export interface Holding {
  readonly kind: LooseKind;
  /** Piece index: the piece itself, or the one whose cut-out a slug comes from; null for a sliver. */
  readonly piece: number | null;
  /** Sheet number in the whole job, from 1. */
  readonly sheet: number;
  /** As it lies on the sheet; null for a piece, whose place the layout has. */
  readonly outline: Ring | null;
  /** Place in the sheet's order of freeing cuts, from 1. */
  readonly cutOrder: number;
  readonly vacuumKpa: number;
  readonly holdingForceN: number;
  readonly cuttingForceN: number;
  readonly margin: number;
  readonly marginLow: number;
  readonly verdict: Verdict;
  readonly action: Action;
  readonly marginAfter: number;
  readonly verdictAfter: Verdict;
  /** Left in the cut that frees it, or for a sliver in the cuts beside it; 0 where these go through. */
  readonly skin: number;
  /** For whose sake the skin is left: its own, or that of a strip of waste beside it; null without one. */
  readonly skinFor: 'itself' | 'waste' | null;
  /** The cuts that are left on the skin that holds it, by their place in the order: its own, or those beside a sliver. */
  readonly skinCuts: readonly number[];
  readonly tabs: readonly Tab[];
  /** How the whole sheet stands while the pockets of a piece are cut; null without pockets. */
  readonly pocketing: Pocketing | null;
  /** Where the clamp stands, on the sheet; null without one, or where no place was found for it. */
  readonly clamp: Box | null;
  /** What the remedy costs in time at the machine and the bench; 0 without one, and for a sliver on a skin, which the pieces beside it pay. */
  readonly remedyS: number;
  /** One sentence for the person at the machine. */
  readonly why: string;
}

/** The deepest pass of the pockets of a piece against the sheet that the piece is still part of. */
export interface Pocketing {
  readonly cuttingForceN: number;
  readonly margin: number;
  readonly marginLow: number;
  readonly verdict: Verdict;
}

/** What a person is told to do: the action, or something in its place where nothing reckoned holds the thing. */
export type Advice = Action | 'leave' | 'try' | 'pocket';

export function adviceOf({
  kind,
  action,
  verdictAfter,
}: Pick<Holding, 'kind' | 'action' | 'verdictAfter'>): Advice {
  if (action !== 'none' || verdictAfter === 'stays') return action;
  if (kind !== 'piece') return 'pocket';
  return verdictAfter === 'moves' ? 'leave' : 'try';
}

/** One step of the cutting order of a sheet. */
export type CutStep = ContourStep | SkinStep;

export interface ContourStep {
  readonly kind: 'pocket' | 'hole' | 'cut-out' | 'outline';
  readonly piece: number;
  /** Index of the pocket, hole or cut-out in its part; 0 for an outline. */
  readonly feature: number;
}

/** The last light pass of a cut that was left on a skin; a sliver has none, as it comes free with the last of those beside it. */
export interface SkinStep {
  readonly kind: 'skin';
  readonly thing: Exclude<LooseKind, 'sliver'>;
  /** As in its `Holding`. */
  readonly piece: number;
  /** Its place among the freeing cuts, as in its `Holding`. */
  readonly cutOrder: number;
}

/** Of one sheet: everything that comes loose, and the order of the cuts. */
export interface SheetHolding {
  readonly sheet: number;
  readonly loose: readonly Holding[];
  /** The cuts, then the skins in the order of the cuts that left them. */
  readonly steps: readonly CutStep[];
  /** Nominal vacuum before the first cut, to 0.01 kPa. */
  readonly vacuumStartKpa: number;
  /** Nominal vacuum after each freeing cut, the first first, to 0.01 kPa. */
  readonly vacuumAlongKpa: readonly number[];
  /** The freeing cut after which the vacuum has broken down, 0 where there is none from the start; null where it never does. */
  readonly lostAfter: number | null;
  /** What the order is worth. */
  readonly order: OrderFigures;
  /** The same for the pieces in the order of the file, what lies in a cut-out before the piece around it. */
  readonly fileOrder: OrderFigures;
}

export interface OrderFigures {
  /** Straight from the centre of each piece to that of the next, to the whole millimetre. */
  readonly travelMm: number;
  /** Of all pieces where they are cut, without their remedies; null where there are none. */
  readonly leastMargin: number | null;
}

/** One line of a reckoning that a person can follow with a calculator. */
export interface ReckoningLine {
  readonly quantity: string;
  readonly formula: string;
  readonly value: string;
}

/** What one input of the reckoning does to a margin when it alone goes to another value; the values as a person reads them. */
export interface Influence {
  readonly input: string;
  readonly from: string;
  readonly to: string;
  /** The piece whose nominal margin this is. */
  readonly piece: number;
  readonly marginFrom: number;
  readonly marginTo: number;
}
