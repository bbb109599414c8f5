import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openDxf, readDxf } from '../../src/partsfile/dxf-drawing.ts';
import { exactAreaMm2 } from '../helpers/exact-area.ts';
import {
  areaOf,
  type Corner,
  dxf,
  type Entity,
  lightPolyline,
  oldPolyline,
  sidesOf,
} from '../partsfile/dxf-text.ts';

/** Distances from the middle and bulges, corner by corner: a loop that winds once, though it may cross itself. */
const corners = fc
  .array(
    fc.record({
      reach: fc.integer({ min: 20_000, max: 90_000 }),
      bulge: fc.oneof(fc.constant(0), fc.integer({ min: -900, max: 900 })),
    }),
    { minLength: 3, maxLength: 40 },
  )
  .map((list): Corner[] =>
    list.map(({ reach, bulge }, i) => {
      const angle = (2 * Math.PI * i) / list.length;
      return [(reach / 1000) * Math.cos(angle), (reach / 1000) * Math.sin(angle), bulge / 1000];
    }),
  );

/** How a stretch of the loop is written: as separate lines and arcs, or as a polyline of either kind, forth or back. */
const way = fc.constantFrom('sides', 'light', 'light back', 'old', 'old back');

const loops = fc.record({
  loop: corners,
  cuts: fc.array(fc.record({ length: fc.integer({ min: 1, max: 6 }), way }), { minLength: 1 }),
  order: fc.infiniteStream(fc.nat()),
  /** How far the ends of each piece are off, in µm: two ends at most 9.9 apart. */
  off: fc.infiniteStream(fc.integer({ min: -3500, max: 3500 })),
});

describe('a loop cut into pieces that are shuffled and turned round', () => {
  it('is one outline of the same area', () => {
    fc.assert(
      fc.property(loops, ({ loop, cuts, order }) => {
        const pieces = piecesOf(loop, cuts).flatMap(({ run, way: how }) => written(run, how));
        const read = readDxf(opened(dxf(shuffled(pieces, order))), null).shape;
        if (!read.ok) throw new Error(read.fault.message);
        expect(read.shape.inner).toEqual([]);
        expect(Math.abs(exactAreaMm2(read.shape.outer) - Math.abs(areaOf(loop)))).toBeLessThan(0.2);
      }),
      { numRuns: 300 },
    );
  });

  it('is closed where all ends are off by less than the gap, and told to be open where one is not', () => {
    fc.assert(
      fc.property(loops, fc.nat(), ({ loop, cuts, order, off }, k) => {
        const straight = loop.map(([x, y]): Corner => [x, y]);
        const runs = piecesOf(straight, cuts).map(({ run }) =>
          run.map(([x, y], i): Corner => {
            if (0 < i && i < run.length - 1) return [x, y];
            return [x + off.next().value / 1e6, y + off.next().value / 1e6];
          }),
        );
        const near = readDxf(opened(dxf(shuffled(runs.map(asOpen), order))), null).shape;
        if (!near.ok) throw new Error(near.fault.message);
        const area = Math.abs(areaOf(straight));
        const round = straight.reduce((sum, [x, y], i) => {
          const [x2, y2] = straight[(i + 1) % straight.length]!;
          return sum + Math.hypot(x2 - x, y2 - y);
        }, 0);
        expect(Math.abs(exactAreaMm2(near.shape.outer) - area)).toBeLessThan(0.01 * round);
        const torn = runs.map((run, i) =>
          i === k % runs.length
            ? [[run[0]![0] + 0.04, run[0]![1]] as Corner, ...run.slice(1)]
            : run,
        );
        const far = readDxf(opened(dxf(shuffled(torn.map(asOpen), order))), null).shape;
        expect(far.ok ? '' : far.fault.code).toBe('open-outline');
      }),
      { numRuns: 200 },
    );
  });
});

function opened(text: string) {
  const dxfRead = openDxf(text);
  if ('code' in dxfRead) throw new Error(dxfRead.message);
  return dxfRead;
}

type Way = 'sides' | 'light' | 'light back' | 'old' | 'old back';
interface Cut {
  readonly length: number;
  readonly way: Way;
}

/** The loop as runs of corners, each from the last corner of the one before. */
function piecesOf(loop: readonly Corner[], cuts: readonly Cut[]): { run: Corner[]; way: Way }[] {
  const pieces: { run: Corner[]; way: Way }[] = [];
  for (let at = 0; at < loop.length; ) {
    const { length, way: how } = cuts[pieces.length % cuts.length]!;
    const end = Math.min(at + length, loop.length);
    const run = Array.from({ length: end - at + 1 }, (_, i) => loop[(at + i) % loop.length]!);
    pieces.push({ run, way: how });
    at = end;
  }
  return pieces;
}

function written(run: readonly Corner[], how: Way): Entity[] {
  if (how === 'sides') return sidesOf(run).slice(0, -1);
  const back = run.map(([x, y], i): Corner => [x, y, -(run[i - 1]?.[2] ?? 0)]).reverse();
  const list = how.endsWith('back') ? back : run;
  return [how.startsWith('old') ? oldPolyline(list, false) : lightPolyline(list, false)];
}

function asOpen(run: readonly Corner[]): Entity {
  return lightPolyline(run, false);
}

function shuffled<T>(items: readonly T[], order: fc.Stream<number>): T[] {
  const left = [...items];
  return items.map(() => left.splice(order.next().value % left.length, 1)[0]!);
}
