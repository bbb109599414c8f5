// In which order, and where, a saw parts the pieces of a sheet, every cut from edge to edge of the panel in hand.
// Idea: pieces that no cut of one direction can part stay together; cutting everywhere else in that direction gives panels that are then cut the other
//   way, and so on. The first direction is the one that leaves the larger leftover, then the one with fewer stages, then with fewer cuts.
// Source: cutting as often as possible in one direction never needs more stages than another way, because a part of a layout is never harder to cut
//   than all of it; that the settings count from the edge cut last is common practice, no source.
// Cost: the pieces of every panel are sorted, stage by stage.
// Degenerate cases: pieces that no saw can part: null; a piece that is its panel needs no cut; waste thinner than the kerf goes to dust.
import { type Box, boxArea, isEmptyBox, sameBox } from '../../geometry/box.ts';
import type { SawCut } from '../../model/layout.ts';
import type { PanelSaw } from '../../model/machine.ts';
import { sawnLength } from '../../model/saw-panels.ts';
import {
  type Axis,
  type CutOff,
  cutsOfPanel,
  type Edges,
  groupsOf,
  highOf,
  lowOf,
  parted,
  type Remainder,
} from './panel-cuts.ts';

/** What the cuts have to part, and to go round. */
export interface SheetContent {
  readonly sheet: Box;
  /** Inside the trimmed edges; an edge with a trim is cut before anything else. */
  readonly usable: Box;
  readonly pieces: readonly Box[];
  /** Places that no cut crosses but one that trims an edge; they stay in the waste. */
  readonly keepOuts: readonly Box[];
  /** Whether every piece has to stay where it is; else gaps are closed up. */
  readonly isFixed: boolean;
}

export interface CutSequence {
  readonly cuts: readonly SawCut[];
  /** How often the direction changes, trimming to size not counted. */
  readonly stages: number;
  /** What falls off and has neither a piece nor a keep-out on it. */
  readonly leftovers: readonly Box[];
  /** The pieces where they lie now. */
  readonly pieces: readonly Box[];
}

/** Null where the pieces cannot be parted within the limits of the saw. */
export function cutSequence(content: SheetContent, saw: PanelSaw): CutSequence | null {
  const { firstCut, stages } = saw;
  const axes: readonly Axis[] = firstCut === null ? ['x', 'y'] : [firstCut === 'along' ? 'x' : 'y'];
  const able = axes
    .map((axis) => safestFrom(content, axis, saw))
    .filter((found) => found !== null)
    .filter((found) => stages === null || found.stages <= stages);
  return able.reduce<CutSequence | null>(
    (best, found) => (best === null || isBetter(found, best) ? found : best),
    null,
  );
}

function isBetter(a: CutSequence, b: CutSequence): boolean {
  const more = largest(a.leftovers) - largest(b.leftovers);
  if (more !== 0) return more > 0;
  return a.stages === b.stages ? a.cuts.length < b.cuts.length : a.stages < b.stages;
}

/** The area of the largest of some boxes. */
export function largest(boxes: readonly Box[]): number {
  return boxes.reduce((most, box) => Math.max(most, boxArea(box)), 0);
}

/** Where narrow pieces are measured from a far edge with a trim, that edge is worth a cut of its own. */
function safestFrom(content: SheetContent, axis: Axis, saw: PanelSaw): CutSequence | null {
  const plain = sequenceFrom(content, axis, saw, false);
  if (plain === null || trappedCount(plain) === 0) return plain;
  const trimmed = sequenceFrom(content, axis, saw, true);
  return trimmed !== null && trappedCount(trimmed) < trappedCount(plain) ? trimmed : plain;
}

function trappedCount({ cuts }: CutSequence): number {
  return cuts.filter(({ care }) => care.includes('trapped')).length;
}

/** A panel that waits to be cut. */
interface Panel extends CutOff {
  readonly axis: Axis;
  readonly stage: number;
  /** Whether the other direction had nothing to cut. */
  readonly isStuck: boolean;
}

