import type { Action, Advice } from './holding.ts';
import type { FileUnit, Job } from './job.ts';
import { KG_PER_LB, N_PER_LBF, UNITS_PER_INCH, UNITS_PER_MM } from './units.ts';

const SIXTY_FOURTHS = 64;

/**
 * A length as drawings print it, without its unit: millimetres to two decimals, inches as a whole number and a fraction
 * where the length falls on a 64th ("23-1/4"), else to three decimals. The same in every locale.
 */
export function lengthNumber(length: number, unit: FileUnit): string {
  if (unit === 'mm') return trimZeros((length / UNITS_PER_MM).toFixed(2));
  const parts = (length * SIXTY_FOURTHS) / UNITS_PER_INCH;
  if (!Number.isInteger(parts)) return trimZeros((length / UNITS_PER_INCH).toFixed(3));
  return inchFraction(parts);
}

/** A length with its unit: "720 mm", `23-1/4"`. */
export function formatLength(length: number, unit: FileUnit): string {
  return `${lengthNumber(length, unit)}${unit === 'mm' ? ' mm' : '"'}`;
}

/** A length to set a stop to, without its unit: as `lengthNumber`, inches to the nearest 64th. */
export function stopNumber(length: number, unit: FileUnit): string {
  if (unit === 'mm') return lengthNumber(length, unit);
  return inchFraction(Math.round((length * SIXTY_FOURTHS) / UNITS_PER_INCH));
}

/** The same with its unit. */
export function stopLength(length: number, unit: FileUnit): string {
  return `${stopNumber(length, unit)}${unit === 'mm' ? ' mm' : '"'}`;
}

/** A length that is left over, without its unit: down to a tenth of a millimetre or to a 64th of an inch, so that it is never promised longer than it is. */
export function keptNumber(length: number, unit: FileUnit): string {
  if (unit === 'in') return inchFraction(Math.floor((length * SIXTY_FOURTHS) / UNITS_PER_INCH));
  return `${Math.floor((length * 10) / UNITS_PER_MM) / 10}`;
}

/** The same with its unit. */
export function keptLength(length: number, unit: FileUnit): string {
  return `${keptNumber(length, unit)}${unit === 'mm' ? ' mm' : '"'}`;
}

/** Two lengths with their unit: "720 × 560 mm", `23-1/4" × 12"`. */
export function formatSize(first: number, second: number, unit: FileUnit): string {
  if (unit === 'in') return `${formatLength(first, unit)} × ${formatLength(second, unit)}`;
  return `${lengthNumber(first, unit)} × ${formatLength(second, unit)}`;
}

/** A name that is a size is printed as sizes are: "2440 × 1220 mm" of the stock "2440 x 1220". Records keep the name itself. */
export function stockTitle(name: string, unit: FileUnit): string {
  const size = /^(.*, )?([\d./-]+)(?: x ([\d./-]+))?$/.exec(name);
  if (size === null) return name;
  const [, lead = '', first = '', second] = size;
  return lead + joinedLengths(second === undefined ? [first] : [first, second], unit);
}

/** An amount in whole minor units with its currency: "92.00 EUR". */
export function formatMoney(cents: number, currency: Job['currency']): string {
  return `${moneyNumber(cents, currency)} ${currency.code}`;
}

/** The same without the currency: "92.00". */
export function moneyNumber(cents: number, { decimals }: Job['currency']): string {
  const digits = `${Math.abs(cents)}`.padStart(decimals + 1, '0');
  const whole = digits.slice(0, digits.length - decimals);
  const minor = decimals === 0 ? '' : `.${digits.slice(digits.length - decimals)}`;
  return `${cents < 0 ? '-' : ''}${whole}${minor}`;
}

/** A share of 1 in per cent: "73.4 %". */
export function formatShare(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}

function inchFraction(sixtyFourths: number): string {
  const whole = Math.floor(sixtyFourths / SIXTY_FOURTHS);
  let numerator = sixtyFourths - whole * SIXTY_FOURTHS;
  let denominator = SIXTY_FOURTHS;
  if (numerator === 0) return `${whole}`;
  while (numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  return whole === 0 ? `${numerator}/${denominator}` : `${whole}-${numerator}/${denominator}`;
}

function trimZeros(digits: string): string {
  return digits.replace(/\.?0+$/, '');
}

/** A length of cuts or ways: "12.3 m", "40.4 ft". */
export function formatRun(mm: number, unit: FileUnit): string {
  return unit === 'mm' ? `${(mm / 1000).toFixed(1)} m` : `${(mm / 304.8).toFixed(1)} ft`;
}

/** An area of stock: "8.93 m²", "96.1 ft²". */
export function formatArea(mm2: number, unit: FileUnit): string {
  return unit === 'mm'
    ? `${(mm2 / 1e6).toFixed(2)} m²`
    : `${(mm2 / (304.8 * 304.8)).toFixed(1)} ft²`;
}

/** Tenths of a per cent, which were rounded together: "73.4 %". */
export function formatTenths(tenths: number): string {
  return `${(tenths / 10).toFixed(1)} %`;
}

/** "36.4 kg", "80.2 lb". */
export function formatWeight(kg: number, unit: FileUnit, decimals: 1 | 2 = 1): string {
  return unit === 'mm' ? `${kg.toFixed(decimals)} kg` : `${(kg / KG_PER_LB).toFixed(decimals)} lb`;
}

/** "310 N", "70 lbf". */
export function formatForce(forceN: number, unit: FileUnit): string {
  return unit === 'mm' ? `${forceN.toFixed(0)} N` : `${(forceN / N_PER_LBF).toFixed(0)} lbf`;
}

/** Numbers of lengths side by side, with their unit: "720 × 560 mm", `23-1/4" × 12"`. */
export function joinedLengths(numbers: readonly string[], unit: FileUnit): string {
  return unit === 'mm'
    ? `${numbers.join(' × ')} mm`
    : numbers.map((number) => `${number}"`).join(' × ');
}

/** "1 sheet", "3 sheets". */
export function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

/** What to do with a thing that nothing reckoned holds. */
export const UNHELD_WORDS: Readonly<Record<Exclude<Advice, Action>, string>> = {
  leave: 'do not cut free',
  try: 'try in waste',
  pocket: 'clear to dust',
};
