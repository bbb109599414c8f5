/**
 * How a sheet stands while a pocket is cut in a piece that is still part of it.
 *
 * Nothing is free yet, so the push is against the whole sheet, with as much kerf open as the pieces before have left. A pocket
 * begins with a way through full stock, so its force is that of a cut of full width, in equal passes down to its depth; of several pockets
 * the one with the deepest pass counts. It acts at the corner of the sheet where it is worst, which is farther out than any pocket.
 * Source: the force of `cutting-force.ts`, the margins of `margins.ts`.
 * Where we differ: pieces that are free already count as part of the sheet, as they are held by themselves.
 * Degenerate: a part without pockets has none.
 */
import { pocketPasses } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import { toMm } from '../model/units.ts';
import type { Body } from './body.ts';
import { passForce } from './cutting-force.ts';
import { type Reckoned, reckon, type Setting } from './stand.ts';

export function pocketStand(
  setting: Setting,
  sheet: Body,
  { pockets }: Part,
  openKerfMm: number,
): Reckoned | null {
  if (pockets.length === 0) return null;
  const { machine, material } = setting;
  const depths = pockets.map(({ depth }) => toMm(depth) / pocketPasses(machine, depth));
  const pass = passForce(machine, material, Math.max(...depths));
  return reckon(setting, sheet, openKerfMm, { pass });
}
