import { describe, expect, it } from 'vitest';
import { type Box, boxesOverlap } from '../../src/geometry/box.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import {
  addNear,
  clearNear,
  findNear,
  nearOf,
  removeNear,
} from '../../src/packing/outlines/near.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { polygon } from '../helpers/shapes.ts';
import { runTask } from './pack.ts';
import { faultsOf } from './second-look.ts';

const ROOM = { minX: 10, minY: 20, maxX: 910, maxY: 420 };

describe('the entries near a box', () => {
  it('finds every entry that a box meets, each once, after any moves', () => {
    const random = seededRandom(1);
    const boxes = Array.from({ length: 120 }, () => randomBox(random));
    const near = nearOf(ROOM, { width: 45, height: 45 }, boxes.length);
    for (const [i, box] of boxes.entries()) addNear(near, i, box);
    for (let move = 0; move < 400; move++) {
      const i = Math.floor(random() * boxes.length);
      removeNear(near, i, boxes[i] as Box);
      boxes[i] = randomBox(random);
      addNear(near, i, boxes[i] as Box);
      const asked = randomBox(random);
      const found = answersTo(near, asked);
      expect(new Set(found).size).toBe(found.length);
      const meant = [...boxes.keys()].filter((k) => boxesOverlap(boxes[k] as Box, asked));
      expect(meant.filter((k) => !found.includes(k))).toEqual([]);
      expect(found.length).toBeLessThan(boxes.length);
    }
    clearNear(near);
    expect(answersTo(near, ROOM)).toEqual([]);
  });

  it('serves a sheet with many bodies', () => {
    const triangle = polygon([0, 0], [80, 0], [0, 80]);
    const job = jobOf({
      spacing: 2,
      sheets: [sheetOf(1500, 1000)],
      parts: [partOf(triangle, { count: 240 })],
    });
    const { task, candidate } = runTask(packingTask(job, 0), { work: 2e7 });
    expect(candidate.sheets.length).toBe(1);
    expect(candidate.unplaced).toEqual([]);
    expect(faultsOf(task, candidate)).toEqual([]);
  });
});

function answersTo(near: ReturnType<typeof nearOf>, { minX, minY, maxX, maxY }: Box): number[] {
  return [...near.found.slice(0, findNear(near, minX, minY, maxX, maxY))];
}

/** Some of them reach over the room. */
function randomBox(random: Random): Box {
  const [minX, minY] = [Math.floor(random() * 900), Math.floor(random() * 420)];
  const [width, height] = [1 + Math.floor(random() * 90), 1 + Math.floor(random() * 90)];
  return { minX, minY, maxX: minX + width, maxY: minY + height };
}
