import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { branchAndBound } from '../../src/packing/boards/fill-by-branching.ts';
import type { Filling } from '../../src/packing/boards/filling.ts';
import { reachableSums } from '../../src/packing/boards/reachable.ts';
import { makeFiller } from '../../src/packing/boards/richest-filling.ts';
import { WorkBudget } from '../../src/packing/work.ts';

interface Kind {
  readonly size: number;
  readonly count: number;
  readonly value: number;
}

const KINDS = fc.array(
  fc.record({
    size: fc.integer({ min: 1, max: 30 }),
    count: fc.integer({ min: 0, max: 5 }),
    value: fc.integer({ min: 0, max: 40 }),
  }),
  { minLength: 1, maxLength: 5 },
);
const ROOMS = fc.array(fc.integer({ min: 0, max: 80 }), { minLength: 1, maxLength: 3 });
const RUNS = { seed: 20260331, numRuns: 500 };

function budget(): WorkBudget {
  return new WorkBudget(1e12);
}

describe('the richest filling', () => {
  it.each([
    { way: 'by a table', scale: 1, exact: true },
    { way: 'at little work', scale: 1, exact: false },
    { way: 'by branching, sizes as large as boards', scale: 26_843_545, exact: true },
  ])('is as rich as any, $way', ({ scale, exact }) => {
    fc.assert(
      fc.property(KINDS, ROOMS, (kinds, rooms) => {
        const large = kinds.map((kind) => ({ ...kind, size: kind.size * scale }));
        const scaled = rooms.map((room) => room * scale);
        const filler = makeFiller(large, Math.max(...scaled), budget());
        const values = kinds.map(({ value }) => value);
        const counts = kinds.map(({ count }) => count);
        const fillings = (exact ? filler.exact : filler.quick)(values, counts, scaled);
        fillings.forEach((filling, i) => {
          expect(filling.value).toBe(richestByTrying(kinds, rooms[i]!));
          expect(filling.atMost).toBe(filling.value);
          expectLegal(filling, large, scaled[i]!);
        });
      }),
      RUNS,
    );
  });

  it('tells no less than the best where the nodes run out', () => {
    let open = 0;
    fc.assert(
      fc.property(KINDS, ROOMS, fc.integer({ min: 1, max: 8 }), (kinds, [room = 0], mostNodes) => {
        const values = kinds.map(({ value }) => value);
        const counts = kinds.map(({ count }) => count);
        const question = { supplies: kinds, values, counts, room, mostNodes, budget: budget() };
        const filling = branchAndBound(question);
        const best = richestByTrying(kinds, room);
        expectLegal(filling, kinds, room);
        expect(filling.value).toBeLessThanOrEqual(best);
        expect(filling.atMost).toBeGreaterThanOrEqual(best);
        if (filling.value < best) open++;
      }),
      RUNS,
    );
    expect(open).toBeGreaterThan(10);
  });
});

describe('reachableSums', () => {
  it('has each sum once, in order, none above the most', () => {
    const supplies = [
      { size: 3, count: 2 },
      { size: 5, count: 3 },
    ];
    expect([...(reachableSums(supplies, 12, 100) ?? [])]).toEqual([0, 3, 5, 6, 8, 10, 11]);
  });

  it('gives up where there are too many', () => {
    expect(reachableSums([{ size: 1, count: 50 }], 100, 20)).toBeNull();
  });
});

function expectLegal({ takes, value }: Filling, kinds: readonly Kind[], room: number): void {
  const sum = (of: (kind: Kind) => number) =>
    takes.reduce((all, { kind, times }) => all + times * of(kinds[kind]!), 0);
  expect(takes.every(({ kind, times }) => times >= 1 && times <= kinds[kind]!.count)).toBe(true);
  expect(new Set(takes.map(({ kind }) => kind)).size).toBe(takes.length);
  expect(sum(({ size }) => size)).toBeLessThanOrEqual(room);
  expect(sum((kind) => kind.value)).toBe(value);
}

function richestByTrying(kinds: readonly Kind[], room: number): number {
  const [first, ...others] = kinds;
  if (first === undefined) return 0;
  let best = 0;
  for (let times = 0; times <= first.count && times * first.size <= room; times++)
    best = Math.max(best, times * first.value + richestByTrying(others, room - times * first.size));
  return best;
}
