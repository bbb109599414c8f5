import { describe, expect, it } from 'vitest';
import {
  at,
  jobOf,
  layoutOf,
  type PartInput,
  partOf,
  type SheetInput,
  sheetOf,
} from '../helpers/jobs.ts';
import { arch, disc, frame, hollow, polygon, rect } from '../helpers/shapes.ts';
import { libraryFaults } from './library-check.ts';

interface Case {
  readonly what: string;
  /** A whole one of 1 m square if left out. */
  readonly sheet?: SheetInput;
  readonly parts: readonly PartInput[];
  readonly spacing?: number;
  /** Piece, x, y, turn, mirrored. */
  readonly places: readonly (readonly [number, number, number, number?, boolean?])[];
  readonly faults: readonly string[];
}

const SQUARE = partOf(rect(100, 100));
const TRIANGLE = partOf(polygon([0, 0], [100, 0], [0, 100]));
const KEPT = sheetOf(1000, 1000, { keepOuts: [[100, 0, 100, 50]] });
/** Its slanted edge is on the line 3 x + 4 y = 2400. */
const SLANTED = sheetOf(800, 600, {
  boundary: [
    [0, 0],
    [800, 0],
    [0, 600],
  ],
});
const OVERLAP = ['pieces 0 and 1 overlap'];
const NEAR = ['pieces 0 and 1 are too near'];

