import { assert } from '../../geometry/assert.ts';
import { costOf } from '../priced.ts';
import type { Candidate, PackedSheet, Spot } from '../task.ts';
import type { BoxStock, BoxTask } from './box-task.ts';
import { codeOf, kindOf } from './code.ts';
import type { LaidOut } from './decoded.ts';
import type { OrderDecoder } from './order-decoder.ts';

/** A sheet of the box engine: an order of codes and how they were laid out; laid out again they always give the same positions. */
export interface Sheet extends LaidOut {
  readonly stock: number;
  rule: number;
  codes: Int32Array;
  count: number;
  /** Area of its boxes. */
  area: number;
  beside: Int32Array | null;
  width: number;
  height: number;
}

/** Sheets and what is on none of them. */
export interface Arrangement {
  readonly sheets: Sheet[];
  /** Codes of the boxes that have no sheet. */
  pool: number[];
}

export function newSheet(stocks: readonly BoxStock[], stock: number): Sheet {
  const { width, height } = stockAt(stocks, stock);
  const codes = new Int32Array(16);
  return { stock, rule: 0, codes, count: 0, area: 0, beside: null, width, height };
}

export function copySheet(sheet: Sheet): Sheet {
  return { ...sheet, codes: sheet.codes.slice(0, Math.max(16, sheet.count)) };
}

export function copyArrangement({ sheets, pool }: Arrangement): Arrangement {
  return { sheets: sheets.map(copySheet), pool: [...pool] };
}

/** Fewer boxes without a sheet, then a lower cost, then a weakest sheet with less on it, which is the next one to go. */
export function isBetter(stocks: readonly BoxStock[], a: Arrangement, b: Arrangement): boolean {
  if (a.pool.length !== b.pool.length) return a.pool.length < b.pool.length;
  const costA = costOf(stocks, a.sheets);
  const costB = costOf(stocks, b.sheets);
  return costA !== costB ? costA < costB : leastArea(a.sheets) < leastArea(b.sheets);
}

function leastArea(sheets: readonly Sheet[]): number {
  return sheets.reduce((least, { area }) => Math.min(least, area), Number.POSITIVE_INFINITY);
}

/** Gives the sheet a new order, laid out over the whole stock. */
export function setOrder(
  sheet: Sheet,
  { width, height }: BoxStock,
  codes: Int32Array,
  count: number,
  rule: number,
): void {
  if (sheet.codes.length < count) sheet.codes = new Int32Array(2 * count);
  for (let i = 0; i < count; i++) sheet.codes[i] = codes[i]!;
  sheet.count = count;
  sheet.rule = rule;
  sheet.beside = null;
  sheet.width = width;
  sheet.height = height;
}

export function stockAt(stocks: readonly BoxStock[], index: number): BoxStock {
  const stock = stocks[index];
  assert(stock !== undefined, `there is no stock ${index}`);
  return stock;
}

/** The arrangement that a packing came from; null where some sheet is not one of the box engine. */
export function arrangementOf(task: BoxTask, { sheets, unplaced }: Candidate): Arrangement | null {
  const { bodies } = task.task;
  const kindOfBody = (body: number) => bodies[body]!.kind;
  const arranged: Sheet[] = [];
  for (const { stock, spots, again } of sheets) {
    if (again === undefined) return null;
    const { boxWidth, boxHeight, orientation } = stockAt(task.stocks, stock);
    const codes = Int32Array.from(spots, (spot) => {
      const kind = kindOfBody(spot.body);
      return codeOf(kind, orientation[2 * kind] === spot.orientation ? 0 : 1);
    });
    const area = codes.reduce((sum, code) => {
      const box = 2 * kindOf(code) + (code & 3);
      return sum + boxWidth[box]! * boxHeight[box]!;
    }, 0);
    arranged.push({ stock, codes, count: codes.length, area, ...again });
  }
  const pool = unplaced.map((body) => task.freeCode[kindOfBody(body)]!);
  return { sheets: arranged, pool: pool.filter((code) => task.area[kindOf(code)] !== 0) };
}

/** The arrangement as a packing of bodies; bodies of a kind are taken in their order. */
export function candidateOf(
  task: BoxTask,
  decoder: OrderDecoder,
  { sheets }: Pick<Arrangement, 'sheets'>,
): Candidate {
  const next = new Int32Array(task.kindCount);
  const packed = sheets
    .filter(({ count }) => count > 0)
    .map((sheet): PackedSheet => {
      const stock = stockAt(task.stocks, sheet.stock);
      const { count, rule, beside, width, height } = sheet;
      assert(decoder.layAgain(stock, sheet), 'an order laid out again gives the same sheet');
      const { placed, placedX, placedY } = decoder.result;
      const spots = Array.from({ length: count }, (_, k): Spot => {
        const code = placed[k]!;
        const kind = kindOf(code);
        const body = task.bodies[kind]?.[next[kind]!];
        assert(body !== undefined, `kind ${kind} has no body left`);
        next[kind] = next[kind]! + 1;
        const x = stock.originX + placedX[k]!;
        const y = stock.originY + placedY[k]!;
        return { body, orientation: stock.orientation[2 * kind + (code & 3)]!, x, y };
      });
      return { stock: sheet.stock, spots, again: { rule, beside, width, height } };
    });
  const unplaced = task.bodies.flatMap((bodies, kind) => bodies.slice(next[kind]!));
  return { sheets: packed, unplaced: unplaced.sort((a, b) => a - b) };
}
