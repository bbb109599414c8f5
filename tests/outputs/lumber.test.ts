import { describe, expect, it } from 'vitest';
import { planPdf, planRecord, planReport, planSummary } from '../../src/index.ts';
import { purchaseSentence, wasteText } from '../../src/outputs/lumber.ts';
import { expectGolden } from '../helpers/golden.ts';
import { lumberJob, lumberPlan } from '../helpers/lumber-job.ts';
import { readPdf } from '../helpers/pdf-text.ts';

const KEYS =
  'rough: 5/4in, price: 9.50 per bf, waste: 30 %, waste-of: gross, on-hand: [{ size: 2400 x 180 }]';
const PARTS = ['size: 1800 x 140, count: 5, note: glued up', 'size: 70 x 900, grain: across'];

describe('a job of lumber', () => {
  const plan = lumberPlan(KEYS, PARTS);

  it('has a summary and a report of what to buy', () => {
    const summary = planSummary(plan).map(({ text }) => text);
    expectGolden('lumber-summary.txt', `${summary.join('\n')}\n`);
    expectGolden('lumber-report.md', planReport(plan, null));
  });

  it('is in the record and in the PDF', async () => {
    const record = JSON.parse(planRecord(plan, ''));
    expect(record.materials).toEqual([]);
    expect(record.lumber).toMatchObject([
      { material: 'oak', rough: 31.75, measure: 'bf', wasteOf: 'gross', onHand: 5, buy: 21 },
    ]);
    expect(record.lumber[0].parts[1]).toEqual({ part: 'Part 2', count: 1, length: 900, width: 70 });
    expect(record.costs.totalMinor).toBe(record.lumber[0].priceMinor);
    const [page] = readPdf(await planPdf(plan, { paper: 'a4', scale: null, date: null }));
    expect(page?.text).toContain('21 board feet');
    expect(page?.text).not.toContain('sheet');
  });
});

describe('what is said of a waste allowance', () => {
  it.each([
    ['waste: 30 %, waste-of: net', '30.0 % added for waste, which is 23.1 % of what is bought'],
    ['waste: 30 %, waste-of: gross', '42.9 % added for waste, which is 30.0 % of what is bought'],
    ['tally: hardwood', 'no allowance for waste'],
  ])('%s', (keys, text) => {
    expect(wasteText(lumberJob(`rough: 26, ${keys}`).lumber[0]!)).toBe(text);
  });

  it('stands in the sentence of what to buy', () => {
    const sentence = (keys: string) => {
      const { job, costs } = lumberPlan(`rough: 26, ${keys}`);
      return purchaseSentence(job, { lumber: job.lumber[0]!, costs: costs.lumber[0]! });
    };
    expect(sentence('price: 1450 per m3')).toBe(
      '0.0105 m³ in the parts, from 26 mm rough; no allowance for waste: buy 0.011 m³, 15.95 EUR',
    );
    expect(sentence('on-hand: [{ size: 4000 x 300 }]')).toBe(
      '0.0105 m³ in the parts, from 26 mm rough; no allowance for waste, 0.0312 m³ on hand: nothing to buy',
    );
  });
});
