import type { ReckoningLine } from '../model/holding.ts';

export function line(quantity: string, formula: string, value: string): ReckoningLine {
  return { quantity, formula, value };
}

/** A number with enough digits to go on with, and its unit. */
export function amount(value: number, decimals: number, unit: string): string {
  return unit === '' ? value.toFixed(decimals) : `${value.toFixed(decimals)} ${unit}`;
}

/** Very large or small numbers, such as resistances: "6.00e10 1/m". */
export function power(value: number, unit: string): string {
  if (!Number.isFinite(value)) return 'airtight';
  return `${value.toExponential(2).replace('e+', 'e')} ${unit}`;
}
