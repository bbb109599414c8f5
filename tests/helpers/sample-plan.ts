import type { Hole } from '../../src/model/part.ts';
import type { Plan } from '../../src/model/plan.ts';
import { fromMm } from '../../src/model/units.ts';
import {
  buildPlan,
  contour,
  cutOut,
  disc,
  hole,
  material,
  type PartSketch,
  roundCutOut,
  stock,
} from './plan-builder.ts';

const BIRCH = stock(2440, 1220, {
  keepOuts: [
    {
      box: { minX: 0, minY: 0, maxX: fromMm(120), maxY: fromMm(80) },
      why: 'broken corner',
    },
    {
      box: { minX: fromMm(2190), minY: fromMm(590), maxX: fromMm(2230), maxY: fromMm(630) },
      why: 'knot',
    },
  ],
});
const MDF = stock(1525, 1220, { grainAxis: null, priceCents: 3050 });

/** Rows of shelf pin holes, a cable hole and a band at the front. */
const SIDE: PartSketch = {
  name: 'Side',
  width: 720,
  height: 560,
  bands: { bottom: fromMm(1) },
  holes: [...pinRow(37), ...pinRow(523), hole(640, 280, 35, null)],
};

const ARCH = contour([0, 0], [900, 0], [900, 120, 450, 300], [0, 120]);

const PARTS: readonly PartSketch[] = [
  SIDE,
  { name: 'Window frame', width: 560, height: 560, inner: [cutOut(80, 80, 400, 400)] },
  { name: 'Arched rail', width: 900, height: 300, outer: ARCH },
  {
    name: 'Stool seat',
    width: 320,
    height: 320,
    outer: disc(320),
    inner: [roundCutOut(160, 160, 90)],
  },
  { name: 'Door', width: 400, height: 600, bands: { left: fromMm(1), right: fromMm(1) } },
  { name: 'Bracket', width: 200, height: 150 },
  { name: 'Cleat', width: 278, height: 60 },
  { name: 'Knob', width: 60, height: 60 },
  { name: 'Shim', width: 20, height: 200 },
  { name: 'Back panel of the tall cupboard', width: 700, height: 500, material: 1 },
  { name: 'Drawer bottom', width: 450, height: 350, material: 1 },
  { name: 'Jig', width: 40, height: 40, material: 1 },
  {
    name: 'Wheel',
    width: 120,
    height: 120,
    outer: disc(120),
    holes: [hole(60, 60, 12, null)],
    material: 1,
  },
];

/** Two sheets and 29 pieces: rectangles, curves, a frame with pieces in its cut-out, a matched set, and each kind of trouble. Invented. */
export function samplePlan(): Plan {
  return buildPlan({
    name: 'Window seat',
    materials: [
      material(0, 'Birch plywood 18 mm', [BIRCH]),
      { ...material(1, 'MDF 12 mm', [MDF]), thickness: fromMm(12), family: 'mdf' },
    ],
    parts: PARTS,
    sheets: [
      {
        stock: BIRCH,
        material: 0,
        pieces: [
          { part: 0, at: [128, 10], holding: { cutOrder: 18 } },
          { part: 0, at: [856, 10], holding: { cutOrder: 19 } },
          { part: 1, at: [1584, 10], holding: { cutOrder: 11, action: 'earlier' } },
          { part: 2, at: [10, 578], holding: { cutOrder: 14 } },
          { part: 3, at: [10, 890], holding: { cutOrder: 12, action: 'skin', skin: fromMm(0.5) } },
          { part: 3, at: [338, 890], holding: { cutOrder: 13, action: 'skin', skin: fromMm(0.5) } },
          { part: 4, at: [918, 578], set: [0, 1], holding: { cutOrder: 15 } },
          { part: 4, at: [1326, 578], set: [0, 2], holding: { cutOrder: 16 } },
          { part: 4, at: [1734, 578], set: [0, 3], holding: { cutOrder: 17 } },
          {
            part: 5,
            at: [1672, 98],
            holding: {
              cutOrder: 2,
              action: 'tabs',
              tabs: tabs([1700, 98], [1840, 98], [1770, 248]),
            },
          },
          { part: 5, at: [2030, 98], turn: 90, holding: { cutOrder: 3, action: 'clamp' } },
          {
            part: 6,
            at: [2152, 10],
            holding: { cutOrder: 6, action: 'tabs', tabs: tabs([2200, 70], [2380, 70]) },
          },
          {
            part: 6,
            at: [2152, 78],
            holding: { cutOrder: 7, action: 'tabs', tabs: tabs([2200, 138], [2380, 138]) },
          },
          {
            part: 6,
            at: [2152, 146],
            holding: { cutOrder: 8, action: 'skin', skin: fromMm(0.5) },
          },
          {
            part: 7,
            at: [2152, 214],
            holding: {
              cutOrder: 9,
              action: 'skin',
              skin: fromMm(0.5),
              marginAfter: 1.4,
              verdictAfter: 'marginal',
            },
          },
          { part: 7, at: [2220, 214], holding: { cutOrder: 10, action: 'clamp' } },
          { part: 8, at: [2288, 214], holding: { cutOrder: 4, action: 'clamp' } },
          { part: 8, at: [2316, 214], holding: { cutOrder: 5, action: 'clamp' } },
        ],
        waste: [
          {
            kind: 'slug',
            piece: 2,
            cutOrder: 1,
            outline: box(1664, 90, 2064, 490),
            action: 'tabs',
            tabs: tabs([1700, 490], [2000, 490]),
          },
          { kind: 'sliver', cutOrder: 20, outline: box(918, 1186, 2134, 1202), action: 'clamp' },
        ],
        offcuts: [[2240, 578, 2430, 1210]],
      },
      {
        stock: MDF,
        material: 1,
        pieces: [
          { part: 9, at: [10, 10] },
          { part: 9, at: [718, 10] },
          { part: 10, at: [10, 518] },
          { part: 10, at: [468, 518] },
          { part: 10, at: [926, 518] },
          { part: 11, at: [10, 876], holding: { action: 'skin', skin: fromMm(0.4) } },
          { part: 11, at: [58, 876], holding: { action: 'skin', skin: fromMm(0.4) } },
          { part: 11, at: [106, 876], holding: { action: 'skin', skin: fromMm(0.4) } },
          {
            part: 12,
            at: [154, 876],
            holding: { action: 'tabs', tabs: tabs([214, 876], [274, 936]) },
          },
          {
            part: 12,
            at: [282, 876],
            holding: { action: 'tabs', tabs: tabs([342, 876], [402, 936]) },
          },
        ],
        offcuts: [[410, 876, 1515, 1210]],
      },
    ],
  });
}

