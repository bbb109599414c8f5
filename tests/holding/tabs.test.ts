import { describe, expect, it } from 'vitest';
import { flattenShape, PACKING_CHORD_ERROR } from '../../src/geometry/flatten.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Ring, Shape } from '../../src/geometry/shape.ts';
import { FAMILY_CONSTANTS } from '../../src/holding/constants.ts';
import { loadOf } from '../../src/holding/margins.ts';
import { skinFor, skinHold } from '../../src/holding/skin.ts';
import {
  isAnyOnShow,
  type TabEdges,
  type TabSite,
  tabPlaces,
} from '../../src/holding/tab-places.ts';
import {
  fewestTabs,
  tabCount,
  tabLiftN,
  tabPushN,
  tabSlipMargin,
  tabTipNmm,
} from '../../src/holding/tab-strength.ts';
import { fromMm } from '../../src/model/units.ts';
import { disc, lShape, rect } from '../helpers/shapes.ts';
import { borderedBody, FULL_DEPTH, freeingPass, shopJob } from './jobs.ts';

const WIDTH = fromMm(10);
const SPREAD = fromMm(75);

describe('places of tabs', () => {
  it('are the middle of the longest side first, then as far away as can be', () => {
    expect(inMm(tabPlaces(siteOf(rect(120, 90)), WIDTH, SPREAD, 2))).toEqual([
      [60, 0],
      [60, 90],
    ]);
    expect(inMm(tabPlaces(siteOf(rect(120, 90)), WIDTH, SPREAD, 4))).toEqual([
      [60, 0],
      [60, 90],
      [120, 45],
      [0, 45],
    ]);
  });

  it('keep a tab and a half from corners and two widths from one another', () => {
    const places = inMm(tabPlaces(siteOf(rect(900, 700)), WIDTH, SPREAD, 6));
    expect(places).toHaveLength(6);
    for (const [x, y] of places) {
      expect(Math.min(x, 900 - x) < 15 && Math.min(y, 700 - y) < 15).toBe(false);
      const others = places.filter((other) => other[0] !== x || other[1] !== y);
      for (const other of others)
        expect(Math.hypot(other[0] - x, other[1] - y)).toBeGreaterThan(20);
    }
    expect(tabPlaces(siteOf(rect(34, 34)), WIDTH, SPREAD, 20).length).toBeLessThan(8);
  });

  it('stay away from holes', () => {
    const holes = [{ at: { x: fromMm(60), y: fromMm(6) }, radius: fromMm(4) }];
    const places = inMm(tabPlaces({ ...siteOf(rect(120, 90)), holes }, WIDTH, SPREAD, 3));
    expect(places).not.toContainEqual([60, 0]);
  });

  it('need firm stock on the other side of the kerf', () => {
    const onlyRight = (p: Point): boolean => p.x > fromMm(120);
    const places = inMm(
      tabPlaces({ ...siteOf(rect(120, 90)), isFirm: onlyRight }, WIDTH, SPREAD, 2),
    );
    for (const [x] of places) expect(x).toBe(120);
    expect(tabPlaces({ ...siteOf(rect(120, 90)), isFirm: () => false }, WIDTH, SPREAD, 2)).toEqual(
      [],
    );
  });

  it('leave the show edges alone where there is another place, and bridge the kerf with the grain', () => {
    const site: TabSite = { ...siteOf(rect(120, 90)), isShow: ({ y }) => y > 0, grainAxis: 'y' };
    const on = (edges: TabEdges): [number, number][] =>
      inMm(tabPlaces(site, WIDTH, SPREAD, 4, edges));
    expect(on('any')).toContainEqual([60, 90]);
    expect(on('hidden')).toEqual([
      [60, 0],
      [120, 45],
      [0, 45],
    ]);
    expect(on('best')).toEqual([[60, 0]]);
    const round = { ...siteOf(disc(100)), grainAxis: 'x' } as const;
    for (const [x, y] of inMm(tabPlaces(round, WIDTH, SPREAD, 4, 'best')))
      expect(Math.abs(y - 50)).toBeLessThan(Math.abs(x - 50) / 2.5);
  });

  it('are known to stand on a show edge', () => {
    const site: TabSite = { ...siteOf(rect(120, 90)), isShow: ({ y }) => y > 0 };
    expect(isAnyOnShow(site, [point(60, 0), point(0, 45)])).toBe(false);
    expect(isAnyOnShow(site, [point(60, 0), point(60, 90)])).toBe(true);
  });

  it('go round a piece that has no straight sides', () => {
    const places = inMm(tabPlaces(siteOf(disc(100)), WIDTH, SPREAD, 3));
    expect(places).toHaveLength(3);
    for (const [x, y] of places) expect(Math.hypot(x - 50, y - 50)).toBeCloseTo(50, 0);
  });
});

