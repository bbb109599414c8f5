import { child, type Field, isFlawed, itemsOf, keysOf, textOf } from './tree.ts';
import type { Reading } from './values.ts';
import { quote } from './visible.ts';

/** Prices are read against this, in whole minor units. */
export interface Currency {
  readonly code: string;
  readonly decimals: number;
}

/**
 * The currencies of ISO 4217 (list one, in use), without funds, metals and test codes. The number of decimals is that of the
 * standard's minor unit, kept here because the language's own table changes with its version.
 */
const TWO_DECIMALS =
  'AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP CRC CUP CVE ' +
  'CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR ' +
  'KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB ' +
  'PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY ' +
  'TTD TWD TZS UAH USD UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG';
const NO_DECIMALS = 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF';
const THREE_DECIMALS = 'BHD IQD JOD KWD LYD OMR TND';

const DECIMALS: ReadonlyMap<string, number> = new Map([
  ...TWO_DECIMALS.split(' ').map((code) => [code, 2] as const),
  ...NO_DECIMALS.split(' ').map((code) => [code, 0] as const),
  ...THREE_DECIMALS.split(' ').map((code) => [code, 3] as const),
]);

/** What people write in place of a code. */
const SIGNS: Readonly<Record<string, string>> = {
  '€': 'EUR',
  EURO: 'EUR',
  EUROS: 'EUR',
  $: 'USD',
  DOLLAR: 'USD',
  DOLLARS: 'USD',
  '£': 'GBP',
  POUND: 'GBP',
  POUNDS: 'GBP',
  '¥': 'JPY',
};

/** The currency of the file, or a usual one of the unit where it names none; `assumed` then says so, as soon as a price is given. */
export function readCurrency(
  root: Field,
  { unit, report }: Reading,
): { readonly currency: Currency; readonly assumed: readonly string[] } {
  const usual = { code: unit === 'mm' ? 'EUR' : 'USD', decimals: 2 };
  const field = child(root, 'currency');
  if (field === null)
    return { currency: usual, assumed: hasPrice(root) ? [`prices in ${usual.code}`] : [] };
  if (isFlawed(field)) return { currency: usual, assumed: [] };
  const code = textOf(field);
  const decimals = decimalsOf(code);
  if (decimals !== null) return { currency: { code, decimals }, assumed: [] };
  const meant = currencyMeant(code);
  const hint =
    meant === null ? 'write three capitals, such as EUR or USD' : `did you mean ${meant}?`;
  report.error(field, 'bad-currency', `${quote(code)} is no ISO 4217 currency code`, hint);
  return { currency: usual, assumed: [] };
}

function hasPrice(root: Field): boolean {
  const materials = child(root, 'materials');
  const priced = (materials === null ? [] : keysOf(materials)).some((key) => {
    const sheets = child(child(materials, key), 'sheets');
    return sheets !== null && itemsOf(sheets).some((sheet) => child(sheet, 'price') !== null);
  });
  const others = [child(child(root, 'limits'), 'cost'), child(root, 'costs')];
  return priced || others.some((field) => field !== null);
}

/** Decimals of the minor unit, or null for a code that is no currency. */
function decimalsOf(code: string): number | null {
  return DECIMALS.get(code) ?? null;
}

/** The code that a sign or a name most likely means; null where nobody can say. */
function currencyMeant(text: string): string | null {
  const upper = text.trim().toUpperCase();
  if (DECIMALS.has(upper)) return upper;
  return SIGNS[upper] ?? null;
}
