// The moves of the search that brings boxes from the pool onto sheets (fit-all.ts).
// Idea: a sheet, or two, is laid out anew with boxes of the pool among its own, by another order, rule or lie; what finds no room goes to the pool. The most that the
//   pool may grow dearer is drawn before the sheet is laid out, so that a hopeless one is given up half-way.
// Source: moves of this kind for routes in Nagata & Bräysy 2009, Operations Research Letters 37. Drawing the limit first is ours; it decides as annealing does.
// Cost: one or two sheets laid out; nothing is allocated but where a sheet outgrows its order.
// Degenerate cases: a box that fits no sheet of the stock drawn: nothing changes; refillTwo needs two sheets.
import { type BoxStock, NO_BOX } from './box-task.ts';
import { codeOf, kindOf } from './code.ts';
import type { CornerFiller } from './corner-filler.ts';
import { type Engine, pick, pickRule } from './engine.ts';
import { allowance, TEMPERATURE, type Waiting } from './fit-by-moves.ts';
import { type Sheet, setOrder, stockAt } from './sheet.ts';

/** Most boxes that one move takes from the pool. */
const MOST_REFILLED = 12;
const MOST_SPREAD = 4;
/** How often the sheet to work on is the emptiest of so many drawn. */
const WEAK_SHARE = 0.5;
const WEAK_OF = 4;
/** How often a sheet that is packed anew is filled corner by corner. */
const FILL_SHARE = 0.5;

/** What the moves work on. Results of a sheet packed anew are kept in `first` and `second` until the move is decided. */
export interface Workplace extends Waiting {
  readonly engine: Engine;
  readonly sheets: readonly Sheet[];
  readonly order: Int32Array;
  readonly first: Packed;
  readonly second: Packed;
}

/** A sheet packed anew: an order, the rule that lays it out, and the boxes left out. */
export interface Packed {
  readonly codes: Int32Array;
  count: number;
  rule: number;
  area: number;
  readonly left: Int32Array;
  leftCount: number;
  leftCost: number;
}

/** One box from the pool goes into the order of one sheet; the order may change a little, or altogether. */
export function insertOne(place: Workplace): void {
  const { engine, pool, order } = place;
  const { random, decoder, task } = engine;
  const sheet = place.sheets[drawSheet(place)]!;
  const stock = stockAt(engine.stocks, sheet.stock);
  pool.swap(pick(random, pool.count), pool.count - 1);
  const code = pool.codes[pool.count - 1]!;
  const kind = kindOf(code);
  if (stock.boxWidth[2 * kind] === NO_BOX) return;
  const cost = decoder.costs.ofKind[kind]!;
  const limit = cost + allowance(engine, place);
  const over = (sheet.area + task.area[kind]! - stock.freeArea) / stock.freeArea;
  // Much more area than there is would have to fall out again: not worth the try.
  if (over > 3 * cost + 6 * TEMPERATURE * place.meanCost) return;
  copyCodes(order, 0, sheet.codes, sheet.count);
  order[sheet.count] = turned(engine, code);
  const length = sheet.count + 1;
  const rule = rearrange(place, stock, length, sheet.rule);
  if (!decoder.decode(stock, order, length, rule, limit)) return;
  const { placed, placedCount, left, leftCount, area } = decoder.result;
  if (leftCount === 1 && kindOf(left[0]!) === kind) return;
  setOrder(sheet, stock, placed, placedCount, rule);
  sheet.area = area;
  pool.replaceLast(1, left, leftCount);
}

/** Finds the newest code, which is the last of the order, a place in it; returns the rule to lay the order out by. */
function rearrange(
  { engine, order, pool }: Workplace,
  stock: BoxStock,
  length: number,
  rule: number,
): number {
  const { random, sortKeys, sorter } = engine;
  const style = random();
  if (style < 0.2) {
    sorter.sort(order, length, sortKeys[pick(random, sortKeys.length)]!, pool.weight, random());
    return pickRule(engine, stock);
  }
  if (style < 0.5 && length > 1) {
    const other = pick(random, length - 1);
    order[other] = turned(engine, order[other]!);
    moveTo(order, other, pick(random, length - 1));
  }
  moveTo(order, length - 1, random() < 0.3 ? 0 : pick(random, length));
  return random() < 0.5 ? rule : pickRule(engine, stock);
}

/** One sheet is packed anew from its boxes and some of the pool. */
export function refillOne(place: Workplace): void {
  const { engine, pool, order, first } = place;
  const sheet = place.sheets[drawSheet(place)]!;
  const drawn = pool.draw(engine.random, MOST_REFILLED);
  copyCodes(order, 0, sheet.codes, sheet.count);
  copyCodes(order, sheet.count, pool.codes.subarray(pool.count - drawn), drawn);
  const limit = pool.costOfLast(drawn) + allowance(engine, place);
  if (!packAnew(place, sheet, sheet.count + drawn, limit, first)) return;
  adopt(engine, sheet, first);
  pool.replaceLast(drawn, first.left, first.leftCount);
}

