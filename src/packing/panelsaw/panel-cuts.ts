// The cuts of one direction through one panel: a leading one that gives it a clean edge, those between groups of pieces, and one behind the last group.
// Idea: every strip is measured from the edge that was cut before it, so no rounding adds up. A narrow strip falls off on the free side of the blade, with
//   the rest of the panel between blade and fence, where the far edge is fit to measure from.
// Source: common practice at the saw, no source.
// Cost: one pass over the groups.
// Degenerate cases: a gap that the kerf just fills needs one cut, a wider one two; at the end of a panel the blade may run over the edge.
import { type Box, boxesOverlap, isEmptyBox } from '../../geometry/box.ts';
import type { SawCare, SawCut } from '../../model/layout.ts';
import type { PanelSaw } from '../../model/machine.ts';
import { sawnHalves, sawnLength } from '../../model/saw-panels.ts';

export type Axis = SawCut['axis'];

/** A piece by its place in the list of the sheet. */
export interface PieceBox extends Box {
  readonly index: number;
}

/** Pieces and keep-outs that no cut of some direction parts. */
export interface Group {
  readonly pieces: readonly PieceBox[];
  readonly keepOuts: readonly Box[];
}

/** Which edges of a panel are fit to measure from: cut ones, and those of a sheet without trim. */
export interface Edges {
  readonly left: boolean;
  readonly right: boolean;
  readonly bottom: boolean;
  readonly top: boolean;
}

/** Which of its sizes a panel has from a fence; the others came out as what a kerf, or the maker of the sheet, left. */
export interface Exact {
  readonly x: boolean;
  readonly y: boolean;
}

export interface CutOff {
  readonly box: Box;
  readonly edges: Edges;
  readonly exact: Exact;
  readonly group: Group;
}

export interface PanelCuts {
  readonly cuts: readonly SawCut[];
  readonly panels: readonly CutOff[];
  /** What fell off without a piece or a keep-out. */
  readonly waste: readonly Box[];
}

/** What the cuts run along, the stage, and whether the pieces have to stay where they are. */
interface Way extends Pick<SawCut, 'axis' | 'stage'> {
  readonly isFixed: boolean;
}

export function cutsOfPanel(
  panel: CutOff,
  groups: readonly Span[],
  { axis, stage, isFixed }: Way,
  saw: PanelSaw,
): PanelCuts {
  const cuts: SawCut[] = [];
  const panels: CutOff[] = [];
  const waste: Box[] = [];
  const { keepOuts } = panel.group;
  let rest: Remainder = panel;
  const cutAt = (at: number, kept: Kept): Remainder => {
    const cut = { panel: rest.box, axis, at, stage };
    const guide = guided(cut, rest, kept, saw);
    cuts.push({ ...cut, ...guide });
    const [off, left] = parted(rest, { ...cut, ...guide }, saw.kerf);
    rest = left;
    return off;
  };
  const discard = ({ box }: Remainder) => {
    if (!isEmptyBox(box) && !keepOuts.some((closed) => boxesOverlap(closed, box))) waste.push(box);
  };
  for (const [i, found] of groups.entries()) {
    const isLast = i === groups.length - 1;
    // A raw edge is yet to be trimmed.
    const isMovable = !isFixed && isLowFit(rest, axis);
    const group = isMovable ? moved(found, axis, lowOf(rest.box, axis) - found.low) : found;
    if (group.low > lowOf(rest.box, axis)) discard(cutAt(group.low - saw.kerf, 'high'));
    if (isLast && group.high === highOf(rest.box, axis)) panels.push({ ...rest, group });
    else {
      panels.push({ ...cutAt(group.high, isLast ? 'low' : 'both'), group });
      if (isLast) discard(rest);
    }
  }
  return { cuts, panels, waste };
}

export type Remainder = Omit<CutOff, 'group'>;

/** On which side of a cut there are pieces. */
type Kept = 'low' | 'high' | 'both';

/** A group and what it spans across the direction of the cuts. */
export interface Span extends Group {
  readonly low: number;
  readonly high: number;
}

