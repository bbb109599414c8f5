import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout, Placement, SheetLayout } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';
import { usableBox } from '../../src/model/stock.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../../src/model/units.ts';
import { cutSequence } from '../../src/packing/panelsaw/cut-sequence.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { planOf } from './plan-of.ts';

/** A piece of the part of this name with its lower left corner at a place in the unit of the file. */
export type SawnPiece = readonly [name: string, x: number, y: number, turn?: number];

/** A plan of a parts file for a saw whose only material is laid out as given; the cuts are those of the product. Pieces may be left out. */
export function sawnPlan(
  text: string,
  sheets: readonly (readonly SawnPiece[])[],
  changes: Partial<Layout> = {},
): Plan {
  const { job } = readPartsFile(text, () => ({ ok: false, reason: 'missing', detail: '' }));
  if (job === null) throw new Error('no job');
  const counts = new Map<string, number>();
  const layout: Layout = {
    material: 0,
    objective: 'sheets',
    status: 'proved',
    used: sheets.length,
    bound: { atLeast: sheets.length, provedBy: 'area' },
    sheets: sheets.map((pieces) => laySheet(job, pieces, counts)),
    boards: [],
    unplaced: [],
    unplacedLengths: [],
    ...changes,
  };
  const fault = verifyLayout(job, layout).faults.find(({ code }) => code !== 'missing');
  if (fault !== undefined) throw new Error(fault.message);
  return planOf(job, layout);
}

function laySheet(
  job: Job,
  pieces: readonly SawnPiece[],
  counts: Map<string, number>,
): SheetLayout {
  if (job.machine.kind === 'router') throw new Error('no saw');
  const stock = job.materials[0]!.sheets[0]!;
  const scale = job.unit === 'mm' ? UNITS_PER_MM : UNITS_PER_INCH;
  const placements = pieces.map(([name, x, y, turn = 0]): Placement => {
    const nth = counts.get(name) ?? 0;
    counts.set(name, nth + 1);
    const piece = job.pieces.filter(({ part }) => job.parts[part]!.name === name)[nth]!;
    const pose = { x: 0, y: 0, turn, mirrored: false };
    const { minX, minY } = boxOfShape(placeShape(job.parts[piece.part]!.shape, pose));
    const at = (place: number, low: number) => Math.round(place * scale) - low;
    return { ...pose, piece: piece.index, x: at(x, minX), y: at(y, minY) };
  });
  const found = cutSequence(
    {
      sheet: { minX: 0, minY: 0, maxX: stock.length, maxY: stock.width },
      usable: usableBox(stock),
      pieces: placements.map((placement) =>
        boxOfShape(placeShape(job.parts[job.pieces[placement.piece]!.part]!.shape, placement)),
      ),
      keepOuts: stock.keepOuts.map(({ box }) => box),
      isFixed: true,
    },
    job.machine,
  );
  if (found === null) throw new Error('no sequence');
  return { stock: 0, placements, cuts: found.cuts };
}

/** Sides, shelves, narrow kicks and an arched rail on four sheets, the first three alike, cut two at a time. Invented. */
export const CHEST = `job: Tool chest
unit: mm
currency: EUR
machine: { kind: panel-saw, kerf: 3.2, stages: 3, first-cut: along, stack: 40 }
materials:
  birch18:
    name: Birch plywood 18 mm
    family: plywood
    thickness: 18
    sheets:
      - { size: 2440 x 1220, price: 92.00, trim: 10, keep-out: [{ at: [2240, 1000], size: 200 x 220, why: broken corner }] }
parts:
  - { name: Side, material: birch18, size: 1800 x 300, count: 4, grain: along }
  - { name: Shelf, material: birch18, size: 764 x 280, count: 8, grain: along }
  - { name: Kick, material: birch18, size: 764 x 80, count: 4 }
  - { name: Arched rail, material: birch18, points: [[0, 0], [400, 0], [400, 60], [200, 100], [0, 60]], count: 3 }
`;

const ALIKE: readonly SawnPiece[] = [
  ['Side', 10, 10],
  ['Shelf', 10, 313.2],
  ['Shelf', 777.2, 313.2],
  ['Kick', 1544.4, 313.2],
  ['Arched rail', 1813.2, 10],
];

export function chestPlan(): Plan {
  return sawnPlan(CHEST, [
    ALIKE,
    ALIKE,
    ALIKE,
    [
      ['Side', 10, 10],
      ['Shelf', 10, 313.2],
      ['Kick', 10, 596.4],
      ['Shelf', 777.2, 313.2],
    ],
  ]);
}

/** A file in inches, without trim, on one sheet. Invented. */
export const CRATE = `job: Crate
unit: in
machine: { kind: panel-saw, kerf: 1/8, first-cut: across, least-feed: 4 x 8 }
materials:
  ply: { family: plywood, thickness: 3/4, sheets: [{ size: 96 x 48 }] }
parts:
  - { name: End, material: ply, size: 15-3/8 x 11.3, count: 2 }
  - { name: Slat, material: ply, size: 48 x 3-1/2, count: 3, grain: across }
  - { name: Base, material: ply, size: 30 x 48, count: 1, grain: along }
`;

export function cratePlan(): Plan {
  return sawnPlan(CRATE, [
    [
      ['Base', 0, 0],
      ['Slat', 30.125, 0, 90],
      ['Slat', 33.75, 0, 90],
      ['Slat', 37.375, 0, 90],
      ['End', 41, 0],
      ['End', 41, 11.425],
    ],
  ]);
}
