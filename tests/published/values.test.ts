import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { COMPUTED, type Inputs } from './computed.ts';

interface Value {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Inputs;
  readonly expected: number | readonly number[];
  readonly tolerance: number | string;
  readonly unit: string;
  readonly kind: string;
  readonly source: string;
}

const VALUES: readonly Value[] = parse(
  readFileSync(join(import.meta.dirname, 'values.yaml'), 'utf8'),
);

describe('values from outside', () => {
  it('are at least 60, each with inputs, a kind and a source', () => {
    expect(VALUES.length).toBeGreaterThanOrEqual(60);
    for (const value of VALUES) {
      expect(Object.keys(value.inputs).length, value.id).toBeGreaterThan(0);
      expect(['published', 'derived', 'memory', 'practice'], value.id).toContain(value.kind);
      expect(value.source.length, value.id).toBeGreaterThan(5);
    }
  });

  it('are all computed, and nothing else is', () => {
    expect(Object.keys(COMPUTED).sort()).toEqual(VALUES.map(({ id }) => id).sort());
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
