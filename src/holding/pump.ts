/**
 * What a pump moves at a given vacuum.
 *
 * Its curve is a list of points of free-air flow and vacuum, straight in between; beyond the last
 * point it moves nothing, below the first what the first says. At altitude the vacuum of each point
 * shrinks with the air pressure, the flow stays (trade rule: rating times local over standard
 * pressure).
 * Degenerate: two points at one vacuum are a step; the smaller flow counts.
 */
import type { PumpPoint } from '../model/machine.ts';

/** Free air in m3/h at a vacuum below the atmosphere in kPa. The curve is ordered by rising vacuum. */
export function pumpFlowM3h(curve: readonly PumpPoint[], vacuumKpa: number): number {
  const next = curve.findIndex((point) => point.vacuumKpa > vacuumKpa);
  if (next < 0) {
    const last = curve.at(-1);
    return last !== undefined && last.vacuumKpa === vacuumKpa ? last.flowM3h : 0;
  }
  const to = curve[next] as PumpPoint;
  const from = curve[next - 1];
  if (from === undefined) return to.flowM3h;
  const share = (vacuumKpa - from.vacuumKpa) / (to.vacuumKpa - from.vacuumKpa);
  return from.flowM3h + share * (to.flowM3h - from.flowM3h);
}

/** The deepest vacuum of the curve, kPa; 0 for a curve without points. */
export function deepestVacuumKpa(curve: readonly PumpPoint[]): number {
  return curve.reduce((deepest, point) => Math.max(deepest, point.vacuumKpa), 0);
}

/** The curve where the air pressure is `pressureShare` of that at sea level, ordered by rising vacuum. */
export function curveAtPressure(
  curve: readonly PumpPoint[],
  pressureShare: number,
): readonly PumpPoint[] {
  return curve
    .map(({ flowM3h, vacuumKpa }) => ({ flowM3h, vacuumKpa: vacuumKpa * pressureShare }))
    .sort((a, b) => a.vacuumKpa - b.vacuumKpa || b.flowM3h - a.flowM3h);
}
