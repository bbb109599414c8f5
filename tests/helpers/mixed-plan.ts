import type { Plan } from '../../src/model/plan.ts';
import { routerJobOf } from '../partsfile/reading.ts';
import { type LaidByHand, laidPlan } from './laid-plan.ts';

/** A sheet of true shapes in either unit. */
export function mixedPlan(unit: 'mm' | 'in'): Plan {
  return laidPlan(routerJobOf(inUnit(MIXED(unit))), LAID);
}

/** Curves, nested pieces, turned by 15 degrees, mirrored ones, holes of three kinds, an odd-shaped sheet; in either unit. */
const MIXED = (unit: 'mm' | 'in') => `job: Mixed
unit: ${unit}
machine: { cutter: { diameter: 6mm }, spacing: 8mm }
materials:
  ply:
    thickness: 18mm
    family: plywood
    sheets: [{ size: 1800mm x 1000mm, trim: 10mm, keep-out: [{ at: [0, 0], size: 100mm x 60mm, why: knot }] }]
parts:
  - { name: Ring, material: ply, shape: disc, diameter: 500mm, cut-outs: [{ at: [250mm, 250mm], diameter: 330mm }], nest-inside: yes }
  - { name: Rail, material: ply, path: M0 0 H600 V80 A900 900 0 0 0 0 80 Z, count: 3, turns: any, face: either,
      holes: [{ at: [50mm, 40mm], diameter: 8mm }, { row: 3, pitch: 32mm, from: [200mm, 66mm], along: length, diameter: 5mm, depth: 12.5mm }] }
  - { name: Window, material: ply, size: 300mm x 240mm, cut-outs: [{ at: [60mm, 60mm], size: 120mm x 100mm, radius: 12mm }], turns: any,
      pockets: [{ at: [0, 200mm], size: 300mm x 18mm, depth: 6mm }, { at: [250mm, 100mm], diameter: 35mm, depth: 12.5mm }] }
  - { name: Knob, material: ply, shape: rounded, size: 60mm x 40mm, radius: 9mm, count: 2, face: either, turns: any }
  - { name: Hook, material: ply, points: [[0, 0], [160mm, 0], [160mm, 40mm], [40mm, 40mm], [40mm, 120mm], [0, 120mm]], count: 3, face: either, turns: any }
`;

/** One ring with a knob inside it, and every other kind of piece lying, turned and mirrored. */
const LAID: readonly LaidByHand[] = [
  ['Knob', 240, 420, 15],
  ['Ring', 20, 200],
  ['Rail', 540, 20],
  ['Rail', 540, 130, 90],
  ['Rail', 640, 130, 345, true],
  ['Window', 1260, 20, 30],
  ['Hook', 20, 720],
  ['Hook', 200, 720, 180, true],
  ['Hook', 700, 780, 105, true],
  ['Knob', 130, 90, 60, false],
];

/** Path text has no units: what stands in it is in those of the file. */
function inUnit(text: string): string {
  if (!text.includes('unit: in')) return text;
  return text.replace(/path: [^,]*/, (path) =>
    path.replace(/[\d.]{2,}/g, (number) => `${Number(number) / 25.4}`),
  );
}
