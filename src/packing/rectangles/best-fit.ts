// Builds a whole arrangement sheet by sheet, many times over.
// Idea: for each next sheet a few tries are made from the boxes that remain, in an order or corner by corner, on each stock that is left; the try that
//   brings away most for its price is kept. Each build draws its own sort key, rule and noise; the best build is returned.
// Source: Jylänki 2010, "A thousand ways to pack the bin", section 3 (orders and rules); multi-start with noisy keys is common practice.
//   Large boxes count a little more than their area, because they are the harder ones to place later.
// Cost: where many boxes remain a try looks at some of the largest and a sample of the others, so a build is linear in the number of boxes.
// Degenerate cases: stocks used up: the remaining boxes stay in the pool; a kind that fits no stock stays there too.
import type { BoxStock } from './box-task.ts';
import { kindOf } from './code.ts';
import { type Engine, pick, pickRule } from './engine.ts';
import { type Arrangement, isBetter, newSheet, type Sheet, setOrder, stockAt } from './sheet.ts';

const MOST_BUILDS = 150;
/** Up to so many boxes a try looks at all of them; else at so many of the largest, and at as many of the others. */
const ALL_LOOKED_AT = 120;
const HEAD_LOOKED_AT = 60;
/** A list for one sheet holds at least so many sheets' area, or small boxes would not fill it. */
const LIST_SHEETS = 1.5;
/** Up to so many boxes plain orders, each key by each rule, are worth a build. */
const MOST_PLAIN = 300;

/** Builds until `work` units are gone or the best is good enough. */
export function bestFit(
  engine: Engine,
  work: number,
  isEnough: (arrangement: Arrangement) => boolean,
  found: (arrangement: Arrangement) => void,
): Arrangement {
  const { budget, task } = engine;
  const stopAt = Math.max(0, budget.left - work);
  const boxes = task.bodies.reduce((sum, bodies) => sum + bodies.length, 0);
  const plain = boxes <= MOST_PLAIN ? engine.sortKeys.length * engine.cuts.ruleCount : 1;
  let best = build(engine, plainStyle(engine, 0));
  found(best);
  for (let n = 1; n < MOST_BUILDS && !isEnough(best); n++) {
    if (!engine.settle() || budget.left <= stopAt) break;
    const next = build(engine, n < plain ? plainStyle(engine, n) : drawnStyle(engine, boxes));
    if (!isBetter(engine.stocks, next, best)) continue;
    best = next;
    found(best);
  }
  return best;
}

/** What one build follows. */
interface Style {
  readonly key: Float64Array;
  readonly noise: number;
  /** The rule of every sheet, or null for a new one each time. */
  readonly rule: number | null;
  /** Tries a sheet and stock, and how often a try goes corner by corner. */
  readonly tries: number;
  readonly fillShare: number;
}

function plainStyle({ sortKeys, cuts }: Engine, n: number): Style {
  const key = sortKeys[n % sortKeys.length]!;
  const rule = Math.floor(n / sortKeys.length) % cuts.ruleCount;
  return { key, noise: 0, rule, tries: 1, fillShare: 0 };
}

function drawnStyle({ sortKeys, random }: Engine, boxes: number): Style {
  return {
    key: sortKeys[pick(random, sortKeys.length)]!,
    noise: random(),
    rule: null,
    tries: boxes > MOST_PLAIN ? 60 : 1 + pick(random, 6),
    fillShare: boxes > MOST_PLAIN ? 0.9 : random(),
  };
}

/** What a build works on. */
interface Site {
  readonly engine: Engine;
  readonly style: Style;
  /** Kinds in the order of the style, and how many of each kind remain. */
  readonly kinds: Int32Array;
  readonly remaining: Int32Array;
  boxes: number;
  /** The list of a try. */
  readonly order: Int32Array;
}

/** Boxes of each kind and sheets of each stock that are still to be had, and the sheets of each stock that are taken already. */
export interface Remaining {
  readonly boxes: Int32Array;
  readonly onHand: readonly number[];
  readonly taken: readonly number[];
}

/** Builds for what remains, a number of times; the best of them. */
export function bestRest(engine: Engine, remaining: Remaining, builds: number): Arrangement {
  const boxes = remaining.boxes.reduce((sum, count) => sum + count, 0);
  let best = build(engine, drawnStyle(engine, boxes), remaining);
  for (let n = 1; n < builds; n++) {
    const next = build(engine, drawnStyle(engine, boxes), remaining);
    if (isBetter(engine.stocks, next, best)) best = next;
  }
  return best;
}

/** Everything there is, but kinds that fit no stock: they are nobody's business here and have no area. */
export function allOf({ task, stocks }: Engine): Remaining {
  return {
    boxes: Int32Array.from(task.bodies, (bodies, kind) =>
      task.area[kind] === 0 ? 0 : bodies.length,
    ),
    onHand: stocks.map((stock) => stock.onHand),
    taken: stocks.map(() => 0),
  };
}

