import type { BoardTask } from './board-task.ts';
import type { Take } from './filling.ts';

/** A board and what is cut from each of its stretches. */
export interface Pattern {
  /** Index into the task's bins. */
  readonly bin: number;
  readonly stretches: readonly (readonly Take[])[];
}

/** So many boards that are cut alike. */
export interface Run {
  readonly pattern: Pattern;
  readonly times: number;
}

/** Boards, and how many of each kind none of them has. */
export interface BoardPlan {
  readonly runs: readonly Run[];
  readonly left: readonly number[];
}

/** What is still to be cut, kind by kind, and how many of each board there are for it. */
export interface Rest {
  readonly wanted: readonly number[];
  readonly onHand: readonly number[];
}

export function allOf({ kinds, boards }: BoardTask): Rest {
  return {
    wanted: kinds.map(({ count }) => count),
    onHand: boards.map(({ onHand }) => onHand),
  };
}

/** What is left after some boards are cut. */
export function restAfter(task: BoardTask, { wanted, onHand }: Rest, runs: readonly Run[]): Rest {
  const left = [...wanted];
  const there = [...onHand];
  for (const { pattern, times } of runs) {
    const board = task.bins[pattern.bin]?.board ?? -1;
    there[board] = (there[board] ?? 0) - times;
    for (const take of takesOf(pattern))
      left[take.kind] = (left[take.kind] ?? 0) - times * take.times;
  }
  return { wanted: left, onHand: there };
}

/** How many of each kind a pattern has, kinds ascending. */
export function takesOf({ stretches }: Pattern): readonly Take[] {
  const all = new Map<number, number>();
  for (const { kind, times } of stretches.flat()) all.set(kind, (all.get(kind) ?? 0) + times);
  return [...all].sort(([a], [b]) => a - b).map(([kind, times]) => ({ kind, times }));
}

/** The same for the same cuts. */
export function patternKey({ bin, stretches }: Pattern): string {
  const cuts = stretches.map((takes) =>
    takes.map(({ kind, times }) => `${kind}x${times}`).join(' '),
  );
  return `${bin}: ${cuts.join(' | ')}`;
}

/** In what the objective counts. */
export function costOf({ boards, bins }: BoardTask, runs: readonly Run[]): number {
  return runs.reduce((sum, { pattern, times }) => {
    const board = bins[pattern.bin]?.board ?? -1;
    return sum + times * (boards[board]?.cost ?? 0);
  }, 0);
}

/** How many boards can be cut by a pattern without more pieces of any kind than are wanted. */
export function timesWithin(pattern: Pattern, wanted: ArrayLike<number>): number {
  const takes = takesOf(pattern);
  return Math.min(...takes.map(({ kind, times }) => Math.floor((wanted[kind] ?? 0) / times)));
}

/** The pattern with no more pieces of any kind than are wanted. */
export function cutBack(pattern: Pattern, wanted: ArrayLike<number>): Pattern {
  const spare = Array.from(wanted);
  const stretches = pattern.stretches.map((takes) =>
    takes.flatMap(({ kind, times }) => {
      const kept = Math.min(times, spare[kind] ?? 0);
      spare[kind] = (spare[kind] ?? 0) - kept;
      return kept > 0 ? [{ kind, times: kept }] : [];
    }),
  );
  return { bin: pattern.bin, stretches };
}

/** As many boards of a pattern as are useful, or one that is cut back where it holds more than is wanted. */
export function runWithin(
  task: BoardTask,
  pattern: Pattern,
  most: number,
  { wanted, onHand }: Rest,
): Run | null {
  const board = task.bins[pattern.bin]?.board ?? -1;
  const there = Math.min(most, onHand[board] ?? 0);
  if (there < 1) return null;
  const times = Math.min(there, timesWithin(pattern, wanted));
  if (times >= 1) return { pattern, times };
  const back = cutBack(pattern, wanted);
  return back.stretches.every((takes) => takes.length === 0) ? null : { pattern: back, times: 1 };
}
