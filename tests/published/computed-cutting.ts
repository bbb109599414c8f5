import { feedPerToothMm, meanChipMm, usualChipIn } from '../../src/holding/chip.ts';
import { axialForceN, tangentialForceN } from '../../src/holding/cutting-force.ts';
import type { Family } from '../../src/model/stock.ts';
import { type Compute, type Computed, type Inputs, num } from './inputs.ts';

/** Chips and the force of the cutter. */
export const COMPUTED_CUTTING: Computed = { ...chips(), ...usualChips(), ...forces() };

const FULL_WIDTH = 1;

function chips(): Computed {
  const mean: Compute = (i) => meanChipMm(num(i, 'fz'), num(i, 'ae_over_D'));
  return {
    B_fz: (i) => feedPerToothMm(num(i, 'feed_mm_min'), num(i, 'rpm'), num(i, 'z')),
    B_hm_slot: (i) => meanChipMm(num(i, 'fz'), FULL_WIDTH),
    B_hm_quarter: mean,
    'B_hm_0.1': mean,
    B_hm_sqrt_approx: (i) => thinCutChip(num(i, 'fz'), num(i, 'ae_over_D')),
    B_hm_worked_inch: (i) => thinCutChip(num(i, 'fz_in'), num(i, 'ae_in') / num(i, 'D_in')),
  };
}

/** The mean chip of a far thinner cut, scaled up by the root of its width, is what the approximate formula gives. */
function thinCutChip(feedPerTooth: number, engagement: number): number {
  return meanChipMm(feedPerTooth, engagement * 1e-6) * 1e3;
}

function usualChips(): Computed {
  const deeper: Compute = (i) => {
    const share =
      usualChipIn('mdf', 0.5, num(i, 'depth_D') * 0.5).low / usualChipIn('mdf', 0.5, 0.5).low;
    return num(i, 'c') * share;
  };
  const rows = ['1_4_MDF', '1_4_hardwood', '1_4_plywood', '1_2_MDF', '1_2_hardwood'];
  const more = ['1_2_plywood', '3_8_plywood', '1_8_plywood'];
  return {
    ...Object.fromEntries([...rows, ...more].map((row) => [`B_chipload_${row}`, usualChip])),
    B_chipload_derate_2D: deeper,
    B_chipload_derate_3D: deeper,
  };
}

/** For a depth of one diameter. */
function usualChip(i: Inputs): readonly number[] {
  const [numerator, denominator] = String(i.D_in).split('/').map(Number);
  const diameter = numerator! / denominator!;
  const family = String(i.material).toLowerCase().split('/')[0] as Family;
  const { low, high } = usualChipIn(family, diameter, diameter);
  return [low, high];
}

function forces(): Computed {
  return {
    B_Ft_peak_MDF: (i) => toothN(i, num(i, 'h_mm')),
    B_mean_tooth_force: (i) => toothN(i, num(i, 'hm')),
    B_Fy_mean_slot: meanAcrossN,
    B_power: powerW,
    B_specific_energy: (i) => {
      const removedMm3PerS = num(i, 'b_mm') * num(i, 'D_mm') * (num(i, 'feed_mm_min') / 60);
      return (powerW(i) * 1000) / removedMm3PerS;
    },
    B_axial_upcut_30deg: (i) => axialForceN(num(i, 'Ft'), 1, 0, num(i, 'helix_deg')),
    B_axial_compression: (i) =>
      axialForceN(num(i, 'Ft_per_mm'), num(i, 'up_mm'), num(i, 'down_mm'), num(i, 'helix_deg')),
  };
}

function toothN(i: Inputs, chipMm: number): number {
  return tangentialForceN({
    depthMm: num(i, 'b_mm'),
    edgeNPerMm: num(i, 'ke'),
    shearNPerMm2: num(i, 'kc'),
    chipMm,
  });
}

/** Across a cut of full width: a tooth is in it for half of each turn. */
function meanAcrossN(i: Inputs): number {
  const steps = 1000;
  let sum = 0;
  for (let step = 0; step < steps; step++) {
    const sin = Math.sin(((step + 0.5) * Math.PI) / steps);
    sum += toothN(i, num(i, 'fz') * sin) * sin;
  }
  return (num(i, 'N') * sum) / steps / 2;
}

/** Of two teeth in a cut of full width, one is always in it. */
function powerW(i: Inputs): number {
  const feed = feedPerToothMm(num(i, 'feed_mm_min'), num(i, 'rpm'), 2);
  const meanN = toothN(i, meanChipMm(feed, FULL_WIDTH));
  return (meanN * Math.PI * num(i, 'D_mm') * 1e-3 * num(i, 'rpm')) / 60;
}
