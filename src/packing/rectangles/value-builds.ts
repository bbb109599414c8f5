// Builds a whole arrangement from patterns that are used many times over.
// Idea: every kind of box has a worth. The richest pattern of strips is laid out as often as the boxes that remain allow; then what lies on it is worth the more, the
//   more room it wasted, so that boxes which go badly with others soon come first. The worths are kept from one build to the next.
// Source: Belov & Scheithauer 2007, "Setup and open-stacks minimization in one-dimensional stock cutting", INFORMS J. on Computing 19, section 3 (sequential value
//   correction); Mukhacheva & Zalgaller 1993, "Linear programming cutting problems", Int. J. of Software Engineering and Knowledge Engineering 3 (its origin).
// Where we differ: sheets with patterns of strips in place of bars; the last sheets, where few copies are left, are built by best fit.
// Cost: two patterns a stock for each pattern used, about as many as there are kinds, however many copies; meant for hundreds to ten thousands of boxes.
// Degenerate cases: only plain sheets have patterns; where nothing is served by one, best fit takes over.
import { COLUMN, ROW } from '../panelsaw/direction.ts';
import { allOf, bestRest, type Remaining } from './best-fit.ts';
import type { BoxStock } from './box-task.ts';
import { kindOf } from './code.ts';
import type { Engine } from './engine.ts';
import {
  type Arrangement,
  copySheet,
  isBetter,
  newSheet,
  type Sheet,
  setOrder,
  stockAt,
} from './sheet.ts';
import { StripPatterns } from './strip-pattern.ts';

/** From so many copies of a kind on, on average, patterns are of use. */
const LEAST_COPIES = 2;
/** How many sheets are left to best fit, and of how many builds the best is taken. */
const REST_SHEETS = 3;
const REST_BUILDS = 6;
/** How slowly worths change, drawn between these. */
const FASTEST = 1;
const SLOWEST = 1.5;
/** How much more than the work that is left one build may take. */
const MOST_OVER = 3;
/** Cells of a pattern's tables that count as one unit of work. */
const CELLS_PER_UNIT = 16;

export function suitsPatterns({ task, stocks }: Engine): boolean {
  const boxes = task.bodies.reduce((sum, bodies) => sum + bodies.length, 0);
  const area = task.bodies.reduce((sum, bodies, kind) => sum + bodies.length * task.area[kind]!, 0);
  const hasCopies = boxes >= LEAST_COPIES * task.kindCount;
  return hasCopies && area > restArea(stocks) && stocks.every(({ isPlain }) => isPlain);
}

/** Builds until `work` units are gone or the best is good enough. */
export function valueBuilds(
  engine: Engine,
  start: Arrangement,
  work: number,
  isEnough: (arrangement: Arrangement) => boolean,
  found: (arrangement: Arrangement) => void,
): Arrangement {
  const { budget, task, stocks } = engine;
  const stopAt = Math.max(0, budget.left - work);
  const patterns = stocks.map((stock) => new StripPatterns(stock));
  const fullWorths = task.area.map((area) => fullWorth(area / restArea(stocks)));
  const site = { engine, patterns, fullWorths, worths: fullWorths.slice() };
  let best = start;
  if (buildCost(engine, patterns) > MOST_OVER * budget.left) return best;
  while (!isEnough(best) && budget.left > stopAt && !budget.exhausted) {
    const next = build(site);
    // What a stop left unfinished is no better than chance.
    if (budget.stopped) break;
    if (!isBetter(stocks, next, best)) continue;
    best = next;
    found(best);
  }
  return best;
}

/** From so little area on, best fit takes over. */
function restArea(stocks: readonly BoxStock[]): number {
  return REST_SHEETS * Math.max(...stocks.map(({ freeArea }) => freeArea));
}

/** The power 33/32 of the area, because large boxes are the harder ones to place later; roots are the same on every machine. */
function fullWorth(area: number): number {
  let root = area;
  for (let n = 0; n < 5; n++) root = Math.sqrt(root);
  return area * root;
}

/** Units of work that one build takes, roughly: a pattern for each kind or sheet, two ways, on every stock. */
function buildCost({ task, stocks }: Engine, patterns: readonly StripPatterns[]): number {
  const boxArea = task.area.reduce((sum, area, kind) => sum + area * task.bodies[kind]!.length, 0);
  const sheets = boxArea / Math.min(...stocks.map(({ freeArea }) => freeArea));
  const cells = patterns.reduce((sum, { cells: own }) => sum + own, 0);
  return (Math.min(task.kindCount, sheets) * cells) / CELLS_PER_UNIT;
}

