/**
 * Areas sunk to depths, some over others: what lies how deep in the end.
 *
 * The deepest areas keep all of theirs, each shallower depth what the deeper ones leave of it.
 * Source: our own. Cost: three operations on polygons for each depth.
 * Degenerate: areas of one depth are united, and a depth of which nothing is left has no terrace.
 */
import { regionArea } from './area.ts';
import { intersect, subtract, unite } from './boolean.ts';
import type { Region } from './shape.ts';

export interface Sunk {
  readonly region: Region;
  readonly depth: number;
}

/** Regions that do not overlap, all of one depth. */
export interface Terrace {
  readonly regions: readonly Region[];
  readonly depth: number;
}

/** The deepest first; only what lies within `ground` counts. */
export function terracesOf(sunk: readonly Sunk[], ground: Region): Terrace[] {
  const depths = [...new Set(sunk.map(({ depth }) => depth))].sort((a, b) => b - a);
  let taken: Region[] = [];
  return depths.flatMap((depth): Terrace[] => {
    const own = sunk.filter((each) => each.depth === depth).map(({ region }) => region);
    const regions = subtract(intersect(unite(own), [ground]), taken);
    taken = unite([...taken, ...regions]);
    return regions.length === 0 ? [] : [{ regions, depth }];
  });
}

export function terraceArea({ regions }: Terrace): number {
  return regions.reduce((sum, region) => sum + regionArea(region), 0);
}
