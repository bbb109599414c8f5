import { describe, expect, it } from 'vitest';
import type { Ring } from '../../src/geometry/shape.ts';
import { growRectilinear } from '../../src/packing/outlines/grow-rectilinear.ts';

interface Case {
  readonly what: string;
  readonly ring: Ring;
  readonly grown: Ring | null;
}

/** Grown by 3 to the left and down, by 4 to the right and up, as an odd spacing of 7 asks for. */
const CASES: readonly Case[] = [
  {
    what: 'a rectangle',
    ring: ring([0, 0], [10, 0], [10, 20], [0, 20]),
    grown: ring([-3, -3], [14, -3], [14, 24], [-3, 24]),
  },
  {
    what: 'an L, whose inner corner moves into the open',
    ring: ring([0, 0], [30, 0], [30, 10], [10, 10], [10, 30], [0, 30]),
    grown: ring([-3, -3], [34, -3], [34, 14], [14, 14], [14, 34], [-3, 34]),
  },
  {
    what: 'a corner in the middle of a side, which is dropped',
    ring: ring([0, 0], [5, 0], [10, 0], [10, 20], [0, 20]),
    grown: ring([-3, -3], [14, -3], [14, 24], [-3, 24]),
  },
  {
    what: 'a hole, which shrinks',
    ring: ring([0, 0], [0, 20], [30, 20], [30, 0]),
    grown: ring([4, 4], [4, 17], [27, 17], [27, 4]),
  },
  { what: 'a hole that would close', ring: ring([0, 0], [0, 7], [30, 7], [30, 0]), grown: null },
  {
    what: 'a notch that would close',
    ring: ring([0, 0], [30, 0], [30, 20], [18, 20], [18, 5], [12, 5], [12, 20], [0, 20]),
    grown: null,
  },
  { what: 'a slanted side', ring: ring([0, 0], [10, 1], [10, 20], [0, 20]), grown: null },
];

describe('growing outlines of level and upright sides', () => {
  it.each(CASES)('$what', ({ ring: given, grown }) => {
    expect(growRectilinear(given, 3, 4)).toEqual(grown);
  });
});

function ring(...points: readonly (readonly [number, number])[]): Ring {
  return points.map(([x, y]) => ({ x, y }));
}
