/**
 * Makes a way through pieces shorter by moves that keep its conditions.
 *
 * A move turns a stretch of the way round, or takes a short stretch out and puts it in elsewhere,
 * either way round. Every move that shortens the way and keeps the conditions is made at once, until
 * none is left or the counted work is used up.
 * Source: textbook methods, 2-opt and Or-opt. Cost: a pass looks at some four moves for each pair of
 * pieces; dozens of pieces need a few passes, and hundreds get about two.
 * Degenerate: the two ends of the way are free and cost nothing.
 */
import type { Block } from './open-kerf.ts';

type Way = readonly number[];
type Centres = readonly Pick<Block, 'centre'>[];

export function improveWay(blocks: Centres, start: Way, isKept: (way: Way) => boolean): number[] {
  const task: Task = {
    xs: Float64Array.from(blocks, ({ centre }) => centre.x),
    ys: Float64Array.from(blocks, ({ centre }) => centre.y),
    isKept,
    way: [...start],
    work: MOST_WORK,
  };
  let before: Way;
  do {
    before = task.way;
    for (let from = 0; from < start.length && task.work > 0; from++) {
      turnStretches(task, from);
      for (let count = 1; count <= LONGEST_MOVED; count++) moveStretch(task, from, count);
    }
  } while (task.way !== before && task.work > 0);
  return task.way;
}

/** Sum of the straight ways from centre to centre, in half base lengths. */
export function wayLength(blocks: Centres, way: Way): number {
  let sum = 0;
  for (let i = 1; i < way.length; i++) sum += distance(blocks, way[i - 1]!, way[i]!);
  return sum;
}

/** Between two centres, in half base lengths. */
export function distance(blocks: Centres, from: number, to: number): number {
  const [a, b] = [blocks[from]!.centre, blocks[to]!.centre];
  const [dx, dy] = [a.x - b.x, a.y - b.y];
  return Math.sqrt(dx * dx + dy * dy);
}

/** In moves looked at. */
const MOST_WORK = 1_000_000;
const LONGEST_MOVED = 3;

/** In half base lengths: far more than the rounding of a sum, far less than anyone sees. */
const LEAST_GAIN = 0.01;

/** Beyond an end of the way. */
const NOWHERE = -1;

interface Task {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly isKept: (way: Way) => boolean;
  way: number[];
  work: number;
}

/** Stretches that begin at a place of the way, the other way round. */
function turnStretches(task: Task, from: number): void {
  for (let to = from + 1; to < task.way.length; to++) {
    const { way } = task;
    const before = from > 0 ? way[from - 1]! : NOWHERE;
    const after = to + 1 < way.length ? way[to + 1]! : NOWHERE;
    const [first, last] = [way[from]!, way[to]!];
    const now = leg(task, before, first) + leg(task, last, after);
    const then = leg(task, before, last) + leg(task, first, after);
    task.work--;
    if (now - then <= LEAST_GAIN) continue;
    const turned = way.slice(from, to + 1).reverse();
    take(task, [...way.slice(0, from), ...turned, ...way.slice(to + 1)]);
  }
}

/** Puts a stretch between two others, or at an end of the way, as it is or the other way round. */
function moveStretch(task: Task, from: number, count: number): void {
  const { way } = task;
  const left = way.length - count;
  if (from > left) return;
  /** What is left of the way without the stretch. */
  const rest = (at: number): number =>
    at < 0 || at >= left ? NOWHERE : way[at < from ? at : at + count]!;
  const [first, last] = [way[from]!, way[from + count - 1]!];
  const closed =
    leg(task, rest(from - 1), first) +
    leg(task, last, rest(from)) -
    leg(task, rest(from - 1), rest(from));
  if (closed <= LEAST_GAIN) return;
  for (let at = 0; at <= left; at++) {
    const [before, after] = [rest(at - 1), rest(at)];
    const most = closed + leg(task, before, after) - LEAST_GAIN;
    const isGain = leg(task, before, first) + leg(task, last, after) < most;
    if (isGain && takeMoved(task, from, count, at, false)) return;
    const isTurnedGain = leg(task, before, last) + leg(task, first, after) < most;
    if (isTurnedGain && takeMoved(task, from, count, at, true)) return;
    task.work--;
  }
}

function takeMoved(task: Task, from: number, count: number, at: number, turned: boolean): boolean {
  const stretch = task.way.slice(from, from + count);
  const rest = task.way.toSpliced(from, count);
  return take(task, rest.toSpliced(at, 0, ...(turned ? stretch.reverse() : stretch)));
}

/** Takes a way if it keeps the conditions. */
function take(task: Task, way: number[]): boolean {
  task.work -= way.length;
  if (!task.isKept(way)) return false;
  task.way = way;
  return true;
}

function leg({ xs, ys }: Task, from: number, to: number): number {
  if (from === NOWHERE || to === NOWHERE) return 0;
  const dx = xs[from]! - xs[to]!;
  const dy = ys[from]! - ys[to]!;
  return Math.sqrt(dx * dx + dy * dy);
}
