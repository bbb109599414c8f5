import { describe, expect, it } from 'vitest';
import { SIGNS, STYLES, type Style, type StyleName } from '../../src/drawing/styles.ts';

/** Letters and the grounds that they stand on. */
const WRITING: readonly (readonly [StyleName, StyleName])[] = [
  ['text', 'background'],
  ['text-soft', 'background'],
  ['text', 'piece'],
  ['text-soft', 'piece'],
  ['text', 'sheet'],
  ['text', 'order'],
  ['text-set', 'tag'],
  ['text', 'plate-keep-out'],
  ['text', 'plate-waste'],
  ['text', 'sign-alert'],
  ['text', 'cut-number'],
  ['text', 'cut-number-care'],
  ...Object.values(SIGNS).flatMap(({ badge, plate }) => [
    ['text-reversed', badge] as const,
    ['text-soft', plate] as const,
  ]),
];

describe('styles', () => {
  it.each(WRITING)('lets %s be read on %s, printed in grey too', (letters, ground) => {
    expect(contrast(fillOf(letters), fillOf(ground))).toBeGreaterThanOrEqual(4.5);
  });

  it('tells the pieces in need of care apart by their hatch alone', () => {
    const hatches = Object.values(SIGNS).map(({ piece }) => {
      const { hatch }: Style = STYLES[piece];
      return `${hatch?.angleDeg} ${hatch?.crossed}`;
    });
    expect(new Set(hatches).size).toBe(hatches.length);
    expect(new Set(Object.values(SIGNS).map(({ letter }) => letter)).size).toBe(hatches.length);
  });

  it('has no line too thin to print', () => {
    for (const style of Object.values<Style>(STYLES)) {
      if (style.stroke !== null) expect(style.weight).toBeGreaterThanOrEqual(0.1);
      if (style.hatch !== null) expect(style.hatch.weight).toBeGreaterThanOrEqual(0.1);
    }
  });
});

function fillOf(name: StyleName): string {
  const { fill }: Style = STYLES[name];
  if (fill === null) throw new Error(`${name} has no fill`);
  return fill;
}

/** Contrast ratio by relative luminance, 1 to 21 (Web Content Accessibility Guidelines 2.1, section 1.4.3). */
function contrast(one: string, other: string): number {
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
