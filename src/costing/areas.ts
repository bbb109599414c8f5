import { regionArea, ringLength } from '../geometry/area.ts';
import { DRAWING_CHORD_ERROR, flattenShape } from '../geometry/flatten.ts';
import type { Region } from '../geometry/shape.ts';
import type { Part } from '../model/part.ts';
import type { Material } from '../model/stock.ts';
import { toMm, toMm2 } from '../model/units.ts';

/** Square millimetres of one piece as cut, cut-outs taken off; drilled holes still count as material. */
export function pieceAreaMm2(part: Part): number {
  return toMm2(regionArea(flattenShape(part.shape, 'curve', DRAWING_CHORD_ERROR)));
}

/** Kilograms of `areaMm2` of a material, from its thickness and density, less what was taken out of it. */
export function weightKg(
  areaMm2: number,
  { thickness, densityKgPerM3 }: Material,
  takenMm3 = 0,
): number {
  return (areaMm2 * toMm(thickness) - takenMm3) * 1e-9 * densityKgPerM3;
}

/** Outer and inner contours together. */
export function contourLengthMm({ outer, holes }: Region): number {
  return holes.reduce((total, hole) => total + toMm(ringLength(hole)), toMm(ringLength(outer)));
}
