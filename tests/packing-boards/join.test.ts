import { describe, expect, it } from 'vitest';
import type { Layout } from '../../src/model/layout.ts';
import { joinPackings } from '../../src/packing/boards/join.ts';
import { planJob } from '../../src/plan.ts';
import { type BoardJobInput, boardJob } from '../helpers/board-jobs.ts';
import { layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';

const SHEETS = [sheetOf(1000, 500, { priceCents: 2000 })];
const PARTS = [partOf(rect(900, 400), { count: 2 })];
const BOARDS = [{ length: 1000, priceCents: 700 }];

const JOBS: readonly (BoardJobInput & { readonly what: string; readonly expected: object })[] = [
  {
    what: 'boards only',
    boards: [{ length: 1000 }],
    lengths: [[600, 2]],
    expected: { used: 2, bound: { atLeast: 2, provedBy: 'linear programme' }, objective: 'sheets' },
  },
  {
    what: 'sheets and boards, priced',
    sheets: SHEETS,
    parts: PARTS,
    boards: BOARDS,
    lengths: [[600, 2]],
    expected: { used: 5400, bound: { atLeast: 5400, provedBy: 'area' }, objective: 'cost' },
  },
  {
    what: 'sheets only, though there are boards, priced',
    sheets: SHEETS,
    parts: PARTS,
    boards: BOARDS,
    lengths: [],
    expected: { used: 4000, bound: { atLeast: 4000, provedBy: 'area' }, objective: 'cost' },
  },
  {
    what: 'boards only, though there are sheets',
    sheets: SHEETS,
    boards: BOARDS,
    lengths: [[600, 2]],
    expected: { used: 1400, bound: { atLeast: 1400, provedBy: 'linear programme' } },
  },
  {
    what: 'nothing at all',
    boards: BOARDS,
    lengths: [],
    expected: { used: 0, bound: { atLeast: 0, provedBy: 'area' } },
  },
];

describe('a plan with boards', () => {
  it.each(JOBS)('$what', async ({ expected, ...input }) => {
    const { plan, problems } = await planned(input);
    expect(problems).toEqual([]);
    expect(plan!.layouts).toHaveLength(1);
    expect(plan!.layouts[0]).toMatchObject({ status: 'proved', ...expected });
  });

  it('has a problem for each part that fits no board', async () => {
    const boards = [{ length: 1000, endTrim: 50 }];
    const { plan, problems } = await planned({
      boards,
      lengths: [
        [901, 2],
        [900, 1],
        [950, 1],
      ],
    });
    expect(plan).toBeNull();
    expect(problems.map(({ code, message }) => `${code} ${message}`)).toEqual([
      'fits-no-board "Bar 0" fits no board of material0, not even an empty one',
      'fits-no-board "Bar 2" fits no board of material0, not even an empty one',
    ]);
  });

  it('is whole where boards are short', async () => {
    const { plan } = await planned({ boards: [{ length: 900, onHand: 1 }], lengths: [[600, 2]] });
    expect(plan!.layouts[0]).toMatchObject({
      status: 'impossible',
      unplacedLengths: [{ part: 0, count: 1, why: 'no-stock' }],
    });
  });
});

describe('joinPackings', () => {
  it.each([
    ['proved', 'proved', 'proved'],
    ['proved', 'limit', 'limit'],
    ['limit', 'proved', 'limit'],
    ['limit', 'impossible', 'impossible'],
    ['impossible', 'proved', 'impossible'],
  ] as const)('%s sheets and %s boards are %s', (sheets, boards, joint) => {
    const packing = (status: Layout['status']) => ({
      layout: layoutOf([], { status }),
      stopped: false,
    });
    expect(joinPackings(packing(sheets), packing(boards)).layout.status).toBe(joint);
  });

  it('was stopped where either part was', () => {
    const packing = (stopped: boolean) => ({ layout: layoutOf([]), stopped });
    expect(joinPackings(packing(false), packing(true)).stopped).toBe(true);
    expect(joinPackings(packing(true), packing(false)).stopped).toBe(true);
    expect(joinPackings(packing(false), packing(false)).stopped).toBe(false);
  });
});

function planned(input: BoardJobInput) {
  const options = { effort: 'quick', seed: 1, seconds: null } as const;
  const hooks = { pack: null, stopCause: () => null, onProgress: () => {} };
  return planJob(boardJob(input), options, hooks);
}
