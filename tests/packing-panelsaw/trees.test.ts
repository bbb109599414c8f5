import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { COLUMN, ROW } from '../../src/packing/panelsaw/direction.ts';
import type { PanelGround } from '../../src/packing/panelsaw/ground.ts';
import { prune } from '../../src/packing/panelsaw/prune.ts';
import { SlicingDecoder } from '../../src/packing/panelsaw/slicing-decoder.ts';
import {
  NO_TREE_LIMITS,
  type SlicingTree,
  type TreeLimits,
} from '../../src/packing/panelsaw/slicing-tree.ts';
import { PLACE_RULES } from '../../src/packing/panelsaw/tree-filler.ts';
import { GONE, LEAF, NONE } from '../../src/packing/panelsaw/tree-nodes.ts';
import { orderOf } from '../../src/packing/panelsaw/tree-order.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { type BoxStock, boxTask } from '../../src/packing/rectangles/box-task.ts';
import { kindOf } from '../../src/packing/rectangles/code.ts';
import { Decoded } from '../../src/packing/rectangles/decoded.ts';
import { newSheet } from '../../src/packing/rectangles/sheet.ts';
import { QUARTERS } from '../packing/jobs.ts';
import { sawnJob } from './saws.ts';

const SEEDS = Array.from({ length: 40 }, (_, k) => k + 1);
const KINDS = 30;

const MACHINES: readonly { readonly name: string; readonly limits: TreeLimits }[] = [
  { name: 'any cuts', limits: NO_TREE_LIMITS },
  { name: 'two stages', limits: { ...NO_TREE_LIMITS, depth: 2 } },
  { name: 'three stages', limits: { ...NO_TREE_LIMITS, depth: 3 } },
  { name: 'short cuts', limits: { ...NO_TREE_LIMITS, alongX: 170, alongY: 100 } },
  { name: 'a first cut that is told', limits: { ...NO_TREE_LIMITS, isRootFixed: true } },
];

describe.each(MACHINES)('trees that boxes come into and go out of: $name', ({ limits }) => {
  it.each(SEEDS)('agree with themselves and are grown again from their order (%i)', (seed) => {
    const { decoder, stock, grounds, step, result } = site(seed, limits, 1);
    for (let n = 0; n < 25; n++) {
      step();
      for (const ground of grounds) expectSound(ground, limits, stock);
      const before = spotsOf(grounds);
      const { codes, beside } = orderOf(grounds);
      const { width, height } = stock;
      const sheet = { codes, count: codes.length, rule: firstRule(seed), beside, width, height };
      expect(decoder.layAgain(stock, sheet)).toBe(true);
      const after = [...codes].map((code, k) =>
        [code, result.placedX[k], result.placedY[k]].join(' '),
      );
      expect(after.sort()).toEqual(before);
      for (const ground of decoder.grow(stock, sheet)) expectSound(ground, limits, stock);
    }
  });
});

describe('trees of a scaled sheet', () => {
  it.each(SEEDS)('take the same boxes in the same places (%i)', (seed) => {
    const [plain, scaled] = [1, 997].map((scale) => {
      const { grounds, step } = site(seed, NO_TREE_LIMITS, scale);
      for (let n = 0; n < 25; n++) step();
      return orderOf(grounds);
    });
    expect(scaled).toEqual(plain);
    expect(plain!.codes.length).toBeGreaterThan(5);
  });
});

