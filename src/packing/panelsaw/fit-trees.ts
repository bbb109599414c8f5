// Tries to bring every box onto a fixed list of sheets that a saw can cut.
// Idea: boxes without a sheet wait in a pool. A move takes a few boxes out of the trees of one or two sheets, at random or a whole part of a tree, and
//   puts them and a few of the pool back in another order, each where a rule likes it best; the move stands if the pool did not grow dearer by more than
//   a small random amount. All else of the trees stays as it is, and cuts move by themselves.
// Source: ruin and recreate goes back to Schrimpf, Schneider, Stamm-Wilbrandt & Dueck 2000, "Record breaking optimization results using the ruin and
//   recreate principle", Journal of Computational Physics 159; for edge-to-edge cuts Gardeyn & Wauters 2022, "A goal-driven ruin and recreate heuristic
//   for the 2D variable-sized bin packing problem with guillotine constraints", European Journal of Operational Research 301, from memory.
// Where we differ: cuts stay open, so what is left needs no cuts of its own; what waits for long grows dearer, as in fit-all.ts.
// Cost: some boxes times the nodes of one or two sheets a move, whatever the size of the job.
// Degenerate cases: an empty pool is done; without sheets nothing can be done; where no cut is short enough nothing comes onto a sheet.
import type { Random } from '../random.ts';
import { kindOf } from '../rectangles/code.ts';
import { type Engine, type Fit, pick } from '../rectangles/engine.ts';
import {
  allowance,
  boxCount,
  fitByMoves,
  type Patience,
  type Waiting,
  waitingOf,
} from '../rectangles/fit-by-moves.ts';
import { type Arrangement, type Sheet, setOrder, stockAt } from '../rectangles/sheet.ts';
import type { PanelGround } from './ground.ts';
import { prune } from './prune.ts';
import { firstRuleOf, type SlicingDecoder } from './slicing-decoder.ts';
import type { SlicingTree } from './slicing-tree.ts';
import { PLACE_RULES } from './tree-filler.ts';
import { GONE, LEAF, NONE } from './tree-nodes.ts';
import { orderOf } from './tree-order.ts';

const PATIENCE: Patience = { moves: 2000, dearer: 1.05 };
/** How often a move is made on two sheets. */
const TWO_SHARE = 0.6;
/** Most boxes that a move takes off a sheet and out of the pool. */
const MOST_TAKEN_OFF = 8;
const MOST_DRAWN = 4;
/** How often whole parts of a tree are taken out, and how often a part is looked for that is not too large. */
const PART_SHARE = 0.5;
const PART_TRIES = 20;

/** What a move costs beside its boxes, in units of work. */
const MOVE_OVERHEAD = 40;

/** How sheets are fitted by the trees that a decoder grows. */
export function fitTrees(slicing: SlicingDecoder): Fit {
  return (engine, arrangement, work, onProgress) => {
    if (arrangement.sheets.length === 0) return arrangement.pool.length === 0;
    const shop = shopOf(engine, slicing, arrangement);
    const { pool } = shop.waiting;
    const writeDown = () => {
      for (const site of shop.sites) keepOrder(engine, site);
      arrangement.pool = pool.list();
    };
    const move = () => changeTrees(shop);
    const isDone = fitByMoves(engine, shop.waiting, move, { work, patience: PATIENCE }, () => {
      if (onProgress === undefined) return;
      writeDown();
      onProgress(arrangement);
    });
    writeDown();
    return isDone;
  };
}

/** A sheet while its trees change. */
interface Site {
  readonly sheet: Sheet;
  readonly grounds: readonly PanelGround[];
  isChanged: boolean;
}

interface Shop {
  readonly engine: Engine;
  readonly slicing: SlicingDecoder;
  readonly waiting: Waiting;
  readonly sites: readonly Site[];
  /** Room to lay boxes in an order, and the trees of two sheets before a move. */
  readonly order: Int32Array;
  readonly before: SlicingTree[];
}

function shopOf(engine: Engine, slicing: SlicingDecoder, arrangement: Arrangement): Shop {
  const sites = arrangement.sheets.map((sheet) => {
    const grounds = slicing.grow(stockAt(engine.stocks, sheet.stock), sheet);
    return { sheet, grounds, isChanged: false };
  });
  const order = new Int32Array(boxCount(arrangement));
  return { engine, slicing, waiting: waitingOf(engine, arrangement), sites, order, before: [] };
}

