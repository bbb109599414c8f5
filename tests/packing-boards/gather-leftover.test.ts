import { describe, expect, it } from 'vitest';
import { fromMm } from '../../src/model/units.ts';
import { boardTask } from '../../src/packing/boards/board-task.ts';
import { emptiest, gatherLeftover, leftoverOf } from '../../src/packing/boards/gather-leftover.ts';
import type { Pattern } from '../../src/packing/boards/pattern.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { boardJob } from '../helpers/board-jobs.ts';

/** A board by how many it has of 400, 300 and 200 mm. */
function pattern(...counts: readonly number[]): Pattern {
  const takes = counts.map((times, kind) => ({ kind, times })).filter(({ times }) => times > 0);
  return { bin: 0, stretches: [takes] };
}

function taskWith(kerf: number) {
  const lengths = [400, 300, 300, 200].map((length) => [length, 1] as const);
  return boardTask(boardJob({ kerf, boards: [{ length: 1000 }], lengths }), 0);
}

describe('what is left over of boards', () => {
  it.each([
    ['nothing', [1, 2, 0], 0, 0],
    ['the rest', [1, 0, 1], 0, 400],
    // Each piece takes a kerf, behind the last one too.
    ['the rest less the kerfs', [1, 0, 1], 10, 380],
    ['all of it', [], 10, 1000],
  ])('is %s of one', (_, counts, kerf, left) => {
    expect(leftoverOf(taskWith(kerf), pattern(...counts))).toBe(fromMm(left));
  });

  it('is the longer rest of two stretches', () => {
    const boards = [{ length: 1000, endTrim: 10, defects: [[500, 510]] as const }];
    const task = boardTask(boardJob({ boards, lengths: [[400, 1]] }), 0);
    const halves = (first: number, second: number): Pattern => ({
      bin: 0,
      stretches: [first, second].map((times) => [{ kind: 0, times }]),
    });
    expect(leftoverOf(task, halves(1, 0))).toBe(fromMm(480));
    expect(leftoverOf(task, halves(0, 1))).toBe(fromMm(490));
    expect(leftoverOf(task, halves(1, 1))).toBe(fromMm(90));
  });

  it('is gathered on one board, the others as full as can be', () => {
    const task = taskWith(0);
    const runs = [pattern(1, 0, 1), pattern(0, 2, 0)].map((each) => ({ pattern: each, times: 1 }));
    expect(emptiest(task, runs)).toBe(runs[0]!.pattern);
    const gathered = gatherLeftover(task, runs, new WorkBudget(1e9));
    // 1,200 mm in all, of which 400 and twice 300 fill a board.
    const lefts = gathered.flatMap(({ pattern: each, times }) =>
      new Array<number>(times).fill(leftoverOf(task, each)),
    );
    expect(lefts.toSorted((a, b) => a - b)).toEqual([0, fromMm(800)]);
  });
});
