import {
  type Grip,
  type LiftTask,
  liftFactors,
  liftLimit,
  recommendedLimitKg,
} from '../../src/costing/lifting.ts';
import { type Computed, type Inputs, num } from './inputs.ts';

/** Nothing but one condition is less than ideal. */
const IDEAL: LiftTask = { horizontal: 25, height: 75, travel: 25, twistDeg: 0, grip: 'good' };

const metric = (changes: Partial<LiftTask>) => liftFactors({ ...IDEAL, ...changes }, 'mm');

const task = (i: Inputs): LiftTask => ({
  horizontal: num(i, 'H'),
  height: num(i, 'V'),
  travel: num(i, 'D'),
  twistDeg: 0,
  grip: i.grip as Grip,
});

/** The limit of printed factors, in pounds. */
const ofFactors = (i: Inputs) =>
  liftLimit(
    {
      horizontal: num(i, 'HM'),
      vertical: num(i, 'VM'),
      distance: num(i, 'DM'),
      asymmetry: num(i, 'AM'),
      coupling: num(i, 'CM'),
    },
    'in',
  );

/** What one person should lift. */
export const COMPUTED_LIFTING: Computed = {
  H_LC: () => recommendedLimitKg(IDEAL, 'mm'),
  H_HM_40: (i) => metric({ horizontal: num(i, 'H_cm') }).horizontal,
  H_HM_60: (i) => metric({ horizontal: num(i, 'H_cm') }).horizontal,
  H_VM_0: (i) => metric({ height: num(i, 'V_cm') }).vertical,
  H_VM_150: (i) => metric({ height: num(i, 'V_cm') }).vertical,
  H_DM_40: (i) => metric({ travel: num(i, 'D_cm') }).distance,
  H_DM_100: (i) => metric({ travel: num(i, 'D_cm') }).distance,
  H_AM_90: (i) => metric({ twistDeg: num(i, 'A_deg') }).asymmetry,
  H_AM_45: (i) => metric({ twistDeg: num(i, 'A_deg') }).asymmetry,
  H_NIOSH_ex1_factors: (i) => {
    const { horizontal, vertical, distance, coupling } = liftFactors(task(i), 'in');
    return [horizontal, vertical, distance, coupling];
  },
  H_NIOSH_ex1_origin: ofFactors,
  H_NIOSH_ex1_dest: ofFactors,
  H_NIOSH_ex1_LI: (i) => num(i, 'load_lb') / ofFactors(i),
  H_sheet_RWL: (i) => recommendedLimitKg(task(i), 'mm'),
  H_sheet_LI: (i) => num(i, 'load_kg') / recommendedLimitKg(task(i), 'mm'),
};
