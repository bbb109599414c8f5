/**
 * A skin as a remedy: what ties the thing while the passes above it and a finishing cut run, and the last light pass that takes it away.
 *
 * The last pass comes when every kerf of the sheet is open; the worst of all stages counts.
 * Degenerate: stock that is too thin for a skin has none, and where an edge stands up a skin would be cut through or left
 * too thick.
 */
import { fromMm, toMm } from '../model/units.ts';
import type { Body } from './body.ts';
import { CONSTANTS } from './constants.ts';
import { freeingDepthMm, type PassForce, passForce } from './cutting-force.ts';
import { type Patient, type Remedy, remedyOf } from './patient.ts';
import { skinFor, skinHold } from './skin.ts';
import { type Reckoned, reckon, type Setting } from './stand.ts';

export function skinRemedy(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  const skinMm = skinFor(toMm(setting.material.thickness));
  if (skinMm === 0 || thing.body.liftedMm > 0 || thing.skinS === null) return null;
  const { above, last } = passesOf(setting, skinMm);
  const skin = skinHold(thing.body, skinMm);
  // A finishing cut is made before the skin is taken off.
  const finishing = setting.passes.filter(({ kind }) => kind === 'finishing');
  const stages = [above, ...finishing].map((pass) =>
    reckon(setting, thing.body, as.openKerfMm, { pass, skin }),
  );
  const freed = reckon(setting, thing.body, thing.wholeKerfMm, {
    pass: last,
  });
  const margins = {
    margin: Math.min(...[...stages, freed].map(({ nominal }) => nominal.margins.least)),
    marginLow: Math.min(...[...stages, freed].map(({ low }) => low.margins.least)),
  };
  const limit = freed.nominal.margins.least === margins.margin ? 'last pass' : 'own';
  const means = { skin: fromMm(skinMm), skinFor: 'itself', limit } as const;
  return remedyOf('skin', margins, thing.skinS, means);
}

/** What it takes to leave a skin in the cut round a thing and to take that away. */
export function ownSkinS({ machine }: Setting, { perimeterMm }: Body): number {
  return (perimeterMm * 60) / machine.feedMmPerMin + CONSTANTS.skinSeconds.value;
}

interface SkinPasses {
  readonly above: PassForce;
  readonly last: PassForce;
}

/** The same for everything on a sheet. */
const KNOWN = new WeakMap<Setting, SkinPasses>();

function passesOf(setting: Setting, skinMm: number): SkinPasses {
  const { machine, material } = setting;
  const depthMm = freeingDepthMm(machine, toMm(material.thickness) - skinMm);
  const passes = KNOWN.get(setting) ?? {
    above: passForce(machine, material, depthMm),
    last: passForce(machine, material, skinMm),
  };
  KNOWN.set(setting, passes);
  return passes;
}
