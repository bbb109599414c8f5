// Tries to bring every box onto a fixed list of sheets.
// Idea: boxes without a sheet wait in a pool. A move packs one or two sheets anew with boxes from the pool; what falls out joins the pool, and the move stands
//   if the pool did not grow dearer by more than a small random amount. Boxes that stay in the pool for long grow dearer, until room is made for them.
// Source: ejection chains with guided weights after Nagata & Bräysy 2009, "A powerful route minimization heuristic for the vehicle routing problem with time
//   windows", Operations Research Letters 37; there a route is removed, here a sheet. The acceptance is that of simulated annealing at a fixed low temperature.
// Cost: a few decoded sheets a move, whatever the size of the job; tens of thousands to hundreds of thousands of moves a second.
// Degenerate cases: an empty pool is done; without sheets nothing can be done.
import { codeOf, kindOf } from './code.ts';
import type { Engine, Fit } from './engine.ts';
import { boxCount, fitByMoves, type Patience, waitingOf } from './fit-by-moves.ts';
import { insertOne, type Packed, refillOne, refillTwo, type Workplace } from './moves.ts';
import type { Arrangement } from './sheet.ts';

const PATIENCE: Patience = { moves: 500, dearer: 1.1 };

/** By changing orders and laying them out anew. */
export const fitAll: Fit = (engine, arrangement, work, onProgress) => {
  const place = workplace(engine, arrangement);
  const { pool, sheets } = place;
  const { random } = engine;
  const { insert, refill } = sharesOf(engine);
  const move = () => {
    const draw = random();
    if (draw < insert) insertOne(place);
    else if (draw < insert + refill || sheets.length === 1) refillOne(place);
    else refillTwo(place);
  };
  if (sheets.length > 0)
    fitByMoves(engine, place, move, { work, patience: PATIENCE }, () => {
      arrangement.pool = pool.list();
      onProgress?.(arrangement);
    });
  arrangement.pool = pool.list();
  return pool.count === 0;
};

/** How often each kind of move is tried; the rest packs two sheets anew, which does most where boxes may be turned. Where not, finding a place for one box does. */
function sharesOf({ task }: Engine): { readonly insert: number; readonly refill: number } {
  const turns = task.freeCode.some((code) => code !== codeOf(kindOf(code), 0));
  return turns ? { insert: 0.3, refill: 0.1 } : { insert: 0.7, refill: 0.15 };
}

function workplace(engine: Engine, arrangement: Arrangement): Workplace {
  const boxes = boxCount(arrangement);
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
    ...waitingOf(engine, arrangement),
    engine,
    sheets: arrangement.sheets,
    order: new Int32Array(boxes),
    first: newPacked(),
    second: newPacked(),
  };
}
