/** What becomes of stock that is bought, in the order in which it is told; of each sheet or board they add up to all of it. */
export const YIELD_USES = [
  'pieces',
  'offcuts',
  'kerf',
  'trim',
  'keepOuts',
  'skeleton',
  'loose',
] as const;

export type YieldUse = (typeof YIELD_USES)[number];

/** Sheets are measured by area and boards by length. */
export type YieldKind = 'sheets' | 'boards';

const YIELD_WORDS: Readonly<Record<YieldUse, string>> = {
  pieces: 'pieces',
  offcuts: 'offcuts kept',
  kerf: 'kerf',
  trim: 'trim',
  keepOuts: 'keep-outs',
  skeleton: 'skeleton',
  loose: 'loose waste',
};

/** Bad places have another name on boards. */
export function yieldWord(use: YieldUse, kind: YieldKind): string {
  return use === 'keepOuts' && kind === 'boards' ? 'defects' : YIELD_WORDS[use];
}

/** Square millimetres of sheets or millimetres of boards. */
export type YieldAmounts = Readonly<Record<YieldUse, number>>;

/** Where what was bought goes. */
export interface Yield {
  /** The sum of the amounts. */
  readonly bought: number;
  readonly amounts: YieldAmounts;
  /** Tenths of a per cent, which add up to 1000. */
  readonly tenths: YieldAmounts;
  /** Pieces over what was bought. */
  readonly onPurchase: number;
  /** Pieces over what was bought less the offcuts kept. */
  readonly onUsed: number;
}

/** Sheets by area and boards by length cannot be added to one another; null where there are none. */
export type YieldPair = Readonly<Record<YieldKind, Yield | null>>;

export interface Yields {
  /** In the order of their numbers. */
  readonly sheets: readonly Yield[];
  readonly boards: readonly Yield[];
  /** One a material, in the order of the file. */
  readonly materials: readonly YieldPair[];
  readonly job: YieldPair;
}
