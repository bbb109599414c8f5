import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runTask } from './pack.ts';
import { faultsOf } from './second-look.ts';
import { densityOf, type Strip, stripTask } from './strips.ts';

/** Least density in percent that a small fixed amount of work must reach; the best published ones are 92.4, 100 and 68.8. */
const FLOORS = [
  { name: 'fu', percent: 86 },
  { name: 'dighe1', percent: 88 },
  { name: 'shapes0', percent: 60 },
];

describe('published strips', () => {
  it.each(FLOORS)('$name is filled to $percent percent', ({ name, percent }) => {
    const strip = readStrip(name);
    const { task, candidate } = runTask(stripTask(strip), { work: 4e7 });
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.sheets.length).toBe(1);
    expect(candidate.unplaced).toEqual([]);
    expect(densityOf(strip, task, candidate)).toBeGreaterThanOrEqual(percent);
  });
});

function readStrip(name: string): Strip {
  return JSON.parse(readFileSync(join(import.meta.dirname, 'strips', `${name}.json`), 'utf8'));
}
