import { describe, expect, it } from 'vitest';
import { costLumber } from '../../src/costing/lumber.ts';
import { surfaceMeasures, tallyBoardFeet } from '../../src/costing/tally.ts';
import type { Lumber } from '../../src/model/lumber.ts';
import { lumberJob, lumberPlan } from '../helpers/lumber-job.ts';

const INCH = 203_200;
const INCHES = { unit: 'in', thickness: '7/8' };

const board = (lengthIn: number, widthIn: number, thicknessIn = 1) => ({
  length: lengthIn * INCH,
  width: widthIn * INCH,
  thickness: thicknessIn * INCH,
});

const lumberOf = (...text: Parameters<typeof lumberJob>): Lumber => lumberJob(...text).lumber[0]!;
const costsOf = (...text: Parameters<typeof lumberJob>) => costLumber(lumberOf(...text), 0);

describe('what lumber to buy', () => {
  // Four parts of 2 x 1 ft in 5/4 take 10 board feet.
  const PARTS = ['size: 24 x 12, count: 4'];
  const inFeet = (keys: string, family = 'hardwood') =>
    costsOf(`rough: 5/4, ${keys}`, PARTS, { ...INCHES, family });

  it.each([
    ['price: 9.50 per bf', 0, 10, 9500],
    ['waste: 30 %, waste-of: net, price: 9.50 per bf', 3, 13, 12_350],
    ['waste: 30 %, waste-of: gross, price: 9.50 per bf', 4.29, 15, 14_250],
    ['waste: 0.25, waste-of: net', 2.5, 13, null],
    ['waste: 0 %, waste-of: gross', 0, 10, null],
  ])('with %s', (keys, waste, buy, priceCents) => {
    const cents = priceCents === null ? null : priceCents;
    expect(inFeet(keys)).toEqual({ lumber: 0, net: 10, waste, onHand: 0, buy, priceCents: cents });
  });

  it('is to a hundredth of a board foot in softwood', () => {
    const keys = 'waste: 30 %, waste-of: gross';
    expect(inFeet(keys, 'softwood').buy).toBe(14.29);
    expect(inFeet(`${keys}, tally: hardwood`, 'softwood').buy).toBe(15);
    expect(inFeet(`${keys}, tally: softwood`).buy).toBe(14.29);
  });

  it('is in litres of a cubic metre where it is sold so', () => {
    const found = costsOf('rough: 26, waste: 30 %, waste-of: net, price: 1450 per m3');
    // 8 x 0.72 x 0.07 x 0.026 m, and 0.003145 with it.
    expect(found.net).toBe(0.0105);
    expect(found.waste).toBe(0.0031);
    expect(found.buy).toBe(0.014);
    expect(found.priceCents).toBe(2030);
  });

  it('is less what is on hand, as a seller would tally it', () => {
    // Surface measure 5 of 8 ft 9 in x 7-1/2 in, times 5/4, is 6.25 and rounds to 6.
    expect(inFeet('on-hand: [{ size: 105 x 7-1/2 }]')).toMatchObject({ onHand: 6, buy: 4 });
    expect(inFeet('on-hand: [{ size: 105 x 7-1/2, count: 2 }]')).toMatchObject({ buy: 0 });
    expect(costsOf('rough: 26, price: 1 per m3, on-hand: [{ size: 2000 x 100 }]')).toMatchObject({
      onHand: 0.0052,
      buy: 0.006,
    });
  });

  it('counts rough stock under an inch as an inch, in board feet only', () => {
    const parts = ['size: 12 x 12'];
    expect(costsOf('rough: 3/4', parts, { unit: 'in', thickness: '1/2' }).net).toBe(1);
    const metric = costsOf('rough: 10, price: 1 per m3', ['size: 1000 x 1000'], {
      unit: 'mm',
      thickness: '8',
      family: 'hardwood',
    });
    expect(metric.net).toBe(0.01);
  });

  it('joins the price of the job; nothing to buy costs nothing', () => {
    const priceOf = (keys: string) => lumberPlan(`rough: 26, ${keys}`).costs.totalCents;
    expect(priceOf('price: 1000 per m3')).toBe(1100);
    expect(priceOf('waste: 10 %, waste-of: net')).toBeNull();
    expect(priceOf('on-hand: [{ size: 4000 x 300 }]')).toBe(0);
  });
});

describe('the tally', () => {
  it('rounds surface measures, exact halves up and down by turns', () => {
    // 6 ft x 5, 6, 7 in: 2.5, 3, 3.5 square feet.
    const boards = [board(72, 5), board(72, 6), board(72, 7), board(72, 5), board(72, 5)];
    expect(surfaceMeasures(boards)).toEqual([3, 3, 3, 3, 2]);
  });

  it('gives away what is over a whole foot, and rounds a bundle once more', () => {
    expect(surfaceMeasures([board(95.9, 12), board(96, 12), board(11, 12)])).toEqual([7, 8, 0]);
    expect(tallyBoardFeet([board(96, 7.5, 1.25), board(96, 7.5, 1.25)], 'hardwood')).toBe(13);
    expect(tallyBoardFeet([], 'hardwood')).toBe(0);
  });

  it('of softwood rounds each board to a hundredth', () => {
    expect(tallyBoardFeet([board(100, 4, 2), board(100, 4, 2)], 'softwood')).toBeCloseTo(11.12, 9);
  });
});
