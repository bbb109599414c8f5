import { describe, expect, it } from 'vitest';
import type { Shape } from '../../src/geometry/shape.ts';
import { isDisc, outlineKey } from '../../src/packing/outline-key.ts';
import { jobOf, partOf } from '../helpers/jobs.ts';
import { cutOut, disc, polygon, rect } from '../helpers/shapes.ts';

const RING = cutOut(disc(100), disc(20), 30, 30);
const PLATE = cutOut(rect(200, 100), rect(20, 20), 30, 30);

function part(shape: Shape, nestInside: boolean) {
  return jobOf({ parts: [partOf(shape, { nestInside })] }).parts[0]!;
}

function keyOf(shape: Shape, turn = 0, nestInside = false): string {
  const pose = { x: 0, y: 0, turn, mirrored: false };
  return outlineKey(part(shape, nestInside), pose, { x: 0, y: 0 });
}

describe('what packing cannot tell apart', () => {
  it.each([
    ['a disc', disc(100), false, true],
    ['a disc, its cut-outs nestable had it any', disc(100), true, true],
    ['a ring', RING, false, true],
    ['a ring that is nested in', RING, true, false],
    ['a square', rect(100, 100), false, false],
  ])('%s is the same at every turn or is not', (_, shape, nestInside, isSame) => {
    expect(isDisc(part(shape, nestInside))).toBe(isSame);
    expect(keyOf(shape, 0, nestInside) === keyOf(shape, 90, nestInside)).toBe(isSame);
  });

  it('has the key of its corners, whichever comes first', () => {
    const corners = [
      [0, 0],
      [80, 0],
      [80, 30],
    ] as const;
    const [a, b, c] = corners;
    expect(keyOf(polygon(a, b, c))).toBe(keyOf(polygon(c, a, b)));
    expect(keyOf(polygon(a, b, c))).not.toBe(keyOf(polygon(a, b, [80, 31])));
  });

  it('has cut-outs in its key only where they are nested in', () => {
    expect(keyOf(PLATE)).toBe(keyOf(rect(200, 100)));
    expect(keyOf(PLATE, 0, true)).not.toBe(keyOf(rect(200, 100), 0, true));
  });
});