/** One move. */
function changeTrees(shop: Shop): void {
  const { engine, slicing, waiting, order } = shop;
  const { random, sorter, sortKeys, decoder } = engine;
  const { pool } = waiting;
  const sites = drawSites(shop);
  const grounds = sites.flatMap((site) => site.grounds);
  remember(shop, grounds);
  slicing.filler.work += MOVE_OVERHEAD;
  let length = 0;
  const take = (code: number) => {
    order[length++] = engine.task.freeCode[kindOf(code)]!;
  };
  for (const site of sites) takeOff(site, random, take);
  const drawn = pool.draw(random, 1 + pick(random, MOST_DRAWN));
  for (let i = pool.count - drawn; i < pool.count; i++) order[length++] = pool.codes[i]!;
  const weight = random() < 0.5 ? pool.weight : engine.unweighted;
  const key = sortKeys[pick(random, sortKeys.length)]!;
  sorter.sort(order, length, key, weight, 2 * random() * random());
  const limit = pool.costOfLast(drawn) + allowance(engine, waiting);
  const rule = pick(random, PLACE_RULES);
  if (slicing.filler.fill(grounds, order, length, rule, limit, slicing.mayGroup)) {
    for (const site of sites) site.isChanged = true;
    pool.replaceLast(drawn, decoder.result.left, decoder.result.leftCount);
  } else recall(shop, grounds);
}

function drawSites({ engine: { random }, sites }: Shop): readonly Site[] {
  const i = pick(random, sites.length);
  if (sites.length === 1 || random() >= TWO_SHARE) return [sites[i]!];
  return [sites[i]!, sites[(i + 1 + pick(random, sites.length - 1)) % sites.length]!];
}

function remember({ before, slicing }: Shop, grounds: readonly PanelGround[]): void {
  grounds.forEach(({ tree }, i) => {
    before[i] ??= slicing.newTree();
    before[i].copyFrom(tree);
  });
}

function recall({ before }: Shop, grounds: readonly PanelGround[]): void {
  grounds.forEach(({ tree }, i) => {
    tree.copyFrom(before[i]!);
  });
}

/** Takes boxes off a sheet: single ones, or parts of a tree that hold no more than are to go. */
function takeOff({ grounds }: Site, random: Random, taken: (code: number) => void): void {
  if (grounds.length === 0) return;
  const isByPart = random() < PART_SHARE;
  let left = 1 + pick(random, MOST_TAKEN_OFF);
  for (let n = 0; n < PART_TRIES && left > 0; n++) {
    const { tree } = grounds[pick(random, grounds.length)]!;
    if (tree.leaves === 0) continue;
    const node = isByPart ? drawNode(tree, random) : drawLeaf(tree, random);
    if (countLeaves(tree, node, left) > left) continue;
    prune(tree, node, (code) => {
      left--;
      taken(code);
    });
  }
  for (const { tree, width, height } of grounds) tree.renew(width, height);
}

function drawNode({ kind, count }: SlicingTree, random: Random): number {
  for (;;) {
    const node = pick(random, count);
    if (kind[node] !== GONE) return node;
  }
}

function drawLeaf({ kind, count }: SlicingTree, random: Random): number {
  for (;;) {
    const node = pick(random, count);
    if (kind[node] === LEAF) return node;
  }
}

/** The boxes at and below a node; counting ends beyond `most`. */
function countLeaves(tree: SlicingTree, node: number, most: number): number {
  if (tree.kind[node] === LEAF) return 1;
  let count = 0;
  for (let child = tree.first[node]!; child !== NONE && count <= most; child = tree.next[child]!)
    count += countLeaves(tree, child, most - count);
  return count;
}

/** Writes the trees of a sheet down, if they changed. */
function keepOrder({ stocks }: Engine, site: Site): void {
  if (!site.isChanged) return;
  const { sheet, grounds } = site;
  const stock = stockAt(stocks, sheet.stock);
  const { codes, beside } = orderOf(grounds);
  setOrder(sheet, stock, codes, codes.length, firstRuleOf(sheet.rule));
  sheet.beside = beside;
  sheet.area = codes.reduce((sum, code) => {
    const box = 2 * kindOf(code) + (code & 3);
    return sum + stock.boxWidth[box]! * stock.boxHeight[box]!;
  }, 0);
  site.isChanged = false;
}
