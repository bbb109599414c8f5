import type { Axis, Scale } from './scales.ts';

/** Boxes of one kind, grown; `count` of them. One box where it may not be turned, two where it may; none where it fits no sheet. */
export interface WeighedKind {
  readonly count: number;
  readonly boxes: readonly { readonly width: number; readonly height: number }[];
}

/** One stock with its kinds, as indices into the lengths of its two axes. */
export interface View {
  readonly cost: number;
  readonly counts: Float64Array;
  /** First and second box of each kind; the second is the first again where there is one only, and both are -1 where there is none. */
  readonly x: readonly [Int32Array, Int32Array];
  readonly y: readonly [Int32Array, Int32Array];
  readonly axisX: Axis;
  readonly axisY: Axis;
  /** Whether a kind weighs the mean of its two boxes, not the less. */
  readonly mean: boolean;
}

/** A pair of scales for a view. */
export interface Choice {
  readonly view: View;
  readonly scaleX: Scale;
  readonly scaleY: Scale;
}

export function newView(
  kinds: readonly WeighedKind[],
  sheet: { readonly width: number; readonly height: number; readonly cost: number },
  mean: boolean,
): View {
  const axisX = axisOf(sheet.width, kinds, 'width');
  const axisY = axisOf(sheet.height, kinds, 'height');
  const places = (axis: Axis, side: 'width' | 'height', turn: 0 | 1) => {
    const placeOf = new Map(axis.lengths.map((length, i) => [length, i]));
    return Int32Array.from(kinds, ({ boxes }) => {
      const box = boxes[turn] ?? boxes[0];
      return box ? (placeOf.get(box[side]) ?? -1) : -1;
    });
  };
  return {
    cost: sheet.cost,
    counts: Float64Array.from(kinds, ({ count }) => count),
    x: [places(axisX, 'width', 0), places(axisX, 'width', 1)],
    y: [places(axisY, 'height', 0), places(axisY, 'height', 1)],
    axisX,
    axisY,
    mean,
  };
}

function axisOf(capacity: number, kinds: readonly WeighedKind[], side: 'width' | 'height'): Axis {
  const countOf = new Map<number, number>();
  for (const { boxes, count } of kinds) {
    for (const box of boxes) countOf.set(box[side], (countOf.get(box[side]) ?? 0) + count);
  }
  const lengths = [...countOf.keys()].sort((a, b) => a - b);
  return { capacity, lengths, counts: lengths.map((length) => countOf.get(length) ?? 0) };
}

/**
 * Weight of all kinds on one stock, in sheets, in doubles: a screening only. Calls `heavier` for every pair that weighs more than all before it.
 * Where the mean counts, the two scales may be swapped, so only half of the pairs are looked at.
 */
export function screenPairs(
  view: View,
  scalesX: readonly Scale[],
  scalesY: readonly Scale[],
  heavier: (scaleX: Scale, scaleY: Scale, weight: number) => void,
): void {
  const kinds = [...view.counts.keys()].filter((k) => view.x[0][k]! >= 0);
  const [x0, x1] = view.x.map((places) => Int32Array.from(kinds, (k) => places[k]!));
  const [y0, y1] = view.y.map((places) => Int32Array.from(kinds, (k) => places[k]!));
  const first = new Float64Array(kinds.length);
  const second = new Float64Array(kinds.length);
  const sharesY = scalesY.map(({ values, capacity }) => values.map((value) => value / capacity));
  let most = 0;
  scalesX.forEach((scaleX, i) => {
    kinds.forEach((kind, k) => {
      const unit = view.counts[kind]! / (view.mean ? 2 * scaleX.capacity : scaleX.capacity);
      first[k] = unit * scaleX.values[x0![k]!]!;
      second[k] = unit * scaleX.values[x1![k]!]!;
    });
    for (let j = view.mean ? i : 0; j < scalesY.length; j++) {
      const weight = view.mean
        ? sumOfBoth(first, second, sharesY[j]!, y0!, y1!)
        : sumOfLess(first, second, sharesY[j]!, y0!, y1!);
      if (weight <= most) continue;
      most = weight;
      heavier(scaleX, scalesY[j]!, weight);
    }
  });
}

function sumOfBoth(
  first: Float64Array,
  second: Float64Array,
  shares: Float64Array,
  y0: Int32Array,
  y1: Int32Array,
): number {
  let sum = 0;
  for (let k = 0; k < first.length; k++)
    sum += first[k]! * shares[y0[k]!]! + second[k]! * shares[y1[k]!]!;
  return sum;
}

function sumOfLess(
  first: Float64Array,
  second: Float64Array,
  shares: Float64Array,
  y0: Int32Array,
  y1: Int32Array,
): number {
  let sum = 0;
  for (let k = 0; k < first.length; k++) {
    const a = first[k]! * shares[y0[k]!]!;
    const b = second[k]! * shares[y1[k]!]!;
    sum += Math.min(a, b);
  }
  return sum;
}

/** The same for one pair a stock, exactly, each kind on the stock where it weighs least; in units of the objective, rounded up. */
export function weighExactly(choices: readonly Choice[]): number {
  const denominators = choices.map(
    ({ view, scaleX, scaleY }) =>
      BigInt(scaleX.capacity) * BigInt(scaleY.capacity) * (view.mean ? 2n : 1n),
  );
  const common = denominators.reduce((product, denominator) => product * denominator, 1n);
  let total = 0n;
  const kinds = choices[0]?.view.counts.length ?? 0;
  for (let k = 0; k < kinds; k++) {
    let least: bigint | null = null;
    choices.forEach((choice, i) => {
      const weight = weightOf(choice, k);
      if (weight === null) return;
      const scaled = weight * BigInt(choice.view.cost) * (common / (denominators[i] ?? 1n));
      if (least === null || scaled < least) least = scaled;
    });
    total += BigInt(choices[0]?.view.counts[k] ?? 0) * (least ?? 0n);
  }
  return Number((total + common - 1n) / common);
}

/** What each kind weighs on one stock, in parts of which a sheet has `whole`, rounded down. */
export function sharesOf(choice: Choice, whole: number): Float64Array {
  const { view, scaleX, scaleY } = choice;
  const denominator = BigInt(scaleX.capacity) * BigInt(scaleY.capacity) * (view.mean ? 2n : 1n);
  return Float64Array.from(view.counts, (_, kind) => {
    const weight = weightOf(choice, kind) ?? 0n;
    return Number((weight * BigInt(whole)) / denominator);
  });
}

/** Weight of one box of a kind, times the denominator of the choice; null where the kind does not fit the stock. */
function weightOf({ view, scaleX, scaleY }: Choice, kind: number): bigint | null {
  const weights = ([0, 1] as const).map((turn) => {
    const x = scaleX.values[view.x[turn][kind] ?? -1];
    const y = scaleY.values[view.y[turn][kind] ?? -1];
    return x === undefined || y === undefined ? null : BigInt(x) * BigInt(y);
  });
  const [a, b] = weights;
  if (a === null || b === null || a === undefined || b === undefined) return null;
  if (view.mean) return a + b;
  // biome-ignore lint/complexity/useMathMinMax: Math.min takes no BigInt
  return b < a ? b : a;
}
