/**
 * How much of a piece the open kerf beside it leaves without vacuum.
 *
 * Under the covered board the difference of the squared pressures falls off from the edge of the kerf; a conformal map
 * of the layer gives how, for a kerf of any width. From it follow the pressure and the share of the vacuum that is lost
 * at each distance; summed up that is the width of a border without any vacuum.
 * Source: derived for this tool, checked by finite differences; Abramowitz & Stegun 1964, section 17.4, for the
 * incomplete elliptic integral; Carlson 1979, "Computing elliptic integrals by duplication", Numerische Mathematik 33,
 * for its value.
 * Where we differ: at the corners of a piece two borders overlap and the true loss is smaller.
 * Cost: some hundred elliptic integrals. Degenerate: beside a wide kerf and under hardly any vacuum both have a closed form.
 */
import { CONSTANTS } from './constants.ts';

/**
 * In mm. `insideShare` is the pressure under the board over that of the air, 1 for hardly any vacuum: the border is
 * wider the deeper the vacuum. Left out, the kerf is wide, which is the most it can take.
 */
export function borderLossMm(
  spoilboardMm: number,
  insideShare = 1,
  kerfMm = Number.POSITIVE_INFINITY,
): number {
  if (insideShare === 1 && kerfMm === Number.POSITIVE_INFINITY)
    return CONSTANTS.borderLoss.value * spoilboardMm;
  let lost = 0;
  for (let step = 0; step < FIELD_STEPS; step++) {
    // In the root of the distance the field is smooth at the edge of the kerf.
    const root = ((step + 0.5) / FIELD_STEPS) * Math.sqrt(FIELD_END);
    const share = fieldShare(root * root, kerfMm / spoilboardMm);
    lost += lostVacuum(share, insideShare) * 2 * root;
  }
  return ((lost * Math.sqrt(FIELD_END)) / FIELD_STEPS) * spoilboardMm;
}

/** In thicknesses of the board: the field falls off by a factor of 4.8 each, so beyond nothing is lost. */
const FIELD_END = 8;
const FIELD_STEPS = 400;

/** How much of the difference of the squared pressures is lost at a distance from an open kerf, 1 to 0; both lengths in thicknesses of the board. */
export function fieldShare(away: number, kerf = Number.POSITIVE_INFINITY): number {
  if (kerf > WIDE_KERF) return 1 - (2 / Math.PI) * Math.atan(Math.sqrt(Math.expm1(Math.PI * away)));
  const angle = (Math.PI * kerf) / 4;
  const [modulus, complement] = [Math.tanh(angle), 1 / Math.cosh(angle)];
  const ratio = modulus / Math.tanh(angle + (Math.PI * away) / 2);
  const sine = Math.min(1, Math.sqrt(Math.max(0, 1 - ratio * ratio)) / complement);
  return 1 - ellipticF(sine, complement) / ellipticF(1, complement);
}

/** Beyond, both forms agree to the last digit. */
const WIDE_KERF = 20;

/** Share of the vacuum that is lost where the squared pressures have lost `share` of their difference. */
function lostVacuum(share: number, insideShare: number): number {
  if (insideShare === 1) return share;
  const inside2 = insideShare * insideShare;
  const pressure = Math.sqrt(inside2 + share * (1 - inside2));
  return (pressure - insideShare) / (1 - insideShare);
}

/** Incomplete elliptic integral of the first kind, by the sine of its amplitude and the modulus. */
function ellipticF(sine: number, modulus: number): number {
  let [x, y, z] = [1 - sine * sine, 1 - modulus * modulus * sine * sine, 1];
  for (;;) {
    const mean = (x + y + z) / 3;
    const off = Math.max(Math.abs(x - mean), Math.abs(y - mean), Math.abs(z - mean)) / mean;
    // The error is in proportion to the square of what is left.
    if (off < 1e-7) return sine / Math.sqrt(mean);
    const next = Math.sqrt(x * y) + Math.sqrt(y * z) + Math.sqrt(z * x);
    [x, y, z] = [(x + next) / 4, (y + next) / 4, (z + next) / 4];
  }
}
