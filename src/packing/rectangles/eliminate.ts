// Makes an arrangement cheaper by taking sheets away.
// Idea: a cheaper list of sheets is made by dropping one, by changing one for a cheaper stock, or by changing two for one; the boxes that lose their sheet
//   wait in a pool, and `fitAll` tries to bring them onto the sheets that are left. When it does, the next sheet goes; when it does not, the fewest boxes that
//   ever waited may have left one sheet emptier than before. Where sheets are sold in packs, any mix of packs that costs less may be the next list, for a pack
//   is saved only once all its sheets are.
// Source: the elimination of routes in Nagata & Bräysy 2009, Operations Research Letters 37, here for sheets of several stocks and prices.
// Cost: all the work it is given, unless the cost that nothing can go under is reached before.
// Degenerate cases: one sheet: nothing to take away, unless a cheaper stock may do; boxes in the pool from the start are tried first.
import { type MixFinder, mixFinder } from '../cheaper-mixes.ts';
import { costOf, hasPacks } from '../priced.ts';
import { emptierWatch } from './emptier.ts';
import type { Engine } from './engine.ts';
import {
  type Arrangement,
  copyArrangement,
  copySheet,
  newSheet,
  type Sheet,
  stockAt,
} from './sheet.ts';

/** Where several changes of stock are possible, each gets this share of the work that is left before the next has its turn. */
const TURN_SHARE = 0.15;

export function eliminate(
  engine: Engine,
  start: Arrangement,
  work: number,
  atLeast: number,
  found: (arrangement: Arrangement) => void,
): Arrangement {
  const { budget, stocks } = engine;
  const stopAt = Math.max(0, budget.left - work);
  const workLeft = () => (budget.exhausted ? 0 : budget.left - stopAt);
  let best = start;
  if (best.pool.length > 0) best = placePool(engine, best, workLeft() / 2, found);
  const changesOf = changeFinder(engine);
  const emptier: Arrangement[] = [];
  // Of several sheets that may go, only the roomiest is watched: an emptier sheet of one stock cannot be weighed against one of another.
  const watchOf = (own: readonly Change[]) => {
    const drop = own.find((change) => change.sheets.length === 1 && change.stocks.length === 0);
    if (drop === undefined) return null;
    const sheet = best.sheets[drop.sheets[0]!]!;
    return { drop, see: emptierWatch(engine, sheet, (arrangement) => emptier.push(arrangement)) };
  };
  let changes = changesOf(best);
  let watch = watchOf(changes);
  let failures = 0;
  while (best.pool.length === 0 && workLeft() > 0 && costOf(stocks, best.sheets) > atLeast) {
    if (changes.length === 0) break;
    const change = changes[failures % changes.length]!;
    const next = changed(engine, best, change);
    const turn = changes.length === 1 ? workLeft() : workLeft() * TURN_SHARE + 1;
    const see = watch?.drop === change ? watch.see : undefined;
    if (engine.fit(engine, next, turn, see)) {
      best = hasPacks(stocks) ? withoutEmpty(next) : next;
      emptier.length = 0;
      changes = changesOf(best);
      watch = watchOf(changes);
      failures = 0;
      found(best);
    } else failures++;
  }
  // All are told, because an emptier sheet need not have the larger rectangle left.
  for (const arrangement of emptier) found(arrangement);
  return emptier.at(-1) ?? best;
}

/** Brings as many boxes as possible from the pool onto the sheets there are; the stock is used up, so none is taken away. */
function placePool(
  engine: Engine,
  start: Arrangement,
  work: number,
  found: (arrangement: Arrangement) => void,
): Arrangement {
  let best = start;
  const keepIfBetter = (arrangement: Arrangement) => {
    if (arrangement.pool.length >= best.pool.length) return;
    best = copyArrangement(arrangement);
    found(best);
  };
  const tried = copyArrangement(start);
  engine.fit(engine, tried, work, keepIfBetter);
  return best;
}

/** Sheets to take away, and the stocks of those that take their place. */
interface Change {
  readonly sheets: readonly number[];
  readonly stocks: readonly number[];
}

/** Finds the changes that make an arrangement cheaper. */
function changeFinder(engine: Engine): (arrangement: Arrangement) => Change[] {
  if (!hasPacks(engine.stocks)) return (arrangement) => cheaperSheets(engine, arrangement);
  const mixesBelow = mixFinder(engine.task.task);
  return (arrangement) => cheaperPacks(engine, arrangement, mixesBelow);
}

