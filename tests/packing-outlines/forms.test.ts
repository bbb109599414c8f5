import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/area.ts';
import { CHECKING_CHORD_ERROR, flattenShape } from '../../src/geometry/flatten.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import { offsetRegion, ROUND_EXCESS } from '../../src/geometry/offset.ts';
import type { Point } from '../../src/geometry/point.ts';
import { placeShape } from '../../src/geometry/pose.ts';
import type { Region, Ring, Shape } from '../../src/geometry/shape.ts';
import { firstCrossing } from '../../src/geometry/simple.ts';
import { UNITS_PER_MM } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { coarseParts, type Form, formsOf } from '../../src/packing/outlines/forms.ts';
import type { Orientation, PackingTask } from '../../src/packing/task.ts';
import { type JobInput, jobOf, partOf, setOf, sheetOf } from '../helpers/jobs.ts';
import {
  arch,
  cutOut,
  disc,
  frame,
  hollow,
  lShape,
  polygon,
  rect,
  rounded,
} from '../helpers/shapes.ts';

const SHAPES: readonly { readonly what: string; readonly shape: Shape }[] = [
  { what: 'a rectangle', shape: rect(300, 200) },
  { what: 'a triangle', shape: polygon([0, 0], [300, 0], [0, 200]) },
  { what: 'an L', shape: lShape(300, 260, 80) },
  { what: 'a disc', shape: disc(180) },
  { what: 'a rounded door', shape: rounded(300, 400, 60) },
  { what: 'an arch', shape: arch(600, 200, 90) },
  { what: 'a hollowed rail', shape: hollow(700, 200, 60, 70) },
  { what: 'a frame', shape: frame(400, 300, 50) },
  { what: 'a frame with a round cut-out', shape: cutOut(rect(500, 500), disc(400), 50, 50) },
];

const UNIT = 1 / UNITS_PER_MM;
const SPACINGS = [0, 6, 7 + UNIT];
const TURNS = [0, 90, 180, 270, 15, 200];

const CASES = SHAPES.flatMap(({ what, shape }) =>
  SPACINGS.map((spacing) => ({ what, shape, spacing })),
);

describe('forms', () => {
  it.each(CASES)('of $what with a spacing of $spacing mm hold the grown outline', (input) => {
    const { task, forms } = formsOfJob({
      spacing: input.spacing,
      sheets: [sheetOf(2440, 1220)],
      parts: [partOf(input.shape, { turns: TURNS, nestInside: true }), partOf(disc(60))],
    });
    for (const { form, outline } of laidForms(task, forms)) {
      const grown = grownOutline(outline, task.spacing);
      const missing = pointsAround(grown).filter((p) => !holds(form, p));
      expect(missing).toEqual([]);
      // Mitred corners and filled hollows cost some area, but little.
      const area = form.parts.reduce((sum, part) => sum + ringArea(part), 0);
      expect(area).toBeLessThan(1.04 * regionArea(grown));
    }
  });

  it('hold every piece of a matched set', () => {
    const { task, forms } = formsOfJob({
      spacing: 6,
      sheets: [sheetOf(2440, 1220)],
      parts: [setOf([arch(300, 200, 60), rounded(400, 200, 40)], 'x'), partOf(disc(60))],
    });
    const outlines = laidForms(task, forms);
    expect(outlines.length).toBeGreaterThan(5);
    for (const { form, outline } of outlines)
      expect(pointsAround(grownOutline(outline, task.spacing)).every((p) => holds(form, p))).toBe(
        true,
      );
  });

  it('are convex and do not cross themselves', () => {
    for (const { shape } of SHAPES) {
      const { forms } = formsOfJob({
        spacing: 6,
        sheets: [sheetOf(2440, 1220)],
        parts: [partOf(shape, { turns: TURNS, nestInside: true }), partOf(disc(60))],
      });
      for (const part of forms.flatMap(({ parts }) => parts)) {
        expect(firstCrossing(part)).toBeNull();
        expect(part.every((corner) => pointInRing(corner, part) === 0)).toBe(true);
        expect(isConvex(part)).toBe(true);
      }
    }
  });

  it('fill a cut-out that no piece fits, and every cut-out that counts as material', () => {
    const areaOf = (nestInside: boolean, other: number) =>
      formsOfJob({
        spacing: 6,
        sheets: [sheetOf(2440, 1220)],
        parts: [partOf(frame(400, 400, 150), { nestInside }), partOf(disc(other))],
      }).forms[0]?.area ?? 0;
    const whole = areaOf(false, 60);
    expect(areaOf(true, 101)).toBe(whole);
    expect(areaOf(true, 100)).toBeLessThan(whole);
  });

  it('are packed by their hull where an outline has very many corners, never smaller', () => {
    const { task, forms } = formsOfJob({
      spacing: 6,
      sheets: [sheetOf(2440, 1220)],
      parts: [partOf(comb(300), { turns: [0, 90] })],
    });
    for (const { form, outline } of laidForms(task, forms)) {
      expect(form.parts.length).toBe(1);
      expect(pointsAround(outline).every((p) => holds(form, p))).toBe(true);
    }
  });

  it('are their hull to a coarse look only where they fill it nearly', () => {
    const coarse = (shape: Shape) => {
      const job = { sheets: [sheetOf(2440, 1220)], parts: [partOf(shape)] };
      const [form] = formsOfJob(job).forms;
      return { form: form!, rings: coarseParts(form!) };
    };
    const dented = coarse(hollow(700, 200, 60, 12));
    expect(dented.form.parts.length).toBeGreaterThan(1);
    expect(dented.rings).toHaveLength(1);
    const inHull = (point: Point) => pointInRing(point, dented.rings[0]!) >= 0;
    expect(dented.form.parts.flat().every(inHull)).toBe(true);
    const hollowed = coarse(hollow(700, 200, 60, 70));
    expect(hollowed.rings).toBe(hollowed.form.parts);
  });

  it('charge more work for more corners, and none for quarter turns of one already made', () => {
    const workFor = (shape: Shape, turns: readonly number[]) => {
      let work = 0;
      const job = jobOf({
        spacing: 6,
        sheets: [sheetOf(2440, 1220)],
        parts: [partOf(shape, { turns })],
      });
      formsOf(packingTask(job, 0), (units) => {
        work += units;
      });
      return work;
    };
    const triangle = polygon([0, 0], [300, 0], [0, 200]);
    expect(workFor(comb(100), [0])).toBeGreaterThan(30 * workFor(triangle, [0]));
    expect(workFor(triangle, [0, 90, 180, 270])).toBe(workFor(triangle, [0]));
    expect(workFor(triangle, [0, 45])).toBe(2 * workFor(triangle, [0]));
  });
});

