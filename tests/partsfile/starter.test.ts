import { describe, expect, it } from 'vitest';
import { starterFile } from '../../src/partsfile/starter.ts';
import { jobOf } from './reading.ts';

describe('the starter file', () => {
  it.each(['mm', 'in'] as const)(
    'in %s reads without a problem and shows what there is',
    (unit) => {
      const text = starterFile(unit);
      const job = jobOf(text);
      expect(job.unit).toBe(unit);
      expect(new Set(job.parts.map(({ grain }) => grain))).toEqual(
        new Set(['along', 'across', 'any']),
      );
      expect(job.parts.some(({ holes }) => 1 < holes.length)).toBe(true);
      expect(job.parts.some(({ shape }) => 0 < shape.inner.length)).toBe(true);
      expect(job.parts.some(({ edgeBands }) => 0 < edgeBands.bottom)).toBe(true);
      expect(job.sets).toHaveLength(1);
      expect(job.limits.sheets).toBe(1);
      expect(text.split('\n').length).toBeLessThanOrEqual(60);
      expect(text.split('\n').every((line) => line.length <= 120)).toBe(true);
    },
  );

  it('has a lopsided part, so that a mirrored one would be seen', () => {
    const bracket = jobOf(starterFile('mm')).parts.find(({ name }) => name === 'Bracket');
    const corners = bracket?.shape.outer ?? [];
    const width = bracket?.width ?? 0;
    const mirrored = corners.map(({ x, y }) => `${width - x},${y}`);
    const here = new Set(corners.map(({ x, y }) => `${x},${y}`));
    expect(mirrored.every((corner) => here.has(corner))).toBe(false);
  });
});
