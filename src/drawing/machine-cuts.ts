// What is cut on a sheet, for a machine: pockets, holes, cut-outs and outlines in the order of the plan, waste to be cleared before it comes free,
// tabs as marks or as gaps, and where clamps stand.
// Idea: a gap is longer than its tab by the width of the cutter, because a cutter that stops at the end of a run reaches half its width beyond it;
//   so long it is where the middle of the cutter runs, to the right of outlines and cut-outs, which have the piece on their left, and inside holes.
// Source: our own.
// Cost: all sides times tabs, and corners of openings times pieces of waste.
// Degenerate cases: gaps that would leave nothing of a contour are drawn as marks. A strip of waste hangs on the outline nearest to its tab.
//   Waste with a piece inside is not put among what is cleared, as the piece would be cleared with it.
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { pointInRing } from '../geometry/inside.ts';
import { placeContour, placePoint } from '../geometry/pose.ts';
import { type Contour, circle } from '../geometry/shape.ts';
import {
  adviceOf,
  type ContourStep,
  type CutStep,
  type Holding,
  type Tab,
} from '../model/holding.ts';
import { cutWidth } from '../model/machine.ts';
import type { LayerClass, LayerValues } from '../model/machine-layers.ts';
import { toMm } from '../model/units.ts';
import {
  circleLoop,
  circleOf,
  contourLoop,
  type Loop,
  nearestOn,
  type OnLoop,
  runsBetween,
} from './loops.ts';
import {
  boxShape,
  type Classed,
  lineShape,
  type MachineShape,
  ringShape,
} from './machine-shapes.ts';
import { drawnPoint } from './outline.ts';
import type { LaidPiece, LaidWaste, SheetView } from './sheet-view.ts';

/** Contours in the order of the steps; where there are none, as at a saw, piece by piece from the inside out. Then clamps and marks of tabs. */
export function machineCuts(view: SheetView, steps: readonly CutStep[]): readonly Classed[] {
  const contours = inOrder(
    view.pieces.flatMap((laid) => contoursOf(view, laid)),
    steps,
  );
  const clearing = view.waste.filter((waste) => isCleared(view, waste));
  const ofSlivers = tabsOfSlivers(view, contours);
  const drawn = contours.map((contour) => {
    const own = contour.freed.flatMap(({ tabs }) => tabs);
    return drawContour(view, contour, [...own, ...(ofSlivers.get(contour) ?? [])]);
  });
  const cuts = contours.flatMap((contour, i) => [
    ...clearing
      .filter((waste) => freeingCut(contours, waste) === contour)
      .map(({ outline }): Classed => ({ class: 'clear', shape: ringShape(outline) })),
    ...drawn[i]!.cuts,
  ]);
  const clamps = [...view.pieces, ...view.waste].flatMap(({ holding }) => holding?.clamp ?? []);
  return [
    ...cuts,
    ...clamps.map((box): Classed => ({ class: 'clamp', shape: boxShape(box) })),
    ...drawn.flatMap(({ marks }) => marks),
  ];
}

interface LayerChoice {
  readonly class: LayerClass;
  readonly values: LayerValues;
}

/** One thing that the cutter, or a drill, goes round or into, and what comes free by it. */
interface CutContour extends LayerChoice {
  readonly step: ContourStep;
  readonly loop: Loop;
  readonly freed: readonly Holding[];
}

function contoursOf(view: SheetView, laid: LaidPiece): readonly CutContour[] {
  const { part, placement, shape, piece, holding } = laid;
  const slugs = view.waste.filter(({ holding: own }) => own.piece === piece.index);
  const holes = part.holes.map(({ x, y, diameter, depth }, feature): CutContour => {
    const centre = placePoint({ x, y }, placement);
    const edge = circle(centre, Math.round(diameter / 2));
    const freed = depth === null ? slugsInside(slugs, edge) : [];
    return {
      step: { kind: 'hole', piece: piece.index, feature },
      ...(skinChoice(view, 'cut-out-skin', freed) ?? {
        class: 'hole',
        values: { diameter, depth },
      }),
      loop: circleLoop(drawnPoint(centre), toMm(diameter) / 2),
      freed,
    };
  });
  const cutOuts = shape.inner.map((inner, feature): CutContour => {
    const freed = slugsInside(slugs, inner);
    return {
      step: { kind: 'cut-out', piece: piece.index, feature },
      ...(skinChoice(view, 'cut-out-skin', freed) ?? { class: 'cut-out', values: {} }),
      loop: contourLoop(inner),
      freed,
    };
  });
  const pockets = part.pockets.map(
    ({ contour, depth }, feature): CutContour => ({
      step: { kind: 'pocket', piece: piece.index, feature },
      class: 'pocket',
      values: { depth },
      loop: contourLoop(placeContour(contour, placement)),
      freed: [],
    }),
  );
  const freed = holding === null ? [] : [holding];
  const outline: CutContour = {
    step: { kind: 'outline', piece: piece.index, feature: 0 },
    ...(skinChoice(view, 'skin', freed) ?? outlineChoice(holding)),
    loop: contourLoop(shape.outer),
    freed,
  };
  return [...pockets, ...holes, ...cutOuts, outline];
}

