import { describe, expect, it } from 'vitest';
import {
  formatLength,
  formatMoney,
  formatShare,
  formatSize,
  keptLength,
  lengthNumber,
} from '../../src/model/format.ts';
import { fromMm } from '../../src/model/units.ts';

const inches = (value: number) => Math.round(value * 203_200);

describe('lengths in print', () => {
  it.each([
    [fromMm(720), 'mm', '720'],
    [fromMm(0), 'mm', '0'],
    [fromMm(596.9), 'mm', '596.9'],
    [fromMm(590.55), 'mm', '590.55'],
    [fromMm(0.5), 'mm', '0.5'],
    [fromMm(100), 'mm', '100'],
    [inches(23.25), 'in', '23-1/4'],
    [inches(23), 'in', '23'],
    [inches(0.75), 'in', '3/4'],
    [inches(0), 'in', '0'],
    [3175, 'in', '1/64'],
    [inches(12 + 63 / 64), 'in', '12-63/64'],
    [fromMm(720), 'in', '28.346'],
    [fromMm(0.5), 'in', '0.02'],
  ] as const)('%i units in %s read %s', (length, unit, text) => {
    expect(lengthNumber(length, unit)).toBe(text);
  });

  it('carry their unit where they stand alone', () => {
    expect(formatLength(fromMm(18), 'mm')).toBe('18 mm');
    expect(formatLength(inches(1.5), 'in')).toBe('1-1/2"');
    expect(formatSize(fromMm(720), fromMm(560), 'mm')).toBe('720 × 560 mm');
    expect(formatSize(inches(23.25), inches(12), 'in')).toBe('23-1/4" × 12"');
  });
});

describe('lengths left over', () => {
  it.each([
    [fromMm(536.85), 'mm', '536.8 mm'],
    [fromMm(536.8), 'mm', '536.8 mm'],
    [fromMm(0.09), 'mm', '0 mm'],
    [inches(25.15), 'in', '25-9/64"'],
    [inches(17 + 1 / 3), 'in', '17-21/64"'],
    [inches(17.25), 'in', '17-1/4"'],
    [3174, 'in', '0"'],
  ] as const)('%i units in %s are never told longer than they are: %s', (length, unit, text) => {
    expect(keptLength(length, unit)).toBe(text);
  });
});

describe('money and shares in print', () => {
  it.each([
    [9200, 2, '92.00 EUR'],
    [5, 2, '0.05 EUR'],
    [0, 2, '0.00 EUR'],
    [-1250, 2, '-12.50 EUR'],
    [9200, 0, '9200 EUR'],
    [12_345, 3, '12.345 EUR'],
  ])('%i minor units of %i decimals read %s', (cents, decimals, text) => {
    expect(formatMoney(cents, { code: 'EUR', decimals })).toBe(text);
  });

  it('gives shares in per cent to one decimal', () => {
    expect(formatShare(0.734)).toBe('73.4 %');
    expect(formatShare(1)).toBe('100.0 %');
  });
});
