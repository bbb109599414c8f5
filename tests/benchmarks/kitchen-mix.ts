import type { Shape } from '../../src/geometry/shape.ts';
import type { Job } from '../../src/model/job.ts';
import { fromMm } from '../../src/model/units.ts';
import { jobOf, partOf, type SheetInput } from '../helpers/jobs.ts';
import { arch, rect } from '../helpers/shapes.ts';

/** Width, height and depth of 15 cabinets: low ones, hung ones and half-high ones. */
const MODULES = [
  ...[300, 350, 400, 450, 500, 600].map((width) => ({ width, height: 720, depth: 560 })),
  ...[300, 350, 400, 450, 500, 600].map((width) => ({ width, height: 540, depth: 320 })),
  ...[300, 400, 500].map((width) => ({ width, height: 960, depth: 580 })),
];

const SPACING = 6.35;

/**
 * The everyday job: 60 rectangles of 48 sizes and 12 curved pieces, which fill about five and a half sheets of 2440 x 1220.
 * Each cabinet gives a side, a bottom, a shelf and a door; then come six arches and six brackets whose inner edge is a hollow arc. All lengths are taken `scale` times.
 */
export function kitchenMix(sheet: SheetInput, scale = 1): Job {
  const rectangles = MODULES.flatMap(({ width, height, depth }) => [
    rect(scale * height, scale * depth),
    rect(scale * (width - 36), scale * depth),
    rect(scale * (width - 38), scale * (depth - 20)),
    rect(scale * (width - 4), scale * (height - 4)),
  ]);
  const steps = [0, 1, 2, 3, 4, 5];
  const arches = steps.map((k) =>
    arch(scale * (500 + 100 * k), scale * (220 + 20 * k), scale * (80 + 10 * k)),
  );
  const brackets = steps.map((k) =>
    bracket(scale * (320 + 40 * k), scale * (260 + 30 * k), scale * (80 + 5 * k)),
  );
  return jobOf({
    spacing: scale * SPACING,
    sheets: [sheet],
    parts: [...rectangles, ...arches, ...brackets].map((shape) => partOf(shape)),
  });
}

/** A foot along the bottom and a leg up the left side, both `limb` wide at their ends, and between these a hollow arc. */
export function bracket(width: number, height: number, limb: number): Shape {
  const [w, h, t] = [fromMm(width), fromMm(height), fromMm(limb)];
  const sag = 0.15;
  const via = {
    x: Math.round((w + t) / 2 - sag * (h - t)),
    y: Math.round((h + t) / 2 - sag * (w - t)),
  };
  return {
    outer: [
      { x: 0, y: 0, via: null },
      { x: w, y: 0, via: null },
      { x: w, y: t, via },
      { x: t, y: h, via: null },
      { x: 0, y: h, via: null },
    ],
    inner: [],
  };
}
