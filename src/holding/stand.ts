/**
 * How a loose thing stands at one place in the cutting order: vacuum, force that holds, force that
 * pushes, margins. Once with the numbers as they are, once with force at the high end of its band
 * and friction and vacuum at the low end.
 */
import type { Verdict } from '../model/holding.ts';
import type { Band, Router, Table } from '../model/machine.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { type Air, airOf, type BandEnd, vacuumAt } from './air.ts';
import type { Body } from './body.ts';
import { CONSTANTS } from './constants.ts';
import { freeingPasses, type PassForce } from './cutting-force.ts';
import { type Floor, floorMm2, floorPerM } from './floors.ts';
import { interfaceShare } from './leak.ts';
import { type Grip, type Load, loadOf, type Margins, marginsOf } from './margins.ts';
import { NO_SKIN, skinHold } from './skin.ts';
import type { SkinHold } from './turning.ts';
import { verdictOf } from './verdict.ts';
import { massKg, vacuumForceN, weightN } from './weight.ts';

/** What is the same for everything on a sheet. */
export interface Setting {
  readonly machine: Router;
  readonly material: Material;
  readonly air: Air;
  readonly friction: Band;
  /** The passes that act on a thing where nothing is left standing, the one that frees it first. */
  readonly passes: readonly [PassForce, ...PassForce[]];
}

export interface Stand {
  readonly vacuumKpa: number;
  /** Share of the vacuum that reaches the thing through its own leaking, where it has its whole thickness. */
  readonly reachShare: number;
  readonly weightN: number;
  readonly grip: Grip;
  /** The pass that comes nearest to moving it. */
  readonly pass: PassForce;
  readonly load: Load;
  readonly margins: Margins;
}

export interface Reckoned {
  readonly openKerfMm: number;
  readonly nominal: Stand;
  readonly low: Stand;
  readonly verdict: Verdict;
}

/** What a remedy changes; what is left out stays as it is. */
export interface Help {
  readonly pass?: PassForce;
  /** A skin or a clamp. */
  readonly skin?: SkinHold;
}

/** `floors` are those of all pieces on the sheet. */
export function settingOf(
  machine: Router,
  table: Table,
  material: Material,
  stock: SheetStock,
  floors: readonly Floor[] = [],
): Setting {
  return {
    machine,
    material,
    air: airOf(table, machine.cutter.diameter, material, stock, floors),
    friction: material.filmFaced ? table.frictionFilmFaced : table.friction,
    passes: freeingPasses(machine, material),
  };
}

export function reckon(
  setting: Setting,
  body: Body,
  openKerfMm: number,
  help: Help = {},
): Reckoned {
  const at = (end: BandEnd): Stand =>
    standAt(setting, body, vacuumAt(setting.air, openKerfMm, end), { end, ...help });
  const nominal = at('nominal');
  const low = at('low');
  const verdict = verdictOf(nominal.margins.least, low.margins.least);
  return { openKerfMm, nominal, low, verdict };
}

/** The same at a given vacuum. */
export function standAt(
  setting: Setting,
  body: Body,
  vacuumKpa: number,
  { end, ...help }: Help & { readonly end: BandEnd },
): Stand {
  const { air, material, friction } = setting;
  const thicknessMm = toMm(material.thickness);
  const reachShare = shareUnder(air, vacuumKpa, end, 0);
  const wholeMm2 = body.heldAreaMm2 - floorMm2(body.heldFloors);
  const vacuumN = body.heldFloors.reduce(
    (sum, { areaMm2, depthMm }) =>
      sum + vacuumForceN(vacuumKpa * shareUnder(air, vacuumKpa, end, depthMm), areaMm2),
    vacuumForceN(vacuumKpa * reachShare, wholeMm2),
  );
  const solidMm2 = body.areaMm2 - body.takenMm3 / thicknessMm;
  const ownN = weightN(massKg(solidMm2, thicknessMm, material.densityKgPerM3));
  const forceN = vacuumN + ownN;
  const factor = end === 'low' ? 1 + CONSTANTS.forceBand.value : 1;
  const cases = (help.pass === undefined ? setting.passes : [help.pass]).map((pass) => {
    const skin = help.skin ?? tieOf(setting, pass, body);
    const grip = { forceN, friction: friction[end], skin };
    const load = loadOf(pass, factor);
    return { grip, pass, load, margins: marginsOf(body, grip, load) };
  });
  const worst = cases.reduce((a, b) => (b.margins.least < a.margins.least ? b : a));
  return { vacuumKpa, reachShare, weightN: ownN, ...worst };
}

/** Share of the vacuum that is left under stock of which so much was taken off. */
export function shareUnder(air: Air, vacuumKpa: number, end: BandEnd, depthMm: number): number {
  return interfaceShare(
    floorPerM(air.sheetPerM, air.thicknessMm, depthMm),
    air.boardPerM[end],
    1 - (vacuumKpa * 1000) / air.atmospherePa,
  );
}

/** While a pass runs above what the last one takes, that layer ties the thing to the sheet as a skin does, thinner where the stock stands up. */
function tieOf({ machine }: Setting, { kind }: PassForce, body: Body): SkinHold {
  const leftMm = toMm(machine.lastPass) - body.liftedMm;
  return kind === 'above' && leftMm > 0 ? skinHold(body, leftMm) : NO_SKIN;
}