/** The groups that cuts along the axis can part, in their order; keep-outs without a piece beside them are no group. */
export function groupsOf({ pieces, keepOuts }: Group, axis: Axis, kerf: number): readonly Span[] {
  const items: readonly (Box | PieceBox)[] = [...pieces, ...keepOuts].sort(
    (a, b) => lowOf(a, axis) - lowOf(b, axis),
  );
  const groups: { pieces: PieceBox[]; keepOuts: Box[]; low: number; high: number }[] = [];
  for (const box of items) {
    const [low, high] = [lowOf(box, axis), highOf(box, axis)];
    const last = groups.at(-1);
    if (last === undefined || low >= last.high + kerf)
      groups.push({ pieces: [], keepOuts: [], low, high });
    const group = groups.at(-1)!;
    group.high = Math.max(group.high, high);
    if ('index' in box) group.pieces.push(box);
    else group.keepOuts.push(box);
  }
  return groups.filter((group) => group.pieces.length > 0);
}

/** A gap that is wider than a kerf would need a cut of its own, so what lies behind it moves up. */
function moved({ pieces, keepOuts, low, high }: Span, axis: Axis, by: number): Span {
  const shift = (piece: PieceBox): PieceBox =>
    axis === 'x'
      ? { ...piece, minY: piece.minY + by, maxY: piece.maxY + by }
      : { ...piece, minX: piece.minX + by, maxX: piece.maxX + by };
  return {
    pieces: by === 0 ? pieces : pieces.map(shift),
    keepOuts,
    low: low + by,
    high: high + by,
  };
}

/** Which side lies against the fence, and what to be careful of. */
function guided(
  { panel, axis, at }: Pick<SawCut, 'panel' | 'axis' | 'at'>,
  { edges, exact }: Remainder,
  kept: Kept,
  { kerf, leastFeed }: PanelSaw,
): Pick<SawCut, 'fence' | 'care'> {
  const sizes = { low: at - lowOf(panel, axis), high: highOf(panel, axis) - at - kerf };
  const along = sawnLength({ panel, axis });
  const isHighFit = axis === 'x' ? edges.top : edges.right;
  const isTight = sizes.low < leastFeed.width && sizes.high >= leastFeed.width;
  const isExact = axis === 'x' ? exact.y : exact.x;
  const isTurned =
    isHighFit && ((isTight && isExact) || (kept === 'both' && !isLowFit({ edges }, axis)));
  const fence = kept === 'high' || isTurned ? 'high' : 'low';
  const isSmall = (size: number) =>
    Math.min(size, along) < leastFeed.width || Math.max(size, along) < leastFeed.length;
  const keptSizes = kept === 'both' ? [sizes.low, sizes.high] : [sizes[kept]];
  const care: SawCare[] = keptSizes.some(isSmall) ? ['small'] : [];
  if (sizes[fence] < leastFeed.width) care.push('trapped');
  if (along < leastFeed.width) care.push('short');
  return { fence, care };
}

/** What a cut takes off on the low side, and what is left beyond the kerf. */
export function parted(
  { edges, exact }: Remainder,
  cut: Pick<SawCut, 'panel' | 'axis' | 'at' | 'fence'>,
  kerf: number,
): readonly [Remainder, Remainder] {
  const { low, high } = sawnHalves(cut, kerf);
  const isLow = cut.fence === 'low';
  const isAlongX = cut.axis === 'x';
  const exactWith = (isExact: boolean): Exact =>
    isAlongX ? { ...exact, y: isExact } : { ...exact, x: isExact };
  const lowEdges = isAlongX ? { ...edges, top: true } : { ...edges, right: true };
  const highEdges = isAlongX ? { ...edges, bottom: true } : { ...edges, left: true };
  return [
    { box: low, edges: lowEdges, exact: exactWith(isLow) },
    { box: high, edges: highEdges, exact: exactWith(!isLow) },
  ];
}

function isLowFit({ edges }: Pick<Remainder, 'edges'>, axis: Axis): boolean {
  return axis === 'x' ? edges.bottom : edges.left;
}

export function lowOf({ minX, minY }: Box, axis: Axis): number {
  return axis === 'x' ? minY : minX;
}

export function highOf({ maxX, maxY }: Box, axis: Axis): number {
  return axis === 'x' ? maxY : maxX;
}
