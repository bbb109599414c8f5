// Finds the cheapest whole sheets whose capacities meet several demands, some of which only some stocks may meet.
// Idea: the number of sheets of one stock after another is tried, from many down. A branch ends where its cost and the least cost of fractions of sheets for
//   what is still open come to no less than the best mix known; for one demand the fractions are taken from the cheapest stock for its capacity on.
//   What costs nothing is taken first, all of it, so that a hundred offcuts are no hundred stocks to choose among.
// Source: branch and bound for the covering knapsack; the fractional bound after Dantzig 1957, "Discrete-variable extremum problems", Operations Research 5.
// Cost: held to MOST_MIXES mixes, then the fractions have to do, which is still a lower bound. Meant for a handful of stocks and demands. Amounts are
//   areas in squared base lengths, hence BigInt.
// Degenerate cases: nothing asked, or no stock: 0; more asked than there is: the cost of all that is on hand.

/** What one stock offers. */
export interface Offer {
  readonly capacity: bigint;
  readonly cost: number;
  readonly onHand: number;
}

/** An amount that only the stocks marked in `from` can take. */
export interface Demand {
  readonly amount: bigint;
  readonly from: readonly boolean[];
}

/** Mixes looked at before the fractional answer has to do. */
const MOST_MIXES = 20_000;

/**
 * The least cost of whole sheets whose capacities meet every demand; a lower bound of it where there are too many mixes to look at.
 * Where even the whole stock does not meet them, the cost of the whole stock.
 */
export function cheapestMix(offers: readonly Offer[], demands: readonly Demand[]): number {
  if (offers.length === 0) return 0;
  const whole = wholeStock(offers, demands);
  if (whole !== null) return whole;
  return cheapestPaidMix(
    offers.filter((offer) => !isFree(offer)),
    afterFree(offers, demands),
  );
}

function cheapestPaidMix(offers: readonly Offer[], demands: readonly Demand[]): number {
  if (offers.length === 0) return 0;
  const search = { offers, demands, best: Number.POSITIVE_INFINITY, looked: 0 };
  extend(
    search,
    demands.map(({ amount }) => amount),
    0,
    0,
  );
  if (search.looked < MOST_MIXES) return search.best;
  return Math.max(...demands.map((demand) => fractionalCost(offers, demand, demand.amount, 0)));
}

function isFree({ cost, onHand }: Offer): boolean {
  return cost === 0 && Number.isFinite(onHand);
}

/** What is left of the demands for the offers that cost something. */
function afterFree(offers: readonly Offer[], demands: readonly Demand[]): readonly Demand[] {
  return demands.map(({ amount, from }) => ({
    amount: offers.reduce(
      (open, offer, k) =>
        from[k] && isFree(offer) ? open - offer.capacity * BigInt(offer.onHand) : open,
      amount,
    ),
    from: from.filter((_, k) => !isFree(offers[k]!)),
  }));
}

interface MixSearch {
  readonly offers: readonly Offer[];
  readonly demands: readonly Demand[];
  best: number;
  looked: number;
}

/** Tries every number of sheets of stock `index`, given what is still open of each demand. */
function extend(search: MixSearch, open: readonly bigint[], index: number, cost: number): void {
  const { offers, demands } = search;
  const offer = offers[index];
  if (offer === undefined || search.looked++ >= MOST_MIXES) return;
  const least = demands.map((demand, k) => fractionalCost(offers, demand, open[k] ?? 0n, index));
  if (cost + Math.max(0, ...least) >= search.best) return;
  const most = sheetsNeeded(offer, demands, open, index);
  if (index === offers.length - 1) {
    // The fractional cost is finite, so this stock alone meets what is open.
    search.best = Math.min(search.best, cost + most * offer.cost);
    return;
  }
  // From many sheets down, so that a good mix is known early.
  // Of what costs nothing more is never worse.
  const fewest = offer.cost === 0 ? most : 0;
  for (let count = most; count >= fewest; count--) {
    const taken = offer.capacity * BigInt(count);
    const rest = open.map((amount, k) => (demands[k]?.from[index] ? amount - taken : amount));
    extend(search, rest, index + 1, cost + count * offer.cost);
  }
}

/** How many sheets of a stock would meet, alone, all that it may meet; no more than there are. */
function sheetsNeeded(
  { capacity, onHand }: Offer,
  demands: readonly Demand[],
  open: readonly bigint[],
  index: number,
): number {
  if (capacity <= 0n) return 0;
  let most = 0n;
  demands.forEach(({ from }, k) => {
    const amount = open[k] ?? 0n;
    const alone = amount > 0n ? (amount + capacity - 1n) / capacity : 0n;
    if (from[index] && alone > most) most = alone;
  });
  return Math.min(Number(most), onHand);
}

/** Least cost of fractions of sheets, from stock `index` on, that meet one demand, rounded up; infinite where they cannot. */
export function fractionalCost(
  offers: readonly Offer[],
  { from }: Demand,
  open: bigint,
  index: number,
): number {
  let rest = open;
  let cost = 0;
  const cheapestFirst = offers
    .map((offer, k) => ({ ...offer, k }))
    .filter(({ capacity, k }) => k >= index && from[k] && capacity > 0n)
    .sort((a, b) => Number(BigInt(a.cost) * b.capacity - BigInt(b.cost) * a.capacity) || a.k - b.k);
  for (const offer of cheapestFirst) {
    if (rest <= 0n) break;
    const limited = Number.isFinite(offer.onHand);
    const all = limited ? offer.capacity * BigInt(offer.onHand) : rest;
    if (limited && all < rest) {
      cost += offer.cost * offer.onHand;
      rest -= all;
    } else {
      const cents = BigInt(offer.cost) * rest;
      return cost + Number((cents + offer.capacity - 1n) / offer.capacity);
    }
  }
  return rest > 0n ? Number.POSITIVE_INFINITY : cost;
}

/** The cost of all sheets on hand where some demand is more than they all can take; null where none is. */
function wholeStock(offers: readonly Offer[], demands: readonly Demand[]): number | null {
  const tooMuch = demands.some(
    (demand) => fractionalCost(offers, demand, demand.amount, 0) === Number.POSITIVE_INFINITY,
  );
  if (!tooMuch) return null;
  const limited = offers.filter(({ onHand }) => Number.isFinite(onHand));
  return limited.reduce((sum, { cost, onHand }) => sum + cost * onHand, 0);
}
