/**
 * A short way through the pieces of a sheet that keeps the deadlines of its cutting order.
 *
 * From a few pieces far out the way goes to the nearest piece each time after which all deadlines can
 * still be kept. The shortest of these ways, and the order of the file where it keeps the deadlines,
 * are then improved move by move, and the shortest that results is taken. It starts and ends where
 * it likes and runs straight from the centre of one piece to that of the next.
 * Source: nearest neighbour, 2-opt and Or-opt are textbook methods. Where we differ: each move is
 * tried against the deadlines.
 * Cost: the square of the number of pieces for each start, then counted work in the moves.
 * Degenerate: where no order keeps the deadlines, that of rising deadlines is returned. Equal cases
 * go to the piece that comes first in the list; distances know no directions, so a mirrored or
 * turned sheet has the same way.
 */
import { byDeadline, keepsDeadlines } from './deadlines.ts';
import { type Block, openedUm } from './open-kerf.ts';
import { distance, improveWay, wayLength } from './way-moves.ts';

export function shortWay(blocks: readonly Block[], deadlinesUm: readonly number[]): number[] {
  const due = byDeadline(blocks, deadlinesUm);
  const isKept = (order: readonly number[]): boolean => keepsDeadlines(blocks, deadlinesUm, order);
  if (!isKept(due)) return due;
  const urgent = due.slice(0, due.findLastIndex((i) => Number.isFinite(deadlinesUm[i])) + 1);
  const task = { blocks, deadlinesUm, due, urgent };
  const nearest = startsOf(task).map((start) => nearestWay(task, start));
  const seeds = [...nearest, fileOrder(blocks)].filter(isKept);
  const length = (order: readonly number[]): number => wayLength(blocks, order);
  const best = seeds.toSorted((a, b) => length(a) - length(b)).slice(0, IMPROVED);
  const ways = best.map((order) => improveWay(blocks, order, isKept));
  return ways.reduce((a, b) => (length(b) < length(a) ? b : a));
}

/** As the file has the pieces, but what lies in a cut-out before the piece around it. */
export function fileOrder(blocks: readonly Block[]): number[] {
  const within = blocks.map((): number[] => []);
  blocks.forEach(({ host }, i) => {
    if (host !== null) within[host]!.push(i);
  });
  const from = (i: number): number[] => [...within[i]!.flatMap(from), i];
  return [...blocks.keys()].filter((i) => blocks[i]!.host === null).flatMap(from);
}

/** So many starts are tried, and so many of the ways from them improved. */
const STARTS = 5;
const IMPROVED = 3;

interface Task {
  readonly blocks: readonly Block[];
  readonly deadlinesUm: readonly number[];
  /** All by rising deadline. */
  readonly due: readonly number[];
  /** The first of them, to the last that has a deadline. */
  readonly urgent: readonly number[];
}

/** The most urgent piece, and those farthest from the middle of all, each with the least that lies in its cut-outs. */
function startsOf({ blocks, due }: Task): number[] {
  const sum = blocks.reduce((a, { centre: b }) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 });
  const out2 = blocks.map(({ centre: { x, y } }) => {
    const [dx, dy] = [x * blocks.length - sum.x, y * blocks.length - sum.y];
    return dx * dx + dy * dy;
  });
  const hosts = new Set(blocks.map(({ host }) => host));
  const free = [...blocks.keys()].filter((i) => !hosts.has(i));
  const outermost = free.sort((a, b) => out2[b]! - out2[a]!).slice(0, STARTS - 1);
  return [...new Set([...due.slice(0, 1), ...outermost])];
}

function nearestWay(task: Task, start: number): number[] {
  const { blocks } = task;
  const cut = new Uint8Array(blocks.length);
  const inside = guestCounts(blocks);
  const order: number[] = [];
  let openUm = 0;
  let next = start;
  for (;;) {
    order.push(next);
    openUm += openedUm(blocks[next]!, cut);
    cut[next] = 1;
    const { host } = blocks[next]!;
    if (host !== null) inside[host]!--;
    if (order.length === blocks.length) return order;
    next = nextOf(task, { cut, inside, openUm, from: next });
  }
}

function guestCounts(blocks: readonly Block[]): number[] {
  const counts = blocks.map(() => 0);
  for (const { host } of blocks) if (host !== null) counts[host]!++;
  return counts;
}

interface State {
  readonly cut: Uint8Array;
  /** How many pieces still lie in the cut-outs of each. */
  readonly inside: readonly number[];
  readonly openUm: number;
  readonly from: number;
}

/** The nearest piece after which the rest can keep its deadlines, else the most urgent one. */
function nextOf(task: Task, state: State): number {
  const { blocks, due } = task;
  const { cut, inside, from } = state;
  const refused = new Set<number>();
  for (;;) {
    let [next, least] = [-1, Number.POSITIVE_INFINITY];
    for (let i = 0; i < blocks.length; i++) {
      if (cut[i] === 1 || inside[i]! > 0 || refused.has(i)) continue;
      const away = distance(blocks, from, i);
      if (away < least) [next, least] = [i, away];
    }
    if (next < 0) return due.find((i) => cut[i] === 0)!;
    if (restKeeps(task, state, next)) return next;
    refused.add(next);
  }
}

/** Whether all deadlines can be kept if a piece comes next. */
function restKeeps({ blocks, deadlinesUm, urgent }: Task, state: State, next: number): boolean {
  if (urgent.length === 0) return true;
  const cut = state.cut.slice();
  let openUm = state.openUm;
  const keeps = (i: number): boolean => {
    openUm += openedUm(blocks[i]!, cut);
    cut[i] = 1;
    return openUm <= deadlinesUm[i]!;
  };
  return keeps(next) && urgent.every((i) => cut[i] === 1 || keeps(i));
}