function sequenceFrom(
  content: SheetContent,
  axis: Axis,
  saw: PanelSaw,
  isAllTrimmed: boolean,
): CutSequence | null {
  const cuts: SawCut[] = [];
  const leftovers: Box[] = [];
  const pieces = [...content.pieces];
  let stages = 0;
  const cut = (panel: Panel): boolean => {
    const { box, group, stage } = panel;
    if (group.pieces.length === 0) {
      if (group.keepOuts.length === 0) leftovers.push(box);
      return true;
    }
    const [first] = group.pieces;
    if (group.pieces.length === 1 && sameBox(first!, box)) {
      pieces[first!.index] = box;
      return true;
    }
    const groups = groupsOf(group, panel.axis, saw.kerf);
    const way = { axis: panel.axis, stage, isFixed: content.isFixed };
    const made = cutsOfPanel(panel, groups, way, saw);
    if (made.cuts.length === 0 && panel.isStuck) return false;
    if (!made.cuts.every((one) => isShort(one, saw))) return false;
    if (groups.length > 1) stages = Math.max(stages, stage);
    cuts.push(...made.cuts);
    leftovers.push(...made.waste);
    return made.panels.every((part) =>
      cut({
        ...part,
        axis: panel.axis === 'x' ? 'y' : 'x',
        stage: made.cuts.length === 0 ? stage : stage + 1,
        isStuck: made.cuts.length === 0,
      }),
    );
  };
  const trimmed = trimSheet(content, axis, saw, isAllTrimmed);
  cuts.push(...trimmed.cuts);
  const group = {
    pieces: content.pieces.map((piece, index) => ({ ...piece, index })),
    keepOuts: within(content.keepOuts, trimmed.box),
  };
  return cut({ ...trimmed, group, axis, stage: 1, isStuck: false })
    ? { cuts, stages, leftovers, pieces }
    : null;
}

/** The left and lower edge are cut before anything else where they have a trim, or all four; a cut too long for the saw is left to the panels. */
function trimSheet(
  { sheet, usable }: SheetContent,
  first: Axis,
  saw: PanelSaw,
  isAllTrimmed: boolean,
) {
  const order = first === 'x' ? (['x', 'y'] as const) : (['y', 'x'] as const);
  const trims = [
    ...order.map((axis) => ({ axis, fence: 'high' as const, at: lowOf(usable, axis) - saw.kerf })),
    ...order.map((axis) => ({ axis, fence: 'low' as const, at: highOf(usable, axis) })),
  ].slice(0, isAllTrimmed ? 4 : 2);
  const cuts: SawCut[] = [];
  // A sheet is seldom as large to the tenth as it is sold.
  const exact = { x: false, y: false };
  let rest: Remainder = { box: sheet, edges: rawEdges(sheet, usable), exact };
  for (const { axis, fence, at } of trims) {
    const isLow = fence === 'high';
    const isTrimmed = isLow
      ? lowOf(usable, axis) > lowOf(sheet, axis)
      : highOf(usable, axis) < highOf(sheet, axis);
    const cut: SawCut = { panel: rest.box, axis, at, fence, stage: 1, care: [] };
    if (!isTrimmed || !isShort(cut, saw)) continue;
    cuts.push(cut);
    const [low, high] = parted(rest, cut, saw.kerf);
    rest = isLow ? high : low;
  }
  return { cuts, ...rest };
}

function rawEdges(sheet: Box, usable: Box): Edges {
  return {
    left: usable.minX === sheet.minX,
    right: usable.maxX === sheet.maxX,
    bottom: usable.minY === sheet.minY,
    top: usable.maxY === sheet.maxY,
  };
}

function isShort(cut: SawCut, { longestRip, longestCrosscut }: PanelSaw): boolean {
  const most = cut.axis === 'x' ? longestRip : longestCrosscut;
  return most === null || sawnLength(cut) <= most;
}

function within(boxes: readonly Box[], { minX, minY, maxX, maxY }: Box): readonly Box[] {
  return boxes
    .map((box) => ({
      minX: Math.max(box.minX, minX),
      minY: Math.max(box.minY, minY),
      maxX: Math.min(box.maxX, maxX),
      maxY: Math.min(box.maxY, maxY),
    }))
    .filter((box) => !isEmptyBox(box));
}
