import { describe, expect, it } from 'vitest';
import { table } from '../../src/outputs/report/line.ts';

describe('a table of the terminal', () => {
  it('is never wider than a line: one column gives way', () => {
    const columns = [30, 60, 20].map((most) => ({ most, right: false }));
    const rows = [['a'.repeat(30), 'b'.repeat(60), 'c'.repeat(20)]];
    expect(table(rows, columns, 1)[0]).toBe(
      `${'a'.repeat(30)}  ${'b'.repeat(25)}…  ${'c'.repeat(20)}`,
    );
  });
});