/** Two sheets are packed anew, one after the other, from their boxes and a few of the pool. */
export function refillTwo(place: Workplace): void {
  const { engine, pool, sheets, order, first, second } = place;
  const { random } = engine;
  const i = drawSheet(place);
  const one = sheets[i]!;
  const other = sheets[(i + 1 + pick(random, sheets.length - 1)) % sheets.length]!;
  const drawn = pool.draw(random, MOST_SPREAD);
  copyCodes(order, 0, one.codes, one.count);
  copyCodes(order, one.count, other.codes, other.count);
  const length = one.count + other.count;
  copyCodes(order, length, pool.codes.subarray(pool.count - drawn), drawn);
  const limit = pool.costOfLast(drawn) + allowance(engine, place);
  packAnew(place, one, length + drawn, Number.POSITIVE_INFINITY, first);
  copyCodes(order, 0, first.left, first.leftCount);
  if (!packAnew(place, other, first.leftCount, limit, second)) return;
  adopt(engine, one, first);
  adopt(engine, other, second);
  pool.replaceLast(drawn, second.left, second.leftCount);
}

/** Lays the first `length` codes of the order on an empty sheet; false where what is left out costs more than `limit`. */
function packAnew(
  place: Workplace,
  sheet: Sheet,
  length: number,
  limit: number,
  into: Packed,
): boolean {
  const { engine, order, pool } = place;
  const { random, decoder, sortKeys, sorter, task } = engine;
  const stock = stockAt(engine.stocks, sheet.stock);
  if (engine.filler !== null && random() < FILL_SHARE)
    return fillAnew(place, engine.filler, sheet, length, limit, into);
  if (random() < 0.5) {
    for (let i = 0; i < length; i++) order[i] = task.freeCode[kindOf(order[i]!)]!;
  }
  sorter.sort(order, length, sortKeys[pick(random, sortKeys.length)]!, pool.weight, random());
  into.rule = pickRule(engine, stock);
  if (!decoder.decode(stock, order, length, into.rule, limit)) return false;
  const { placed, placedCount, left, leftCount, leftCost, area } = decoder.result;
  copyCodes(into.codes, 0, placed, placedCount);
  copyCodes(into.left, 0, left, leftCount);
  into.count = placedCount;
  into.area = area;
  into.leftCount = leftCount;
  into.leftCost = leftCost;
  return true;
}

/** The same corner by corner. */
function fillAnew(
  { engine, order }: Workplace,
  filler: CornerFiller,
  sheet: Sheet,
  length: number,
  limit: number,
  into: Packed,
): boolean {
  const { decoder, task } = engine;
  filler.clear();
  for (let i = 0; i < length; i++) filler.add(kindOf(order[i]!), 1);
  filler.fill(stockAt(engine.stocks, sheet.stock), engine.random);
  copyCodes(into.codes, 0, filler.placed, filler.placedCount);
  into.count = filler.placedCount;
  into.rule = filler.rule;
  into.area = filler.area;
  into.leftCount = 0;
  into.leftCost = 0;
  for (let slot = 0; slot < filler.kindCount; slot++) {
    const kind = filler.kinds[slot]!;
    for (let n = filler.counts[slot]!; n > 0; n--)
      into.left[into.leftCount++] = task.freeCode[kind]!;
    into.leftCost += filler.counts[slot]! * decoder.costs.ofKind[kind]!;
  }
  return into.leftCost <= limit;
}

/** A sheet by chance; half of the time the one of several with most room for its size, where there is more to gain. */
function drawSheet({ engine, sheets }: Workplace): number {
  const { random } = engine;
  const first = pick(random, sheets.length);
  if (sheets.length === 1 || random() >= WEAK_SHARE) return first;
  let emptiest = first;
  for (let n = 1; n < WEAK_OF; n++) {
    const other = pick(random, sheets.length);
    if (fillOf(engine, sheets[other]!) < fillOf(engine, sheets[emptiest]!)) emptiest = other;
  }
  return emptiest;
}

function fillOf({ stocks }: Engine, { area, stock }: Sheet): number {
  return area / stockAt(stocks, stock).freeArea;
}

function adopt({ stocks }: Engine, sheet: Sheet, packed: Packed): void {
  setOrder(sheet, stockAt(stocks, sheet.stock), packed.codes, packed.count, packed.rule);
  sheet.area = packed.area;
}

/** The code with a new lie: as the rule prefers, or one of the two. */
function turned({ task, random }: Engine, code: number): number {
  const kind = kindOf(code);
  const free = task.freeCode[kind]!;
  return free === codeOf(kind, 0) || random() < 0.5 ? free : codeOf(kind, pick(random, 2));
}

/** Moves the code at one place of an order to another. */
export function moveTo(order: Int32Array, from: number, to: number): void {
  const code = order[from]!;
  for (let i = from; i > to; i--) order[i] = order[i - 1]!;
  for (let i = from; i < to; i++) order[i] = order[i + 1]!;
  order[to] = code;
}

function copyCodes(into: Int32Array, at: number, codes: Int32Array, count: number): void {
  for (let i = 0; i < count; i++) into[at + i] = codes[i]!;
}
