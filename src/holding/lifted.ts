/**
 * What an edge of a warped sheet costs that the vacuum does not pull down: the air under it, and the strip that it leaves unheld.
 *
 * Air flows under the edge as between two plates. Over a spoilboard it sinks into the board on its way, so the squared
 * pressure falls off like a hyperbolic cosine and the strip lets in as much as a bare one of width l tanh(d / l), with
 * l^2 = g^2 R g / 12 for a gap g, a depth d and a board of resistance R. On a table with seals the gap is a layer of
 * permeability g^2 / 12 and thickness d, but never more open than the slot itself.
 * Sources: plane Poiseuille flow; the fin with a closed tip, by the same equation.
 * Where we differ: the flow counts as laminar at any speed, which lets in more than there is. The gap is taken as equally
 * high all along the side and all the way in, and the strip as not held at all.
 * Degenerate: a sheet that lies down everywhere lets nothing in.
 */
import type { Box } from '../geometry/box.ts';
import type { LiftedEdge, SheetStock } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { layerResistancePerM, orificeFlowM3h, porousFlowM3h } from './leak.ts';

export interface Gap {
  readonly lengthMm: number;
  readonly heightMm: number;
  readonly depthMm: number;
}

export function gapsOf({ lifted, length, width }: SheetStock): readonly Gap[] {
  return lifted.map(({ side, gap, depth }) => ({
    lengthMm: toMm(side === 'left' || side === 'right' ? width : length),
    heightMm: toMm(gap),
    depthMm: toMm(depth),
  }));
}

/** Free air in m3/h that comes in under the edges; `boardPerM` is 0 on a table without a spoilboard. */
export function gapFlowM3h(
  gaps: readonly Gap[],
  boardPerM: number,
  vacuumKpa: number,
  atmospherePa: number,
): number {
  return gaps.reduce((sum, gap) => {
    const bareMm2 = gap.lengthMm * bareWidthMm(gap, boardPerM);
    const flow =
      boardPerM > 0
        ? porousFlowM3h(bareMm2, boardPerM, vacuumKpa, atmospherePa)
        : slotFlowM3h(gap, vacuumKpa, atmospherePa);
    return sum + flow;
  }, 0);
}

/** The width of a bare strip of spoilboard that lets in as much as the gap. */
export function bareWidthMm({ heightMm, depthMm }: Gap, boardPerM: number): number {
  const reachMm = Math.sqrt((heightMm ** 3 * boardPerM) / 1000 / 12);
  return reachMm * Math.tanh(depthMm / reachMm);
}

function slotFlowM3h(gap: Gap, vacuumKpa: number, atmospherePa: number): number {
  const { lengthMm, heightMm, depthMm } = gap;
  const openMm2 = lengthMm * heightMm;
  const perM = layerResistancePerM(depthMm, (heightMm * 1e-3) ** 2 / 12);
  return Math.min(
    porousFlowM3h(openMm2, perM, vacuumKpa, atmospherePa),
    orificeFlowM3h(openMm2, vacuumKpa, atmospherePa),
  );
}

/** Where on a sheet an edge does not lie down. */
export function liftedBox(
  { length, width }: Pick<SheetStock, 'length' | 'width'>,
  { side, depth }: LiftedEdge,
): Box {
  return {
    minX: side === 'right' ? length - depth : 0,
    minY: side === 'top' ? width - depth : 0,
    maxX: side === 'left' ? depth : length,
    maxY: side === 'bottom' ? depth : width,
  };
}
