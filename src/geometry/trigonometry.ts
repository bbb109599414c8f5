/**
 * Sine, cosine and natural logarithm out of the four operations alone, so that every machine gives the same bits.
 *
 * Angles are in degrees and are first folded, exactly, to 0..45; the Taylor series then needs eight terms.
 * The logarithm splits off the power of two, exactly, and sums the series of the inverse hyperbolic tangent.
 * Source: Muller 2016, "Elementary Functions", 3rd edition.
 * Errors: sine and cosine below 5e-16, exact at multiples of 90 degrees and wherever the value is one half;
 * logarithm below 1e-15 of max(1, |result|).
 */

/** Cosine of an angle in degrees. */
export function cosDeg(deg: number): number {
  const turned = Math.abs(deg % 360);
  const half = turned > 180 ? 360 - turned : turned;
  return half > 90 ? -firstQuadrantSine(half - 90) : firstQuadrantSine(90 - half);
}

/** Sine of an angle in degrees. */
export function sinDeg(deg: number): number {
  const turned = Math.abs(deg % 360);
  const half = turned > 180 ? 360 - turned : turned;
  const sine = firstQuadrantSine(half > 90 ? 180 - half : half);
  return turned > 180 === deg > 0 ? 0 - sine : sine;
}

/** Natural logarithm; minus infinity of 0, not a number below. */
export function log(x: number): number {
  if (x === 0) return Number.NEGATIVE_INFINITY;
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return x > 0 ? x : Number.NaN;
  let mantissa = x;
  let exponent = 0;
  while (mantissa > Math.SQRT2) {
    mantissa /= 2;
    exponent++;
  }
  while (mantissa < Math.SQRT1_2) {
    mantissa *= 2;
    exponent--;
  }
  return exponent * Math.LN2 + logNearOne(mantissa);
}

/** Sine of 0..90 degrees. */
function firstQuadrantSine(deg: number): number {
  if (deg === 30) return 0.5;
  return deg > 45 ? cosineSeries((90 - deg) * RADIANS) : sineSeries(deg * RADIANS);
}

const RADIANS = Math.PI / 180;

/** Up to 45 degrees the first term left out, x^17 / 17!, is below 5e-17. */
function sineSeries(x: number): number {
  const square = x * x;
  let sum = 0;
  for (let k = 15; k > 1; k -= 2) sum = (1 - sum) * (square / (k * (k - 1)));
  return x - x * sum;
}

/** Up to 45 degrees the first term left out, x^18 / 18!, is below 3e-18. */
function cosineSeries(x: number): number {
  const square = x * x;
  let sum = 0;
  for (let k = 16; k > 0; k -= 2) sum = (1 - sum) * (square / (k * (k - 1)));
  return 1 - sum;
}

/** Between the roots of one half and of two the ratio is below 0.172 and the first term left out below 1e-20. */
function logNearOne(x: number): number {
  const ratio = (x - 1) / (x + 1);
  const square = ratio * ratio;
  let sum = 0;
  for (let k = 23; k > 0; k -= 2) sum = sum * square + 1 / k;
  return 2 * ratio * sum;
}
