// Tries to bring every box onto a fixed list of sheets.
// Idea: boxes without a sheet wait in a pool. A move packs one or two sheets anew with boxes from the pool; what falls out joins the pool, and the move stands
//   if the pool did not grow dearer by more than a small random amount. Boxes that stay in the pool for long grow dearer, until room is made for them.
// Source: ejection chains with guided weights after Nagata & Bräysy 2009, "A powerful route minimization heuristic for the vehicle routing problem with time
//   windows", Operations Research Letters 37; there a route is removed, here a sheet. The acceptance is that of simulated annealing at a fixed low temperature.
// Cost: a few decoded sheets a move, whatever the size of the job; tens of thousands to hundreds of thousands of moves a second.
// Degenerate cases: an empty pool is done; without sheets nothing can be done.
import type { Engine } from './engine.ts';
import { insertOne, type Packed, refillOne, refillTwo, type Workplace } from './moves.ts';
import { Pool } from './pool.ts';
import { type Arrangement, stockAt } from './sheet.ts';

/** Moves without a new cheapest pool after which what waits grows dearer, and by how much. */
const STAGNATION = 500;
const DEARER = 1.1;

/** How often each kind of move is tried; the rest packs two sheets anew. */
export interface MoveShares {
  readonly insertOne: number;
  readonly refillOne: number;
}

/**
 * Brings the pool of `arrangement` onto its sheets, in place and as far as `work` units go; returns whether nothing is left.
 * `onProgress` is called whenever the pool is cheaper than ever before in this run; the arrangement is then up to date.
 */
export function fitAll(
  engine: Engine,
  arrangement: Arrangement,
  work: number,
  shares: MoveShares,
  onProgress: (arrangement: Arrangement) => void = () => undefined,
): boolean {
  const place = workplace(engine, arrangement);
  const { pool, sheets } = place;
  const { budget, random } = engine;
  const stopAt = Math.max(0, budget.left - work);
  let cheapest = pool.cost;
  let idle = 0;
  while (pool.count > 0 && sheets.length > 0 && budget.left > stopAt && !budget.exhausted) {
    const draw = random();
    if (draw < shares.insertOne) insertOne(place);
    else if (draw < shares.insertOne + shares.refillOne || sheets.length === 1) refillOne(place);
    else refillTwo(place);
    engine.settle();
    idle++;
    // The sum drifts by rounding; a real gain is far larger than this.
    if (pool.cost < cheapest * (1 - 1e-9)) {
      cheapest = pool.cost;
      idle = 0;
      arrangement.pool = pool.list();
      onProgress(arrangement);
    } else if (idle >= STAGNATION) {
      pool.growDearer(DEARER);
      cheapest = pool.cost;
      idle = 0;
    }
  }
  arrangement.pool = pool.list();
  return pool.count === 0;
}

function workplace(engine: Engine, { sheets, pool }: Arrangement): Workplace {
  const room = sheets.reduce((sum, { stock }) => sum + stockAt(engine.stocks, stock).freeArea, 0);
  const scale = sheets.length / Math.max(1, room);
  const costs = new Pool(engine, pool, scale);
  const onSheets = sheets.reduce((sum, { area }) => sum + area * scale, 0);
  const boxes = sheets.reduce((sum, { count }) => sum + count, pool.length);
  const newPacked = (): Packed => ({
    codes: new Int32Array(boxes),
    count: 0,
    rule: 0,
    area: 0,
    left: new Int32Array(boxes),
    leftCount: 0,
    leftCost: 0,
  });
  return {
    engine,
    sheets,
    pool: costs,
    meanCost: (costs.cost + onSheets) / Math.max(1, boxes),
    order: new Int32Array(boxes),
    first: newPacked(),
    second: newPacked(),
  };
}
