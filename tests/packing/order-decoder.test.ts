import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { type BoxStock, boxTask } from '../../src/packing/rectangles/box-task.ts';
import { type OrderDecoder, orderDecoder } from '../../src/packing/rectangles/order-decoder.ts';
import {
  NONE_LEFT,
  RULE_COUNT,
  SKYLINE_SIDEWAYS,
  SKYLINE_UP,
} from '../../src/packing/rectangles/rules.ts';
import { jobOf, QUARTERS } from './jobs.ts';

const RULES = Array.from({ length: RULE_COUNT }, (_, rule) => rule);
const SHEET = { length: 60, width: 40 };

interface Laid {
  readonly code: number;
  readonly x: number;
  readonly y: number;
}

describe.each(RULES)('rule %i', (rule) => {
  it('lays boxes inside the sheet and apart, leaves out the others, and lays its own order out again alike', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const { decoder, stock, order } = randomOrder(seed);
      decoder.decode(stock, order, order.length, rule, Number.POSITIVE_INFINITY);
      const laid = laidBy(decoder);
      expect(faultsOf(stock, laid)).toEqual([]);
      const { leftCount } = decoder.result;
      const codes = [...laid.map(({ code }) => code), ...decoder.result.left.slice(0, leftCount)];
      expect(kindsOf(codes)).toEqual(kindsOf([...order]));
      const again = Int32Array.from(laid, ({ code }) => code);
      expect(decoder.decode(stock, again, again.length, rule, NONE_LEFT)).toBe(true);
      expect(laidBy(decoder)).toEqual(laid);
    }
  });

  it('gives up exactly where the boxes left out cost more than the limit', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const { decoder, stock, order } = randomOrder(seed);
      decoder.decode(stock, order, order.length, rule, Number.POSITIVE_INFINITY);
      const { leftCost } = decoder.result;
      expect(decoder.decode(stock, order, order.length, rule, leftCost)).toBe(true);
      if (leftCost > 0)
        expect(decoder.decode(stock, order, order.length, rule, leftCost - 1)).toBe(false);
    }
  });
});

describe('the skyline', () => {
  it.each([
    {
      what: 'fills a gap with the box that fits it exactly, whatever the order',
      sizes: [
        [20, 10],
        [15, 30],
        [40, 10],
      ],
      rule: SKYLINE_UP,
      laid: ['20x10 at 0,0', '40x10 at 20,0', '15x30 at 0,10'],
    },
    {
      what: 'puts a box beside the higher wall',
      sizes: [
        [30, 20],
        [30, 30],
        [10, 5],
      ],
      rule: SKYLINE_UP,
      laid: ['30x20 at 0,0', '30x30 at 30,0', '10x5 at 0,20'],
    },
    {
      what: 'goes the same way from the left side',
      sizes: [
        [10, 25],
        [20, 15],
        [5, 10],
      ],
      rule: SKYLINE_SIDEWAYS,
      laid: ['10x25 at 0,0', '20x15 at 0,25', '5x10 at 10,0'],
    },
  ])('$what', ({ sizes, rule, laid }) => {
    const { decoder, stock, order, names } = orderOf(sizes as [number, number][], [0]);
    decoder.decode(stock, order, order.length, rule, Number.POSITIVE_INFINITY);
    const words = laidBy(decoder).map(({ code, x, y }) => `${names[code >> 2]} at ${x},${y}`);
    expect(words).toEqual(laid);
  });
});

function randomOrder(seed: number) {
  const random = seededRandom(seed);
  const side = (most: number) => 1 + Math.floor(most * random());
  const sizes = Array.from({ length: 1 + (seed % 20) }, (): [number, number] => [
    side(30),
    side(25),
  ]);
  return orderOf(sizes, seed % 2 === 0 ? QUARTERS : [0]);
}

/** Every box once, in the given order. */
function orderOf(sizes: readonly (readonly [number, number])[], turns: readonly number[]) {
  const job = jobOf(
    [SHEET],
    sizes.map(([width, height]) => ({ width, height, turns })),
  );
  const task = packingTask(job, 0);
  const boxes = boxTask(task);
  const names: string[] = [];
  const codes = task.bodies.map((body, i) => {
    names[body.kind] = sizes[i]!.join('x');
    return boxes.freeCode[body.kind]!;
  });
  const stock = boxes.stocks[0] as BoxStock;
  return { decoder: orderDecoder(boxes), stock, order: Int32Array.from(codes), names };
}

function laidBy({ result }: OrderDecoder): Laid[] {
  return Array.from({ length: result.placedCount }, (_, k) => ({
    code: result.placed[k]!,
    x: result.placedX[k]!,
    y: result.placedY[k]!,
  }));
}

function faultsOf({ boxWidth, boxHeight, width, height }: BoxStock, laid: readonly Laid[]) {
  const boxes = laid.map(({ code, x, y }) => {
    const box = 2 * (code >> 2) + (code & 3);
    return { x, y, right: x + boxWidth[box]!, top: y + boxHeight[box]! };
  });
  return boxes.flatMap((a, i) => [
    ...(a.x < 0 || a.y < 0 || a.right > width || a.top > height ? [`${i} is outside`] : []),
    ...boxes.slice(0, i).flatMap((b, k) => {
      const apart = a.x >= b.right || b.x >= a.right || a.y >= b.top || b.y >= a.top;
      return apart ? [] : [`${i} lies on ${k}`];
    }),
  ]);
}

function kindsOf(codes: readonly number[]): number[] {
  return codes.map((code) => code >> 2).sort((a, b) => a - b);
}
