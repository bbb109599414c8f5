import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { BoardLayout, Layout } from '../../src/model/layout.ts';
import { BOARD_FAULT_CODES, type FaultCode } from '../../src/verify/fault.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { boardJob, boardOf } from '../helpers/board-jobs.ts';
import { at, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';

interface Scene {
  readonly job: Job;
  readonly layout: Layout;
}

/** A claim of boards only, proved, unless said otherwise. */
function boardsLayout(boards: readonly BoardLayout[], changes: Partial<Layout> = {}): Layout {
  const bound = { atLeast: boards.length, provedBy: 'linear programme' } as const;
  return layoutOf([], { boards, used: boards.length, bound, ...changes });
}

const SCENES = {
  /** Every length to the step: kerfs, trims, and a defect on either side. */
  tight: {
    job: boardJob({
      kerf: 3,
      boards: [{ length: 1032, endTrim: 10, defects: [[513, 519]] }],
      lengths: [
        [250, 3],
        [250, 1],
      ],
    }),
    layout: boardsLayout([boardOf(0, [0, 1, 10], [0, 2, 263], [0, 3, 519], [1, 1, 772])], {}),
  },
  /** One of two kinds on hand, priced; a part of another material. */
  twoStocks: {
    job: boardJob({
      boards: [
        { length: 500, priceCents: 400, onHand: 1 },
        { length: 600, priceCents: 700 },
      ],
      lengths: [
        [500, 2],
        [100, 1, { material: 1 }],
      ],
    }),
    layout: boardsLayout([boardOf(0, [0, 1, 0]), boardOf(1, [0, 2, 100])], {
      objective: 'cost',
      used: 1100,
      bound: { atLeast: 1100, provedBy: 'linear programme' },
    }),
  },
  /** Two of three pieces for want of boards. */
  short: {
    job: boardJob({ boards: [{ length: 500, onHand: 2 }], lengths: [[400, 3]] }),
    layout: boardsLayout([boardOf(0, [0, 1, 0]), boardOf(0, [0, 3, 0])], {
      status: 'impossible',
      bound: { atLeast: 3, provedBy: 'linear programme' },
      unplacedLengths: [{ part: 0, count: 1, why: 'no-stock' }],
    }),
  },
  /** The same with one board, which is taken. */
  last: {
    job: boardJob({ boards: [{ length: 500, onHand: 1 }], lengths: [[400, 2]] }),
    layout: boardsLayout([boardOf(0, [0, 1, 0])], {
      status: 'impossible',
      bound: { atLeast: 2, provedBy: 'linear programme' },
      unplacedLengths: [{ part: 0, count: 1, why: 'no-stock' }],
    }),
  },
  /** A piece for which no stretch is long enough. */
  long: {
    job: boardJob({
      boards: [{ length: 500, endTrim: 10, defects: [[200, 210]] }],
      lengths: [[281, 2]],
    }),
    layout: boardsLayout([], {
      status: 'impossible',
      unplacedLengths: [{ part: 0, count: 2, why: 'no-room' }],
    }),
  },
  /** Sheets and boards of one material are counted together. */
  both: {
    job: boardJob({
      boards: [{ length: 500 }],
      lengths: [[400, 1]],
      sheets: [sheetOf(100, 50)],
      parts: [partOf(rect(100, 50))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 0, 0)] }], {
      boards: [boardOf(0, [0, 1, 0])],
      used: 2,
      bound: { atLeast: 2, provedBy: 'area' },
    }),
  },
} satisfies Readonly<Record<string, Scene>>;

type Change = (scene: Scene) => Scene;

const STEP = 1;

const ROWS: readonly Row[] = [
  ['tight', 'over the trimmed left end', move(0, 0, -STEP), 'outside'],
  ['tight', 'over the trimmed right end', move(0, 3, STEP), 'outside'],
  ['tight', 'less than a kerf apart', move(0, 1, -STEP), 'kerf'],
  ['tight', 'overlapping', move(0, 1, -24_000 - STEP), 'overlap'],
  ['tight', 'one wholly on another', move(0, 1, -253 * 8000), 'overlap'],
  ['tight', 'into the defect from the right', move(0, 2, -STEP), 'defect'],
  ['tight', 'not from left to right', reverse(0), 'overlap'],
  ['tight', 'off the grid', move(0, 2, 0.5), 'not-whole'],
  ['tight', 'nowhere', move(0, 2, Number.NaN), 'not-whole'],
  ['tight', 'a piece missing', dropPiece(0, 3), 'missing'],
  ['tight', 'a piece twice', renumber(0, 1, 1), 'twice', 'missing'],
  ['tight', 'a number beyond the count', renumber(0, 1, 4), 'unknown-piece', 'missing'],
  ['tight', 'no number', renumber(0, 1, 0), 'unknown-piece', 'missing'],
  ['tight', 'a part that there is not', relabel(0, 3, 2), 'unknown-piece', 'missing'],
  [
    'tight',
    'placed and left out',
    leave([{ part: 1, count: 1, why: 'no-stock' }]),
    'left-out',
    'twice',
    'status',
  ],
  ['twoStocks', 'into a defect from the left', addDefect(1, 599, 600), 'defect'],
  ['twoStocks', 'a defect of no width inside', addDefect(1, 300, 300), 'defect'],
  ['twoStocks', 'of the other material', relabel(1, 0, 1), 'unknown-piece', 'missing'],
  ['twoStocks', 'more than on hand', restock(1, 0), 'over-stock', 'outside', 'used'],
  ['twoStocks', 'beyond the stock', restock(1, 2), 'unknown-stock', 'used'],
  ['twoStocks', 'an empty board', add(boardOf(1)), 'empty-board', 'used'],
  [
    'twoStocks',
    'says less than the price',
    claim({ used: 1000, status: 'limit' }),
    'used',
    'bound',
  ],
  ['twoStocks', 'falsely proved', bound(1099), 'status'],
  ['twoStocks', 'a bound above the boards', both(bound(1101), claim({ status: 'limit' })), 'bound'],
  [
    'twoStocks',
    'left out of another material',
    leave([{ part: 1, count: 1, why: 'no-stock' }]),
    'other-material',
    'status',
  ],
  ['short', 'no room, but there is', leave([{ part: 0, count: 1, why: 'no-room' }]), 'left-out'],
  [
    'last',
    'no room, but on the only board',
    leave([{ part: 0, count: 1, why: 'no-room' }]),
    'left-out',
  ],
  ['short', 'too few left out', leave([]), 'missing', 'bound', 'status'],
  [
    'short',
    'half a piece left out',
    leave([{ part: 0, count: 0.5, why: 'no-stock' }]),
    'unknown-piece',
    'missing',
  ],
  [
    'short',
    'more left out than there are',
    leave([{ part: 0, count: 2, why: 'no-stock' }]),
    'twice',
  ],
  [
    'short',
    'left out though a board is there',
    both(dropBoard(1), leave([{ part: 0, count: 2, why: 'no-stock' }])),
    'left-out',
    'used',
  ],
  ['short', 'proved with a piece left out', both(claim({ status: 'proved' }), bound(2)), 'status'],
  ['both', 'boards not counted', both(claim({ used: 1 }), bound(1)), 'used'],
];

