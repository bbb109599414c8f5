import { describe, expect, it } from 'vitest';
import type { Box } from '../../src/geometry/box.ts';
import type { PanelSaw } from '../../src/model/machine.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { jobOf } from '../packing/jobs.ts';
import { faultsOf } from '../packing/legal.ts';
import { type SawnJob, sawnJob } from './saws.ts';

const SEEDS = Array.from({ length: 120 }, (_, k) => k + 1);

describe('a piece beside keep-outs', () => {
  it.each(SEEDS)('is cut from any sheet that has a clean place for it (%i)', (seed) => {
    const { stock, part, kerf } = drawn(seededRandom(seed));
    const sawn = sawnJob([stock], [part], { kerf });
    expect(placedOf(sawn)).toBe(placedOf(jobOf([stock], [part], kerf)));
  });

  it.each(SEEDS)('is parted within what the saw can do (%i)', (seed) => {
    const random = seededRandom(seed);
    const { stock, part, kerf } = drawn(random);
    const limits = {
      kerf,
      stages: ([2, 3, null] as const)[seed % 3]!,
      firstCut: ([null, 'along', 'across'] as const)[Math.floor(random() * 3)]!,
      longestRip: random() < 0.5 ? 150 : null,
    };
    placedOf(sawnJob([stock], [part, { ...part, width: 40, height: 30 }], limits));
  });

  it.each<readonly [string, Partial<PanelSaw>, readonly Box[], readonly [number, number], number]>([
    ['between two corners', {}, [at(0, 0, 100, 100), at(300, 400, 50, 50)], [800, 350], 1],
    ['in two stages', { stages: 2 }, [at(0, 0, 100, 100), at(300, 400, 50, 50)], [800, 350], 1],
    ['shorter than the rip', { longestRip: 700 }, [at(480, 200, 20, 20)], [550, 150], 1],
    ['longer than the rip', { longestRip: 500 }, [at(480, 200, 20, 20)], [550, 150], 0],
    ['across a knot', {}, [at(480, 200, 20, 20)], [990, 290], 0],
  ])('%s', (_, limits, boxes, [width, height], placed) => {
    const keepOuts = boxes.map((box) => ({ box, why: 'knot' }));
    const stock = { length: 1000, width: 500, keepOuts };
    expect(placedOf(sawnJob([stock], [{ width, height }], limits))).toBe(placed);
  });
});

function at(minX: number, minY: number, width: number, height: number): Box {
  return { minX, minY, maxX: minX + width, maxY: minY + height };
}

/** How many pieces are on sheets, none of which has a fault. */
function placedOf(job: SawnJob | ReturnType<typeof jobOf>): number {
  const layout = packCounted(job, 3);
  expect(verifyLayout(job, layout).faults).toEqual([]);
  expect(faultsOf(job, layout)).toEqual([]);
  return layout.sheets.reduce((sum, { placements }) => sum + placements.length, 0);
}

function drawn(random: Random) {
  const whole = (from: number, to: number) => from + Math.floor(random() * (to - from));
  const keepOuts = Array.from({ length: 1 + Math.floor(random() * 3) }, () => {
    const [width, height] = [whole(5, 40), whole(5, 30)];
    return { box: at(whole(0, 200 - width), whole(0, 100 - height), width, height), why: 'knot' };
  });
  return {
    stock: { length: 200, width: 100, keepOuts },
    part: { width: whole(60, 180), height: whole(20, 90) },
    kerf: random() < 0.5 ? 3 : 0,
  };
}
