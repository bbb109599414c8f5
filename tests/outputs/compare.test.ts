import { describe, expect, it } from 'vitest';
import type { Status } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';
import type { NamedPlan } from '../../src/outputs/report/compare.ts';
import { compareCsv, compareRecord } from '../../src/outputs/report/compare-data.ts';
import { compareLines } from '../../src/outputs/report/compare-lines.ts';
import { benchPlan } from '../helpers/board-plan.ts';
import { samplePlan, smallPlan } from '../helpers/sample-plan.ts';
import { chestPlan } from '../helpers/sawn-plan.ts';

const BASE = smallPlan();

/** The small plan with other costs. */
function priced(totalCents: number | null, cutTimeS = 822): Plan {
  return { ...BASE, costs: { ...BASE.costs, totalCents, cutTimeS } };
}

function ended(status: Status): Plan {
  return { ...BASE, layouts: BASE.layouts.map((layout) => ({ ...layout, status })) };
}

function atRisk(): Plan {
  const holding = BASE.holding.map((sheet) => ({
    ...sheet,
    loose: sheet.loose.map((loose, i) => ({
      ...loose,
      verdictAfter: (['moves', 'marginal', 'marginal'] as const)[i]!,
    })),
  }));
  return { ...BASE, holding };
}

const textOf = (plans: readonly NamedPlan[]) =>
  compareLines(plans, BASE.job).map(({ text }) => text);

/** The cells of a row, by its label, of a comparison with one other plan. */
function rowOf(label: string, other: Plan | null, base: Plan = BASE): string[] {
  const lines = textOf([
    { name: 'Base', plan: base },
    { name: 'Other', plan: other },
  ]);
  const line = lines.find((text) => text.startsWith(label)) ?? '';
  return line.slice(label.length).trim().split(/ {2,}/);
}