/** Every change to a cheaper list of sheets with area enough, the roomiest first. Of each stock only its emptiest sheets are changed. */
function cheaperSheets({ cuts, task, stocks }: Engine, { sheets }: Arrangement): Change[] {
  const boxArea = task.area.reduce((sum, area, kind) => sum + area * task.bodies[kind]!.length, 0);
  const freeArea = sheets.reduce((sum, { stock }) => sum + stockAt(stocks, stock).freeArea, 0);
  const inUse = new Int32Array(stocks.length);
  for (const { stock } of sheets) inUse[stock]!++;
  const changes: (Change & { spare: number })[] = [];
  for (const group of emptiestGroups(stocks.length, sheets)) {
    const taken = group.map((i) => stockAt(stocks, sheets[i]!.stock));
    const room = freeArea - taken.reduce((sum, stock) => sum + stock.freeArea, 0) - boxArea;
    const cost = taken.reduce((sum, stock) => sum + stock.cost, 0);
    // Nothing is cheaper than what costs nothing: of two offcuts there is nothing to look at.
    if (cost === 0) continue;
    if (group.length === 1) changes.push({ sheets: group, stocks: [], spare: room });
    stocks.forEach((stock, index) => {
      if (stock.cost >= cost) return;
      // Two for one of the same stock leaves the same list as one that is taken away.
      const isSameList = group.length === 2 && group.every((i) => sheets[i]!.stock === index);
      if (isSameList && !cuts.startsAnew) return;
      const given = group.filter((i) => sheets[i]!.stock === index).length;
      if (inUse[index]! - given < stock.onHand)
        changes.push({ sheets: group, stocks: [index], spare: room + stock.freeArea });
    });
  }
  return changes.filter(({ spare }) => spare >= 0).sort((a, b) => b.spare - a.spare);
}

/** Every change to a mix of packs that costs less, the fullest sheets kept; at last one sheet less for the same packs. */
function cheaperPacks(
  { stocks }: Engine,
  { sheets }: Arrangement,
  mixesBelow: MixFinder,
): Change[] {
  const byArea = [...sheets.keys()].sort((a, b) => sheets[a]!.area - sheets[b]!.area || a - b);
  const ownOf = stocks.map((_, stock) => byArea.filter((i) => sheets[i]!.stock === stock));
  const mixes = mixesBelow(costOf(stocks, sheets)).map((counts) => ({
    sheets: ownOf.flatMap((own, stock) => own.slice(0, Math.max(0, own.length - counts[stock]!))),
    stocks: ownOf.flatMap((own, stock) =>
      new Array<number>(Math.max(0, counts[stock]! - own.length)).fill(stock),
    ),
  }));
  return [...mixes, ...byArea.slice(0, 1).map((i) => ({ sheets: [i], stocks: [] }))];
}

/** The emptiest sheet of each stock alone, and each two of the emptiest together, as indices. */
function emptiestGroups(stockCount: number, sheets: readonly Sheet[]): number[][] {
  const byArea = [...sheets.keys()].sort((a, b) => sheets[a]!.area - sheets[b]!.area || a - b);
  const emptiest = Array.from({ length: stockCount }, (_, stock) =>
    byArea.filter((i) => sheets[i]!.stock === stock).slice(0, 2),
  );
  const alone = emptiest.flatMap((own) => own.slice(0, 1).map((i) => [i]));
  const twins = emptiest.filter((own) => own.length === 2);
  const pairs = alone.flatMap(([a], k) => alone.slice(k + 1).map(([b]) => [a!, b!]));
  return [...alone, ...twins, ...pairs];
}

function withoutEmpty({ sheets, pool }: Arrangement): Arrangement {
  return { sheets: sheets.filter(({ count }) => count > 0), pool };
}

function changed({ stocks }: Engine, { sheets, pool }: Arrangement, change: Change): Arrangement {
  const kept = sheets.filter((_, i) => !change.sheets.includes(i)).map(copySheet);
  const freed = change.sheets.flatMap((i) => {
    const { codes, count } = sheets[i]!;
    return [...codes.subarray(0, count)];
  });
  for (const stock of change.stocks) kept.push(newSheet(stocks, stock));
  return { sheets: kept, pool: [...pool, ...freed] };
}
