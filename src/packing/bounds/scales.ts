/**
 * Dual feasible functions over one axis of a stock.
 *
 * A scale gives each length that occurs a whole number so that lengths which fit side by side within the capacity never sum to more than `capacity` of the scale.
 * Sources: Fekete & Schepers 2001, "New classes of fast lower bounds for bin packing problems", Mathematical Programming 91 (threshold, multiples);
 * Carlier, Clautiaux & Moukrim 2007, "New reduction procedures and lower bounds for the two-dimensional bin packing problem with fixed orientation",
 * Computers & OR 34 (rounding, counting); the counting one goes back to Boschetti & Mingozzi 2003, 4OR 1.
 */

/** Values in the order of `Axis.lengths`. */
export interface Scale {
  readonly values: Float64Array;
  readonly capacity: number;
}

/** The lengths that occur along one axis of a stock, ascending and distinct, none above the capacity, and how many boxes have each. */
export interface Axis {
  readonly capacity: number;
  readonly lengths: readonly number[];
  readonly counts: readonly number[];
}

const MOST_MULTIPLES = 50;

/** The distinct scales worth trying; at most about `most` of them. */
export function scalesOf(axis: Axis, most: number): Scale[] {
  const { capacity, lengths } = axis;
  const steps = stepsOf(axis, 1);
  const share = Math.max(1, Math.floor(most / 4));
  const scales: Scale[] = [{ values: Float64Array.from(lengths), capacity }];
  for (const k of thinned(steps, share)) scales.push(threshold(axis, k), counting(axis, k));
  for (const k of thinned([...steps, ...stepsOf(axis, 2)], 2 * share))
    scales.push(rounding(axis, k));
  for (let k = 1; k <= MOST_MULTIPLES; k++) scales.push(multiples(axis, k));
  return withoutRepeats(scales);
}

/** The parameters at which some function changes, up to half the capacity: the `part`-th parts of lengths and of what they leave. */
function stepsOf({ capacity, lengths }: Axis, part: number): number[] {
  const steps = lengths.flatMap((length) => [
    Math.floor(length / part),
    Math.floor((capacity - length) / part),
    Math.floor((capacity - length) / part) + 1,
  ]);
  const useful = steps.filter((k) => k >= 1 && 2 * k <= capacity);
  return [...new Set(useful)].sort((a, b) => a - b);
}

function thinned(steps: readonly number[], most: number): number[] {
  if (steps.length <= most) return [...steps];
  return Array.from({ length: most }, (_, i) => steps[Math.floor((i * steps.length) / most)]!);
}

/** What leaves less than `k` counts as all of the capacity, what is below `k` as nothing. */
function threshold({ capacity, lengths }: Axis, k: number): Scale {
  const values = Float64Array.from(lengths, (length) => {
    if (length > capacity - k) return capacity;
    return length < k ? 0 : length;
  });
  return { values, capacity };
}

/** Lengths rounded down to multiples of `k`, and those above half the capacity by what they leave. */
function rounding({ capacity, lengths }: Axis, k: number): Scale {
  const whole = Math.floor(capacity / k);
  const values = Float64Array.from(lengths, (length) => {
    if (2 * length > capacity) return 2 * (whole - Math.floor((capacity - length) / k));
    return 2 * length === capacity ? whole : 2 * Math.floor(length / k);
  });
  return { values, capacity: 2 * whole };
}

/**
 * Of the boxes between `k` and half the capacity each counts one; a longer one counts as many of them as it shuts out.
 * The count runs over all boxes, not over distinct lengths: else it would claim too much.
 */
function counting(axis: Axis, k: number): Scale {
  const { capacity, lengths } = axis;
  const from = firstAtLeast(lengths, k);
  const all = mostThatFit(axis, from, capacity);
  const values = Float64Array.from(lengths, (length) => {
    if (2 * length > capacity) return all - mostThatFit(axis, from, capacity - length);
    return length < k ? 0 : 1;
  });
  return { values, capacity: all };
}

function firstAtLeast(lengths: readonly number[], k: number): number {
  const at = lengths.findIndex((length) => length >= k);
  return at < 0 ? lengths.length : at;
}

/** How many boxes fit side by side in `room`, shortest first, of those from index `from` on and up to half the capacity. */
function mostThatFit({ capacity, lengths, counts }: Axis, from: number, room: number): number {
  let fit = 0;
  let rest = room;
  for (let i = from; i < lengths.length; i++) {
    const length = lengths[i]!;
    if (2 * length > capacity || length > rest) break;
    const taken = Math.min(counts[i]!, Math.floor(rest / length));
    fit += taken;
    rest -= taken * length;
  }
  return fit;
}

/** Multiples of the capacity's share 1 / (k + 1) stay as they are, other lengths go down to shares 1 / k. */
function multiples({ capacity, lengths }: Axis, k: number): Scale {
  const values = Float64Array.from(lengths, (length) => {
    const shares = (k + 1) * length;
    return shares % capacity === 0 ? k * length : Math.floor(shares / capacity) * capacity;
  });
  return { values, capacity: k * capacity };
}

/** Scales that give every length the same share are one; those that give nothing are none. */
function withoutRepeats(scales: readonly Scale[]): Scale[] {
  const seen = new Set<string>();
  return scales.filter(({ values, capacity }) => {
    if (capacity === 0 || values.every((value) => value === 0)) return false;
    const key = Array.from(values, (value) => value / capacity).join();
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}
