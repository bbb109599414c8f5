// Tells apart what of a sheet is neither pieces, offcuts, kerf nor trim: bad places, the skeleton, and what comes loose.
// Idea: the sheet less all outlines grown by the cutter falls into islands. The largest one, and any of a square foot or more, is skeleton: it still holds
//   together when all is cut. The rest is loose, the insides of cut-outs as well. At a saw every cut goes through, so nothing is skeleton.
// Source: the rule for the skeleton is that of the hold-down; areas by Boolean operations of polygons.
// Where we differ: what is too small to fly is left out there and counts as loose waste here, so that the sheet adds up.
// Cost: three polygon operations a sheet.
// Degenerate cases: what rounding leaves over is loose waste; without waste all three are 0.
import { regionArea } from '../geometry/area.ts';
import { intersect, subtract } from '../geometry/boolean.ts';
import type { Box } from '../geometry/box.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { boxRegion, type Region } from '../geometry/shape.ts';
import type { SheetCosts } from '../model/costs.ts';
import { type SheetStock, sheetRing } from '../model/stock.ts';
import { toMm2 } from '../model/units.ts';

/** Islands of the skeleton that are at least this large hold together by themselves. */
export const LEAST_SKELETON_MM2 = 92_903;

export interface CutSheet {
  readonly stock: SheetStock;
  /** What lies inside the trimmed edges. */
  readonly usable: readonly Region[];
  /** What the pieces take with their kerf, or the kerf alone at a saw. */
  readonly swept: readonly Region[];
  /** The outlines of the pieces; none at a saw, where no skeleton is left. */
  readonly outlines: readonly Region[];
  readonly cutter: number;
  readonly offcuts: readonly Box[];
  /** What is to be told apart. */
  readonly wasteMm2: number;
}

export type WasteKinds = Pick<SheetCosts, 'keepOutAreaMm2' | 'skeletonAreaMm2' | 'looseAreaMm2'>;

/** The three add up to the waste. */
export function wasteKinds(sheet: CutSheet): WasteKinds {
  const { stock, usable, swept, outlines, offcuts } = sheet;
  const wasteMm2 = Math.max(0, sheet.wasteMm2);
  const bad = stock.keepOuts.map(({ box }) => boxRegion(box));
  const badMm2 = bad.length === 0 ? 0 : areaMm2(subtract(intersect(bad, usable), swept));
  const keepOutAreaMm2 = Math.min(wasteMm2, badMm2);
  const taken = [...offcuts.map(boxRegion), ...bad];
  const firm = outlines.length === 0 ? [] : firmIslands(sheet);
  const heldMm2 = areaMm2(subtract(intersect(firm, usable), taken));
  const skeletonAreaMm2 = Math.min(wasteMm2 - keepOutAreaMm2, heldMm2);
  return {
    keepOutAreaMm2,
    skeletonAreaMm2,
    looseAreaMm2: wasteMm2 - keepOutAreaMm2 - skeletonAreaMm2,
  };
}

/** What a piece lies in the cut-out of is grown over, so that the inside of a cut-out is never skeleton. */
function firmIslands({ stock, outlines, cutter }: CutSheet): readonly Region[] {
  const grown = outlines.flatMap(({ outer }) =>
    offsetRegion({ outer, holes: [] }, cutter, 'mitre'),
  );
  const islands = subtract([{ outer: sheetRing(stock), holes: [] }], grown);
  const largest = Math.max(0, ...islands.map(regionArea));
  return islands.filter((island) => {
    const area = regionArea(island);
    return area === largest || toMm2(area) >= LEAST_SKELETON_MM2;
  });
}

function areaMm2(regions: readonly Region[]): number {
  return toMm2(regions.reduce((sum, region) => sum + regionArea(region), 0));
}
