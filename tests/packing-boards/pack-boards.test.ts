import { describe, expect, it } from 'vitest';
import type { Layout } from '../../src/model/layout.ts';
import { packBoards } from '../../src/packing/boards/pack-boards.ts';
import { type BoardJobInput, boardJob } from '../helpers/board-jobs.ts';
import { boardsOf, cut } from './cut.ts';

interface Case extends BoardJobInput {
  readonly what: string;
  readonly boardsThen: readonly string[];
  readonly used?: number;
}

/** Small jobs of which the best boards are plain to see. */
const CASES: readonly Case[] = [
  {
    what: 'n pieces need n - 1 kerfs where they fill the board',
    kerf: 3,
    boards: [{ length: 1006 }],
    lengths: [
      [500, 1],
      [250, 1],
      [250, 1],
    ],
    boardsThen: ['500@0 250@503 250@756'],
  },
  {
    what: 'one step less and a kerf is missing',
    kerf: 3,
    boards: [{ length: 1005.999 }],
    lengths: [
      [500, 1],
      [250, 2],
    ],
    boardsThen: ['500@0 250@503', '250@0'],
  },
  {
    what: 'waste narrower than a kerf at the end needs no whole kerf',
    kerf: 3,
    boards: [{ length: 1001 }],
    lengths: [[1000, 2]],
    boardsThen: ['1000@0', '1000@0'],
  },
  {
    what: 'both ends are trimmed',
    kerf: 4,
    boards: [{ length: 1024, endTrim: 10 }],
    lengths: [[500, 2]],
    boardsThen: ['500@10 500@514'],
  },
  {
    what: 'a defect is cut round, and a kerf may lie in it',
    kerf: 4,
    boards: [{ length: 1000, defects: [[400, 410]] }],
    lengths: [
      [400, 1],
      [590, 1],
    ],
    boardsThen: ['400@0 590@410'],
  },
  {
    what: 'a defect narrower than the kerf takes a kerf from one side',
    kerf: 4,
    boards: [{ length: 1000, defects: [[400, 401]] }],
    lengths: [
      [400, 1],
      [596, 1],
    ],
    boardsThen: ['400@0 596@404'],
  },
  {
    what: 'or from the other side',
    kerf: 4,
    boards: [{ length: 1000, defects: [[400, 401]] }],
    lengths: [
      [397, 1],
      [599, 1],
    ],
    boardsThen: ['397@0 599@401'],
  },
  {
    what: 'defects that overlap, lie in the trim or leave nothing of use are no stretches',
    kerf: 2,
    boards: [
      {
        length: 1000,
        endTrim: 20,
        defects: [
          [0, 10],
          [300, 350],
          [340, 360],
          [380, 400],
          [950, 1000],
        ],
      },
    ],
    lengths: [
      [280, 1],
      [500, 1],
    ],
    boardsThen: ['280@20 500@400'],
  },
  {
    what: 'the cheaper mix of two priced boards',
    boards: [
      { length: 1000, priceCents: 1000 },
      { length: 1500, priceCents: 1400 },
    ],
    lengths: [
      [750, 2],
      [1000, 1],
    ],
    boardsThen: ['1000@0', '750@0 750@750'],
    used: 2400,
  },
  {
    what: 'the count where one board has no price',
    boards: [{ length: 1000, priceCents: 1 }, { length: 1500 }],
    lengths: [[700, 2]],
    boardsThen: ['700@0 700@700'],
    used: 1,
  },
  {
    what: 'the few boards on hand that cost little',
    boards: [
      { length: 1000, priceCents: 100, onHand: 2 },
      { length: 1000, priceCents: 900 },
    ],
    lengths: [[600, 4]],
    boardsThen: ['600@0', '600@0', '600@0', '600@0'],
    used: 2000,
  },
  {
    what: 'boards for nothing before those that cost',
    boards: [
      { length: 500, priceCents: 0, onHand: 3 },
      { length: 1000, priceCents: 900 },
    ],
    lengths: [[500, 3]],
    boardsThen: ['500@0', '500@0', '500@0'],
    used: 0,
  },
  { what: 'no pieces', boards: [{ length: 1000 }], lengths: [], boardsThen: [] },
  { what: 'a part of no pieces', boards: [{ length: 1000 }], lengths: [[400, 0]], boardsThen: [] },
];

