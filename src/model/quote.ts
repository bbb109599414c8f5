import type { Measure } from './lumber.ts';
import type { BandMeasure } from './rates.ts';

export const QUOTE_SECTIONS = ['material', 'hardware', 'machine', 'bench'] as const;
export type QuoteSection = (typeof QUOTE_SECTIONS)[number];

/** What amounts are counted in; an allowance has none. */
export type AmountUnit = 'sheet' | 'board' | Measure | BandMeasure | 'piece' | 's';

/** One line of the quote; without tax and margin. */
export interface QuoteLine {
  readonly section: QuoteSection;
  readonly name: string;
  /** As printed; null for an allowance, or where it is not known. */
  readonly amount: number | null;
  readonly unit: AmountUnit | null;
  /** Price of one unit, of time of an hour. */
  readonly eachCents: number | null;
  /** Null where a price, or a time, is not known. */
  readonly cents: number | null;
  /** What is missing where `cents` is null. */
  readonly missing: string | null;
}

/** What one part, or one kind of hardware, bears of the price before tax. */
export interface Share {
  readonly kind: 'part' | 'hardware';
  readonly name: string;
  readonly count: number;
  readonly cents: number;
}

/** The shares of a group add up to its own, those of the groups to the price before tax, to the minor unit. */
export interface GroupShare {
  /** Null: what belongs to no group. */
  readonly group: string | null;
  readonly cents: number;
  readonly shares: readonly Share[];
}

/** What the job is sold for. Every sum is null where one of its lines is not known. */
export interface Quote {
  /** The file has no rates: nothing but the stock is in it. */
  readonly isMaterialOnly: boolean;
  readonly lines: readonly QuoteLine[];
  readonly costCents: number | null;
  readonly marginCents: number | null;
  /** Cost and margin, before tax. */
  readonly priceCents: number | null;
  /** Null also where the file says nothing of tax. */
  readonly taxCents: number | null;
  readonly totalCents: number | null;
  /** Whole seconds, null where one of the times is not known. */
  readonly machineS: number | null;
  readonly benchS: number | null;
  /** None where the price is not known. */
  readonly groups: readonly GroupShare[];
  /** Why the price is not known. */
  readonly unknown: readonly string[];
  /** What the job has, but the file says neither price nor time of: it counts as nothing. */
  readonly leftOut: readonly string[];
}

/** A weight against what one person should lift. */
export interface Lift {
  readonly kind: 'sheet' | 'piece';
  readonly name: string;
  readonly weightKg: number;
  /** Weight over the recommended limit, to the hundredth. */
  readonly index: number;
}

/** By the lifting equation, under the assumptions that every output names. */
export interface Lifting {
  readonly limitKg: number;
  /** One for each kind of sheet in use, and for pieces above the limit. */
  readonly lifts: readonly Lift[];
}
