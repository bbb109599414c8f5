import type { LayAgain } from '../task.ts';
import { type Engine, pick, pickRule } from './engine.ts';
import { NONE_LEFT } from './rules.ts';
import { type Sheet, setOrder, stockAt } from './sheet.ts';

/** Lays all of the order, shuffled by chance, on the lower-left part of an empty sheet; false where not all find room, and the sheet is as it was. */
export function layAllByChance(
  engine: Engine,
  sheet: Sheet,
  order: Int32Array,
  width: number,
  height: number,
): boolean {
  const { random, sortKeys, sorter, stocks, unweighted } = engine;
  const key = sortKeys[pick(random, sortKeys.length)]!;
  sorter.sort(order, order.length, key, unweighted, 2 * random());
  const rule = pickRule(engine, stockAt(stocks, sheet.stock));
  return layAll(engine, sheet, order, { width, height, rule });
}

/** The same in the given order and by the given rule. */
export function layAll(
  { decoder, stocks }: Engine,
  sheet: Sheet,
  order: Int32Array,
  { width, height, rule }: Omit<LayAgain, 'beside'>,
): boolean {
  const stock = stockAt(stocks, sheet.stock);
  if (!decoder.decode(stock, order, order.length, rule, NONE_LEFT, width, height)) return false;
  setOrder(sheet, stock, decoder.result.placed, decoder.result.placedCount, rule);
  sheet.area = decoder.result.area;
  sheet.width = width;
  sheet.height = height;
  return true;
}