/** A sheet, with a keep-out on every third one, and a step that takes boxes out of its trees and puts others in. */
function site(seed: number, limits: TreeLimits, scale: number) {
  const random = seededRandom(seed);
  const size = () => scale * (5 + Math.floor(60 * random() * random()));
  const parts = Array.from({ length: KINDS }, () => ({
    width: size(),
    height: size(),
    turns: random() < 0.5 ? QUARTERS : [0],
  }));
  const box = { minX: 90 * scale, minY: 60 * scale, maxX: 110 * scale, maxY: 75 * scale };
  const keepOuts = seed % 3 === 0 ? [{ box, why: 'knot' }] : [];
  const job = sawnJob([{ length: 200 * scale, width: 120 * scale, keepOuts }], parts);
  const task = boxTask(packingTask(job, 0));
  const stock = task.stocks[0]!;
  const result = new Decoded();
  const costs = { ofKind: Float64Array.from(task.area), leastPerArea: 1 };
  const decoder = new SlicingDecoder(limits, new Uint8Array(task.kindCount), costs, result);
  const empty = { ...newSheet(task.stocks, 0), rule: firstRule(seed) };
  const grounds = decoder.grow(stock, empty);
  const order = new Int32Array(12);
  const step = () => {
    for (const { tree, width, height } of grounds) {
      if (random() < 0.7) prune(tree, drawnNode(tree, random), () => undefined);
      tree.renew(width, height);
    }
    for (let i = 0; i < order.length; i++)
      order[i] = task.freeCode[Math.floor(random() * task.kindCount)]!;
    const rule = Math.floor(random() * PLACE_RULES);
    const mayGroup = limits === NO_TREE_LIMITS;
    decoder.filler.fill(grounds, order, order.length, rule, Number.POSITIVE_INFINITY, mayGroup);
  };
  return { decoder, stock, grounds, step, result };
}

/** Of the rules with a row or a column as the root. */
function firstRule(seed: number): number {
  return seed % 2 === 0 ? 0 : PLACE_RULES;
}

function drawnNode({ kind, count }: SlicingTree, random: Random): number {
  for (;;) {
    const node = Math.floor(random() * count);
    if (kind[node] !== GONE) return node;
  }
}

/** Sizes, room, depths and links, each found anew from the leaves and the panel. */
function expectSound(
  { tree, width, height }: PanelGround,
  { depth }: TreeLimits,
  stock: BoxStock,
): void {
  let leaves = 0;
  const sizeOf = (node: number, level: number): readonly [number, number] => {
    expect(tree.depth[node]).toBe(level);
    const kind = tree.kind[node]!;
    expect(kind).not.toBe(GONE);
    expect([
      tree.width[node]! <= tree.roomX[node]!,
      tree.height[node]! <= tree.roomY[node]!,
    ]).toEqual([true, true]);
    if (kind === LEAF) {
      leaves++;
      expect(tree.depth[node]).toBeLessThanOrEqual(depth);
      const code = tree.code[node]!;
      const box = 2 * kindOf(code) + (code & 3);
      return [stock.boxWidth[box]!, stock.boxHeight[box]!];
    }
    const sizes: (readonly [number, number])[] = [];
    for (let child = tree.first[node]!; child !== NONE; child = tree.next[child]!) {
      expect(tree.parent[child]).toBe(node);
      if (tree.kind[child] !== LEAF) expect(tree.kind[child]).toBe(kind === ROW ? COLUMN : ROW);
      sizes.push(sizeOf(child, level + 1));
    }
    if (node !== tree.root) expect(sizes.length).toBeGreaterThan(1);
    const sum = (side: 0 | 1) => sizes.reduce((all, each) => all + each[side], 0);
    const most = (side: 0 | 1) => sizes.reduce((all, each) => Math.max(all, each[side]), 0);
    const own = kind === ROW ? ([sum(0), most(1)] as const) : ([most(0), sum(1)] as const);
    expect([tree.width[node], tree.height[node]]).toEqual(own);
    return own;
  };
  const [w, h] = sizeOf(tree.root, 0);
  expect(leaves).toBe(tree.leaves);
  expect([w <= width, h <= height]).toEqual([true, true]);
}

function spotsOf(grounds: readonly PanelGround[]): readonly string[] {
  return grounds
    .flatMap(({ tree, panel }) => {
      tree.settle(panel.minX, panel.minY);
      return Array.from({ length: tree.count }, (_, node) => node)
        .filter((node) => tree.kind[node] === LEAF)
        .map((node) => [tree.code[node], tree.x[node], tree.y[node]].join(' '));
    })
    .sort();
}
