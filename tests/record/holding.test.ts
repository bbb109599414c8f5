import { describe, expect, it } from 'vitest';
import { holdingFaults } from '../../src/record/holding.ts';
import type { PlanFile } from '../../src/record/schema.ts';

const SHEETS = [
  { number: 1, placements: [{ part: 'Side', piece: 1 }] },
  { number: 2, placements: [{ part: 'Side', piece: 2 }] },
];

type Entry = readonly [kind: string, part: string | null, piece: number | null, sheet: number];

const piece: Entry = ['piece', 'Side', 1, 1];

const ROWS: readonly [string, readonly Entry[], readonly string[]][] = [
  ['nothing', [], []],
  [
    'each piece once, its slugs, and slivers of none',
    [
      piece,
      ['piece', 'Side', 2, 2],
      ['slug', 'Side', 1, 1],
      ['slug', 'Side', 1, 1],
      ['sliver', null, null, 2],
    ],
    [],
  ],
  [
    'a sheet that there is not',
    [['piece', 'Side', 1, 3]],
    ['holding[0].sheet: there is no sheet 3'],
  ],
  ['a sliver of a piece', [['sliver', 'Side', 1, 1]], ['holding[0].part: a sliver is of no piece']],
  [
    'a slug of no piece',
    [piece, ['slug', null, null, 1]],
    ['holding[1].part: a slug is of some piece'],
  ],
  ['a piece of another sheet', [['piece', 'Side', 2, 1]], ['holding[0]: Side 2 is not on sheet 1']],
  ['a piece twice', [piece, piece], ['holding[1]: Side 1 is held twice']],
];

describe('the hold-down of a record', () => {
  it.each(ROWS)('with %s', (_, entries, told) => {
    const holding = entries.map(([kind, part, number, sheet]) => ({
      kind,
      part,
      piece: number,
      sheet,
    }));
    const file = { materials: [{ sheets: SHEETS }], holding } as unknown as PlanFile;
    const found = holdingFaults(file);
    expect(found.map(({ path, message }) => `${path}: ${message}`)).toEqual(told);
    expect(found.every(({ code }) => code === 'holding')).toBe(true);
  });
});