function pinRow(y: number): readonly Hole[] {
  return Array.from({ length: 9 }, (_, i) => hole(160 + i * 32, y, 5, 12));
}

function tabs(...places: readonly (readonly [number, number])[]) {
  return places.map(([x, y]) => ({
    at: { x: fromMm(x), y: fromMm(y) },
    width: fromMm(8),
    height: fromMm(3),
  }));
}

function box(minX: number, minY: number, maxX: number, maxY: number) {
  return contour([minX, minY], [maxX, minY], [maxX, maxY], [minX, maxY]).map(({ x, y }) => ({
    x,
    y,
  }));
}

/** One small sheet with a rectangle that has a band and holes, an arch, and a disc in need of tabs. Invented. */
/** An offcut with a slanted corner and a notch, a piece in each of its ends. */
export function offcutPlan(): Plan {
  const boundary = [
    [0, 0],
    [600, 0],
    [600, 200],
    [400, 400],
    [250, 400],
    [250, 250],
    [0, 250],
  ].map(([x = 0, y = 0]) => ({ x: fromMm(x), y: fromMm(y) }));
  const sheet = stock(600, 400, { boundary });
  return buildPlan({
    name: 'Clock case',
    materials: [material(0, 'Oak ply', [sheet])],
    parts: [
      { name: 'Panel', width: 400, height: 150 },
      { name: 'Dial', width: 120, height: 120, outer: disc(120) },
    ],
    sheets: [
      {
        stock: sheet,
        material: 0,
        pieces: [
          { part: 0, at: [10, 10] },
          { part: 1, at: [270, 200] },
        ],
        offcuts: [],
      },
    ],
  });
}

export function smallPlan(): Plan {
  const sheet = stock(600, 400);
  return buildPlan({
    name: 'Clock case',
    materials: [material(0, 'Oak ply', [sheet])],
    parts: [
      {
        name: 'Panel',
        width: 300,
        height: 180,
        bands: { left: fromMm(1) },
        holes: [hole(250, 90, 20, null), hole(60, 30, 8, 10)],
      },
      { name: 'Arch', width: 240, height: 120, outer: contour([0, 0], [240, 0, 120, 120]) },
      { name: 'Dial', width: 140, height: 140, outer: disc(140) },
    ],
    sheets: [
      {
        stock: sheet,
        material: 0,
        pieces: [
          { part: 0, at: [10, 10] },
          { part: 1, at: [318, 10] },
          { part: 2, at: [10, 198], holding: { action: 'tabs', tabs: tabs([80, 198], [80, 338]) } },
        ],
        offcuts: [[318, 198, 590, 390]],
      },
    ],
  });
}
