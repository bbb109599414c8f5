import {
  STRIPS_SIDEWAYS as SAWN_SIDEWAYS,
  STRIPS_UPWARDS as SAWN_UPWARDS,
  SlicingDecoder,
} from '../panelsaw/slicing-decoder.ts';
import { NO_TREE_LIMITS } from '../panelsaw/slicing-tree.ts';
import type { BoxStock, BoxTask } from './box-task.ts';
import { type Costs, Decoded, type LaidOut } from './decoded.ts';
import { FreeDecoder } from './free-decoder.ts';
import {
  FREE_RULE_COUNT,
  NONE_LEFT,
  RULE_COUNT,
  SKYLINE_SIDEWAYS,
  STRIPS_UPWARDS,
} from './rules.ts';
import { Skyline } from './skyline.ts';

/**
 * Lays an order of boxes on one sheet by a rule. A sheet is kept as its order and rule, not as positions; laid out again they always give the same layout.
 * Another kind of cut is another decoder behind the same call.
 */
export interface OrderDecoder {
  /** What the last call gave. */
  readonly result: Decoded;
  readonly costs: Costs;
  /** Whether the boxes left out cost at most `limit`; `width` and `height` cut the sheet short. Where they cost more the result is not complete; places are sure to be told only where the limit leaves nothing out. */
  readonly decode: (
    stock: BoxStock,
    order: Int32Array,
    length: number,
    rule: number,
    limit: number,
    width?: number,
    height?: number,
  ) => boolean;
  /** Lays a sheet out as it was; false where not all find room, which is a fault. */
  readonly layAgain: (stock: BoxStock, sheet: LaidOut) => boolean;
  /** Work done so far. */
  readonly work: () => number;
}

export function orderDecoder({ area, kindCount }: BoxTask): OrderDecoder {
  const result = new Decoded();
  const costs: Costs = { ofKind: Float64Array.from(area), leastPerArea: 1 };
  const free = new FreeDecoder(kindCount, costs, result);
  const skyline = new Skyline(area, costs, result);
  const strips = new SlicingDecoder(NO_TREE_LIMITS, new Uint8Array(kindCount), costs, result);
  const decode: OrderDecoder['decode'] = (
    stock,
    order,
    length,
    rule,
    limit,
    width = stock.width,
    height = stock.height,
  ) => {
    if (rule < FREE_RULE_COUNT)
      return free.decode(stock, order, length, rule, limit, width, height);
    if (rule < RULE_COUNT)
      return skyline.decode(stock, order, length, rule === SKYLINE_SIDEWAYS, limit, width, height);
    const sawn = rule === STRIPS_UPWARDS ? SAWN_UPWARDS : SAWN_SIDEWAYS;
    return strips.decode(stock, order, length, sawn, limit, width, height);
  };
  return {
    result,
    costs,
    decode,
    layAgain: (stock, { codes, count, rule, width, height }) =>
      decode(stock, codes, count, rule, NONE_LEFT, width, height),
    work: () => free.work + skyline.work + strips.filler.work,
  };
}
