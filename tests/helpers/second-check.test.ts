import { describe, expect, it } from 'vitest';
import { complaintsAbout, type PlacedOutline } from './second-check.ts';

const SHEET = { length: 500, width: 300, trim: { left: 10, right: 10, bottom: 10, top: 10 } };
const KEEP_OUTS = [{ x: 300, y: 200, length: 50, width: 50 }];

function box(x: number, y: number, length: number, width: number): PlacedOutline {
  return { outline: ringOf(x, y, length, width), cutOuts: [] };
}

function ringOf(x: number, y: number, length: number, width: number): [number, number][] {
  return [
    [x, y],
    [x + length, y],
    [x + length, y + width],
    [x, y + width],
  ];
}

const OPEN = { outline: ringOf(10, 10, 200, 200), cutOuts: [ringOf(40, 40, 140, 140).reverse()] };

describe('the second check', () => {
  it.each<[string, PlacedOutline[], string[]]>([
    ['nothing', [box(10, 10, 100, 50), box(118, 10, 100, 50)], []],
    ['a slack of half a micrometre', [box(10, 10, 100, 50), box(117.9996, 10, 100, 50)], []],
    ['spacing', [box(10, 10, 100, 50), box(117.999, 10, 100, 50)], ['apart']],
    ['overlap', [box(10, 10, 100, 50), box(109.9, 10, 100, 50)], ['overlap', 'apart']],
    ['lies inside another', [box(10, 10, 200, 200), box(50, 50, 100, 50)], ['overlap', 'apart']],
    ['in a cut-out', [OPEN, box(48, 48, 124, 124)], []],
    ['in a cut-out, too large', [OPEN, box(48, 48, 125, 124)], ['apart']],
    ['over the trim', [box(9.999, 10, 100, 50)], ['edge']],
    ['over the sheet', [box(391, 241, 100, 50)], ['edge']],
    ['beside the keep-out', [box(192, 200, 100, 50)], []],
    ['near the keep-out', [box(193, 200, 100, 50)], ['keep-out']],
    [
      'a bow tie',
      [
        {
          outline: [
            [50, 50],
            [90, 90],
            [90, 50],
            [50, 90],
          ],
          cutOuts: [],
        },
      ],
      ['valid'],
    ],
  ])('finds %s', (_, placements, words) => {
    const found = complaintsAbout({ ...SHEET, keepOuts: KEEP_OUTS, placements }, 8);
    expect(found.map((what) => words.find((word) => what.includes(word)) ?? what)).toEqual(words);
  });

  it.each<[string, PlacedOutline[], number]>([
    ['at its trim', [box(10, 10, 100, 50)], 0],
    ['over its trim on a straight side', [box(9.999, 10, 100, 50)], 1],
    ['over its trim on the slanted side', [box(10, 10, 240, 140)], 1],
    ['wholly beyond the slanted side', [box(400, 200, 50, 50)], 1],
  ])('knows an odd-shaped sheet: a piece %s', (_, placements, complaints) => {
    const boundary = [
      [0, 0],
      [500, 0],
      [0, 300],
    ] as const;
    expect(complaintsAbout({ ...SHEET, boundary, keepOuts: [], placements }, 8)).toHaveLength(
      complaints,
    );
  });
});
