import { describe, expect, it } from 'vitest';
import { CONSTANT_ROWS, type Row } from './constant-rows.ts';
import { NOT_OURS } from './not-ours.ts';
import { KINDS, VALUES } from './values.ts';

describe('the constants of the tool beside figures from outside', () => {
  it('are checked for 41 figures, none of which is computed or left out', () => {
    const ids = new Set(CONSTANT_ROWS.map(({ id }) => id));
    expect(ids.size).toBe(41);
    const others = [...VALUES.map(({ id }) => id), ...NOT_OURS.map(([id]) => id)];
    expect(others.filter((id) => ids.has(id))).toEqual([]);
    for (const { id, kind, source } of CONSTANT_ROWS) {
      expect(KINDS, id).toContain(kind);
      expect(source.length, id).toBeGreaterThan(5);
    }
  });

  it.each(
    CONSTANT_ROWS.map(
      (row) =>
        [
          `${row.figure} ${row.is} ${Number(row.published.toPrecision(5))} (${row.kind}; ${row.id})`,
          row,
        ] as const,
    ),
  )('%s', (_, row) => {
    expect(holds(row), `${row.ours}`).toBe(true);
  });
});

/** Twentieths of the published figure: the spread of one species or panel is larger. */
const NEAR = 0.05;

function holds({ ours, is, published }: Row): boolean {
  const room = 1e-12 * published;
  switch (is) {
    case 'at least':
      return ours >= published - room;
    case 'at most':
      return ours <= published + room;
    case 'just under':
      return ours <= published + room && ours >= published * (1 - NEAR);
    case 'near':
      return Math.abs(ours - published) <= NEAR * published;
  }
}