type Row = readonly [keyof typeof SCENES, string, Change, ...FaultCode[]];

const SABOTAGES = ROWS.map(([scene, what, change, ...codes]) => ({ scene, what, change, codes }));

describe('boards', () => {
  it.each(Object.entries<Scene>(SCENES))('%s is valid', (_, { job, layout }) => {
    expect(verifyLayout(job, layout)).toEqual({ valid: true, faults: [] });
  });

  it.each(SABOTAGES)('$scene, $what', ({ scene, change, codes }) => {
    const { job, layout } = change(SCENES[scene]);
    const { valid, faults } = verifyLayout(job, layout);
    expect(new Set(faults.map(({ code }) => code))).toEqual(new Set(codes));
    expect(valid).toBe(false);
  });

  it('has a row for every code of boards', () => {
    const shown = new Set(SABOTAGES.flatMap(({ codes }) => codes));
    expect(BOARD_FAULT_CODES.filter((code) => !shown.has(code))).toEqual([]);
  });
});

function both(first: Change, second: Change): Change {
  return (scene) => second(first(scene));
}

function claim(changes: Partial<Layout>): Change {
  return ({ job, layout }) => ({ job, layout: { ...layout, ...changes } });
}

function bound(atLeast: number): Change {
  return claim({ bound: { atLeast, provedBy: 'linear programme' } });
}

function leave(unplacedLengths: Layout['unplacedLengths']): Change {
  return claim({ unplacedLengths });
}

function changeBoards(change: (boards: readonly BoardLayout[]) => readonly BoardLayout[]): Change {
  return ({ job, layout }) => ({ job, layout: { ...layout, boards: change(layout.boards) } });
}

function changeBoard(index: number, change: (board: BoardLayout) => BoardLayout): Change {
  return changeBoards((boards) => boards.map((board, i) => (i === index ? change(board) : board)));
}

function changePiece(
  board: number,
  index: number,
  change: (piece: BoardLayout['pieces'][number]) => BoardLayout['pieces'][number],
): Change {
  return changeBoard(board, (own) => ({
    ...own,
    pieces: own.pieces.map((piece, i) => (i === index ? change(piece) : piece)),
  }));
}

/** By so many base lengths to the right. */
function move(board: number, index: number, by: number): Change {
  return changePiece(board, index, (piece) => ({ ...piece, at: piece.at + by }));
}

function renumber(board: number, index: number, number: number): Change {
  return changePiece(board, index, (piece) => ({ ...piece, number }));
}

function relabel(board: number, index: number, part: number): Change {
  return changePiece(board, index, (piece) => ({ ...piece, part }));
}

function dropPiece(board: number, index: number): Change {
  return changeBoard(board, (own) => ({
    ...own,
    pieces: own.pieces.filter((_, i) => i !== index),
  }));
}

function reverse(board: number): Change {
  return changeBoard(board, (own) => ({ ...own, pieces: [...own.pieces].reverse() }));
}

function restock(board: number, stock: number): Change {
  return changeBoard(board, (own) => ({ ...own, stock }));
}

function add(board: BoardLayout): Change {
  return changeBoards((boards) => [...boards, board]);
}

function dropBoard(index: number): Change {
  return changeBoards((boards) => boards.filter((_, i) => i !== index));
}

/** A defect, in mm, on a board of one stock. */
function addDefect(stock: number, from: number, to: number): Change {
  return ({ job, layout }) => ({
    layout,
    job: {
      ...job,
      materials: job.materials.map((material) => ({
        ...material,
        boards: material.boards.map((board) =>
          board.index === stock
            ? { ...board, defects: [{ from: from * 8000, to: to * 8000, why: 'knot' }] }
            : board,
        ),
      })),
    },
  });
}
