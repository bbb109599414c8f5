import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Shape } from '../../src/geometry/shape.ts';
import { sheetSvg } from '../../src/index.ts';
import { numberedSheets, type Plan } from '../../src/model/plan.ts';
import { toMm } from '../../src/model/units.ts';
import { contourAreaMm2 } from '../helpers/exact-area.ts';
import { mixedPlan } from '../helpers/mixed-plan.ts';
import { offcutPlan, samplePlan, smallPlan } from '../helpers/sample-plan.ts';
import { jobOf } from '../partsfile/reading.ts';

const PLANS: readonly (readonly [string, Plan])[] = [
  ['the sample', samplePlan()],
  ['the small plan', smallPlan()],
  ['the offcut', offcutPlan()],
  ['true shapes, turned and mirrored', mixedPlan('mm')],
  ['true shapes of a file in inches', mixedPlan('in')],
];

interface PieceGroup {
  readonly titles: readonly string[];
  /** The data of the first path, which is the body of the piece. */
  readonly path: string;
  /** Centre and diameter of each circle. */
  readonly circles: readonly (readonly [number, number, number])[];
}

interface Head {
  readonly width: string;
  readonly height: string;
  readonly viewBox: string;
}

/** What stands in the group of each piece, by the number of the piece. */
function pieceGroups(svg: string): { head: Head; groups: ReadonlyMap<number, PieceGroup> } {
  const groups = new Map<
    number,
    { titles: string[]; path: string; circles: [number, number, number][] }
  >();
  const open: (number | null)[] = [];
  const parser = new SaxesParser({ xmlns: false });
  let head: Head = { width: '', height: '', viewBox: '' };
  let inTitle = false;
  const current = () => groups.get(open.findLast((each) => each !== null) ?? -1);
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const at = attributes as Readonly<Record<string, string>>;
    if (name === 'svg') head = at as unknown as Head;
    inTitle = name === 'title';
    if (name === 'g') {
      const piece = /-piece-(\d+)$/.exec(at.id ?? '')?.[1];
      open.push(piece === undefined ? null : Number(piece));
      if (piece !== undefined) groups.set(Number(piece), { titles: [], path: '', circles: [] });
    }
    const group = current();
    if (group !== undefined && name === 'path' && group.path === '') group.path = at.d!;
    if (group !== undefined && name === 'circle')
      group.circles.push([Number(at.cx), -Number(at.cy), 2 * Number(at.r)]);
  });
  parser.on('text', (text) => {
    if (inTitle && text.trim() !== '') current()?.titles.push(text);
  });
  parser.on('closetag', ({ name }) => {
    if (name === 'g') open.pop();
    inTitle = false;
  });
  parser.write(svg).close();
  return { head, groups };
}

/** The path as this tool's own reader of drawings takes it, in a picture of the same unit and place. */
function readBack(path: string, { width, height, viewBox }: Head): Shape {
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="${viewBox}"><path d="${path}"/></svg>`;
  const text = `unit: mm
materials: { ply: { thickness: 18, family: plywood, sheets: [{ size: 4000 x 4000 }] } }
parts: [{ name: Back, material: ply, outline: back.svg }]
`;
  return jobOf(text, { 'back.svg': drawing }).parts[0]!.shape;
}

describe.each(PLANS)('an SVG of %s', (_, plan) => {
  const sheets = numberedSheets(plan.layouts).map(({ number, sheet }) => ({
    ...pieceGroups(sheetSvg(plan, number)),
    placements: sheet.placements,
  }));

  it('has one group for each piece, with one title', () => {
    for (const { groups, placements } of sheets) {
      expect([...groups.keys()].sort((a, b) => a - b)).toEqual(
        placements.map(({ piece }) => piece).sort((a, b) => a - b),
      );
      for (const { titles } of groups.values()) expect(titles).toHaveLength(1);
    }
  });

  it('read as a drawing gives the outlines and cut-outs again', () => {
    for (const { groups, head, placements } of sheets) {
      for (const placement of placements) {
        const part = plan.job.parts[plan.job.pieces[placement.piece]!.part]!;
        const back = readBack(groups.get(placement.piece)!.path, head);
        const placed = boxOfShape(placeShape(part.shape, placement));
        const box = boxOfShape(back);
        // A thousandth of a millimetre: the radius of an arc has four digits as its ends have.
        expect(Math.abs(toMm(box.maxX) - toMm(placed.maxX - placed.minX))).toBeLessThan(0.001);
        expect(Math.abs(toMm(box.maxY) - toMm(placed.maxY - placed.minY))).toBeLessThan(0.001);
        expect(back.inner).toHaveLength(part.shape.inner.length);
        const areas = ({ outer, inner }: Shape) => [outer, ...inner].map(contourAreaMm2);
        areas(back).forEach((area, i) => {
          expect(Math.abs(area - areas(part.shape)[i]!)).toBeLessThan(0.5);
        });
      }
    }
  });

  it('has the body where the piece lies, and its holes', () => {
    for (const { groups, placements } of sheets) {
      for (const placement of placements) {
        const part = plan.job.parts[plan.job.pieces[placement.piece]!.part]!;
        const { path, circles } = groups.get(placement.piece)!;
        const [, x, y] = /^M(\S+) (\S+)/.exec(path)!;
        const start = placeShape(part.shape, placement).outer[0]!;
        expect([Number(x), -Number(y)]).toEqual([
          expect.closeTo(toMm(start.x), 4),
          expect.closeTo(toMm(start.y), 4),
        ]);
        const diameters = part.holes.map(({ diameter }) => toMm(diameter)).sort();
        for (const diameter of diameters)
          expect(circles.some((circle) => Math.abs(circle[2] - diameter) < 1e-3)).toBe(true);
      }
    }
  });

  it('is one unit of its coordinates to the millimetre', () => {
    for (const { head } of sheets) {
      const [, , width, height] = head.viewBox.split(' ');
      expect([head.width, head.height]).toEqual([`${width}mm`, `${height}mm`]);
    }
  });
});