function build(engine: Engine, style: Style, from: Remaining = allOf(engine)): Arrangement {
  const site = newSite(engine, style, from.boxes.slice());
  const onHand = [...from.onHand];
  const taken = [...from.taken];
  const sheets: Sheet[] = [];
  while (site.boxes > 0) {
    const sheet = nextSheet(site, onHand, taken);
    if (sheet === null) break;
    onHand[sheet.stock] = onHand[sheet.stock]! - 1;
    taken[sheet.stock] = taken[sheet.stock]! + 1;
    for (let i = 0; i < sheet.count; i++) {
      const kind = kindOf(sheet.codes[i]!);
      site.remaining[kind] = site.remaining[kind]! - 1;
    }
    site.boxes -= sheet.count;
    sheets.push(sheet);
    engine.settle();
  }
  const pool: number[] = [];
  engine.task.bodies.forEach((_, kind) => {
    for (let n = site.remaining[kind]!; n > 0; n--) pool.push(engine.task.freeCode[kind]!);
  });
  return { sheets, pool };
}

function newSite(engine: Engine, style: Style, remaining: Int32Array): Site {
  const { task, random } = engine;
  const boxes = remaining.reduce((sum, count) => sum + count, 0);
  const value = style.key.map((key) => key * (1 + style.noise * (random() - 0.5)));
  const kinds = Int32Array.from(task.bodies.keys()).sort((a, b) => value[b]! - value[a]! || a - b);
  return { engine, style, kinds, remaining, boxes, order: new Int32Array(boxes) };
}

/** The best of the tries on every stock that is left; null where nothing can be placed any more. */
function nextSheet(site: Site, onHand: readonly number[], taken: readonly number[]): Sheet | null {
  const { engine, style } = site;
  let best: Sheet | null = null;
  let bestWorth = 0;
  engine.stocks.forEach((stock, index) => {
    if (onHand[index] === 0) return;
    // What is left of a pack is paid for.
    const cost = taken[index]! % stock.pack === 0 ? stock.cost : 0;
    for (let n = 0; n < style.tries; n++) {
      const sheet = tryOne(site, stock, index);
      // Free stock is worth more than any other, yet the fuller of two free sheets is still the better one.
      const worth = worthOf(engine, sheet) / Math.max(cost, 1e-6);
      if (worth <= bestWorth) continue;
      best = sheet;
      bestWorth = worth;
    }
  });
  return best;
}

function tryOne(site: Site, stock: BoxStock, index: number): Sheet {
  const { engine, style, order } = site;
  const { decoder, filler, random, task } = engine;
  const sheet = newSheet(engine.stocks, index);
  const length = listBoxes(site, stock);
  if (random() < style.fillShare && filler !== null) {
    filler.clear();
    for (let i = 0; i < length; i++) filler.add(kindOf(order[i]!), 1);
    filler.size.set(task.area);
    filler.fill(stock, random);
    setOrder(sheet, stock, filler.placed, filler.placedCount, filler.rule);
    sheet.area = filler.area;
  } else {
    const drawn = style.rule ?? pickRule(engine, stock);
    const rule = engine.cuts.ruleOn(stock, drawn);
    decoder.decode(stock, order, length, rule, Number.POSITIVE_INFINITY);
    setOrder(sheet, stock, decoder.result.placed, decoder.result.placedCount, rule);
    sheet.area = decoder.result.area;
  }
  return sheet;
}

/** Writes the boxes that a try looks at into the order, in the order of the style; returns how many. */
function listBoxes(site: Site, stock: BoxStock): number {
  const { engine, kinds, remaining, order, style, boxes } = site;
  const { random, task } = engine;
  const all = boxes <= (style.rule === null ? ALL_LOOKED_AT : MOST_PLAIN);
  // Few copies of each kind give a mixed sheet, many a sheet of one kind; both have their day.
  const copies = all ? boxes : Math.max(2 ** (1 + pick(random, 6)), fewestCopies(site, stock));
  let length = 0;
  let area = 0;
  let at = 0;
  for (let half = 0; half < 2; half++) {
    const enoughBoxes = all ? boxes : (half + 1) * HEAD_LOOKED_AT;
    const enoughArea = (half + 1) * LIST_SHEETS * stock.freeArea;
    // The second half is a sample of what comes after the first.
    const stride = half === 0 ? 1 : Math.max(1, Math.floor((kinds.length - at) / 30));
    while (at < kinds.length && (length < enoughBoxes || area < enoughArea)) {
      const kind = kinds[at]!;
      at += stride === 1 ? 1 : 1 + pick(random, 2 * stride);
      const fitting = Math.ceil(stock.freeArea / task.area[kind]!);
      const most = all ? remaining[kind]! : Math.min(remaining[kind]!, copies, fitting);
      order.fill(task.freeCode[kind]!, length, length + most);
      length += most;
      area += most * task.area[kind]!;
    }
  }
  return length;
}

/** How many of each kind fill a list, where there are few kinds. */
function fewestCopies({ engine, kinds, remaining }: Site, stock: BoxStock): number {
  const { area } = engine.task;
  const one = kinds.reduce((sum, kind) => sum + (remaining[kind]! > 0 ? area[kind]! : 0), 0);
  return Math.ceil((2 * LIST_SHEETS * stock.freeArea) / Math.max(1, one));
}

/** Area brought away, large boxes at a little more than theirs. */
function worthOf({ task, stocks }: Engine, { stock, codes, count }: Sheet): number {
  const { freeArea } = stockAt(stocks, stock);
  let worth = 0;
  for (let i = 0; i < count; i++) {
    const area = task.area[kindOf(codes[i]!)]!;
    worth += area * (0.8 + 0.2 * Math.sqrt(area / freeArea));
  }
  return worth;
}
