import { describe, expect, it } from 'vitest';
import { randomFile } from './random-file.ts';
import { wholeWay } from './whole-way.ts';

const BATCHES = 20;
const BATCH = 15;

/** Units of work of each track of the search of a material: little more than a first layout. */
const WORK = 2e4;

/** Apart from the jobs of the benchmark. */
const FIRST_SEED = 2 ** 30;

const SEEDS = Array.from({ length: BATCHES * BATCH }, (_, k) => FIRST_SEED + k);

describe('random whole jobs', () => {
  let withProblems = 0;

  it.each(Array.from({ length: BATCHES }, (_, k) => k + 1))(
    'go from their text to all outputs and back: batch %i',
    async (batch) => {
      for (const seed of SEEDS.slice((batch - 1) * BATCH, batch * BATCH)) {
        const k = seed % 30;
        const slow = { pdf: k === 0, labels: k === 1, page: k === 2 };
        const arrived = await wholeWay(randomFile(seed), { work: WORK, slow, twice: k % 5 === 3 });
        expect(arrived.faults, `job ${seed}`).toEqual([]);
        if (arrived.problems.length > 0) withProblems++;
      }
    },
  );

  // Were most of them turned away, the rest would say little.
  it('are planned for the most part', () => {
    expect(withProblems).toBeGreaterThan(SEEDS.length / 20);
    expect(withProblems).toBeLessThanOrEqual(SEEDS.length / 3);
  });

  it('are of all kinds', () => {
    const seen = new Set(SEEDS.flatMap((seed) => [...randomFile(seed).has]));
    expect(KINDS.filter((kind) => !seen.has(kind))).toEqual([]);
  });

  it('are the same for the same seed', () => {
    for (const seed of SEEDS.slice(0, 20)) expect(randomFile(seed)).toEqual(randomFile(seed));
  });
});

/** What at least one of so many files has to have. */
const KINDS = [
  ...['router', 'panel-saw', 'mm', 'in', 'CRLF', 'rack', 'sheets', 'boards', 'lumber'],
  ...[
    'points',
    'path',
    'shape',
    'outline',
    'matched',
    'cut-outs',
    'pockets',
    'holes',
    'nest-inside',
  ],
  ...['edges', 'grain', 'face', 'turns', 'trim', 'keep-out', 'defects', 'lifted', 'price', 'pack'],
  ...[
    'on-hand',
    'stages',
    'first-cut',
    'common-cuts',
    'spacing',
    'pump',
    'pods',
    'gasket',
    'zones',
  ],
  ...['masked', 'costs', 'limits', 'labels', 'layers', 'offcuts', 'hardware', 'variants'],
];