describe('the comparison', () => {
  it.each<[string, string, Plan | null, string[]]>([
    [
      'an equal figure has no mark',
      'cost of material',
      priced(21_450),
      ['214.50 EUR', '214.50 EUR'],
    ],
    ['less has a minus', 'cost of material', priced(21_399), ['214.50 EUR', '213.99 EUR (-0.51)']],
    [
      'more has a plus',
      'cost of material',
      priced(121_450),
      ['214.50 EUR', '1214.50 EUR (+1000.00)'],
    ],
    ['what is not known is said', 'cost of material', priced(null), ['214.50 EUR', 'not known *']],
    ['minutes are those printed', 'cutting, minutes', priced(1, 829), ['14', '14']],
    ['and so is their difference', 'cutting, minutes', priced(1, 930), ['14', '16 (+2)']],
    ['pieces at risk after the remedy', 'pieces that move', atRisk(), ['0', '1 (+1)']],
    ['and marginal ones', 'pieces marginal', atRisk(), ['0', '2 (+2)']],
    ['no vacuum at a saw', 'pieces that move', chestPlan(), ['0', 'no vacuum *']],
    ['a proof that fails', 'proof', ended('limit'), ['proved', 'not proved *']],
    ['too little stock', 'proof', ended('impossible'), ['proved', 'too little stock *']],
    ['a plan that could not be made', 'sheets', null, ['1', '–']],
  ])('%s', (_, label, other, cells) => {
    expect(rowOf(label, other)).toEqual(cells);
  });

  it('has the price where the file has costs', () => {
    const quoted = (totalCents: number | null, isMaterialOnly = false): Plan => ({
      ...BASE,
      costs: { ...BASE.costs, quote: { ...BASE.costs.quote, isMaterialOnly, totalCents } },
    });
    const label = 'price of the job';
    expect(rowOf(label, quoted(90_000), quoted(88_826))).toEqual([
      '888.26 EUR',
      '900.00 EUR (+11.74)',
    ]);
    expect(rowOf(label, quoted(null), quoted(88_826))).toEqual(['888.26 EUR', 'not known *']);
    expect(rowOf(label, quoted(5, true), quoted(5, true))).toEqual(['']);
    const plans = [{ name: 'as it is', plan: quoted(88_826) }];
    expect(compareCsv(plans, BASE.job)).toMatch(/,888\.26,[^\n]*\r\n$/);
    expect(JSON.parse(compareRecord('seat.yaml', plans, BASE.job)).plans[0].priceMinor).toBe(
      88_826,
    );
  });

  it('says why a price is not known, plans that lack the same together', () => {
    const lacking = (isMaterialOnly: boolean, ...unknown: readonly string[]): Plan => ({
      ...BASE,
      costs: { ...BASE.costs, quote: { ...BASE.costs.quote, isMaterialOnly, unknown } },
    });
    const plans = [
      { name: 'a', plan: lacking(false) },
      { name: 'b', plan: lacking(true, 'Ply: no price') },
      { name: 'c', plan: lacking(false, 'Ply: no price', 'Hinge: no price') },
    ];
    expect(textOf(plans).slice(-3)).toEqual([
      'No price of the job (b): without costs only the stock is priced.',
      'Price not known (b, c): Ply: no price.',
      'Price not known (c): Hinge: no price.',
    ]);
    const { plans: records } = JSON.parse(compareRecord('seat.yaml', plans, BASE.job));
    expect(records.map(({ unknown }: { unknown: string[] }) => unknown)).toEqual([
      [],
      ['no costs', 'Ply: no price'],
      ['Ply: no price', 'Hinge: no price'],
    ]);
    expect(compareCsv(plans, BASE.job)).toContain(',Ply: no price; Hinge: no price\r\n');
    expect(textOf(plans.slice(1, 2)).at(-1)).toBe('Price not known: Ply: no price.');
  });

  it('cuts neither names nor large amounts: they go on below', () => {
    const other = 'Another machine and a sheet of another size from another supplier';
    const lines = textOf([
      { name: 'as it is', plan: priced(1_000_000_000_000) },
      { name: other, plan: priced(2_000_000_000_000) },
    ]);
    expect(lines.every((line) => [...line].length <= 80)).toBe(true);
    const text = lines.join(' ').replace(/ +/g, ' ');
    for (const word of other.split(' ')) expect(text).toContain(word);
    expect(text).toContain('20000000000.00 EUR (+10000000000.00)');
    expect(text).not.toContain('…');
  });

  it('says what neither knows without a mark', () => {
    expect(rowOf('cost of material', priced(null), priced(null))).toEqual([
      'not known',
      'not known',
    ]);
  });

  it('has a row for each material where several are cut, and rows for boards', () => {
    const lines = textOf([
      { name: 'Base', plan: samplePlan() },
      { name: 'Boards', plan: benchPlan() },
    ]);
    const labels = lines.map((line) => line.slice(0, 24).replace(/ {2,}.*/, ''));
    expect(labels.slice(1, 6)).toEqual([
      'sheets',
      '- Birch plywood 18 mm',
      '- MDF 12 mm',
      'boards',
      'cost of material',
    ]);
    expect(lines.find((line) => line.startsWith('sheets'))).toMatch(/ 2 +0 \(-2\)$/);
  });

  it('wraps many plans into blocks of 80 columns that each begin with the first', () => {
    const plans = Array.from({ length: 9 }, (_, i) => ({
      name: i === 0 ? 'as it is' : `Variant number ${i} with a very long name, as people give them`,
      plan: priced(21_450 + 100_000 * i),
    }));
    const lines = textOf(plans);
    expect(lines.every((line) => [...line].length <= 80)).toBe(true);
    const heads = lines.filter((line) => line.startsWith(BASE.job.name));
    expect(heads.length).toBeGreaterThan(3);
    expect(heads.every((head) => head.includes('as it is'))).toBe(true);
    expect(lines.join('\n').match(/\(\+8000\.00\)/g)).toHaveLength(1);
  });

  it('names what was not planned, and what was stopped', () => {
    const plans = [
      { name: 'a', plan: BASE },
      { name: 'b', plan: { ...BASE, stopped: 'time' as const } },
      { name: 'c', plan: null },
    ];
    const lines = textOf(plans);
    expect(lines).toContain('Not planned: c.');
    expect(lines).toContain('The search was stopped, another run may end elsewhere: b.');
    expect(textOf(plans.slice(0, 1)).join()).not.toMatch(/Not planned|stopped|brackets/);
  });

  it('tells differences in words and signs also where there is no colour', () => {
    const tones = new Set(
      compareLines(
        [
          { name: 'a', plan: BASE },
          { name: 'b', plan: priced(5) },
        ],
        BASE.job,
      ).map(({ tone }) => tone),
    );
    expect([...tones].sort()).toEqual(['heading', 'plain', 'quiet']);
    expect(
      textOf([
        { name: 'a', plan: BASE },
        { name: 'b', plan: atRisk() },
      ]).join(' '),
    ).toContain('more (+) or less (-) than "a"');
  });
});

describe('the comparison as data', () => {
  const plans = [
    { name: 'as it is', plan: BASE },
    { name: '=Saw', plan: priced(null) },
    { name: 'None', plan: null },
  ];

  it('is comma-separated text without formulas, empty where nothing is known', () => {
    const [heads, base, saw, none] = compareCsv(plans, BASE.job).split('\r\n');
    expect(heads!.split(',').slice(0, 5)).toEqual(['plan', 'sheets', 'boards', 'cost', 'currency']);
    expect(base).toMatch(/^as it is,1,0,214\.5,EUR,/);
    expect(saw).toMatch(/^'=Saw,1,0,,EUR,/);
    expect(none).toBe(`None${','.repeat(heads!.split(',').length - 1)}`);
  });

  it('is JSON with the difference to the first plan', () => {
    const more = [...plans, { name: 'Dear', plan: priced(31_450, 1000) }];
    const record = JSON.parse(compareRecord('seat.yaml', more, BASE.job));
    expect(record).toMatchObject({
      format: 'holdfast-compare/1',
      file: 'seat.yaml',
      currency: 'EUR',
    });
    const [base, saw, none, dear] = record.plans;
    expect(base).toMatchObject({ planned: true, sheets: 1, totalMinor: 21_450, difference: null });
    expect(saw).toMatchObject({ totalMinor: null, difference: { sheets: 0, totalMinor: null } });
    expect(none).toMatchObject({ planned: false, sheets: null, status: null, materials: [] });
    expect(dear.difference).toMatchObject({ totalMinor: 10_000, cutTimeS: 178, yield: 0 });
    expect(Object.keys(none)).toEqual(Object.keys(base));
  });
});
