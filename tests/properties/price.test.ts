import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import type { Job } from '../../src/model/job.ts';
import type { Rates } from '../../src/model/rates.ts';
import { priceLines } from '../../src/outputs/report/price.ts';
import { jobOf } from '../helpers/jobs.ts';
import { planOf } from '../helpers/plan-of.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { jobInputs } from './random-jobs.ts';

const SEED = 20_031;

const CURRENCIES = [
  { code: 'EUR', decimals: 2 },
  { code: 'JPY', decimals: 0 },
  { code: 'KWD', decimals: 3 },
] as const;

const group = fc.constantFrom('Carcass', 'Doors', null);
const cents = fc.nat(20_000);
const seconds = fc.option(fc.nat(3000));
const share = fc.integer({ min: 0, max: 999 }).map((n) => n / 1000);

const rates: fc.Arbitrary<Rates> = fc.record({
  labour: fc.option(fc.record({ machineCents: cents, benchCents: cents })),
  setupS: seconds,
  loadingS: seconds,
  toolChangeS: seconds,
  holeS: seconds,
  sawCutS: seconds,
  boardCutS: seconds,
  edgeBand: fc.option(
    fc.record({
      measure: fc.constantFrom('m', 'ft'),
      priceCents: cents,
      secondsPerM: seconds,
      wasteShare: share,
    }),
  ),
  hardware: fc.array(
    fc.record({
      name: fc.constantFrom('Hinge', 'Pin'),
      count: fc.integer({ min: 1, max: 40 }),
      priceCents: cents,
      group,
      part: fc.constant(null),
    }),
    { maxLength: 3 },
  ),
  wasteShare: share,
  margin: fc.record({ share, of: fc.constantFrom('cost', 'price') }),
  taxShare: fc.option(share),
});

const priced = fc.record({
  input: jobInputs({ rectangles: true }),
  rates: fc.option(rates, { freq: 10 }),
  currency: fc.constantFrom(...CURRENCIES),
  groups: fc.array(group, { minLength: 5, maxLength: 5 }),
  band: fc.nat(1),
  mounted: fc.array(fc.record({ on: fc.nat(9), count: fc.integer({ min: 1, max: 40 }), cents })),
});

describe('the price', () => {
  it('is shared out to the minor unit among groups and among parts, and its sums are those of its lines', () => {
    const holds = fc.property(priced, ({ input, rates, currency, groups, band, mounted }) => {
      const plain = jobOf({
        ...input,
        sheets: (input.sheets ?? []).map((sheet) => ({ priceCents: 4999, ...sheet })),
      });
      const onParts = mounted.map(({ on, count, cents }) => ({
        name: 'Pin',
        count,
        priceCents: cents,
        group: null,
        part: plain.parts[on % plain.parts.length]!.name,
      }));
      const job: Job = {
        ...plain,
        rates: rates && { ...rates, hardware: [...rates.hardware, ...onParts] },
        currency,
        parts: plain.parts.map((part) => ({
          ...part,
          group: groups[part.index % groups.length]!,
          edgeBands: { left: band, right: 0, bottom: band, top: band },
        })),
      };
      const plan = planOf(job, packCounted(job, 2));
      const { quote } = plan.costs;
      for (const { text } of priceLines(plan)) expect([...text].length).toBeLessThanOrEqual(80);
      if (quote.priceCents === null) {
        expect(quote.unknown.length).toBeGreaterThan(0);
        return;
      }
      expect(sum(quote.lines.map((line) => line.cents!))).toBe(quote.costCents);
      expect(quote.costCents! + quote.marginCents!).toBe(quote.priceCents);
      expect(quote.priceCents + (quote.taxCents ?? 0)).toBe(quote.totalCents);
      expect(sum(quote.groups.map((each) => each.cents))).toBe(quote.priceCents);
      for (const { cents: whole, shares } of quote.groups) {
        expect(sum(shares.map((each) => each.cents))).toBe(whole);
        for (const { cents: one } of shares) expect(Number.isInteger(one) && one >= 0).toBe(true);
      }
      const names = quote.groups
        .flatMap(({ shares }) => shares)
        .filter((each) => each.kind === 'part');
      expect(names.length).toBe(job.parts.length);
    });
    fc.assert(holds, { seed: SEED, numRuns: 60 });
  });

  it('never falls where an hour costs more', () => {
    const holds = fc.property(priced, fc.nat(500), ({ input, rates, currency }, more) => {
      if (rates === null) return;
      const job: Job = { ...jobOf(input), rates, currency };
      const layout = packCounted(job, 2);
      const total = (each: Rates) =>
        costPlan({ ...job, rates: each }, [layout], []).quote.totalCents;
      const labour = rates.labour ?? { machineCents: 0, benchCents: 0 };
      const dearer = { ...labour, machineCents: (labour.machineCents ?? 0) + more };
      const [before, after] = [total({ ...rates, labour }), total({ ...rates, labour: dearer })];
      if (before === null || after === null) expect(after).toBe(before);
      else expect(after).toBeGreaterThanOrEqual(before);
    });
    fc.assert(holds, { seed: SEED, numRuns: 40 });
  });
});

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
