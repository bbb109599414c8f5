import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Part } from '../../src/model/part.ts';
import { type SheetStock, usableBox } from '../../src/model/stock.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { jobOf } from '../helpers/jobs.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { faultsOf } from '../packing/legal.ts';
import { mixedJob } from '../packing/mixed-jobs.ts';

const BLOCK = 100;
const BLOCKS = Array.from({ length: 20 }, (_, k) => k * BLOCK);

describe('mixed jobs of rectangles', () => {
  it.each(BLOCKS)(
    'are laid out legally, as far as there is room, and not under the bound: %i on',
    (start) => {
      const seeds = Array.from({ length: BLOCK }, (_, k) => start + k);
      const complaints = seeds.flatMap((seed) =>
        complaintsOf(jobOf(mixedJob(seed)), seed % 3).map((text) => `seed ${seed}: ${text}`),
      );
      expect(complaints).toEqual([]);
    },
  );
});

function complaintsOf(job: Job, asks: number): string[] {
  try {
    const layout = packCounted(job, asks);
    return [
      ...verifyLayout(job, layout).faults.map(({ message }) => message),
      ...faultsOf(job, layout),
      ...complaintsOfCount(job, layout),
      ...complaintsOfUnplaced(job, layout),
    ];
  } catch (error) {
    // The packing asserts some of this itself; then the seed would not be said.
    return [String(error)];
  }
}

/** The objective is reckoned anew: with two or more stocks, all priced, it is the cost. */
function complaintsOfCount(job: Job, { sheets, used, bound, status, unplaced }: Layout): string[] {
  const stocks = job.materials[0]!.sheets;
  const byCost = stocks.length > 1 && stocks.every(({ priceCents }) => priceCents !== null);
  const sum = sheets.reduce(
    (total, { stock }) => total + (byCost ? stocks[stock]!.priceCents! : 1),
    0,
  );
  const due = unplaced.length > 0 ? 'impossible' : used === bound.atLeast ? 'proved' : 'limit';
  return [
    ...(sum === used ? [] : [`${used} used, but the sheets come to ${sum}`]),
    ...(unplaced.length > 0 || bound.atLeast <= used ? [] : [`bound ${bound.atLeast} > ${used}`]),
    ...(status === due ? [] : [`status ${status}, not ${due}`]),
  ];
}

/** A piece is left out as having no room just where its box has none, and for want of stock only where all stock that it fits is counted. */
function complaintsOfUnplaced(job: Job, { unplaced }: Layout): string[] {
  const stocks = job.materials[0]!.sheets;
  return job.pieces.flatMap(({ index }) => {
    const homes = stocks.filter((stock) => fits(job, index, stock));
    const why = unplaced.find(({ piece }) => piece === index)?.why ?? null;
    const endless = homes.some(({ onHand }) => onHand === null);
    const allowed = homes.length === 0 ? ['no-room'] : endless ? [null] : [null, 'no-stock'];
    return allowed.includes(why) ? [] : [`piece ${index}: ${why}, not ${allowed.join(' or ')}`];
  });
}

/** Whether the box of a piece, or of its whole set, finds room on an empty sheet, one spacing along an axis from keep-outs. */
function fits(job: Job, piece: number, stock: SheetStock): boolean {
  const { part, set: setIndex } = job.pieces[piece]!;
  const set = setIndex === null ? null : job.sets[setIndex]!;
  const members = (set?.pieces ?? [piece]).map((p) => job.parts[job.pieces[p]!.part]!);
  const gaps = (members.length - 1) * job.machine.spacing;
  const total = (side: 'width' | 'height') =>
    members.reduce((sum, member) => sum + member[side], gaps);
  const first = job.parts[part]!;
  const width = set?.axis === 'x' ? total('width') : first.width;
  const height = set?.axis === 'y' ? total('height') : first.height;
  return [true, false].some((level) => {
    const [w, h] = level ? [width, height] : [height, width];
    return mayLie(first, level, stock) && hasRoom(w, h, stock, job.machine.spacing);
  });
}

/** Whether the part may lie level on the stock, or upright: as its grain asks for, which is where its turns start, or else as it may be turned. */
function mayLie({ grain, turns }: Part, level: boolean, { grainAxis }: SheetStock): boolean {
  if (grain === 'any' || grainAxis === null)
    return turns.some((turn) => (turn % 180 === 0) === level);
  const isLevel = (grain === 'along') === (grainAxis === 'x');
  return level === isLevel && turns.some((turn) => turn % 180 === 0);
}

/** If it fits anywhere, it fits pushed left and down against edges and keep-outs. */
function hasRoom(w: number, h: number, stock: SheetStock, spacing: number): boolean {
  const usable = usableBox(stock);
  const closed = stock.keepOuts.map(({ box }) => box);
  const lefts = [usable.minX, ...closed.map(({ maxX }) => maxX + spacing)];
  const bottoms = [usable.minY, ...closed.map(({ maxY }) => maxY + spacing)];
  return lefts.some((x) =>
    bottoms.some(
      (y) =>
        x >= usable.minX &&
        y >= usable.minY &&
        x + w <= usable.maxX &&
        y + h <= usable.maxY &&
        closed.every(
          (box) =>
            x >= box.maxX + spacing ||
            x + w + spacing <= box.minX ||
            y >= box.maxY + spacing ||
            y + h + spacing <= box.minY,
        ),
    ),
  );
}
