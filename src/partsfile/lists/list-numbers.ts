import { plainLetters } from '../numbers.ts';

/** Which sign stands before the decimals of a column; `both` where its values contradict one another. */
export type Habit = 'point' | 'comma' | 'both';

type Sign = '.' | ',';

const SIGNS: readonly Sign[] = ['.', ','];
const HABITS: Readonly<Record<Sign, Habit>> = { '.': 'point', ',': 'comma' };
const SIGN_OF = { point: '.', comma: ',' } as const;

/**
 * How each column writes its decimals. A value shows it by itself where both signs occur (the last is the decimal one), where one occurs several
 * times (it parts thousands), or where other than three digits follow or no digit but 0 goes before. A value such as 18.000 shows it where thousands would be more than `most`, which
 * nothing of its kind is. A column that shows nothing follows the other columns of the list; where none shows anything, as in 1.250 and 2.100, the sign parts
 * thousands. `most` is 0 for counts: they are whole, so that 2.000 are two, and say nothing of other columns.
 */
export function decimalHabits(
  columns: readonly { readonly values: readonly string[]; readonly most: number }[],
): readonly Habit[] {
  const shown = columns.map(
    ({ values, most }) =>
      habitOf(values.map(signShown)) ??
      habitOf(SIGNS.map((sign) => signForced(values, sign, most))),
  );
  const telling = shown.filter((_, i) => columns[i]!.most > 0);
  const ofList = habitOf(
    telling.flatMap((habit) => (habit === null || habit === 'both' ? [] : SIGN_OF[habit])),
  );
  return columns.map(({ values }, i) => {
    if (shown[i] !== null) return shown[i]!;
    if (ofList === 'point' || ofList === 'comma') return ofList;
    // Thousands are parted by the one sign, so that the other is that of decimals.
    const parted = SIGNS.filter((sign) => values.some((value) => signIn(value) === sign));
    return habitOf(parted.map((sign) => (sign === '.' ? ',' : '.'))) ?? 'point';
  });
}

/** The number with a decimal point and no thousands, or null where either reading is possible. */
export function plainNumber(value: string, habit: Habit): string | null {
  const text = plainLetters(value).replace(SPACED, (group) => group.replace(/[' ]/g, ''));
  const { whole, sign } = NUMBER.exec(text)?.groups ?? {};
  if (whole === undefined || sign === undefined) return text;
  const own = signShown(text);
  if (habit === 'both' && own === null) return null;
  const decimal = own ?? (habit === 'comma' ? ',' : '.');
  if (!SOUND[decimal].test(whole)) return text;
  const plain = whole.replaceAll(decimal === ',' ? '.' : ',', '').replace(decimal, '.');
  return text.replace(whole, plain);
}

/** With each sign before the decimals: at most one of it, and the other between groups of three digits only. */
const SOUND: Readonly<Record<Sign, RegExp>> = {
  '.': /^(?:\d{1,3}(?:,\d{3})+|\d*)(?:\.\d*)?$/,
  ',': /^(?:\d{1,3}(?:\.\d{3})+|\d*)(?:,\d*)?$/,
};

/** Thousands parted by blanks or apostrophes, and no fraction behind them. */
const SPACED = /^[+-]?\d{1,3}(?:[' ]\d{3})+(?!\d| ?\/)/;

const NUMBER = /^[+-]? ?(?<whole>\d*(?<sign>[.,])[\d.,]*)/;
const GROUPS = /^\d{1,3}(?:[.,]\d{3})+$/;

/** The decimal sign that a value cannot but have; null where it has none, or either is possible. */
function signShown(value: string): Sign | null {
  const { whole, sign } = NUMBER.exec(plainLetters(value))?.groups ?? {};
  if (whole === undefined || sign === undefined) return null;
  const last = whole.includes('.') && whole.includes(',') ? lastSign(whole) : null;
  if (last !== null) return last;
  const other = sign === '.' ? ',' : '.';
  if (whole.split(sign).length > 2) return GROUPS.test(whole) ? other : null;
  return GROUPS.test(whole) && !whole.startsWith('0') ? null : (sign as Sign);
}

function lastSign(whole: string): Sign | null {
  const sign = whole.lastIndexOf('.') > whole.lastIndexOf(',') ? '.' : ',';
  return whole.split(sign).length === 2 ? sign : null;
}

/** `sign`, where a value of the column would be more than `most` if it parted thousands. */
function signForced(values: readonly string[], sign: Sign, most: number): Sign | null {
  const isTooMuch = (value: string) =>
    signIn(value) === sign && Number.parseFloat(plainLetters(value).replaceAll(sign, '')) > most;
  return values.some(isTooMuch) ? sign : null;
}

function signIn(value: string): string | undefined {
  return NUMBER.exec(plainLetters(value))?.groups?.sign;
}

function habitOf(signs: readonly (Sign | null)[]): Habit | null {
  const kinds = new Set(signs.filter((sign) => sign !== null));
  if (kinds.size === 2) return 'both';
  const [only] = kinds;
  return only === undefined ? null : HABITS[only];
}