function formsOfJob(input: JobInput): {
  readonly task: PackingTask;
  readonly forms: readonly Form[];
} {
  const task = packingTask(jobOf(input), 0);
  return { task, forms: formsOf(task, () => undefined).forms };
}

interface LaidForm {
  readonly form: Form;
  /** One piece as it lies in the form, on a finer ring than the form was made from. */
  readonly outline: Region;
}

/** Every orientation of the first body with each of its pieces. */
function laidForms(task: PackingTask, forms: readonly Form[]): readonly LaidForm[] {
  const orientations = task.bodies[0]?.orientations ?? [];
  return orientations.flatMap((orientation, i) =>
    outlinesOf(task, orientation).map((outline) => ({ form: forms[i] as Form, outline })),
  );
}

function outlinesOf({ job }: PackingTask, { placements }: Orientation): readonly Region[] {
  return placements.flatMap((placement) => {
    const part = job.parts[job.pieces[placement.piece]?.part ?? -1];
    if (part === undefined) return [];
    const inner = part.nestInside ? part.shape.inner : [];
    const shape = placeShape({ outer: part.shape.outer, inner }, placement);
    return [flattenShape(shape, 'outside', CHECKING_CHORD_ERROR)];
  });
}

/** Grown by half the spacing and rounded off, which is the least that keeps the distance; less what the offset itself may run ahead. */
function grownOutline(outline: Region, spacing: number): Region {
  const by = Math.floor(spacing / 2) - ROUND_EXCESS;
  return by <= 0 ? outline : (offsetRegion(outline, by, 'round')[0] ?? outline);
}

/** The corners of all rings, and three points of each side, without those that fall out of the material when they are rounded. */
function pointsAround(region: Region): readonly Point[] {
  return [region.outer, ...region.holes].flatMap((ring) =>
    ring.flatMap((a, i) => {
      const b = ring[(i + 1) % ring.length] as Point;
      const between = [1, 2, 3].map((k) => ({
        x: Math.round(a.x + ((b.x - a.x) * k) / 4),
        y: Math.round(a.y + ((b.y - a.y) * k) / 4),
      }));
      return [a, ...between.filter((p) => isInMaterial(p, region))];
    }),
  );
}

function isInMaterial(p: Point, { outer, holes }: Region): boolean {
  return pointInRing(p, outer) >= 0 && holes.every((hole) => pointInRing(p, hole) <= 0);
}

function holds({ parts }: Form, p: Point): boolean {
  return parts.some((part) => pointInRing(p, part) >= 0);
}

function isConvex(ring: Ring): boolean {
  return ring.every((a, i) => {
    const b = ring[(i + 1) % ring.length] as Point;
    return ring.every((c) => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) >= 0);
  });
}

/** A comb of slanted teeth, two corners each. */
function comb(teeth: number): Shape {
  const tips = Array.from({ length: teeth }, (_, k): readonly [number, number][] => [
    [teeth - k, 40],
    [teeth - k - 0.5, 60],
  ]).flat();
  return polygon([0, 0], [teeth, 0], ...tips, [0, 40]);
}
