/**
 * The pieces of one sheet as the reckoning needs them: where they lie, what their cut takes, which
 * lies inside which.
 *
 * The kerf is the border that grows a piece by the cutter's diameter. Where the kerfs of two pieces
 * share ground it is open already when the second is cut, so each shared patch is kept and taken
 * off then; where four meet in a corner that takes off a few millimetres of kerf too much. A piece
 * hemmed in all round would share more than it has: its shares are scaled to what it has, so that
 * no cut closes kerf and the open kerf does not depend on the order.
 * Cost: one growing a piece and one intersection a pair of neighbours.
 */
import { regionArea } from '../geometry/area.ts';
import { intersect } from '../geometry/boolean.ts';
import { boxesOverlap, boxOf } from '../geometry/box.ts';
import { pointInRing } from '../geometry/inside.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { type Pose, placeRegion } from '../geometry/pose.ts';
import type { Region, Ring } from '../geometry/shape.ts';
import type { RouterJob } from '../model/job.ts';
import type { SheetLayout } from '../model/layout.ts';
import type { Part } from '../model/part.ts';
import { toMm, UNITS_PER_MM } from '../model/units.ts';
import { type OpenPart, openPart } from './openings.ts';

export interface LaidPiece {
  readonly piece: number;
  readonly part: Part;
  readonly pose: Pose;
  /** In the part's coordinates, the same object for all pieces of a part. */
  readonly open: OpenPart;
  /** On the sheet, with everything that goes through it. */
  readonly region: Region;
  /** Its outline with the kerf round it. */
  readonly grown: Region;
  /** Length of kerf that its outline opens. */
  readonly outlineKerfMm: number;
  /** Index in the list of the piece in whose cut-out it lies. */
  readonly host: number | null;
  /** How much of that kerf the outlines of other pieces of the list open too, by their index. */
  readonly sharedKerfMm: ReadonlyMap<number, number>;
}

/** In the order of the pieces. */
export function layPieces(job: RouterJob, sheet: SheetLayout): LaidPiece[] {
  const cutter = job.machine.cutter.diameter;
  const known = new Map<number, OpenPart>();
  const placements = sheet.placements.toSorted((a, b) => a.piece - b.piece);
  const laid = placements.map((pose) => {
    const part = job.parts[job.pieces[pose.piece]!.part]!;
    const open = known.get(part.index) ?? openPart(part);
    known.set(part.index, open);
    const region = placeRegion(open.region, pose);
    const grown = offsetRegion({ outer: region.outer, holes: [] }, cutter, 'round')[0]!;
    const kerfArea = regionArea(grown) - areaInside(region.outer);
    const outlineKerfMm = toMm(kerfArea / cutter);
    return { piece: pose.piece, part, pose, open, region, grown, outlineKerfMm };
  });
  const shared = sharedKerfs(laid, cutter);
  return laid.map((each, i) => ({ ...each, host: hostOf(laid, i), sharedKerfMm: shared[i]! }));
}

type Ground = Pick<LaidPiece, 'region' | 'grown' | 'outlineKerfMm'>;

/** For each piece, what of its kerf each other one shares. */
function sharedKerfs(laid: readonly Ground[], cutter: number): Map<number, number>[] {
  const shared = laid.map(() => new Map<number, number>());
  const boxes = laid.map(({ grown }) => boxOf(grown.outer));
  laid.forEach((a, i) => {
    for (let j = i + 1; j < laid.length; j++) {
      const b = laid[j]!;
      if (!boxesOverlap(boxes[i]!, boxes[j]!) || liesIn(a, b) || liesIn(b, a)) continue;
      const patches = intersect([a.grown], [b.grown]);
      const area = patches.reduce((sum, patch) => sum + regionArea(patch), 0);
      if (area === 0) continue;
      shared[i]!.set(j, area / cutter / UNITS_PER_MM);
      shared[j]!.set(i, area / cutter / UNITS_PER_MM);
    }
  });
  const scales = laid.map(({ outlineKerfMm }, i) => {
    const sum = [...shared[i]!.values()].reduce((a, b) => a + b, 0);
    return sum > outlineKerfMm ? outlineKerfMm / sum : 1;
  });
  return shared.map(
    (own, i) => new Map([...own].map(([j, mm]) => [j, mm * Math.min(scales[i]!, scales[j]!)])),
  );
}

/** Whether a piece lies inside the outline of another. */
function liesIn({ region }: Ground, other: Ground): boolean {
  return pointInRing(region.outer[0]!, other.region.outer) === 1;
}

/** Of several pieces around one, that with the smallest outline has it in its cut-out. */
function hostOf(laid: readonly Ground[], index: number): number | null {
  let host: number | null = null;
  laid.forEach((other, i) => {
    if (i === index || !liesIn(laid[index]!, other)) return;
    const area = areaInside(other.region.outer);
    if (host === null || area < areaInside(laid[host]!.region.outer)) host = i;
  });
  return host;
}

function areaInside(outer: Ring): number {
  return regionArea({ outer, holes: [] });
}
