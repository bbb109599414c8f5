// Bounds the sheets, or their cost, from below by area.
// Idea: pieces lie at least one spacing apart, so discs of half the spacing laid around every point of a piece make bodies that do not overlap, and all of them
//   lie in the usable box grown by the same disc. The areas of the grown pieces must go into the areas of the grown sheets. With several stocks, whole
//   sheets are counted: the cheapest mix whose areas suffice, together and for the pieces that only some stocks can hold.
// Source: parallel sets after Steiner 1840 and the inequality of Brunn and Minkowski, see Schneider 2014, "Convex Bodies: The Brunn-Minkowski Theory", sections 4.2 and 7.1.
// Where we are careful: a box grown by the whole spacing on two sides would claim more, but that is not valid: two corners may come diagonally closer
//   than one spacing along both axes. So a w x h rectangle counts w h + s (w + h) + pi s^2 / 4, exactly; any other shape of area A counts
//   A + s sqrt(pi A) + pi s^2 / 4, which holds for every shape, holed ones too. Keep-outs are taken off the sheet, without spacing.
//   An offcut from the rack counts no more than what goes on it together (most-on-one.ts).
//   An odd-shaped sheet counts with its whole area, trim and keep-outs included, if that is less than its box.
// Cost: linear in the parts. Sums are whole numbers in BigInt, pieces rounded down and sheets up.
// Degenerate cases: a body that fits no stock is left out, for no layout has it; no bodies: 0.

import { ringLength } from '../../geometry/area.ts';
import type { Point } from '../../geometry/point.ts';
import type { Ring } from '../../geometry/shape.ts';
import type { Part } from '../../model/part.ts';
import { type SheetStock, usableBox } from '../../model/stock.ts';
import { priceOf } from '../priced.ts';
import type { Body, PackingTask } from '../task.ts';
import { unionArea } from '../union-area.ts';
import { fitsStock, isSolidRectangle, leastArea, partOfPiece } from './body-measures.ts';
import { rectangularKinds } from './dual-feasible.ts';
import { mostOnOne } from './most-on-one.ts';
import { cheapestMix, type Demand, type Offer } from './stock-mix.ts';

/** Fractions just below and just above pi. */
const PI_LOW = 333 / 106;
const PI_HIGH = 355 / 113;

/** No layout of the task's bodies uses fewer sheets, or costs fewer minor units, than this. */
export function areaBound(task: PackingTask): number {
  const { offers, demands } = areaMix(task);
  return cheapestMix(offers, demands);
}

/** What the areas of the stocks, in packs, have to meet. */
export function areaMix(task: PackingTask): {
  readonly offers: readonly Offer[];
  readonly demands: readonly Demand[];
} {
  const straight = task.stocks.some(({ rack }) => rack !== null) ? straightBodies(task) : [];
  const offers = task.stocks.map((stock, index): Offer => {
    const { cost, pack } = priceOf(task.objective, stock);
    return {
      capacity: BigInt(pack) * capacityOf(task, stock, index, straight),
      cost: pack * cost,
      onHand: stock.onHand ?? Number.POSITIVE_INFINITY,
    };
  });
  return { offers, demands: demandsOf(task) };
}

type StraightBodies = Parameters<typeof mostOnOne>[2];

function straightBodies(task: PackingTask): StraightBodies {
  const areaOfPart = new Map<number, bigint>();
  return rectangularKinds(task).map(({ body, count }) => ({
    body,
    count,
    area: grownBodyArea(task, body, areaOfPart),
  }));
}

/** The area of a sheet, grown; of an offcut from the rack no more than what goes on it. */
function capacityOf(
  task: PackingTask,
  stock: SheetStock,
  index: number,
  straight: StraightBodies,
): bigint {
  const area = grownSheetArea(stock, task.spacing);
  return stock.rack === null ? area : mostOnOne(task, index, straight, area);
}

/** One demand for each set of stocks that some body is confined to, and one for all stocks: the area of all bodies confined to that set or a part of it. */
function demandsOf(task: PackingTask): Demand[] {
  const areaOfPart = new Map<number, bigint>();
  const confined = new Map<string, Demand>();
  for (const body of task.bodies) {
    const from = task.stocks.map((stock, index) => fitsStock(body, stock, index));
    if (!from.includes(true)) continue;
    const key = from.map(Number).join('');
    const amount = (confined.get(key)?.amount ?? 0n) + grownBodyArea(task, body, areaOfPart);
    confined.set(key, { from, amount });
  }
  const groups = [...confined.values()];
  const all = task.stocks.map((_, index) => groups.some(({ from }) => from[index]));
  return [all, ...groups.map(({ from }) => from)].map((from) => ({
    from,
    amount: groups
      .filter((group) => group.from.every((fits, index) => !fits || from[index]))
      .reduce((sum, { amount }) => sum + amount, 0n),
  }));
}

function grownBodyArea(task: PackingTask, body: Body, areaOfPart: Map<number, bigint>): bigint {
  return body.pieces.reduce((sum, piece) => {
    const part = partOfPiece(task, piece);
    const area = areaOfPart.get(part.index) ?? grownPieceArea(part, task.spacing);
    areaOfPart.set(part.index, area);
    return sum + area;
  }, 0n);
}

function grownPieceArea(part: Part, spacing: number): bigint {
  const area = leastArea(part);
  const corners = Math.floor((PI_LOW * spacing * spacing) / 4);
  const border = isSolidRectangle(part)
    ? spacing * (part.width + part.height)
    : spacing * Math.floor(Math.sqrt(PI_LOW * area));
  return BigInt(area) + BigInt(border) + BigInt(corners);
}

function grownSheetArea(stock: SheetStock, spacing: number): bigint {
  const usable = usableBox(stock);
  const length = usable.maxX - usable.minX;
  const width = usable.maxY - usable.minY;
  if (length <= 0 || width <= 0) return 0n;
  const corners = Math.ceil((PI_HIGH * spacing * spacing) / 4);
  const closed = unionArea(
    stock.keepOuts.map(({ box }) => ({
      minX: Math.min(Math.max(box.minX, usable.minX), usable.maxX),
      minY: Math.min(Math.max(box.minY, usable.minY), usable.maxY),
      maxX: Math.max(Math.min(box.maxX, usable.maxX), usable.minX),
      maxY: Math.max(Math.min(box.maxY, usable.maxY), usable.minY),
    })),
  );
  const grown =
    BigInt(length) * BigInt(width) -
    BigInt(closed) +
    BigInt(spacing * (length + width)) +
    BigInt(corners);
  if (stock.boundary === null) return grown;
  const odd = grownOffcutArea(stock.boundary, stock.trim.left, spacing);
  return odd < grown ? odd : grown;
}

/**
 * Pieces of an odd-shaped sheet keep the trim from its edge, so grown by half the spacing they reach over it by the difference at most: into a strip along
 * each edge and a disc round each corner.
 */
function grownOffcutArea(boundary: Ring, trim: number, spacing: number): bigint {
  const over = Math.max(0, Math.ceil(spacing / 2) - trim);
  const strips = boundary.length + Math.ceil(over * ringLength(boundary));
  const discs = Math.ceil(PI_HIGH * over * over) * boundary.length;
  return exactArea(boundary) + BigInt(strips) + BigInt(discs);
}

/** Rounded up. */
function exactArea(ring: Ring): bigint {
  const twice = ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length] as Point;
    return sum + BigInt(a.x) * BigInt(b.y) - BigInt(a.y) * BigInt(b.x);
  }, 0n);
  return (twice + 1n) / 2n;
}
