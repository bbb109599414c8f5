import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allPatterns } from '../../src/packing/boards/all-patterns.ts';
import { type BoardTask, boardTask } from '../../src/packing/boards/board-task.ts';
import { type Pattern, takesOf } from '../../src/packing/boards/pattern.ts';
import { tightPatterns } from '../../src/packing/boards/tight-patterns.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { boardJob } from '../helpers/board-jobs.ts';

const LENGTHS = fc.array(
  fc.tuple(fc.integer({ min: 5, max: 40 }), fc.integer({ min: 1, max: 3 })),
  { minLength: 1, maxLength: 5 },
);
const ROOM = fc.integer({ min: 40, max: 90 });
const RUNS = { seed: 20260331, numRuns: 300 };

describe('lists of patterns', () => {
  it('have every pattern to which nothing can be added, once', () => {
    fc.assert(
      fc.property(LENGTHS, ROOM, (lengths, length) => {
        const task = taskOf(lengths, length);
        const full = everyFilling(task).filter((counts) =>
          task.kinds.every(
            ({ size, count }, k) => counts[k] === count || load(task, counts) + size > room(task),
          ),
        );
        expect(sorted(task, allPatterns(task, 10_000))).toEqual(full.map(String).sort());
      }),
      RUNS,
    );
  });

  it('have every pattern that wastes no more than is given, once', () => {
    fc.assert(
      fc.property(LENGTHS, ROOM, fc.integer({ min: 0, max: 9 }), (lengths, length, share) => {
        const task = taskOf(lengths, length);
        const waste = Math.floor((room(task) * share) / 50);
        const tight = everyFilling(task).filter(
          (counts) => load(task, counts) > 0 && room(task) - load(task, counts) <= waste,
        );
        const found = tightPatterns(task, waste, 10_000, new WorkBudget(1e12));
        expect(sorted(task, found)).toEqual(tight.map(String).sort());
      }),
      RUNS,
    );
  });

  it('are given up where there are too many, or where a board has two stretches', () => {
    const task = taskOf(
      [
        [10, 3],
        [9, 3],
        [8, 3],
      ],
      40,
    );
    const budget = new WorkBudget(1e12);
    expect(allPatterns(task, 2)).toBeNull();
    expect(tightPatterns(task, 10, 2, budget)).toBeNull();
    const boards = [{ length: 90, defects: [[40, 42]] as const }];
    const parted = boardTask(boardJob({ boards, lengths: [[10, 3]] }), 0);
    expect(allPatterns(parted, 100)).toBeNull();
    expect(tightPatterns(parted, 10, 100, budget)).toBeNull();
  });
});

function taskOf(lengths: readonly (readonly [number, number])[], length: number): BoardTask {
  return boardTask(boardJob({ boards: [{ length }], lengths }), 0);
}

function room({ bins }: BoardTask): number {
  return bins[0]!.rooms[0]!;
}

function load({ kinds }: BoardTask, counts: readonly number[]): number {
  return counts.reduce((sum, count, k) => sum + count * kinds[k]!.size, 0);
}

/** The numbers of each kind in every filling of the only bin. */
function everyFilling(task: BoardTask): number[][] {
  const all = task.kinds.reduce<number[][]>(
    (some, { count }) =>
      some.flatMap((counts) => Array.from({ length: count + 1 }, (_, n) => [...counts, n])),
    [[]],
  );
  return all.filter((counts) => load(task, counts) <= room(task));
}

function sorted({ kinds }: BoardTask, patterns: readonly Pattern[] | null): string[] {
  return patterns!
    .map((pattern) => {
      const takes = new Map(takesOf(pattern).map(({ kind, times }) => [kind, times]));
      return String(kinds.map((_, k) => takes.get(k) ?? 0));
    })
    .sort();
}
