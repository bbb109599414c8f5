import { describe, expect, it } from 'vitest';
import { COMPUTED } from './computed.ts';
import { NOT_OURS } from './not-ours.ts';
import { KINDS, VALUES } from './values.ts';

const IDS = VALUES.map(({ id }) => id);

describe('values from outside', () => {
  it('are at least 100, each with inputs, a kind and a source', () => {
    expect(VALUES.length).toBeGreaterThanOrEqual(100);
    for (const value of VALUES) {
      expect(Object.keys(value.inputs).length, value.id).toBeGreaterThan(0);
      expect(KINDS, value.id).toContain(value.kind);
      expect(value.source.length, value.id).toBeGreaterThan(5);
    }
  });

  it('are all computed, once each, and nothing else is', () => {
    expect(Object.keys(COMPUTED).sort()).toEqual(IDS.toSorted());
    expect(new Set(IDS).size).toBe(IDS.length);
  });

  it('are none of those that are left out, each with a reason', () => {
    const left = NOT_OURS.map(([id]) => id);
    expect(left.filter((id) => IDS.includes(id))).toEqual([]);
    expect(new Set(left).size).toBe(left.length);
    for (const [id, why] of NOT_OURS) expect(why.length, id).toBeGreaterThan(20);
  });

  it.each(
    VALUES.map((value) => [`${value.quantity} (${value.kind}; ${value.id})`, value] as const),
  )('%s', (_, { id, inputs, expected, tolerance }) => {
    const found = [COMPUTED[id]!(inputs)].flat();
    const wanted = [expected].flat();
    expect(found).toHaveLength(wanted.length);
    wanted.forEach((value, i) => {
      expect(Math.abs(found[i]! - value)).toBeLessThanOrEqual(allowance(tolerance, value));
    });
  });
});

/** Absolute, or "0.1%" of the value; a tolerance of 0 leaves room for the last place of a double. */
function allowance(tolerance: number | string, value: number): number {
  const absolute =
    typeof tolerance === 'number' ? tolerance : (Number.parseFloat(tolerance) / 100) * value;
  return absolute + Math.abs(value) * 1e-12;
}
