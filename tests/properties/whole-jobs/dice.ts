import { seededRandom } from '../../../src/packing/random.ts';

/** What a parts file is made of before it is written. */
export type Tree = string | number | boolean | null | readonly Tree[] | Keys;
export interface Keys {
  readonly [key: string]: Tree;
}

/** Draws from one seed. */
export interface Dice {
  readonly chance: (share: number) => boolean;
  /** A whole number, both ends included. */
  readonly whole: (least: number, most: number) => number;
  /** Any number between two others, of four decimals at most. */
  readonly between: (least: number, most: number) => number;
  readonly among: <T>(items: readonly T[]) => T;
  readonly times: <T>(count: number, make: (k: number) => T) => T[];
  /** These keys with this chance, else none. */
  readonly maybe: (share: number, keys: () => Keys) => Keys;
}

export function diceOf(seed: number): Dice {
  const random = seededRandom(seed);
  const whole = (least: number, most: number) =>
    least + Math.floor(random() * (Math.max(least, Math.floor(most)) - least + 1));
  return {
    chance: (share) => random() < share,
    whole,
    between: (least, most) => Math.round((least + random() * (most - least)) * 1e4) / 1e4,
    among: (items) => items[Math.floor(random() * items.length)]!,
    times: (count, make) => Array.from({ length: count }, (_, k) => make(k)),
    maybe: (share, keys) => (random() < share ? keys() : {}),
  };
}

/** Lengths as people write them in a file of one unit; all are given in mm, and come out within a 64th of an inch of that. */
export interface Ruler {
  readonly unit: 'mm' | 'in';
  /** In any form. */
  readonly length: (mm: number) => Tree;
  /** As a number of the file's unit, as exact as it is given. */
  readonly number: (mm: number) => number;
  readonly size: (first: number, second: number) => Tree;
  readonly point: (x: number, y: number) => Tree;
}

const MM_PER_IN = 25.4;

export function rulerOf(dice: Dice, unit: 'mm' | 'in'): Ruler {
  const number = (mm: number) => (unit === 'mm' ? rounded(mm, 1e4) : rounded(mm / MM_PER_IN, 1e6));
  const text = (mm: number) => {
    const odd = dice.chance(0.08);
    if ((unit === 'mm') === odd) return `${fraction(mm)}${unit === 'mm' ? 'in' : ''}`;
    return unit === 'mm' ? plainMm(mm) : `${plainMm(mm)}mm`;
  };
  const plainMm = (mm: number) => String(dice.chance(0.8) ? Math.round(mm) : rounded(mm, 10));
  /** In 64ths, with the whole part before a dash or a blank. */
  const fraction = (mm: number) => {
    const parts = Math.max(1, Math.round((mm * 64) / MM_PER_IN));
    const [all, rest] = [Math.floor(parts / 64), parts % 64];
    if (rest === 0) return String(all);
    return all === 0 ? `${rest}/64` : `${all}${dice.among(['-', ' '])}${rest}/64`;
  };
  const plain = (mm: number) => (unit === 'mm' ? plainMm(mm) : fraction(mm));
  const length = (mm: number): Tree => {
    const written = text(mm);
    return /^[\d.]+$/.test(written) && dice.chance(0.9) ? Number(written) : written;
  };
  return {
    unit,
    length,
    number,
    // Where one of two lengths has a unit, the other has one as well.
    size: (first, second) =>
      dice.chance(0.7)
        ? `${plain(first)} x ${plain(second)}${dice.chance(0.05) ? unit : ''}`
        : [length(first), length(second)],
    point: (x, y) => [number(x), number(y)],
  };
}

export function rounded(value: number, steps: number): number {
  return Math.round(value * steps) / steps;
}
