import { regionArea, ringArea } from '../geometry/area.ts';
import { boxArea } from '../geometry/box.ts';
import { CHECKING_CHORD_ERROR, flattenShape } from '../geometry/flatten.ts';
import type { Job } from '../model/job.ts';
import { sheetRing, usableBox } from '../model/stock.ts';

/** So much of a sheet that sums in doubles cannot reach it by their rounding alone. */
const ROUNDING = 1e-9;

/**
 * The number of sheets and boards that no layout of a material goes under, by the plainest reason there is: the area of the pieces over that of the largest sheet
 * inside its trimmed edges, and the length of the pieces over that of the longest board. Zero where offcuts from the rack, which count as nothing, could take pieces.
 */
export function plainBound(job: Job, material: number): number {
  const { sheets, boards } = job.materials[material]!;
  if (sheets.some(({ rack }) => rack !== null)) return 0;
  const areas = job.parts
    .filter((part) => part.material === material)
    .map(
      ({ shape, index }) =>
        regionArea(flattenShape(shape, 'inside', CHECKING_CHORD_ERROR)) *
        job.pieces.filter(({ part }) => part === index).length,
    );
  const lengths = job.lengthParts
    .filter((part) => part.material === material)
    .map(({ length, count }) => length * count);
  const largest = sheets.map((stock) =>
    Math.min(boxArea(usableBox(stock)), ringArea(sheetRing(stock))),
  );
  const longest = boards.map(({ length, endTrim }) => length - 2 * endTrim);
  return fewest(areas, largest) + fewest(lengths, longest);
}

/** How many of the largest at least hold all of the parts. */
function fewest(parts: readonly number[], wholes: readonly number[]): number {
  const needed = parts.reduce((sum, part) => sum + part, 0);
  if (needed === 0) return 0;
  return Math.ceil(needed / Math.max(...wholes) - ROUNDING);
}
