import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeRegion } from '../../src/geometry/pose.ts';
import type { Region, Shape } from '../../src/geometry/shape.ts';
import type { Body } from '../../src/holding/body.ts';
import { borderLossMm } from '../../src/holding/border.ts';
import { meanRadius, rectangleMeanRadius } from '../../src/holding/friction.ts';
import { loadOf, type Margins, marginsOf } from '../../src/holding/margins.ts';
import { NO_SKIN } from '../../src/holding/skin.ts';
import { verdictOf } from '../../src/holding/verdict.ts';
import type { Cutter } from '../../src/model/machine.ts';
import { fromMm, UNITS_PER_MM } from '../../src/model/units.ts';
import { isInRing } from '../helpers/in-ring.ts';
import { cutOut, disc, frame, lShape, polygon, rect, rounded } from '../helpers/shapes.ts';
import { borderedBody, FULL_DEPTH, freeingPass, regionOf, shopJob } from './jobs.ts';

const PLYWOOD = shopJob([]).materials[0]!;
const BORDER_MM = borderLossMm(18);

describe('the mean radius', () => {
  it.each([
    [150, 100],
    [100, 100],
    [800, 20],
  ])('of a rectangle %d x %d is that of the closed form', (a, b) => {
    const found = meanRadius([regionOf(rect(a, b))], { x: fromMm(a / 2), y: fromMm(b / 2) });
    expect(found / UNITS_PER_MM).toBeCloseTo(rectangleMeanRadius(a, b), 6);
  });

  it.each([
    ['an L', lShape(300, 200, 50)],
    ['a frame', frame(200, 150, 30)],
    ['a disc', disc(120)],
    ['a plate with a window off its middle', cutOut(rect(200, 160), rect(60, 40), 20, 90)],
  ])('of %s is the mean over a fine grid of points', (_, shape) => {
    const region = regionOf(shape);
    const { centre } = borderedBody(region, 0);
    const { mean, area } = gridMean(region, centre);
    expect(meanRadius([region], centre) / UNITS_PER_MM / mean).toBeCloseTo(1, 2);
    expect(borderedBody(region, 0).areaMm2 / area).toBeCloseTo(1, 2);
  });
});

describe('the mean distance from a point', () => {
  it.each([
    ['in the line of a side', 0],
    ['a hair beside it', 1e-9],
    ['a hair on the other side of it', -1e-9],
  ])('%s is the same to the last digits', (_, aside) => {
    const square = [regionOf(rect(100, 100))];
    const onSide = meanRadius(square, { x: fromMm(50), y: aside }) / UNITS_PER_MM;
    // Half of a rectangle of twice the height about its middle.
    expect(onSide).toBeCloseTo(rectangleMeanRadius(100, 200), 9);
    const beyond = meanRadius(square, { x: fromMm(350), y: aside }) / UNITS_PER_MM;
    expect(beyond).toBeGreaterThan(300);
    expect(beyond).toBeLessThan(306);
  });
});

describe('a body', () => {
  it('loses a border along every edge, and round its openings', () => {
    const solid = borderedBody(regionOf(rect(200, 100)), 8);
    expect(solid.heldAreaMm2).toBeCloseTo(184 * 84, 6);
    const open = borderedBody(regionOf(cutOut(rect(200, 100), rect(40, 20), 80, 40)), 8);
    expect(open.heldAreaMm2).toBeCloseTo(184 * 84 - 56 * 36, 6);
  });

  it('that is all border is held by its weight about its own middle', () => {
    const strip = borderedBody(regionOf(rect(300, 12)), 8);
    expect(strip.heldAreaMm2).toBe(0);
    expect(strip.centre).toEqual({ x: fromMm(150), y: fromMm(6) });
    expect(strip.meanRadiusMm).toBeCloseTo(rectangleMeanRadius(300, 12), 6);
  });

  it('knows its sides and how narrow it is', () => {
    const body = borderedBody(regionOf(rect(200, 100)), 8);
    expect(body.tips.map(({ centreMm, cutMm }) => [centreMm, cutMm])).toEqual([
      [50, 100],
      [100, 200],
      [50, 100],
      [100, 200],
    ]);
    expect(body.narrowMm).toBe(100);
    expect(body.perimeterMm).toBe(600);
  });
});

