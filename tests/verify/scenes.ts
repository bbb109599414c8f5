import { at, jobOf, layoutOf, type PartInput, partOf, setOf, sheetOf } from '../helpers/jobs.ts';
import { cutOut, disc, frame, hollow, lShape, polygon, rect } from '../helpers/shapes.ts';
import type { Scene } from '../helpers/symmetry.ts';

/** Its slanted side is a line 3 x + 4 y = 2400. */
const TRIANGLE = [
  [0, 0],
  [800, 0],
  [0, 600],
] as const;

const NOTCHED = [
  [0, 0],
  [600, 0],
  [600, 200],
  [200, 200],
  [200, 500],
  [0, 500],
] as const;

/** Valid layouts, each as tight as it can be where its mutations move something. */
export const SCENES = {
  /** One piece that fills the sheet less its trim. */
  filled: {
    job: jobOf({
      sheets: [sheetOf(500, 300, { trim: { left: 10, right: 11, bottom: 12, top: 13 } })],
      parts: [partOf(rect(479, 275))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 10, 12)] }]),
  },
  /** A disc as wide as the sheet. */
  filledByDisc: {
    job: jobOf({ sheets: [sheetOf(300, 300)], parts: [partOf(disc(300))] }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 0, 0)] }]),
  },
  /** A piece in the right corner of a triangle, at the trim from two sides and with its far corner at the trim from the slanted one. */
  underSlant: {
    job: jobOf({
      sheets: [sheetOf(800, 600, { trim: 12, boundary: TRIANGLE })],
      parts: [partOf(rect(388, 273))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 12, 12)] }]),
  },
  /** A piece that fills one leg of an offcut with a notch, without trim. */
  inLeg: {
    job: jobOf({
      sheets: [sheetOf(600, 500, { boundary: NOTCHED })],
      parts: [partOf(rect(200, 500))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 0, 0)] }]),
  },
  /** A disc that touches the slanted side of a triangle, its centre a radius and the trim away from it, and half a micrometre for rounding. */
  discUnderSlant: {
    job: jobOf({
      sheets: [sheetOf(800, 600, { trim: 10, boundary: TRIANGLE })],
      parts: [partOf(disc(100))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 349.999, 175)] }]),
  },
  /** Two pieces side by side that touch, where nothing has to lie between them. */
  touching: {
    job: jobOf({
      spacing: 0,
      sheets: [sheetOf(500, 300)],
      parts: [partOf(rect(200, 100), { count: 2 })],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 220, 20)] }]),
  },
  /** An L around the corner of a rectangle, touching along two sides. */
  touchingL: {
    job: jobOf({
      spacing: 0,
      sheets: [sheetOf(500, 300)],
      parts: [partOf(lShape(200, 150, 50)), partOf(rect(100, 60))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 70, 70)] }]),
  },
  /** Two discs that touch. */
  touchingDiscs: {
    job: jobOf({
      spacing: 0,
      sheets: [sheetOf(500, 300)],
      parts: [partOf(disc(60), { count: 2 })],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 80, 20)] }]),
  },
  sideBySide: spaced(partOf(rect(200, 100), { count: 2 }), [205, 0]),
  /** Corner to corner over a 3-4-5 triangle. */
  cornerToCorner: spaced(partOf(rect(100, 50), { count: 2 }), [103, 54]),
  discs: spaced(partOf(disc(60), { count: 2 }), [65, 0]),
  /** Centres apart by 39 and 52, so by 65: two radii and the spacing. */
  discsAslant: spaced(partOf(disc(60), { count: 2 }), [39, 52]),
  discAndSide: {
    job: jobOf({
      spacing: 5,
      sheets: [sheetOf(500, 300)],
      parts: [partOf(disc(60)), partOf(rect(100, 60))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 85, 20)] }]),
  },
  /** A wedge under the deepest place of an arched hollow. */
  underArch: {
    job: jobOf({
      spacing: 5,
      sheets: [sheetOf(500, 300)],
      parts: [partOf(hollow(300, 100, 40, 60)), partOf(polygon([0, 0], [10, 0], [5, 55]))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 165, 20)] }]),
  },
  /** Along the grain, good face up, at one of its two turns. */
  grained: {
    job: jobOf({
      sheets: [sheetOf(500, 300, { grain: 'x' })],
      parts: [partOf(rect(200, 100), { grain: 'along' })],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 150, 150)] }]),
  },
  /** A part without grain that allows half turns only. */
  halfTurns: {
    job: jobOf({
      sheets: [sheetOf(500, 300)],
      parts: [partOf(rect(100, 100), { turns: [0, 180] })],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 150, 150)] }]),
  },
  /** Three of one material and one of another, laid on a sheet of the first. */
  twoMaterials: {
    job: jobOf({
      materials: [[sheetOf(500, 300)], [sheetOf(500, 300)]],
      parts: [partOf(rect(100, 50), { count: 3 }), partOf(rect(100, 50), { material: 1 })],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 0, 0), at(1, 0, 60), at(2, 0, 120)] }]),
  },
  /** Three unlike fronts of one height in a row. */
  row: {
    job: jobOf({
      sheets: [sheetOf(500, 300)],
      parts: [setOf([rect(50, 40), rect(60, 40), rect(70, 40)], 'x')],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 10, 20), at(1, 68, 20), at(2, 136, 20)] }]),
  },
  /** Three unlike fronts of one width, one above the other. */
  column: {
    job: jobOf({
      sheets: [sheetOf(500, 300)],
      parts: [setOf([rect(40, 50), rect(40, 60), rect(40, 70)], 'y')],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 10), at(1, 20, 68), at(2, 20, 136)] }]),
  },
  /** Left of a keep-out by just the spacing. */
  besideKeepOut: {
    job: jobOf({
      sheets: [sheetOf(500, 300, { keepOuts: [[200, 100, 50, 50]] })],
      parts: [partOf(rect(100, 50))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 92, 100)] }]),
  },
  /** A disc over a corner of a keep-out, over a 3-4-5 triangle. */
  discBesideKeepOut: {
    job: jobOf({
      spacing: 5,
      sheets: [sheetOf(500, 300, { keepOuts: [[200, 100, 50, 50]] })],
      parts: [partOf(disc(60))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 200 - 21 - 30, 100 - 28 - 30)] }]),
  },
  /** A piece in the cut-out of a frame that is open to smaller pieces, as large as it may be there. */
  nested: {
    job: jobOf({
      sheets: [sheetOf(500, 300)],
      parts: [partOf(frame(200, 150, 30), { nestInside: true }), partOf(rect(124, 74))],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 58, 58)] }]),
  },
  /** A disc in a round cut-out, with a micrometre to spare: neither circle has corners on the grid all around. */
  nestedDisc: {
    job: jobOf({
      sheets: [sheetOf(500, 300)],
      parts: [
        partOf(cutOut(rect(200, 200), disc(160), 20, 20), { nestInside: true }),
        partOf(disc(143.998)),
      ],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 48.001, 48.001)] }]),
  },
  /** The only sheet of one kind, and one more of a kind that can be bought; priced. */
  twoStocks: {
    job: jobOf({
      sheets: [
        sheetOf(500, 300, { onHand: 1, priceCents: 1500 }),
        sheetOf(600, 300, { priceCents: 2100 }),
      ],
      parts: [partOf(rect(450, 250), { count: 2 })],
    }),
    layout: layoutOf(
      [
        { stock: 0, placements: [at(0, 0, 0)] },
        { stock: 1, placements: [at(1, 0, 0)] },
      ],
      { objective: 'cost', used: 3600, bound: { atLeast: 3600, provedBy: 'area' } },
    ),
  },
  /** Two sheets of a pack of five, and one that is sold singly; priced. */
  inPacks: {
    job: jobOf({
      sheets: [
        sheetOf(500, 300, { pack: 5, priceCents: 1500 }),
        sheetOf(600, 300, { priceCents: 2100 }),
      ],
      parts: [partOf(rect(450, 250), { count: 3 })],
    }),
    layout: layoutOf(
      [
        { stock: 0, placements: [at(0, 0, 0)] },
        { stock: 0, placements: [at(1, 0, 0)] },
        { stock: 1, placements: [at(2, 0, 0)] },
      ],
      { objective: 'cost', used: 9600, bound: { atLeast: 9600, provedBy: 'area' } },
    ),
  },
  /** Two pieces for the one sheet that there is; one is left out. */
  shortOfStock: {
    job: jobOf({
      sheets: [sheetOf(500, 300, { onHand: 1 })],
      parts: [partOf(rect(450, 250), { count: 2 })],
    }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 0, 0)] }], {
      status: 'impossible',
      bound: { atLeast: 2, provedBy: 'area' },
      unplaced: [{ piece: 1, why: 'no-stock' }],
    }),
  },
} satisfies Readonly<Record<string, Scene>>;

export type SceneName = keyof typeof SCENES;

/** Two pieces of one part, which the job keeps 5 mm apart, the second away from the first by `offset`. */
function spaced(part: PartInput, [dx, dy]: readonly [number, number]): Scene {
  return {
    job: jobOf({ spacing: 5, sheets: [sheetOf(500, 300)], parts: [part] }),
    layout: layoutOf([{ stock: 0, placements: [at(0, 20, 20), at(1, 20 + dx, 20 + dy)] }]),
  };
}
