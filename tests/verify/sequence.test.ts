import { describe, expect, it } from 'vitest';
import { verifyLayout } from '../../src/verify/verify.ts';
import { fourSquares, SAWN, SAWN_MUTATIONS, threeStages } from './sawn-mutations.ts';

describe('the sequence of a saw', () => {
  it.each([
    ['with trims, a kerf and every cut as long as it may be', SAWN],
    ['in three stages', threeStages(3)],
    ['where no cut could run as the first one is told to', threeStages(3, 'across')],
    ['with the first cut as it is told', fourSquares('across')],
  ])('is valid %s', (_, { job, layout }) => {
    expect(verifyLayout(job, layout).faults).toEqual([]);
  });

  it.each(SAWN_MUTATIONS)('is not valid with $what', ({ scene: { job, layout }, codes }) => {
    const { valid, faults } = verifyLayout(job, layout);
    expect(new Set(faults.map(({ code }) => code))).toEqual(new Set(codes));
    expect(valid).toBe(false);
  });
});
