import { kindOf } from './code.ts';
import { asideOf, type Engine } from './engine.ts';
import { layAllByChance } from './lay-all.ts';
import { type Arrangement, copyArrangement, newSheet, type Sheet } from './sheet.ts';

/** Tries to bring the boxes that wait in the pool onto one sheet. */
const POOL_TRIES = 12;

/**
 * Watches a search that tries to do without one sheet: whenever fewer boxes than ever wait in its pool, by their area, and they fit one such sheet, that is an arrangement with as many
 * sheets as before, of which one is emptier. It is kept, whatever becomes of the search.
 */
export function emptierWatch(
  engine: Engine,
  { stock, area }: Sheet,
  keep: (arrangement: Arrangement) => void,
): (arrangement: Arrangement) => void {
  const aside = asideOf(engine);
  let leastArea = area;
  return ({ sheets, pool }) => {
    const waiting = pool.reduce((sum, code) => sum + engine.task.area[kindOf(code)]!, 0);
    if (waiting >= leastArea) return;
    const packed = packPool(aside, stock, pool);
    if (packed === null) return;
    leastArea = waiting;
    keep(copyArrangement({ sheets: [...sheets, packed], pool: [] }));
  };
}

/** All boxes of the pool on one sheet, or null where no try finds room for all. */
function packPool(engine: Engine, stock: number, pool: readonly number[]): Sheet | null {
  const sheet = newSheet(engine.stocks, stock);
  const order = Int32Array.from(pool, (code) => engine.task.freeCode[kindOf(code)]!);
  for (let n = 0; n < POOL_TRIES; n++) {
    if (layAllByChance(engine, sheet, order, sheet.width, sheet.height)) return sheet;
  }
  return null;
}
