/**
 * The vacuum at which a pump moves just as much air as leaks in.
 *
 * What the pump moves falls with the vacuum and what leaks in rises, so their difference has one
 * root: it is found by halving. The number of halvings is fixed, which brings the interval below
 * the last place of a double.
 * The pipe between pump and table takes a pressure that grows with the square of the flow, so the
 * pump sees a deeper vacuum than the table.
 * Degenerate: where the leaks never use up the pump it holds its deepest vacuum; where they take
 * all of it at once there is none.
 */
import type { Pipe, PumpPoint } from '../model/machine.ts';
import { pipeLossKpa } from './pipe.ts';
import { deepestVacuumKpa, pumpFlowM3h } from './pump.ts';

/** At the table, kPa below the atmosphere. `leakM3h` gives the free air that leaks in at a vacuum and must not fall as the vacuum rises. */
export function operatingVacuumKpa(
  curve: readonly PumpPoint[],
  leakM3h: (vacuumKpa: number) => number,
  pipe: Pipe | null = null,
): number {
  const surplus = (vacuumKpa: number): number => {
    const leak = leakM3h(vacuumKpa);
    return pumpFlowM3h(curve, vacuumKpa + pipeLossKpa(pipe, leak)) - leak;
  };
  let high = deepestVacuumKpa(curve);
  if (surplus(high) >= 0) return high;
  let low = 0;
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if (surplus(middle) >= 0) low = middle;
    else high = middle;
  }
  return low;
}

const HALVINGS = 60;