/** Null where nothing that comes free is left on a skin. */
function skinChoice(
  { material }: SheetView,
  own: LayerClass,
  freed: readonly Holding[],
): LayerChoice | null {
  const skin = Math.max(0, ...freed.map((each) => each.skin));
  return skin === 0 ? null : { class: own, values: { skin, depth: material.thickness - skin } };
}

/** What must not be cut free stays in its sheet. */
function outlineChoice(holding: Holding | null): LayerChoice {
  const isUnheld = holding !== null && adviceOf(holding) === 'leave';
  return { class: isUnheld ? 'unheld' : 'outline', values: {} };
}

function slugsInside(slugs: readonly LaidWaste[], contour: Contour): readonly Holding[] {
  if (slugs.length === 0) return [];
  const ring = flattenContour(contour, 'curve', DRAWING_CHORD_ERROR);
  return slugs
    .filter(({ outline: [first] }) => first !== undefined && pointInRing(first, ring) >= 0)
    .map(({ holding }) => holding);
}

function inOrder(contours: readonly CutContour[], steps: readonly CutStep[]): CutContour[] {
  const keyOf = ({ kind, piece, feature }: ContourStep) => `${kind} ${piece} ${feature}`;
  const places = new Map<string, number>();
  steps.forEach((step, i) => {
    if (step.kind !== 'skin') places.set(keyOf(step), i);
  });
  const placeOf = ({ step }: CutContour) => places.get(keyOf(step)) ?? steps.length;
  return contours.toSorted((a, b) => placeOf(a) - placeOf(b));
}

function isCleared({ pieces }: SheetView, { holding, outline }: LaidWaste): boolean {
  const holdsPiece = pieces.some(({ region }) => pointInRing(region.outer[0]!, outline) >= 0);
  return adviceOf(holding) === 'pocket' && !holdsPiece;
}

/** The cut by which a piece of waste comes free: round a slug its opening, beside a sliver the last outline before it; else the first. */
function freeingCut(
  contours: readonly CutContour[],
  { holding }: LaidWaste,
): CutContour | undefined {
  const isBefore = ({ step, freed: [own] }: CutContour) =>
    step.kind === 'outline' && own !== undefined && own.cutOrder < holding.cutOrder;
  const found =
    holding.kind === 'slug'
      ? contours.find(({ freed }) => freed.includes(holding))
      : contours.findLast(isBefore);
  return found ?? contours[0];
}

/** By the outline that each hangs on, which is the nearest. */
function tabsOfSlivers(
  { waste }: SheetView,
  contours: readonly CutContour[],
): ReadonlyMap<CutContour, readonly Tab[]> {
  const outlines = contours.filter(({ step }) => step.kind === 'outline');
  const found = new Map<CutContour, Tab[]>();
  for (const { holding } of waste) {
    if (holding.kind !== 'sliver') continue;
    for (const tab of holding.tabs) {
      const gaps = outlines.map(({ loop }) => nearestOn(loop, drawnPoint(tab.at)).distance);
      const nearest = outlines[gaps.indexOf(Math.min(...gaps))];
      if (nearest !== undefined) found.set(nearest, [...(found.get(nearest) ?? []), tab]);
    }
  }
  return found;
}

interface DrawnContour {
  readonly cuts: readonly Classed[];
  readonly marks: readonly Classed[];
}

function drawContour(
  { job }: SheetView,
  { step, loop, class: own, values }: CutContour,
  tabs: readonly Tab[],
): DrawnContour {
  const cutter = toMm(cutWidth(job.machine));
  if (tabs.length > 0 && job.layers.tabs === 'gaps') {
    const offset = step.kind === 'hole' ? cutter / 2 : -cutter / 2;
    const gaps = tabs.map(({ at, width }) => ({
      at: drawnPoint(at),
      width: alongLoop(toMm(width) + cutter, nearestOn(loop, drawnPoint(at)), offset),
    }));
    const cuts = runsBetween(loop, gaps).map(
      (sides): Classed => ({ class: own, values, shape: { kind: 'run', sides, closed: false } }),
    );
    if (cuts.length > 0) return { cuts, marks: [] };
  }
  return {
    cuts: [{ class: own, values, shape: loopShape(loop) }],
    marks: tabs.map((tab) => tabMark(loop, tab, cutter)),
  };
}

/** How long a stretch of the loop is that is `length` long in the middle of the kerf, `offset` to the left: on an arc the two differ. */
function alongLoop(length: number, { bend }: OnLoop, offset: number): number {
  const share = 1 - bend * offset;
  // No cutter follows a bend tighter than itself.
  return share < 0.1 ? length : length / share;
}

function loopShape(loop: Loop): MachineShape {
  const round = circleOf(loop);
  return round === null ? { kind: 'run', sides: loop, closed: true } : { kind: 'circle', ...round };
}

/** Across the contour, as far to either side as the cutter is wide. */
function tabMark(loop: Loop, { at, width, height }: Tab, reach: number): Classed {
  const { point, along } = nearestOn(loop, drawnPoint(at));
  const end = (side: number) => ({
    x: point.x - side * reach * along.y,
    y: point.y + side * reach * along.x,
  });
  return { class: 'tab', values: { width, height }, shape: lineShape(end(-1), end(1)) };
}