/** What builds work on. */
interface Site {
  readonly engine: Engine;
  /** Of each stock. */
  readonly patterns: readonly StripPatterns[];
  /** What a box of each kind is worth on a sheet without waste, and what it has become worth. */
  readonly fullWorths: Float64Array;
  readonly worths: Float64Array;
}

function build(site: Site): Arrangement {
  const { engine } = site;
  const { budget, random, stocks, task } = engine;
  const all = allOf(engine);
  const left = all.boxes.slice();
  const onHand = [...all.onHand];
  const taken = [...all.taken];
  const slowness = FASTEST + (SLOWEST - FASTEST) * random();
  const sheets: Sheet[] = [];
  let area = left.reduce((sum, count, kind) => sum + count * task.area[kind]!, 0);
  const enough = restArea(stocks);
  while (area > enough && !budget.stopped) {
    const sheet = richestSheet(site, { boxes: left, onHand, taken });
    if (sheet === null) break;
    const held = countsOn(sheet);
    let times = onHand[sheet.stock]!;
    for (const [kind, count] of held) times = Math.min(times, Math.floor(left[kind]! / count));
    for (let n = 0; n < times; n++) sheets.push(copySheet(sheet));
    for (const [kind, count] of held) left[kind] = left[kind]! - count * times;
    onHand[sheet.stock] = onHand[sheet.stock]! - times;
    taken[sheet.stock] = taken[sheet.stock]! + times;
    area -= times * sheet.area;
    correctWorths(site, sheet, held, times, slowness);
  }
  const rest = bestRest(engine, { boxes: left, onHand, taken }, REST_BUILDS);
  return { sheets: [...sheets, ...rest.sheets], pool: rest.pool };
}

/** The sheet with the pattern that is worth most for its price; null where no pattern holds anything. */
function richestSheet(
  { engine, patterns, worths }: Site,
  { boxes, onHand }: Remaining,
): Sheet | null {
  const { budget, cuts, stocks } = engine;
  let best: Sheet | null = null;
  let bestWorth = 0;
  for (const [index, stock] of stocks.entries()) {
    for (const direction of [COLUMN, ROW] as const) {
      if (onHand[index] === 0 || stock.panels[direction].length === 0) continue;
      const own = patterns[index]!;
      const before = own.work;
      const { codes, worth } = own.richest(direction, worths, boxes);
      budget.spend((own.work - before) / CELLS_PER_UNIT);
      const worthForPrice = worth / Math.max(stock.cost, 1e-6);
      if (worthForPrice <= bestWorth) continue;
      best = laidOut(engine, index, cuts.stripRules[direction], codes);
      bestWorth = worthForPrice;
    }
  }
  engine.settle();
  return best?.count === 0 ? null : best;
}

/** What the limits of a machine leave out of a pattern is not on the sheet. */
function laidOut(engine: Engine, index: number, rule: number, pattern: readonly number[]): Sheet {
  const { decoder, stocks } = engine;
  const stock = stockAt(stocks, index);
  decoder.decode(stock, Int32Array.from(pattern), pattern.length, rule, Number.POSITIVE_INFINITY);
  const { placed, placedCount, area } = decoder.result;
  const sheet = newSheet(stocks, index);
  setOrder(sheet, stock, placed, placedCount, rule);
  sheet.area = area;
  return sheet;
}

function countsOn({ codes, count }: Sheet): ReadonlyMap<number, number> {
  const held = new Map<number, number>();
  for (let i = 0; i < count; i++) {
    const kind = kindOf(codes[i]!);
    held.set(kind, (held.get(kind) ?? 0) + 1);
  }
  return held;
}

/** What lies on sheets with much waste becomes worth more, the more so the larger the part of its copies that lies there. */
function correctWorths(
  { engine, fullWorths, worths }: Site,
  { stock, area }: Sheet,
  held: ReadonlyMap<number, number>,
  times: number,
  slowness: number,
): void {
  const fill = area / stockAt(engine.stocks, stock).freeArea;
  for (const [kind, count] of held) {
    const before = slowness * engine.task.bodies[kind]!.length;
    const now = count * times;
    worths[kind] = (before * worths[kind]! + (now * fullWorths[kind]!) / fill) / (before + now);
  }
}
