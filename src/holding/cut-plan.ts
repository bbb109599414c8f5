/** The cutting order of one sheet with what it does to the vacuum and the way, and what the order of the file would do. */
import type { OrderFigures } from '../model/holding.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { vacuumAt } from './air.ts';
import { wholeKerfUm } from './best-least.ts';
import type { Body } from './body.ts';
import { cuttingOrder, type Holds, stepsOf } from './cutting-order.ts';
import { kerfLimits } from './kerf-limits.ts';
import { type CutMoment, cutMoments } from './kerf-timeline.ts';
import type { LaidPiece } from './laid-pieces.ts';
import { type Block, blocksOf } from './open-kerf.ts';
import { fileOrder } from './short-way.ts';
import { type Reckoned, reckon, type Setting, standAt } from './stand.ts';
import { wayLength } from './way-moves.ts';

export interface CutPlan {
  readonly moments: readonly CutMoment[];
  /** How each piece that stays only because it is cut early, by its index in the list, would stand on the shortest way. */
  readonly early: ReadonlyMap<number, Reckoned>;
  readonly order: OrderFigures;
  readonly fileOrder: OrderFigures;
}

/** `bodies` go with `laid`, one each. */
export function planCuts(
  setting: Setting,
  laid: readonly LaidPiece[],
  bodies: readonly Body[],
): CutPlan {
  const blocks = blocksOf(laid);
  const holds = holdsOf(setting, blocks, bodies);
  const { order, shortest } = cuttingOrder(blocks, holds);
  const momentsOf = (way: readonly number[]): CutMoment[] =>
    cutMoments(
      laid,
      way.flatMap((i) => stepsOf(countsOf(laid[i]!))),
    );
  const figuresOf = (way: readonly number[], moments: readonly CutMoment[]): OrderFigures => ({
    travelMm: Math.round(wayLength(blocks, way) / 2 / UNITS_PER_MM),
    leastMargin: leastMargin(holds, moments),
  });
  const moments = momentsOf(order);
  const listed = fileOrder(blocks);
  return {
    moments,
    early:
      order === shortest ? new Map() : earlyPieces(setting, bodies, momentsOf(shortest), moments),
    order: figuresOf(order, moments),
    fileOrder: figuresOf(listed, momentsOf(listed)),
  };
}

function holdsOf(setting: Setting, blocks: readonly Block[], bodies: readonly Body[]): Holds {
  const limit = kerfLimits(setting, wholeKerfUm(blocks));
  const known = new Map<number, number>();
  const vacuum = (openUm: number): number => {
    const kpa = known.get(openUm) ?? vacuumAt(setting.air, openUm / 1000, 'nominal');
    known.set(openUm, kpa);
    return kpa;
  };
  return {
    marginAt: (i, openUm) =>
      standAt(setting, bodies[i]!, vacuum(openUm), { end: 'nominal' }).margins.least,
    latestUm: (i, needed) => limit(bodies[i]!, needed),
  };
}

/** Pieces that stay where they are cut and would not stay at their later place on the shortest way. */
function earlyPieces(
  setting: Setting,
  bodies: readonly Body[],
  shortest: readonly CutMoment[],
  moments: readonly CutMoment[],
): Map<number, Reckoned> {
  const laterMm = new Map(
    shortest.filter(isOutline).map(({ laid, openKerfMm }) => [laid, openKerfMm]),
  );
  return new Map(
    moments.filter(isOutline).flatMap(({ laid, openKerfMm }) => {
      const mm = laterMm.get(laid)!;
      if (mm <= openKerfMm) return [];
      const later = reckon(setting, bodies[laid]!, mm);
      if (later.verdict === 'stays') return [];
      const here = reckon(setting, bodies[laid]!, openKerfMm);
      return here.verdict === 'stays' ? [[laid, later] as const] : [];
    }),
  );
}

function leastMargin({ marginAt }: Holds, moments: readonly CutMoment[]): number | null {
  const margins = moments
    .filter(isOutline)
    .map(({ laid, openKerfMm }) => marginAt(laid, Math.round(openKerfMm * 1000)));
  return margins.length === 0 ? null : Math.min(...margins);
}

function isOutline({ step }: CutMoment): boolean {
  return step.kind === 'outline';
}

function countsOf({ piece, part }: LaidPiece): Parameters<typeof stepsOf>[0] {
  const { pockets, holes, shape } = part;
  return {
    piece,
    pockets: pockets.length,
    holes: holes.length,
    cutOuts: shape.inner.length,
  };
}
