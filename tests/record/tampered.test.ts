import process from 'node:process';
import { beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../src/index.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { recheckPlan } from '../../src/recheck.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { type Planned, planned } from './planned.ts';
import { pick, TAMPERS } from './tampers.ts';

/** A few hundred usually; `TAMPERS=1000` is more of the same. */
const COUNT = Number(process.env.TAMPERS ?? 300);

const FILES = ['reading-nook.yaml', 'bookcase-saw.yaml', 'odd'] as const;
const plans = new Map<string, Planned>();

beforeAll(async () => {
  for (const file of FILES) plans.set(file, await planned(file));
}, 120_000);

describe('a plan as it was written', () => {
  it.each(FILES)('of %s is in order', (file) => {
    const { job, sha256, text } = plans.get(file)!;
    const { faults, isReckoned } = recheck(job, readRecord(text).plan!, sha256);
    expect(faults).toEqual([]);
    expect(isReckoned).toBe(true);
  });
});

describe('a plan that was tampered with', () => {
  it.each(TAMPERS.map((tamper) => [tamper.kind, tamper] as const))('%s: is told', (_, tamper) => {
    const seeds = [1, 2, 3, 4];
    const done = FILES.flatMap((file) =>
      seeds.map((seed) => missed(plans.get(file)!, tamper, seed)),
    );
    expect(done.filter((each) => each !== null && each !== 'told')).toEqual([]);
    expect(done).toContain('told');
  });

  it(`is told ${COUNT} times of ${COUNT}`, () => {
    const random = seededRandom(20);
    const found: string[] = [];
    for (let tries = 0; found.length < COUNT && tries < 20 * COUNT; tries++) {
      const result = missed(plans.get(pick(FILES, random)!)!, pick(TAMPERS, random)!, tries);
      if (result !== null) found.push(result);
    }
    expect(found.filter((each) => each !== 'told')).toEqual([]);
    expect(found.length).toBe(COUNT);
  });
});

/** 'told', or which tamper was not; null where it does not apply. What is reckoned is that of the plan before: all must be caught without another reckoning. */
function missed(
  { name, job, sha256, text }: Planned,
  { kind, codes, act }: (typeof TAMPERS)[number],
  seed: number,
): string | null {
  const tree = JSON.parse(text);
  if (!act(tree, seededRandom(seed))) return null;
  const { plan, faults } = readRecord(JSON.stringify(tree));
  const told = plan === null ? faults : recheckPlan(job, plan, sha256, () => text).faults;
  if (told.some(({ code }) => codes.includes(code))) return 'told';
  return `${kind}, ${name}, seed ${seed}: ${told.map(({ code, path }) => `${code} ${path}`).join(', ')}`;
}
