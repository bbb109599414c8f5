import { kgToLb } from '../../src/holding/conversions.ts';
import { discMeanRadius, rectangleMeanRadius } from '../../src/holding/friction.ts';
import { downMoment, holdOf, worstTip } from '../../src/holding/margins.ts';
import { NO_SKIN, skinShearN } from '../../src/holding/skin.ts';
import { tabBendingN, tabCount, tabSectionN } from '../../src/holding/tab-strength.ts';
import { massKg, vacuumForceN, weightN } from '../../src/holding/weight.ts';
import {
  type Compute,
  type Computed,
  heldMm2,
  type Inputs,
  leastWhere,
  MM_PER_INCH,
  num,
} from './inputs.ts';
import { readJob } from './reading.ts';

/** What holds a piece: vacuum, friction, weight, tabs and skins. */
export const COMPUTED_HOLD: Computed = {
  ...grips(),
  ...loadCases(),
  ...friction(),
  ...masses(),
  ...tabsAndSkins(),
};

function grips(): Computed {
  const force: Compute = (i) =>
    vacuumForceN(num(i, 'dp_kPa'), heldMm2(num(i, 'a_mm'), num(i, 'b_mm'), num(i, 't_mm')));
  return {
    A_W1_force_150x100: force,
    A_W1_force_600x400: force,
    A_W1_force_50x50: force,
    A_force_50x50_uncut_skin: (i) =>
      vacuumForceN(num(i, 'dp_kPa'), num(i, 'a_mm') * num(i, 'b_mm')),
    D_min_square_SF2: (i) => {
      const stays = (side: number): boolean => {
        const held = heldMm2(side, side, num(i, 't'));
        return num(i, 'mu') * vacuumForceN(num(i, 'dp_kPa'), held) >= num(i, 'SF') * num(i, 'F');
      };
      return leastWhere(1000, stays);
    },
  };
}

/** A plate that hangs on a suction pad; all loads are taken times the safety factor. */
function loadCases(): Computed {
  const weight = (i: Inputs): number => num(i, 'S') * weightN(num(i, 'm_kg'));
  const push = (i: Inputs): number => num(i, 'S') * num(i, 'm_kg') * num(i, 'a');
  return {
    A_loadcase1: (i) => {
      const middle = { from: { x: 0, y: 0 }, to: { x: 1, y: 0 }, centreMm: 1, cutMm: 1 };
      const load = loadOfPlate(0, weight(i) + push(i));
      return leastWhere(1e5, (forceN) => {
        const grip = { forceN, friction: 0, skin: NO_SKIN };
        return worstTip([middle], load, downMoment(grip)).margin >= 1;
      });
    },
    A_loadcase2: (i) => leastGripN(num(i, 'mu'), push(i), weight(i)),
    A_loadcase3: (i) => leastGripN(num(i, 'mu'), weight(i) + push(i), 0),
  };
}

function loadOfPlate(alongN: number, liftN: number) {
  return { resultantN: alongN, pushes: [], liftN, heightMm: 0 };
}

/** The force on the pad under which the plate does not slip. */
function leastGripN(friction: number, alongN: number, liftN: number): number {
  const load = loadOfPlate(alongN, liftN);
  return leastWhere(
    1e5,
    (forceN) => holdOf({ forceN, friction, skin: NO_SKIN }, load).frictionN >= load.resultantN,
  );
}

function friction(): Computed {
  return {
    A_mean_radius_square: (i) => rectangleMeanRadius(num(i, 'a'), num(i, 'b')),
    A_mean_radius_150x100: (i) => rectangleMeanRadius(num(i, 'a_mm'), num(i, 'b_mm')),
    A_friction_torque_disc: (i) => num(i, 'mu') * num(i, 'N') * discMeanRadius(num(i, 'R_m')),
  };
}

function masses(): Computed {
  const plate: Compute = (i) =>
    massKg(num(i, 'length_mm') * num(i, 'width_mm'), num(i, 't_mm'), num(i, 'rho'));
  return {
    A_sheet_mass_steel: plate,
    C_birchply_18_1220x2440: plate,
    C_birchply_18_3050x1525: plate,
    C_birchply_12_1220x2440: plate,
    C_birchply_24_3050x1525: plate,
    C_ipe_density_pcf: (i) => (i.pcf as readonly number[]).map(writtenDensity),
    C_MDF_19_4x8: (i) => {
      const areaMm2 = num(i, 'length_in') * num(i, 'width_in') * MM_PER_INCH ** 2;
      const density = writtenDensity(num(i, 'pcf'));
      return kgToLb(massKg(areaMm2, num(i, 't_in') * MM_PER_INCH, density));
    },
  };
}

/** A density in pounds per cubic foot as a parts file has it, in kg/m3. */
function writtenDensity(pcf: number): number {
  return readJob({ stock: `, density: ${pcf} lb/ft3` }).materials[0]!.densityKgPerM3;
}

function tabsAndSkins(): Computed {
  return {
    D_tab_inplane: (i) => tabBendingN(num(i, 'sigma'), num(i, 't'), num(i, 'w'), num(i, 'D')),
    D_tab_vertical: (i) => tabBendingN(num(i, 'sigma'), num(i, 'w'), num(i, 't'), num(i, 'D')),
    D_tab_tension: (i) =>
      tabSectionN(num(i, 'sigma_t'), { widthMm: num(i, 'w'), heightMm: num(i, 't'), kerfMm: 0 }),
    D_tab_count: (i) => tabCount(num(i, 'demand'), num(i, 'friction'), num(i, 'cap')),
    D_skin_shear: (i) => skinShearN(num(i, 'L'), num(i, 't'), num(i, 'tau')),
  };
}
