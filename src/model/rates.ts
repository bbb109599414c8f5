/** What an hour costs, in minor units; null where the file leaves one out. */
export interface LabourRates {
  /** At the router or the saw, loading included. */
  readonly machineCents: number | null;
  /** By hand: tabs, clamps, edge bands. */
  readonly benchCents: number | null;
}

/** What an edge band is sold by. */
export type BandMeasure = 'm' | 'ft';

export interface BandRates {
  readonly measure: BandMeasure;
  /** Of one measure. */
  readonly priceCents: number | null;
  /** Time to put a metre on. */
  readonly secondsPerM: number | null;
  /** Added to the length that the parts take. */
  readonly wasteShare: number;
}

/** Fittings that are bought by the piece. */
export interface Hardware {
  readonly name: string;
  readonly count: number;
  /** Of one piece. */
  readonly priceCents: number | null;
  /** Null: for the whole job, or for a part. */
  readonly group: string | null;
  /** Name of the part that it is mounted on; `count` is that of all its pieces together. */
  readonly part: string | null;
}

/** `cost`: so much is added to the cost; `price`: so much of the price before tax is margin. */
export type MarginOf = 'cost' | 'price';

/** What a job costs besides its stock, as the file says. Prices are whole minor units, times seconds, each null where it is left out. */
export interface Rates {
  /** Null: labour is no part of the price. */
  readonly labour: LabourRates | null;
  /** Once a job. */
  readonly setupS: number | null;
  /** A sheet. */
  readonly loadingS: number | null;
  readonly toolChangeS: number | null;
  /** Each drilled hole. */
  readonly holeS: number | null;
  /** Each cut of a panel saw. */
  readonly sawCutS: number | null;
  /** Each cut of a board. */
  readonly boardCutS: number | null;
  /** Null: edge bands are no part of the price. */
  readonly edgeBand: BandRates | null;
  readonly hardware: readonly Hardware[];
  /** Added to the price of sheets and boards, for what is spoiled. */
  readonly wasteShare: number;
  readonly margin: { readonly share: number; readonly of: MarginOf };
  /** Of the price before tax; null where the file says nothing of tax. */
  readonly taxShare: number | null;
}
