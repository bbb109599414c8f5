import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import { eachText, moneyText } from '../../src/outputs/price.ts';
import { lumberText } from '../helpers/lumber-job.ts';
import { jobOf } from '../partsfile/reading.ts';

describe('money in a quote', () => {
  // ISO 4217:2015, list one: the minor unit is a hundredth of EUR and a thousandth of KWD; JPY has none.
  it.each([
    ['EUR', '1450', '1450.00 per m³', '15.95', 1595],
    ['JPY', '145000', '145000 per m³', '1595', 1595],
    ['KWD', '1450', '1450.000 per m³', '15.950', 15_950],
  ])('has the decimals of %s', (code, price, each, cost, minor) => {
    // Eight parts of 720 x 70 mm take 0.0105 m³ of rough boards, and 0.011 are bought.
    const text = lumberText(`rough: 26, price: ${price} per m3`).replace('EUR', code);
    const job = jobOf(text);
    const [line] = costPlan(job, [], []).quote.lines;
    expect(line?.cents).toBe(minor);
    expect(eachText(line!, job)).toBe(each);
    expect(moneyText(line!.cents, job)).toBe(cost);
  });
});
