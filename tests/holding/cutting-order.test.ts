import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestLeastMargin, wholeKerfUm } from '../../src/holding/best-least.ts';
import { cuttingOrder, type Holds, stepsOf } from '../../src/holding/cutting-order.ts';
import { byDeadline, grantWishes, keepsDeadlines } from '../../src/holding/deadlines.ts';
import type { Needed } from '../../src/holding/kerf-limits.ts';
import { type Block, openedUm } from '../../src/holding/open-kerf.ts';
import { fileOrder, shortWay } from '../../src/holding/short-way.ts';
import { verdictOf } from '../../src/holding/verdict.ts';
import { wayLength } from '../../src/holding/way-moves.ts';

describe('the steps of a piece', () => {
  it('are its pockets, its holes, its cut-outs, then its outline', () => {
    const steps = stepsOf({ piece: 7, pockets: 1, holes: 2, cutOuts: 1 });
    expect(steps.map(({ kind, piece, feature }) => `${kind} ${piece}.${feature}`)).toEqual([
      'pocket 7.0',
      'hole 7.0',
      'hole 7.1',
      'cut-out 7.0',
      'outline 7.0',
    ]);
  });
});

describe('the least margin of an order', () => {
  it('is the best that any order gives', () => {
    fc.assert(
      fc.property(randomScene(6), ({ blocks, holds }) => {
        const best = Math.max(...ordersOf(blocks).map((order) => leastOf(blocks, holds, order)));
        expect(bestLeastMargin(blocks, holds.marginAt)).toBe(best);
        expect(leastOf(blocks, holds, cuttingOrder(blocks, holds).order)).toBe(best);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('is infinite without pieces', () => {
    expect(bestLeastMargin([], () => 1)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('deadlines', () => {
  it('are all kept by the order of rising deadlines if any order keeps them', () => {
    fc.assert(
      fc.property(randomScene(6), deadlines(6), ({ blocks }, drafts) => {
        const deadlinesUm = drafts.slice(0, blocks.length);
        const kept = ordersOf(blocks).some((order) => keepsDeadlines(blocks, deadlinesUm, order));
        expect(keepsDeadlines(blocks, deadlinesUm, byDeadline(blocks, deadlinesUm))).toBe(kept);
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('take in a wish only if all those before it can still be kept', () => {
    const blocks = [block({ kerfUm: 100 }), block({ kerfUm: 100 }), block({ kerfUm: 100 })];
    const none = blocks.map(() => Number.POSITIVE_INFINITY);
    const wishes = [0, 1, 2].map((i) => ({ block: i, deadlineUm: i === 1 ? 250 : 150 }));
    expect(grantWishes(blocks, none, wishes)).toEqual([150, 250, Number.POSITIVE_INFINITY]);
  });
});

describe('the short way', () => {
  it('is that from end to end along a line, and starts with the weaker end', () => {
    const blocks = [300, 0, 500, 100].map((x) => block({ centre: { x, y: 0 } }));
    const margins = [9, 9, 3, 9];
    const holds = { marginAt: (i: number) => margins[i]!, latestUm: () => Infinity };
    expect(cuttingOrder(blocks, holds).order).toEqual([2, 0, 3, 1]);
  });

  it('is no longer than a tenth over the shortest for a few pieces', () => {
    fc.assert(
      fc.property(randomScene(6), ({ blocks }) => {
        const none = blocks.map(() => Number.POSITIVE_INFINITY);
        const length = wayLength(blocks, shortWay(blocks, none));
        const best = Math.min(...ordersOf(blocks).map((order) => wayLength(blocks, order)));
        expect(length).toBeLessThanOrEqual(best * 1.1);
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it('is never longer than the order of the file where that keeps the deadlines', () => {
    fc.assert(
      fc.property(randomScene(14), deadlines(14), ({ blocks }, drafts) => {
        const deadlinesUm = drafts.slice(0, blocks.length);
        fc.pre(keepsDeadlines(blocks, deadlinesUm, fileOrder(blocks)));
        const way = shortWay(blocks, deadlinesUm);
        expect(keepsDeadlines(blocks, deadlinesUm, way)).toBe(true);
        const listed = wayLength(blocks, fileOrder(blocks));
        expect(wayLength(blocks, way)).toBeLessThanOrEqual(listed);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

describe('the cutting order', () => {
  it('keeps its rules, leaves nothing out, and is the same for a mirrored or turned sheet', () => {
    fc.assert(
      fc.property(randomScene(12), ({ blocks, holds }) => {
        const { order } = cuttingOrder(blocks, holds);
        expect(order.toSorted((a, b) => a - b)).toEqual([...blocks.keys()]);
        blocks.forEach(({ host }, i) => {
          if (host !== null) expect(order.indexOf(i)).toBeLessThan(order.indexOf(host));
        });
        const turned = blocks.map((b) => ({ ...b, centre: { x: 7 - b.centre.y, y: b.centre.x } }));
        const mirrored = blocks.map((b) => ({ ...b, centre: { ...b.centre, x: -b.centre.x } }));
        expect(cuttingOrder(turned, holds).order).toEqual(order);
        expect(cuttingOrder(mirrored, holds).order).toEqual(order);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it('holds the least margin no lower than the shortest way and the file do', () => {
    fc.assert(
      fc.property(randomScene(12), ({ blocks, holds }) => {
        const { order, shortest } = cuttingOrder(blocks, holds);
        const least = leastOf(blocks, holds, order);
        for (const other of [shortest, fileOrder(blocks)])
          expect(least).toBeGreaterThanOrEqual(leastOf(blocks, holds, other));
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it('leaves as many pieces staying as it can where all can be cut in time', () => {
    fc.assert(
      fc.property(randomScene(6), ({ blocks, holds, margins }) => {
        const stay = (order: readonly number[]): number =>
          openedAlong(blocks, order).filter(({ block: i, openUm }) => margins[i]!(openUm) >= 2)
            .length;
        const ways = ordersOf(blocks);
        const least = bestLeastMargin(blocks, holds.marginAt);
        const able = blocks.map((_, i) => ways.some((way) => staysIn(blocks, margins, way, i)));
        const wanted = able.filter(Boolean).length;
        const all = ways.some((w) => leastOf(blocks, holds, w) >= least && stay(w) === wanted);
        const kept = stay(cuttingOrder(blocks, holds).order);
        expect(kept === wanted).toBe(all);
      }),
      { seed: 9, numRuns: 200 },
    );
  });
});

type Margin = (openUm: number) => number;

interface Scene {
  readonly blocks: readonly Block[];
  readonly holds: Holds;
  readonly margins: readonly Margin[];
}

/** Pieces in cut-outs of others, kerfs shared with the next in the list, and margins that fall with the open kerf. */
function randomScene(most: number): fc.Arbitrary<Scene> {
  const draft = fc.record({
    host: fc.integer({ min: 0, max: 3 * most }),
    kerfUm: fc.integer({ min: 40, max: 400 }),
    sharedUm: fc.integer({ min: 0, max: 20 }),
    centre: fc.record({ x: fc.integer({ min: 0, max: 99 }), y: fc.integer({ min: 0, max: 99 }) }),
    start: fc.integer({ min: 50, max: 400 }),
    fall: fc.integer({ min: 0, max: 40 }),
  });
  return fc.array(draft, { minLength: 1, maxLength: most }).map((drafts) => {
    const count = drafts.length;
    const blocks = drafts.map(({ host, kerfUm, centre }, i) => {
      const shared = [i - 1, i].flatMap((k) =>
        k < 0 || k + 1 >= count ? [] : [{ block: k === i ? i + 1 : k, um: drafts[k]!.sharedUm }],
      );
      return { host: host < i ? host : null, kerfUm, shared, centre };
    });
    const margins = drafts.map(
      ({ start, fall }): Margin =>
        (openUm) =>
          Math.max(0, start - Math.floor((fall * openUm) / 200)) / 100,
    );
    return { blocks, margins, holds: holdsOf(margins, wholeKerfUm(blocks)) };
  });
}

/** The low end of each margin is seven tenths of it. */
function holdsOf(margins: readonly Margin[], wholeUm: number): Holds {
  const holds = (i: number, { margin, marginLow }: Needed, openUm: number): boolean => {
    const own = margins[i]!(openUm);
    return own >= margin && (marginLow === null || own * 0.7 >= marginLow);
  };
  return {
    marginAt: (i, openUm) => margins[i]!(openUm),
    latestUm: (i, needed) => {
      if (holds(i, needed, wholeUm)) return Number.POSITIVE_INFINITY;
      let openUm = wholeUm;
      while (openUm >= 0 && !holds(i, needed, openUm)) openUm--;
      return openUm;
    },
  };
}

function deadlines(count: number): fc.Arbitrary<number[]> {
  const deadline = fc.oneof(fc.integer({ min: 100, max: 2500 }), fc.constant(Infinity));
  return fc.array(deadline, { minLength: count, maxLength: count });
}

function block(draft: Partial<Block>): Block {
  return { host: null, kerfUm: 10, shared: [], centre: { x: 0, y: 0 }, ...draft };
}

/** Every order that cuts what lies in a cut-out before the piece around it. */
function ordersOf(blocks: readonly Block[]): number[][] {
  const from = (done: readonly number[]): number[][] => {
    if (done.length === blocks.length) return [[...done]];
    const ready = [...blocks.keys()].filter(
      (i) => !done.includes(i) && blocks.every(({ host }, k) => host !== i || done.includes(k)),
    );
    return ready.flatMap((i) => from([...done, i]));
  };
  return from([]);
}

function openedAlong(
  blocks: readonly Block[],
  order: readonly number[],
): { block: number; openUm: number }[] {
  const cut = new Uint8Array(blocks.length);
  let openUm = 0;
  return order.map((i) => {
    openUm += openedUm(blocks[i]!, cut);
    cut[i] = 1;
    return { block: i, openUm };
  });
}

function leastOf(blocks: readonly Block[], holds: Holds, order: readonly number[]): number {
  const margins = openedAlong(blocks, order).map((at) => holds.marginAt(at.block, at.openUm));
  return Math.min(...margins);
}

function staysIn(
  blocks: readonly Block[],
  margins: readonly Margin[],
  order: readonly number[],
  index: number,
): boolean {
  const { openUm } = openedAlong(blocks, order).find((at) => at.block === index)!;
  const margin = margins[index]!(openUm);
  return verdictOf(margin, margin * 0.7) === 'stays';
}
