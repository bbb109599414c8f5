import { log } from '../../geometry/trigonometry.ts';
import type { Engine } from './engine.ts';
import { Pool } from './pool.ts';
import { type Arrangement, stockAt } from './sheet.ts';

/** The mean growth of the pool that a move may cause, in mean boxes. */
export const TEMPERATURE = 0.03;

/** Moves without a new cheapest pool after which what waits grows dearer, and by how much. */
export interface Patience {
  readonly moves: number;
  readonly dearer: number;
}

/** The boxes that wait, and what a box costs on average: the scale of the random allowance. */
export interface Waiting {
  readonly pool: Pool;
  readonly meanCost: number;
}

export function waitingOf(engine: Engine, { sheets, pool }: Arrangement): Waiting {
  const room = sheets.reduce((sum, { stock }) => sum + stockAt(engine.stocks, stock).freeArea, 0);
  const scale = sheets.length / Math.max(1, room);
  const waiting = new Pool(engine, pool, scale);
  const onSheets = sheets.reduce((sum, { area }) => sum + area * scale, 0);
  const boxes = boxCount({ sheets, pool });
  return { pool: waiting, meanCost: (waiting.cost + onSheets) / Math.max(1, boxes) };
}

export function boxCount({ sheets, pool }: Arrangement): number {
  return sheets.reduce((sum, { count }) => sum + count, pool.length);
}

/** How much dearer the pool may become by the next move: exponentially distributed. */
export function allowance(engine: Engine, { meanCost }: Waiting): number {
  return -TEMPERATURE * meanCost * log(1 - engine.random());
}

/** Makes moves until nothing waits or `work` units are gone; returns whether nothing waits. `cheaper` is called whenever the pool is cheaper than ever before. */
export function fitByMoves(
  engine: Engine,
  { pool }: Waiting,
  move: () => void,
  { work, patience }: { readonly work: number; readonly patience: Patience },
  cheaper: () => void,
): boolean {
  const { budget } = engine;
  const stopAt = Math.max(0, budget.left - work);
  let cheapest = pool.cost;
  let idle = 0;
  while (pool.count > 0 && budget.left > stopAt && !budget.exhausted) {
    move();
    engine.settle();
    idle++;
    // The sum drifts by rounding; a real gain is far larger than this.
    if (pool.cost < cheapest * (1 - 1e-9)) {
      cheapest = pool.cost;
      idle = 0;
      cheaper();
    } else if (idle >= patience.moves) {
      pool.growDearer(patience.dearer);
      cheapest = pool.cost;
      idle = 0;
    }
  }
  return pool.count === 0;
}
