import { describe, expect, it } from 'vitest';
import { brokenLimits } from '../../src/costing/limits.ts';
import type { Plan } from '../../src/model/plan.ts';
import { toMm } from '../../src/model/units.ts';
import { BENCH, benchPlan, boardPlan } from '../helpers/board-plan.ts';

const MM = 8000;

/** Leftovers of each board as [from, length, kept], in millimetres. */
function leftovers({ costs }: Plan) {
  return costs.boards.map((board) =>
    board.leftovers.map(({ from, to, isKept }) => [toMm(from), toMm(to - from), isKept]),
  );
}

describe('the costs of boards', () => {
  const { costs } = benchPlan();

  it('are their prices, and their yield is by length', () => {
    expect(costs.totalCents).toBe(4 * 1450 + 2 * 980);
    const pieces = 7 * 720 + 4 * 640 + 6 * 80;
    expect(costs.boardYieldShare).toBeCloseTo(pieces / (4 * 2400 + 2 * 1800), 12);
    expect(costs.boards[0]).toMatchObject({ board: 1, pieceLength: 2080 * MM, priceCents: 1450 });
    expect(costs.boards[0]?.yieldShare).toBeCloseTo(2080 / 2400, 12);
  });

  it('are not known where a board in use has no price', () => {
    const text = BENCH.replace('price: 14.50, ', '');
    expect(boardPlan(text, [{ parts: ['Leg'] }]).costs.totalCents).toBeNull();
    expect(boardPlan(text, [{ stock: 1, parts: ['Leg'] }]).costs.totalCents).toBe(980);
  });

  it('are nothing without boards', () => {
    const none = boardPlan(BENCH, []).costs;
    expect(none.boards).toEqual([]);
    expect(none.boardYieldShare).toBeNull();
    expect(none.totalCents).toBe(0);
  });
});

describe('what is left over of a board', () => {
  it('lies a kerf beside the pieces, inside trim and defects', () => {
    expect(leftovers(benchPlan())).toEqual([
      [[2104, 281, false]],
      [[2104, 281, false]],
      [[2104, 281, false]],
      [
        [733, 67, false],
        [860, 930, true],
      ],
      [
        [10, 790, true],
        [1503, 287, false],
      ],
      [[513, 1872, true]],
    ]);
  });

  it.each([
    ['a kerf more than nothing', 2367, []],
    ['a base length more than a kerf', 2367 - 1 / MM, [[2382 + 3 - 1 / MM, 1 / MM, false]]],
    ['nothing', 2370, []],
  ])('of a single piece that leaves %s', (_, length, expected) => {
    const text = BENCH.replace('length: 720, count: 5', `length: ${length}, count: 5`);
    const [found] = leftovers(boardPlan(text, [{ parts: ['Leg'] }]));
    expect(found).toEqual(
      expected.map(([from, ...rest]) => [
        toMm((from as number) * MM),
        toMm((rest[0] as number) * MM),
        rest[1],
      ]),
    );
  });

  it('is the whole clear board where nothing is cut', () => {
    expect(leftovers(boardPlan(BENCH, [{ stock: 1, parts: [] }]))).toEqual([
      [
        [10, 790, true],
        [860, 930, true],
      ],
    ]);
  });

  it('is worth keeping from the length in the file on', () => {
    const kept = (least: number) =>
      boardPlan(BENCH.replace('    boards:', `    least-leftover: ${least}\n    boards:`), [
        { parts: ['Leg', 'Leg', 'Rail'] },
      ]).costs.boards[0]?.leftovers.map(({ isKept }) => isKept);
    expect(kept(281)).toEqual([true]);
    expect(kept(281.001)).toEqual([false]);
  });
});

describe('limits', () => {
  const broken = (limits: string, ...rest: [changes?: Parameters<typeof boardPlan>[2]]) =>
    brokenLimits(
      boardPlan(`${BENCH}limits: { ${limits} }\n`, [{ parts: ['Leg', 'Leg', 'Rail'] }], ...rest),
    ).map(({ limit, found }) => [limit, found]);

  it('hold boards by their price and their yield, not by their number', () => {
    expect(broken('cost: 14.50, yield: 86 %, sheets: 0')).toEqual([]);
    expect(broken('cost: 14.49, yield: 87 %')).toEqual([
      ['yield', 2080 / 2400],
      ['cost', 1450],
    ]);
  });

  it('are broken by pieces that find no board', () => {
    const unplacedLengths = [{ part: 3, count: 6, why: 'no-stock' as const }];
    expect(broken('sheets: 3', { status: 'impossible', unplacedLengths })).toEqual([['stock', 6]]);
  });
});
