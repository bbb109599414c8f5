import { describe, expect, it } from 'vitest';
import { planRecord, planSummary, planYieldCsv } from '../../src/index.ts';
import type { Plan } from '../../src/model/plan.ts';
import { YIELD_USES } from '../../src/model/yield.ts';
import { yieldSection } from '../../src/outputs/report/yield-section.ts';
import { yieldSentence } from '../../src/outputs/yield.ts';
import { benchPlan } from '../helpers/board-plan.ts';
import { samplePlan, smallPlan } from '../helpers/sample-plan.ts';
import { chestPlan } from '../helpers/sawn-plan.ts';

const PLANS: readonly [string, () => Plan][] = [
  ['a router', samplePlan],
  ['a saw', chestPlan],
  ['boards', benchPlan],
];

describe('yield.csv', () => {
  it.each(PLANS)('makes 100.0 %% of every row, a number in every field: %s', (_, make) => {
    const plan = make();
    const [heads, ...rows] = rowsOf(planYieldCsv(plan));
    const { sheets, boards } = plan.costs.yields;
    expect(rows.length).toBeGreaterThan(sheets.length + boards.length);
    for (const row of rows) {
      expect(row).toHaveLength(heads!.length);
      const of = (head: string) => Number(row[heads!.indexOf(head)]);
      const tenths = YIELD_USES.reduce((sum, use) => sum + Math.round(10 * of(`${use} %`)), 0);
      expect(tenths).toBe(1000);
      const amounts = YIELD_USES.reduce((sum, use) => sum + of(use), 0);
      expect(Math.abs(amounts - of('bought'))).toBeLessThan(0.05);
      expect(of('yield on purchase %')).toBe(of('pieces %'));
    }
  });

  it('is no formula to a spreadsheet, whatever the names are', () => {
    const plan = smallPlan();
    const [material] = plan.job.materials;
    const sheets = [{ ...material!.sheets[0]!, name: '@SUM(1, 2)' }];
    const materials = [{ ...material!, id: '=1+1', sheets }];
    const text = planYieldCsv({ ...plan, job: { ...plan.job, materials } });
    expect(text).toContain(`\r\nsheet,1,'=1+1,"'@SUM(1, 2)",mm2,`);
  });
});

describe('the yields in plan.json', () => {
  it.each(PLANS)('are shares of what was bought, and per cents as printed: %s', (_, make) => {
    const plan = make();
    const { yields, costs } = JSON.parse(planRecord(plan, '0'));
    const all = [...yields.sheets, ...yields.boards];
    expect(all.length).toBeGreaterThan(0);
    for (const own of all) {
      expect(Object.keys(own.shares)).toEqual([...YIELD_USES]);
      expect(sum(own.shares)).toBeCloseTo(1, 5);
      expect(Math.round(sum(own.percent) * 10)).toBe(1000);
      expect(own.shares.pieces).toBe(own.yieldOnPurchase);
      expect(own.yieldOnUsed).toBeGreaterThanOrEqual(own.yieldOnPurchase);
    }
    yields.sheets.forEach(({ shares }: { shares: Record<string, number> }, i: number) => {
      const { waste } = costs.sheets[i].shares;
      expect(shares.keepOuts! + shares.skeleton! + shares.loose!).toBeCloseTo(waste, 5);
    });
    expect(yields.materials.map(({ material }: { material: string }) => material)).toEqual(
      plan.job.materials.map(({ id }) => id),
    );
  });
});

describe('where the area goes', () => {
  it.each(PLANS)('makes 100.0 %% of every row of the report: %s', (_, make) => {
    const section = yieldSection(make());
    const rows = section.split('\n').filter((line) => /^\| .*%/.test(line));
    expect(rows.length).toBeGreaterThan(1);
    for (const row of rows) {
      const shares = [...row.matchAll(/ ([\d.]+) %/g)].map(([, share]) => Number(share));
      const tenths = shares
        .slice(0, -1)
        .reduce((total, share) => total + Math.round(share * 10), 0);
      expect(tenths).toBe(1000);
    }
  });

  it('puts neighbours into one row that are alike as printed', () => {
    expect(yieldSection(samplePlan())).toMatch(/\n\| 1 \| 2\.98 m² .*\n\| 2 \| 1\.86 m² /);
    expect(yieldSection(benchPlan())).toMatch(/\n\| \d+ to \d+, each \| /);
  });
});

describe('what is said beside the yield', () => {
  const summary = (plan: Plan) =>
    planSummary(plan)
      .map(({ text }) => text.trim())
      .join(' ');

  it('is the yield without the offcuts kept, and that of each material', () => {
    const text = summary(samplePlan());
    expect(text).toContain('Less the offcuts kept, the yield is 82.2 %.');
    expect(text).toContain(
      'Yield by material (less the offcuts kept): Birch plywood 18 mm 74.0 % (82.2 %), MDF 12 mm 74.0 % (82.2 %).',
    );
  });

  it('is nothing where nothing is kept of a single material', () => {
    const plan = smallPlan();
    const bare = (own: (typeof plan.costs.yields.sheets)[number]) => ({
      ...own,
      amounts: { ...own.amounts, offcuts: 0 },
    });
    const { yields } = plan.costs;
    const all = { sheets: bare(yields.job.sheets!), boards: null };
    const costs = { ...plan.costs, yields: { ...yields, materials: [all], job: all } };
    expect(yieldSentence({ ...plan, costs })).toBeNull();
    expect(yieldSentence(plan)).toMatch(/^Less the offcuts kept, the yield is \d\d\.\d %\.$/);
  });
});

function rowsOf(text: string): readonly (readonly string[])[] {
  return text
    .split('\r\n')
    .slice(0, -1)
    .map((line) => line.split(','));
}

function sum(values: Readonly<Record<string, number>>): number {
  return Object.values(values).reduce((total, value) => total + value, 0);
}