describe('margins', () => {
  it('follow by hand for a square and a straight cutter', () => {
    const body = borderedBody(regionOf(rect(200, 200)), BORDER_MM);
    const grip = { forceN: 800, friction: 0.4, skin: NO_SKIN };
    const margins = marginsOf(body, grip, loadOf(freeingPass(FULL_DEPTH, PLYWOOD), 1));
    const most = 320;
    const push = 156.6 * Math.sqrt(1.09);
    expect(margins.slide).toBeCloseTo(most / push, 2);
    // An ellipse of push and moment about the middle lies close to it for a square, and never below it.
    const moment = 156.6 * 100 + 46.98 * 100;
    const arm = 0.382_598 * (200 - 2 * BORDER_MM);
    const ellipse = 1 / Math.hypot(push / most, moment / (most * arm));
    expect(margins.turn).toBeLessThanOrEqual(ellipse);
    expect(margins.turn).toBeGreaterThan(0.93 * ellipse);
    expect(margins.tip).toBeCloseTo((800 * 100) / (push * 9), 2);
    expect(margins.least).toBe(margins.turn);
  });

  it('count lift twice: off the friction, and at the edge', () => {
    const cutter = { spiral: 'up-cut', helixDeg: 30 } as const;
    const pass = freeingPass(
      { ...FULL_DEPTH, cutter: { ...FULL_DEPTH.cutter, ...cutter } },
      PLYWOOD,
    );
    const body = borderedBody(regionOf(rect(120, 120)), BORDER_MM);
    const margins = marginsOf(body, { forceN: 300, friction: 0.4, skin: NO_SKIN }, loadOf(pass, 1));
    const lift = 156.6 * Math.tan(Math.PI / 6);
    expect(margins.slide).toBeCloseTo((0.4 * (300 - lift)) / pass.resultantN, 2);
    expect(margins.tip).toBeCloseTo((300 * 60) / (pass.resultantN * 9 + lift * 120), 2);
  });

  it('are nothing where the lift takes all the weight off', () => {
    const body = borderedBody(regionOf(rect(40, 40)), BORDER_MM);
    const load = { ...loadOf(freeingPass(FULL_DEPTH, PLYWOOD), 1), liftN: 50 };
    expect(marginsOf(body, { forceN: 30, friction: 0.4, skin: NO_SKIN }, load).least).toBe(0);
  });

  it.each([
    [2, 1.2, 'stays'],
    [1.99, 1.2, 'marginal'],
    [2, 1.19, 'marginal'],
    [1, 0.2, 'marginal'],
    [0.99, 0.99, 'moves'],
  ] as const)('of %d and at the low end %d say that it %s', (margin, low, verdict) => {
    expect(verdictOf(margin, low)).toBe(verdict);
  });
});

