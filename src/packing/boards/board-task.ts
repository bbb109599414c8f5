import { assert } from '../../geometry/assert.ts';
import type { Job } from '../../model/job.ts';
import type { Objective } from '../../model/layout.ts';
import { boardKerf } from '../../model/machine.ts';
import { type BoardStock, clearStretches, type Stretch } from '../../model/stock.ts';
import { commonDivisor } from '../common-divisor.ts';
import { isPriced } from '../priced.ts';
import { waysToUse } from './stretches.ts';

/** Pieces of one length, of whatever part. */
export interface LengthKind {
  /** With one kerf, in steps of the task. */
  readonly size: number;
  readonly count: number;
  /** The parts that have it, in their order. */
  readonly members: readonly { readonly part: number; readonly count: number }[];
}

/** A kind of board that can be used at all. */
export interface BoardKind {
  /** Index into the material's boards. */
  readonly stock: number;
  /** In what the objective counts. */
  readonly cost: number;
  /** Infinity where as many as needed can be bought. */
  readonly onHand: number;
  /** Of each stretch with one kerf, in steps: no board of this kind holds more than these. */
  readonly rooms: readonly number[];
}

/** A board and a way to use it: what is filled. */
export interface Bin {
  /** Index into the task's boards. */
  readonly board: number;
  readonly stretches: readonly Stretch[];
  readonly rooms: readonly number[];
}

/** The lengths of one material and the boards for them. */
export interface BoardTask {
  readonly material: number;
  readonly objective: Objective;
  readonly kerf: number;
  /** Base lengths in a step: the greatest common divisor of all grown pieces, so that rooms may be rounded down. */
  readonly step: number;
  /** From the longest to the shortest. */
  readonly kinds: readonly LengthKind[];
  readonly boards: readonly BoardKind[];
  readonly bins: readonly Bin[];
  /** Parts that no board takes, not even an empty one. */
  readonly noRoom: readonly { readonly part: number; readonly count: number }[];
}

/**
 * The cutting of the lengths of one material, in whole steps.
 * Every piece is grown by the kerf on its right, and so is every stretch: n pieces in a row need n - 1 kerfs, and what is left needs one more only where there is any.
 */
export function boardTask(job: Job, material: number): BoardTask {
  const own = job.materials[material];
  assert(own !== undefined, `there is no material ${material}`);
  const kerf = boardKerf(job.machine);
  const parts = job.lengthParts.filter((part) => part.material === material && part.count > 0);
  const objective = isPriced(own) ? 'cost' : 'sheets';
  const shortest = Math.min(...parts.map(({ length }) => length));
  const stocks = own.boards
    .filter(({ onHand }) => onHand === null || onHand > 0)
    .map((stock) => ({
      stock,
      stretches: clearStretches(stock).filter((each) => lengthOf(each) >= shortest),
    }))
    .filter(({ stretches }) => stretches.length > 0);
  const longest = Math.max(0, ...stocks.flatMap(({ stretches }) => stretches.map(lengthOf)));
  const fitting = parts.filter(({ length }) => length <= longest);
  const step = Math.max(
    1,
    fitting.reduce((all, { length }) => commonDivisor(all, length + kerf), 0),
  );
  const roomOf = (stretch: Stretch) => Math.floor((lengthOf(stretch) + kerf) / step);
  return {
    material,
    objective,
    kerf,
    step,
    kinds: kindsOf(fitting, kerf, step),
    boards: stocks.map(({ stock, stretches }) =>
      boardKind(stock, objective, stretches.map(roomOf)),
    ),
    bins: stocks.flatMap(({ stretches }, board) =>
      waysToUse(stretches, kerf).map((way) => ({ board, stretches: way, rooms: way.map(roomOf) })),
    ),
    noRoom: parts
      .filter(({ length }) => length > longest)
      .map(({ index, count }) => ({ part: index, count })),
  };
}

function boardKind(
  { index, priceCents, onHand }: BoardStock,
  objective: Objective,
  rooms: readonly number[],
): BoardKind {
  const cost = objective === 'cost' ? (priceCents ?? 0) : 1;
  return { stock: index, cost, onHand: onHand ?? Number.POSITIVE_INFINITY, rooms };
}

function kindsOf(parts: Job['lengthParts'], kerf: number, step: number): readonly LengthKind[] {
  const lengths = [...new Set(parts.map(({ length }) => length))].sort((a, b) => b - a);
  return lengths.map((length) => {
    const members = parts
      .filter((part) => part.length === length)
      .map(({ index, count }) => ({ part: index, count }));
    const count = members.reduce((sum, member) => sum + member.count, 0);
    return { size: (length + kerf) / step, count, members };
  });
}

function lengthOf({ from, to }: Stretch): number {
  return to - from;
}
