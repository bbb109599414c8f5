import { sumOf } from './percentiles.ts';

/** The e of y = c x^e that fits best by least squares of the logarithms; NaN where there are not two different x, or a value is not above 0. */
export function growthExponent(
  points: readonly { readonly x: number; readonly y: number }[],
): number {
  const logs = points.map(({ x, y }) => ({ x: Math.log(x), y: Math.log(y) }));
  const meanX = sumOf(logs.map(({ x }) => x)) / logs.length;
  const meanY = sumOf(logs.map(({ y }) => y)) / logs.length;
  const products = sumOf(logs.map(({ x, y }) => (x - meanX) * (y - meanY)));
  const squares = sumOf(logs.map(({ x }) => (x - meanX) * (x - meanX)));
  return products / squares;
}