const CASES: readonly Case[] = [
  {
    what: 'touching squares',
    parts: [SQUARE, SQUARE],
    places: [
      [0, 0, 0],
      [1, 100, 0],
    ],
    faults: [],
  },
  {
    what: 'squares that overlap by a hundredth of a millimetre',
    parts: [SQUARE, SQUARE],
    places: [
      [0, 0, 0],
      [1, 99.99, 0],
    ],
    faults: OVERLAP,
  },
  {
    what: 'triangles with a common long side',
    parts: [TRIANGLE, TRIANGLE],
    places: [
      [0, 10, 10],
      [1, 110, 110, 180],
    ],
    faults: [],
  },
  {
    what: 'half-turned pieces with two common sides',
    parts: [
      partOf(polygon([0, 0], [1000, 0], [1000, 342], [654, 698], [0, 632])),
      partOf(polygon([654, 356], [1000, 0], [1000, 658], [606, 658], [0, 290])),
    ],
    places: [
      [0, 1000, 1000, 180],
      [1, 1000, 658, 180],
    ],
    faults: [],
  },
  {
    what: 'the triangles a little nearer',
    parts: [TRIANGLE, TRIANGLE],
    places: [
      [0, 10, 10],
      [1, 109.99, 110, 180],
    ],
    faults: OVERLAP,
  },
  {
    what: 'a mirrored triangle, which lies to the left of its origin',
    parts: [TRIANGLE, TRIANGLE],
    places: [
      [0, 100, 0],
      [1, 100, 0, 0, true],
    ],
    faults: [],
  },
  {
    what: 'a square in another one',
    parts: [SQUARE, partOf(rect(20, 20))],
    places: [
      [0, 0, 0],
      [1, 40, 40],
    ],
    faults: OVERLAP,
  },
  {
    what: 'a square in a closed cut-out',
    parts: [partOf(frame(100, 100, 20)), partOf(rect(20, 20))],
    places: [
      [0, 0, 0],
      [1, 40, 40],
    ],
    faults: OVERLAP,
  },
  {
    what: 'a square in an open cut-out',
    parts: [partOf(frame(100, 100, 20), { nestInside: true }), partOf(rect(20, 20))],
    places: [
      [0, 0, 0],
      [1, 40, 40],
    ],
    faults: [],
  },
  {
    what: 'squares at their spacing',
    parts: [SQUARE, SQUARE],
    spacing: 6.35,
    places: [
      [0, 0, 0],
      [1, 106.35, 0],
    ],
    faults: [],
  },
  {
    what: 'squares two micrometres too near',
    parts: [SQUARE, SQUARE],
    spacing: 6.35,
    places: [
      [0, 0, 0],
      [1, 106.348, 0],
    ],
    faults: NEAR,
  },
  {
    what: 'discs at their spacing, three to four',
    parts: [partOf(disc(45)), partOf(disc(45))],
    spacing: 5,
    places: [
      [0, 0, 0],
      [1, 30, 40],
    ],
    faults: [],
  },
  {
    what: 'the same two micrometres nearer',
    parts: [partOf(disc(45)), partOf(disc(45))],
    spacing: 5,
    places: [
      [0, 0, 0],
      [1, 30, 39.997],
    ],
    faults: NEAR,
  },
  {
    what: 'a rail with its hollow on an arch of the same arc',
    parts: [partOf(arch(300, 50, 40)), partOf(hollow(400, 90, 50, 40))],
    places: [
      [0, 50, 0],
      [1, 0, 10],
    ],
    faults: [],
  },
  {
    what: 'the same a hundredth of a millimetre lower',
    parts: [partOf(arch(300, 50, 40)), partOf(hollow(400, 90, 50, 40))],
    places: [
      [0, 50, 0],
      [1, 0, 9.99],
    ],
    faults: OVERLAP,
  },
  {
    what: 'a piece over the edge',
    parts: [SQUARE],
    places: [[0, 950, 0]],
    faults: ['piece 0 is not inside'],
  },
  {
    what: 'a piece that its turn carries over the edge',
    parts: [SQUARE],
    places: [[0, 50, 0, 45]],
    faults: ['piece 0 is not inside'],
  },
  {
    what: 'a piece at the spacing beside a keep-out',
    sheet: KEPT,
    parts: [SQUARE],
    spacing: 6,
    places: [[0, 206, 0]],
    faults: [],
  },
  {
    what: 'the same a hundredth of a millimetre nearer',
    sheet: KEPT,
    parts: [SQUARE],
    spacing: 6,
    places: [[0, 205.99, 0]],
    faults: ['piece 0 and keep-out 0 are too near'],
  },
  {
    what: 'a piece on a keep-out',
    sheet: KEPT,
    parts: [SQUARE],
    places: [[0, 150, 0]],
    faults: ['piece 0 and keep-out 0 overlap'],
  },
  {
    what: 'a square that touches the slanted edge of a triangle',
    sheet: SLANTED,
    parts: [SQUARE],
    places: [[0, 500, 50]],
    faults: [],
  },
  {
    what: 'the same a hundredth of a millimetre higher',
    sheet: SLANTED,
    parts: [SQUARE],
    places: [[0, 500, 50.01]],
    faults: ['piece 0 is not inside'],
  },
  {
    what: 'a square at the trim from all edges of a triangle',
    sheet: { ...SLANTED, trim: 10 },
    parts: [SQUARE],
    places: [[0, 500, 37.5]],
    faults: [],
  },
  {
    what: 'the same a hundredth of a millimetre higher',
    sheet: { ...SLANTED, trim: 10 },
    parts: [SQUARE],
    places: [[0, 500, 37.51]],
    faults: ['piece 0 is not inside'],
  },
  {
    what: 'a piece that is there twice, and one that is missing',
    parts: [SQUARE, SQUARE],
    places: [
      [0, 0, 0],
      [0, 200, 0],
    ],
    faults: ['piece 0 is there 2 times', 'piece 1 is there 0 times'],
  },
];

describe('libraryFaults', () => {
  it.each(CASES)('of $what: $faults', ({ sheet, parts, spacing = 0, places, faults }) => {
    const job = jobOf({ spacing, sheets: [sheet ?? sheetOf(1000, 1000)], parts });
    const placements = places.map((place) => at(...place));
    expect(libraryFaults(job, layoutOf([{ stock: 0, placements }]))).toEqual(faults);
  });
});