describe('the strength of tabs', () => {
  const size = { widthMm: 8, heightMm: 3, kerfMm: 6.35 };
  const { strength } = FAMILY_CONSTANTS.mdf;

  it('is that of the weakest of bending, pull and shear, at 0.8 of the standard', () => {
    // Sideways MDF shears off first (6.5 MPa on 8 x 3 mm), upwards between its layers (1.6 MPa).
    expect(tabPushN(size, strength)).toBeCloseTo((0.8 * 6.5 * 24) / 1.5, 9);
    expect(tabLiftN(size, strength)).toBeCloseTo((0.8 * 1.6 * 24) / 1.5, 9);
    expect(tabPushN({ ...size, kerfMm: 40 }, strength)).toBeCloseTo((0.8 * 20 * 3 * 64) / 120, 9);
  });

  it('shares a push on the middle evenly and counts the worst tab of a twisted one', () => {
    const load = {
      resultantN: 100,
      pushes: [{ deg: 0, acrossN: 100, alongN: 0 }],
      liftN: 0,
      heightMm: 9,
    };
    const tabs = [point(0, 50), point(100, 50)];
    // At the corner of a 100 mm square: 50 N for the push, and 100 N x 50 mm over two arms of 50 mm for the twist.
    expect(tabSlipMargin(tabs, ringOf(rect(100, 100)), load, 100)).toBeCloseTo(1, 9);
    const four = [...tabs, point(50, 0), point(50, 100)];
    expect(tabSlipMargin(four, ringOf(rect(100, 100)), load, 100)).toBeCloseTo(2, 9);
  });

  it('against tipping grows with the distance from the side', () => {
    const body = borderedBody({ outer: ringOf(rect(100, 100)), holes: [] }, 8);
    const bottom = body.tips.find(({ from, to }) => from.y === 0 && to.y === 0)!;
    expect(tabTipNmm([point(50, 100)], bottom, 20)).toBeCloseTo(2000, 6);
    expect(tabTipNmm([point(50, 100), point(0, 50)], bottom, 20)).toBeCloseTo(2500, 6);
    expect(tabTipNmm([point(50, 0)], bottom, 20)).toBe(0);
  });

  it('asks for two tabs, three for free shapes, none where friction does', () => {
    expect([rect(80, 60), lShape(90, 80, 20), disc(60)].map((s) => fewestTabs(ringOf(s)))).toEqual([
      2, 3, 3,
    ]);
    expect(tabCount(100, 150, 50)).toBe(0);
  });
});

describe('a skin', () => {
  it('ties a piece by its sides, its ring and its edge', () => {
    const body = borderedBody({ outer: ringOf(rect(80, 50)), holes: [] }, 8);
    expect(skinHold(body, 0.5)).toEqual({ forceN: 150, momentNmm: 12_000, downN: 390 });
  });

  it('is not for thin stock', () => {
    expect([2, 3, 18].map(skinFor)).toEqual([0, 0.5, 0.5]);
  });
});

describe('more tabs of one size', () => {
  it('hold more', () => {
    const load = loadOf(freeingPass(FULL_DEPTH, shopJob([]).materials[0]!), 1);
    const ring = ringOf(rect(120, 90));
    const margins = [2, 4, 6].map((count) =>
      tabSlipMargin(tabPlaces(siteOf(rect(120, 90)), WIDTH, SPREAD, count), ring, load, 100),
    );
    expect(margins).toEqual(margins.toSorted((a, b) => a - b));
  });
});

function siteOf(shape: Shape): TabSite {
  const edges = { isShow: () => false, grainAxis: null };
  return { ring: ringOf(shape), holes: [], isFirm: () => true, cutter: fromMm(6.35), ...edges };
}

function ringOf(shape: Shape): Ring {
  return flattenShape(shape, 'curve', PACKING_CHORD_ERROR).outer;
}

function point(x: number, y: number): Point {
  return { x: fromMm(x), y: fromMm(y) };
}

function inMm(points: readonly Point[]): [number, number][] {
  return points.map(({ x, y }) => [x / 8000, y / 8000]);
}