describe('margins of random pieces', () => {
  it('never rise with less vacuum, nor fall with more friction or a smaller force', () => {
    fc.assert(
      fc.property(
        pieces,
        cutters,
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (shape, cutter, share) => {
          const body = borderedBody(regionOf(shape), BORDER_MM);
          const pass = freeingPass(
            { ...FULL_DEPTH, cutter: { ...FULL_DEPTH.cutter, ...cutter } },
            PLYWOOD,
          );
          const at = (forceN: number, friction: number, factor: number): Margins =>
            marginsOf(body, { forceN, friction, skin: NO_SKIN }, loadOf(pass, factor));
          const forceN = body.heldAreaMm2 * 0.025 + 1;
          const all = at(forceN, 0.4, 1);
          for (const worse of [
            at(forceN * share, 0.4, 1),
            at(forceN, 0.4 * share, 1),
            at(forceN, 0.4, 1 / share),
          ])
            for (const kind of ['slide', 'turn', 'tip', 'least'] as const)
              expect(worse[kind]).toBeLessThanOrEqual(all[kind]);
        },
      ),
      { seed: 20, numRuns: 200 },
    );
  });

  it('are the same for the piece turned by a quarter, mirrored or elsewhere', () => {
    const poses = [
      { x: 0, y: 0, turn: 90, mirrored: false },
      { x: fromMm(17), y: fromMm(-5), turn: 180, mirrored: true },
      { x: 12_345, y: 54_321, turn: 270, mirrored: true },
    ];
    fc.assert(
      fc.property(pieces, (shape) => {
        const straight = looked(borderedBody(regionOf(shape), BORDER_MM));
        for (const pose of poses)
          expect(looked(borderedBody(placeRegion(regionOf(shape), pose), BORDER_MM))).toEqual(
            straight,
          );
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  it('are the same to a hundredth for the piece at any angle', () => {
    fc.assert(
      fc.property(pieces, fc.integer({ min: 1, max: 359 }), (shape, turn) => {
        const straight = looked(borderedBody(regionOf(shape), BORDER_MM));
        const pose = { x: 0, y: 0, turn, mirrored: false };
        const turned = looked(borderedBody(placeRegion(regionOf(shape), pose), BORDER_MM));
        for (const kind of ['slide', 'turn', 'tip'] as const)
          expect(Math.abs(turned[kind] - straight[kind])).toBeLessThanOrEqual(0.0101);
      }),
      { seed: 22, numRuns: 100 },
    );
  });
});

const sizes = fc.integer({ min: 30, max: 700 });

/** Rectangles, discs, Ls, frames, rounded plates and triangles of workshop sizes. */
const pieces: fc.Arbitrary<Shape> = fc.oneof(
  fc.tuple(sizes, sizes).map(([w, h]) => rect(w, h)),
  sizes.map((d) => disc(d)),
  fc.tuple(sizes, sizes).map(([w, h]) => lShape(w + 60, h + 60, 40)),
  fc.tuple(sizes, sizes).map(([w, h]) => frame(w + 100, h + 100, 45)),
  fc.tuple(sizes, sizes).map(([w, h]) => rounded(w, h, Math.min(w, h) / 3)),
  fc.tuple(sizes, sizes, sizes).map(([w, h, x]) => polygon([0, 0], [w, 0], [Math.min(x, w), h])),
);

const cutters: fc.Arbitrary<Partial<Cutter>> = fc.constantFrom(
  { spiral: 'straight' },
  { spiral: 'up-cut', helixDeg: 30 },
  { spiral: 'down-cut', helixDeg: 30 },
  { spiral: 'compression', helixDeg: 30, upcutLength: fromMm(5) },
  { worn: true },
);

function looked(body: Body): Margins {
  const forceN = body.heldAreaMm2 * 0.025 + 1;
  const load = loadOf(freeingPass(FULL_DEPTH, PLYWOOD), 1);
  return marginsOf(body, { forceN, friction: 0.4, skin: NO_SKIN }, load);
}

/** Mean distance from a centre and area by points half a millimetre apart, in mm. */
function gridMean(
  { outer, holes }: Region,
  centre: { x: number; y: number },
): { mean: number; area: number } {
  const step = UNITS_PER_MM / 2;
  const xs = outer.map((p) => p.x);
  const ys = outer.map((p) => p.y);
  let [count, sum] = [0, 0];
  for (let x = Math.min(...xs) + step / 2; x < Math.max(...xs); x += step)
    for (let y = Math.min(...ys) + step / 2; y < Math.max(...ys); y += step) {
      if (!isInRing({ x, y }, outer) || holes.some((hole) => isInRing({ x, y }, hole))) continue;
      count++;
      sum += Math.hypot(x - centre.x, y - centre.y);
    }
  return { mean: sum / count / UNITS_PER_MM, area: count / 4 };
}
