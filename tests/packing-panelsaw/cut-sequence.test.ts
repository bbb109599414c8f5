import { describe, expect, it } from 'vitest';
import type { Box } from '../../src/geometry/box.ts';
import { cutSequence } from '../../src/packing/panelsaw/cut-sequence.ts';
import { sawOf } from './saws.ts';

type Sides = readonly [minX: number, minY: number, maxX: number, maxY: number];

function box([minX, minY, maxX, maxY]: Sides): Box {
  return { minX, minY, maxX, maxY };
}

interface Sheet {
  readonly size: Sides;
  readonly usable?: Sides;
  readonly pieces: readonly Sides[];
  readonly keepOuts?: readonly Sides[];
  readonly isFixed?: boolean;
}

/** Each cut as its direction, its place and the side at the fence, then the stages. */
function cutsOf(
  { size, usable = size, pieces, keepOuts = [], isFixed = true }: Sheet,
  saw: Parameters<typeof sawOf>[0] = {},
) {
  const sheet = { pieces: pieces.map(box), keepOuts: keepOuts.map(box), isFixed };
  const found = cutSequence({ sheet: box(size), usable: box(usable), ...sheet }, sawOf(saw));
  if (found === null) return null;
  const cuts = found.cuts.map(({ axis, at, fence }) => `${axis} ${at} ${fence}`);
  return [...cuts, `stages ${found.stages}`];
}

const SHEET = [0, 0, 100, 60] as const;

