import fc from 'fast-check';
import type { Shape } from '../../src/geometry/shape.ts';
import { UNITS_PER_MM } from '../../src/model/units.ts';
import {
  type JobInput,
  type PartInput,
  type PartTraits,
  partOf,
  type SetInput,
  type SheetInput,
  setOf,
  sheetOf,
} from '../helpers/jobs.ts';
import * as shapes from '../helpers/shapes.ts';

/** What a property may leave out of its jobs. */
export interface Kinds {
  /** Rectangles only, each on its own. */
  readonly rectangles: boolean;
}

/** Small jobs of one material with everything that a parts file can ask of a layout. */
export function jobInputs({ rectangles }: Kinds = { rectangles: false }): fc.Arbitrary<JobInput> {
  const part = rectangles
    ? parts(rectangleShapes)
    : fc.oneof({ weight: 8, arbitrary: anyPart }, { weight: 1, arbitrary: sets });
  return fc.record({
    spacing: fc.oneof(fc.constantFrom(0, 3.2, 6, 6.35, 8), oddLengths(1, 10)),
    sheets: fc.oneof(
      fc.array(sheets(fc.constant(null)), { minLength: 1, maxLength: 2 }),
      fc.array(sheets(fc.integer({ min: 500, max: 9900 })), { minLength: 1, maxLength: 3 }),
    ),
    parts: fc.array(part, { minLength: 1, maxLength: 5 }),
  });
}

/** Whole millimetres, 64ths of an inch, and any whole number of base lengths; in mm. */
export function lengths(min: number, max: number): fc.Arbitrary<number> {
  return fc.oneof(
    fc.integer({ min, max }),
    fc
      .integer({ min: Math.ceil(min / INCH_64TH), max: Math.floor(max / INCH_64TH) })
      .map((n) => n * INCH_64TH),
    oddLengths(min, max),
  );
}

const INCH_64TH = 25.4 / 64;

function oddLengths(min: number, max: number): fc.Arbitrary<number> {
  const units = fc.integer({ min: min * UNITS_PER_MM, max: max * UNITS_PER_MM - 1 });
  return units.map((n) => (n - (n % 2) + 1) / UNITS_PER_MM);
}

function sheets(prices: fc.Arbitrary<number | null>): fc.Arbitrary<SheetInput> {
  const keepOut = fc.tuple(lengths(0, 300), lengths(0, 150), lengths(1, 80), lengths(1, 60));
  const trim = fc.constantFrom(0, 5, 10, 3.175);
  return fc
    .record({
      length: lengths(350, 700),
      width: lengths(250, 450),
      trim: fc.record({ left: trim, right: trim, bottom: trim, top: trim }),
      grain: fc.constantFrom('x', 'y', null),
      keepOuts: fc.oneof(
        { weight: 3, arbitrary: fc.constant([]) },
        { weight: 1, arbitrary: fc.array(keepOut, { minLength: 1, maxLength: 2 }) },
      ),
      priceCents: prices,
      onHand: fc.oneof(
        { weight: 4, arbitrary: fc.constant(null) },
        { weight: 1, arbitrary: fc.integer({ min: 1, max: 2 }) },
      ),
    })
    .map(({ length, width, ...traits }) => sheetOf(length, width, traits));
}

function parts(shape: fc.Arbitrary<Shape>): fc.Arbitrary<PartInput> {
  const count = fc.integer({ min: 1, max: 3 });
  return fc.tuple(shape, traits, count).map(([s, t, n]) => partOf(s, { ...t, count: n }));
}

const traits: fc.Arbitrary<PartTraits> = fc.record({
  grain: fc.constantFrom('any', 'any', 'along', 'across'),
  face: fc.constantFrom('up', 'either'),
  turns: fc.constantFrom([0, 90, 180, 270], [0, 180], [0], [0, 45, 90, 135, 180, 225, 270, 315]),
  nestInside: fc.boolean(),
});

const rectangleShapes = fc
  .tuple(lengths(30, 240), lengths(20, 200))
  .map(([w, h]) => shapes.rect(w, h));

const straightShapes: fc.Arbitrary<Shape> = fc.oneof(
  rectangleShapes,
  box().map(([w, h, share]) => shapes.lShape(w, h, share * Math.min(w, h))),
  box().map(([w, h, share]) => shapes.frame(w, h, (share * Math.min(w, h)) / 2)),
);

const curvedShapes: fc.Arbitrary<Shape> = fc.oneof(
  // An even number of base lengths has a middle on the grid.
  fc.integer({ min: 30, max: 180 }).map(shapes.disc),
  box().map(([w, h, share]) => shapes.rounded(w, h, (share * Math.min(w, h)) / 2)),
  box().map(([w, h, share]) => shapes.arch(w, h, (share * Math.min(w, 2 * h)) / 2)),
  box().map(([w, h, share]) => shapes.hollow(w, h, 0.2 * w, share * Math.min(0.3 * w, h))),
  fc
    .integer({ min: 60, max: 200 })
    .map((d) => shapes.cutOut(shapes.rect(d + 40, d + 40), shapes.disc(d), 20, 20)),
);

/** Parts with straight sides only, with arcs, and of either kind. */
export const straightPart: fc.Arbitrary<PartInput> = parts(straightShapes);
export const curvedPart: fc.Arbitrary<PartInput> = parts(curvedShapes);
export const anyPart: fc.Arbitrary<PartInput> = fc.oneof(straightPart, curvedPart);

/** Width, height, and a share for whatever makes the shape more than its box. */
function box(): fc.Arbitrary<readonly [number, number, number]> {
  return fc.tuple(lengths(50, 240), lengths(40, 200), fc.constantFrom(0.25, 0.4, 0.6, 0.8));
}

/** Fronts of one height in a row, or of one width above one another. */
const sets: fc.Arbitrary<SetInput> = fc
  .tuple(
    lengths(30, 100),
    fc.array(lengths(30, 90), { minLength: 2, maxLength: 3 }),
    fc.constantFrom('x', 'y'),
    fc.constantFrom('any', 'along', 'across'),
  )
  .map(([level, running, axis, grain]) => {
    const fronts = running.map((r) =>
      axis === 'x' ? shapes.rect(r, level) : shapes.rect(level, r),
    );
    return setOf(fronts, axis, { grain });
  });