describe('packBoards', () => {
  it.each(CASES)('$what', async ({ boardsThen, used, ...input }) => {
    const job = boardJob(input);
    const layout = await cut(job);
    expect(boardsOf(job, layout)).toEqual(boardsThen);
    expect(layout.used).toBe(used ?? boardsThen.length);
    expect(layout.status).toBe('proved');
  });

  it('leaves over what the boards on hand do not hold, the last parts first', async () => {
    const boards = [{ length: 1000, onHand: 2 }];
    const layout = await cut(
      boardJob({
        boards,
        lengths: [
          [600, 1],
          [600, 2],
        ],
      }),
    );
    expect(layout.status).toBe('impossible');
    expect(layout.boards).toHaveLength(2);
    expect(layout.unplacedLengths).toEqual([{ part: 1, count: 1, why: 'no-stock' }]);
  });

  it('tells of a part that is longer than every board, defects looked at', async () => {
    const boards = [{ length: 1000, defects: [[500, 501]] as const }, { length: 400 }];
    const layout = await cut(
      boardJob({
        boards,
        lengths: [
          [501, 3],
          [500, 1],
        ],
      }),
    );
    expect(layout.status).toBe('impossible');
    expect(layout.boards).toHaveLength(1);
    expect(layout.unplacedLengths).toEqual([{ part: 0, count: 3, why: 'no-room' }]);
  });

  it('tells so as well where there are no boards at all', async () => {
    const layout = await cut(boardJob({ boards: [], lengths: [[500, 2]] }));
    expect(layout.unplacedLengths).toEqual([{ part: 0, count: 2, why: 'no-room' }]);
  });

  it('cuts lengths up to the largest there are, which have no common step', async () => {
    const lengths = [
      [134_217.727, 1],
      [99_999.999, 2],
      [77_777.777, 3],
    ] as const;
    const job = boardJob({ kerf: 3.175, boards: [{ length: 268_435.455 }], lengths });
    const layout = await cut(job);
    expect(layout.status).toBe('proved');
    expect(layout.used).toBe(3);
  });

  it('gathers what is left on the last board', async () => {
    const boards = [{ length: 1000 }];
    const job = boardJob({
      boards,
      lengths: [
        [600, 1],
        [500, 1],
        [300, 1],
        [200, 2],
        [100, 2],
      ],
    });
    const layout = await cut(job);
    expect(boardsOf(job, layout)).toHaveLength(2);
    const load = layout.boards.map(({ pieces }) =>
      pieces.reduce((sum, { part }) => sum + job.lengthParts[part]!.length / 8000, 0),
    );
    expect(load).toEqual([1000, 1000]);
    const shorter = boardJob({
      boards,
      lengths: [
        [600, 1],
        [500, 1],
        [400, 1],
      ],
    });
    expect(boardsOf(shorter, await cut(shorter))).toEqual(['600@0 400@600', '500@0']);
  });

  it('puts boards with the same cuts side by side and gives the same again', async () => {
    const job = boardJob(MIXED);
    const layout = await cut(job);
    const boards = boardsOf(job, layout);
    const starts = boards.filter((board, i) => board !== boards[i - 1]);
    // The one with the longest leftover stands at the end, wherever its like are.
    expect(new Set(starts.slice(0, -1)).size).toBe(starts.length - 1);
    expect(await cut(job)).toEqual(layout);
  });

  it('makes boards without the library for linear programmes', async () => {
    const job = boardJob(MIXED);
    const plain = await cut(job, 'quick', () => Promise.resolve(null));
    const best = await cut(job);
    expect(best.used).toBeLessThan(plain.used);
    expect(plain.bound.atLeast).toBeLessThanOrEqual(best.used);
  });

  it('has boards as well where it is stopped at once', async () => {
    const job = boardJob(MIXED);
    const options = { effort: 'long', seed: 1, onProgress: () => {} } as const;
    const { layout, stopped } = await packBoards(job, 0, { ...options, shouldStop: () => true });
    expect(stopped).toBe(true);
    expect(placed(layout)).toBe(90);
  });

  it('tells how far it is', async () => {
    const told: number[] = [];
    await packBoards(boardJob(MIXED), 0, {
      effort: 'quick',
      seed: 1,
      shouldStop: () => false,
      onProgress: ({ used, atLeast, workLeft }) => {
        expect(used).toBeGreaterThanOrEqual(atLeast);
        told.push(workLeft);
      },
    });
    expect(told.length).toBeGreaterThan(1);
    expect(told).toEqual([...told].sort((a, b) => b - a));
  });
});

/** First fit decreasing needs more than the least here. */
const MIXED: BoardJobInput = {
  boards: [{ length: 100 }],
  lengths: [
    [49, 15],
    [34, 15],
    [33, 15],
    [26, 15],
    [25, 15],
    [24, 15],
  ],
};

function placed({ boards }: Layout): number {
  return boards.reduce((sum, { pieces }) => sum + pieces.length, 0);
}
