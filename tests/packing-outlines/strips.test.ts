import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { toMm } from '../../src/model/units.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { expectGolden } from '../helpers/golden.ts';
import { runTask } from './pack.ts';
import { faultsOf } from './second-look.ts';
import { densityOf, type Strip, stripTask } from './strips.ts';

/** A density in percent that a small fixed amount of work must reach on every track; the best published ones are 92.4, 100 and 68.8. */
const FLOORS = [
  { name: 'fu', percent: 85 },
  { name: 'dighe1', percent: 78 },
  { name: 'shapes0', percent: 59 },
];
const TRACKS = [0, 1];

describe('published strips', () => {
  it('are as long as before, to the last unit', () => {
    const lines = FLOORS.flatMap(({ name, percent }) =>
      TRACKS.map((track) => {
        const strip = readStrip(name);
        const { task, candidate } = runTask(stripTask(strip), { work: 4e7, track });
        expect(faultsOf(task, candidate)).toEqual([]);
        expect(candidate.sheets.length).toBe(1);
        expect(candidate.unplaced).toEqual([]);
        expect(densityOf(strip, task, candidate)).toBeGreaterThanOrEqual(percent);
        return `${name} on track ${track}: ${lengthOf(task, candidate)}\n`;
      }),
    );
    expectGolden('strip-lengths.txt', lines.join(''));
  });
});

function lengthOf({ bodies }: PackingTask, { sheets: [sheet] }: Candidate): number {
  const ends = (sheet?.spots ?? []).map(
    ({ body, orientation, x }) => x + (bodies[body]?.orientations[orientation]?.width ?? 0),
  );
  return toMm(Math.max(...ends));
}

function readStrip(name: string): Strip {
  return JSON.parse(readFileSync(join(import.meta.dirname, 'strips', `${name}.json`), 'utf8'));
}