describe('the sequence of cuts', () => {
  it.each<readonly [string, Sheet, Parameters<typeof sawOf>[0], readonly string[] | null]>([
    [
      'needs none for a piece that is the sheet',
      { size: SHEET, pieces: [SHEET] },
      {},
      ['stages 0'],
    ],
    [
      'trims edges before all else, with the rest at the fence',
      { size: SHEET, usable: [5, 4, 100, 60], pieces: [[5, 4, 100, 60]] },
      { kerf: 3, firstCut: 'along' },
      ['x 1 high', 'y 2 high', 'stages 0'],
    ],
    [
      'measures each strip from the cut before it',
      {
        size: SHEET,
        pieces: [
          [0, 0, 30, 60],
          [32, 0, 62, 60],
          [64, 0, 94, 60],
        ],
      },
      { kerf: 2 },
      ['y 30 low', 'y 62 low', 'y 94 low', 'stages 1'],
    ],
    [
      'keeps the leftover whole',
      {
        size: SHEET,
        pieces: [
          [0, 0, 30, 28],
          [0, 30, 30, 58],
        ],
      },
      { kerf: 2 },
      ['y 30 low', 'x 28 low', 'x 58 low', 'stages 2'],
    ],
    [
      'obeys the first cut it is told',
      {
        size: SHEET,
        pieces: [
          [0, 0, 30, 28],
          [0, 30, 30, 58],
        ],
      },
      { kerf: 2, firstCut: 'along' },
      ['x 28 low', 'x 58 low', 'y 30 low', 'y 30 low', 'stages 1'],
    ],
    [
      'lets a narrow strip fall off on the free side of the blade',
      {
        size: SHEET,
        usable: [5, 0, 100, 60],
        pieces: [
          [5, 0, 25, 60],
          [27, 0, 100, 60],
        ],
      },
      { kerf: 2, leastFeed: { width: 25, length: 25 } },
      ['y 3 high', 'y 25 high', 'stages 1'],
    ],
    [
      'does not measure it by the size of a sheet as it is sold',
      {
        size: SHEET,
        pieces: [
          [0, 0, 20, 60],
          [22, 0, 100, 60],
        ],
      },
      { kerf: 2, leastFeed: { width: 25, length: 25 } },
      ['y 20 low', 'stages 1'],
    ],
    [
      'nor by what other strips have left',
      {
        size: SHEET,
        usable: [5, 0, 100, 60],
        pieces: [
          [5, 0, 35, 60],
          [37, 0, 57, 60],
          [59, 0, 100, 60],
        ],
      },
      { kerf: 2, leastFeed: { width: 25, length: 25 } },
      ['y 3 high', 'y 35 low', 'y 57 low', 'stages 1'],
    ],
    [
      'trims the far edge first where a narrow strip is measured from it',
      {
        size: SHEET,
        usable: [0, 0, 96, 60],
        pieces: [
          [0, 0, 20, 60],
          [22, 0, 96, 60],
        ],
      },
      { kerf: 2, leastFeed: { width: 25, length: 25 } },
      ['y 96 low', 'y 20 high', 'stages 1'],
    ],
    [
      'goes round a keep-out',
      {
        size: SHEET,
        pieces: [
          [0, 0, 40, 60],
          [60, 0, 100, 60],
        ],
        keepOuts: [[45, 20, 55, 30]],
      },
      { kerf: 2 },
      ['y 40 low', 'y 58 high', 'stages 1'],
    ],
    [
      'cuts a gap away where the pieces have to stay',
      {
        size: SHEET,
        pieces: [
          [0, 0, 100, 20],
          [0, 30, 100, 60],
        ],
      },
      { kerf: 2 },
      ['x 20 low', 'x 28 high', 'stages 1'],
    ],
    [
      'closes a gap up where they need not',
      {
        size: SHEET,
        pieces: [
          [0, 0, 100, 20],
          [0, 30, 100, 60],
        ],
        isFixed: false,
      },
      { kerf: 2 },
      ['x 20 low', 'x 52 low', 'stages 1'],
    ],
    [
      'is impossible for a ring of pieces',
      {
        size: [0, 0, 100, 100],
        pieces: [
          [0, 0, 60, 40],
          [60, 0, 100, 60],
          [40, 60, 100, 100],
          [0, 40, 40, 100],
        ],
      },
      {},
      null,
    ],
    [
      'is impossible with too few stages',
      {
        size: SHEET,
        pieces: [
          [0, 0, 100, 30],
          [0, 30, 50, 60],
          [50, 30, 100, 45],
          [50, 45, 100, 60],
        ],
      },
      { stages: 2 },
      null,
    ],
    [
      'is impossible where a cut is too long',
      {
        size: SHEET,
        pieces: [
          [0, 0, 100, 30],
          [0, 30, 100, 60],
        ],
      },
      { longestRip: 99 },
      null,
    ],
  ])('%s', (_, sheet, saw, cuts) => {
    expect(cutsOf(sheet, saw)).toEqual(cuts);
  });

  it.each<readonly [string, Sides, readonly Sides[], readonly (readonly string[])[]]>([
    [
      'nothing',
      [5, 0, 100, 60],
      [
        [5, 0, 50, 60],
        [50, 0, 100, 60],
      ],
      [[], []],
    ],
    [
      'a narrow piece',
      [5, 0, 100, 60],
      [
        [5, 0, 25, 60],
        [25, 0, 100, 60],
      ],
      [[], ['small']],
    ],
    [
      'two',
      [5, 0, 100, 60],
      [
        [5, 0, 25, 60],
        [25, 0, 45, 60],
      ],
      [[], ['small'], ['small']],
    ],
    [
      'no size for sure',
      SHEET,
      [
        [0, 0, 20, 60],
        [20, 0, 100, 60],
      ],
      [['small', 'trapped']],
    ],
    ['no piece but a narrow leftover', SHEET, [[0, 0, 80, 60]], [[]]],
    [
      'a narrow piece behind the cut',
      SHEET,
      [
        [0, 0, 80, 60],
        [80, 0, 100, 60],
      ],
      [['small']],
    ],
    [
      'a short edge',
      [0, 0, 100, 20],
      [
        [0, 0, 50, 20],
        [50, 0, 100, 20],
      ],
      [['small', 'short']],
    ],
  ])('says what to be careful of: %s', (_, usable, pieces, care) => {
    const saw = sawOf({ leastFeed: { width: 25, length: 25 } });
    const sheet = { minX: 0, minY: 0, maxX: usable[2], maxY: usable[3] };
    const content = { pieces: pieces.map(box), keepOuts: [], isFixed: true };
    const found = cutSequence({ sheet, usable: box(usable), ...content }, saw);
    expect(found?.cuts.map((cut) => cut.care)).toEqual(care);
  });
});
