import { describe, expect, it } from 'vitest';
import { circlesOverlap, inscribedCircles } from '../../src/packing/outlines/inscribed.ts';
import { smallSetup } from './small-setup.ts';

const ELL = [
  [
    { x: 0, y: 0 },
    { x: 900, y: 0 },
    { x: 900, y: 300 },
    { x: 0, y: 300 },
  ],
  [
    { x: 0, y: 300 },
    { x: 300, y: 300 },
    { x: 300, y: 900 },
    { x: 0, y: 900 },
  ],
];

function circlesOfEll(): { x: number; y: number; radius: number }[] {
  const [form] = smallSetup([ELL], 1000, 1000).forms;
  if (form === undefined) return [];
  const flat = [...inscribedCircles(form, () => undefined)];
  return Array.from({ length: flat.length / 3 }, (_, i) => ({
    x: flat[3 * i] ?? 0,
    y: flat[3 * i + 1] ?? 0,
    radius: flat[3 * i + 2] ?? 0,
  }));
}

describe('the circles inside a form', () => {
  it('begin with the largest one', () => {
    const [first] = circlesOfEll();
    // The largest circle in the corner of an L touches two outer sides and the inner corner: r = 300 / (1 + 1 / sqrt 2) by hand.
    expect(first?.radius).toBeCloseTo(300 / (1 + Math.SQRT1_2), 0);
  });

  it('do not overlap, and stay inside', () => {
    const circles = circlesOfEll();
    expect(circles.length).toBeGreaterThan(4);
    circles.forEach(({ x, y, radius }, i) => {
      expect(Math.min(x, y) - radius).toBeGreaterThan(-0.001);
      expect(Math.max(x, y) + radius).toBeLessThan(900.001);
      if (x > 300 && y > 300) expect.fail('a centre outside');
      for (const other of circles.slice(i + 1))
        expect(Math.hypot(x - other.x, y - other.y)).toBeGreaterThan(radius + other.radius - 0.001);
    });
  });

  it('tell less overlap the further two forms are apart, and never none', () => {
    const [form] = smallSetup([ELL], 1000, 1000).forms;
    if (form === undefined) expect.fail('no form');
    const circles = inscribedCircles(form, () => undefined);
    const overlaps = [0, 100, 200, 400, 800, 1600].map((x) =>
      circlesOverlap(circles, circles, x, 0, 9, Number.POSITIVE_INFINITY),
    );
    expect(overlaps).toEqual([...overlaps].sort((a, b) => b - a));
    expect(overlaps.at(-1)).toBeGreaterThan(0);
  });
});
