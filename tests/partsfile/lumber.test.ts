import { describe, expect, it } from 'vitest';
import { lumberText } from '../helpers/lumber-job.ts';
import { codesOf, jobOf, MM, problemsOf } from './reading.ts';

const INCH = 203_200;

describe('lumber', () => {
  it('is read with its parts, which are not laid out', () => {
    const keys =
      'rough: 5/4in, length: 2500, price: 9.50 per bf, waste: 30 %, waste-of: gross, on-hand: [{ size: 2400 x 180, count: 3 }, { size: 900 x 90 }]';
    const job = jobOf(
      lumberText(keys, [
        'size: 1800 x 140, count: 5, note: top, group: Top',
        'size: 70 x 900, grain: across',
      ]),
    );
    expect(job.lumber).toMatchObject([
      {
        id: 'oak',
        name: 'Oak 21 mm',
        thickness: 21 * MM,
        rough: 1.25 * INCH,
        longest: 2500 * MM,
        measure: 'bf',
        tally: 'hardwood',
        priceCents: 950,
        waste: { share: 0.3, of: 'gross' },
        onHand: [
          { length: 2400 * MM, width: 180 * MM, count: 3 },
          { length: 900 * MM, width: 90 * MM, count: 1 },
        ],
        parts: [
          {
            name: 'Part 1',
            length: 1800 * MM,
            width: 140 * MM,
            count: 5,
            note: 'top',
            group: 'Top',
          },
          { name: 'Part 2', length: 900 * MM, width: 70 * MM, count: 1, note: null },
        ],
      },
    ]);
    expect(job.materials).toEqual([]);
    expect(job.parts).toEqual([]);
  });

  it.each([
    ['price: 9.50 per bf', 'bf', 950],
    ['price: 9.50/bf', 'bf', 950],
    ['price: 9 per board foot', 'bf', 900],
    ['price: 1450 per m3', 'm3', 145_000],
    ['price: 1450 / m³', 'm3', 145_000],
    ['price: 1450 PER CUBIC METRE', 'm3', 145_000],
  ])('has a %s', (price, measure, priceCents) => {
    expect(jobOf(lumberText(`rough: 26, ${price}`)).lumber[0]).toMatchObject({
      measure,
      priceCents,
    });
  });

  it('is measured as the unit of the file goes where it has no price, and tallied by its family', () => {
    const of = (unit: string, family: string) =>
      jobOf(lumberText('rough: 26mm', ['size: 20mm x 10mm'], { unit, thickness: '21mm', family }))
        .lumber[0];
    expect(of('mm', 'hardwood')).toMatchObject({ measure: 'm3', tally: 'hardwood' });
    expect(of('in', 'softwood')).toMatchObject({ measure: 'bf', tally: 'softwood' });
    expect(of('in', 'hardwood')).toMatchObject({ waste: { share: 0 }, priceCents: null });
  });
});

describe('what is wrong with lumber is said where it stands', () => {
  it.each([
    ['no rough thickness', 'price: 9.50 per bf', '5:70 missing-key'],
    ['thinner than its parts', 'rough: 20', '5:79 out-of-range'],
    ['a price of nothing known', 'rough: 26, price: 9.50', '5:90 bad-price'],
    ['a price per sheet', 'rough: 26, price: 9.50 per sheet', '5:90 bad-price'],
    ['a price in words', 'rough: 26, price: dear per bf', '5:90 bad-price'],
    ['a waste of two meanings', 'rough: 26, waste: 30 %', '5:90 missing-key'],
    ['all of it lost', 'rough: 26, waste: 100 %, waste-of: gross', '5:90 out-of-range'],
    ['a waste below nothing', 'rough: 26, waste: -5 %, waste-of: net', '5:90 out-of-range'],
    ['four times what is needed', 'rough: 26, waste: 301 %, waste-of: net', '5:90 out-of-range'],
    ['a waste of something else', 'rough: 26, waste: 5 %, waste-of: price', '5:105 unknown-word'],
    ['a board of no width', 'rough: 26, on-hand: [{ size: 2400 x 0 }]', '5:101 out-of-range'],
    ['a tally unknown', 'rough: 26, tally: bamboo', '5:90 unknown-word'],
    ['an unknown key', 'rough: 26, width: random', '5:83 unknown-key'],
  ])('%s', (_, keys, problem) => {
    expect(problemsOf(lumberText(keys))).toEqual([problem]);
  });

  it.each([
    ['length: 720', ['7:36 misplaced-key']],
    ['size: 30 x 20, holes: []', ['7:51 misplaced-key']],
    ['count: 2', ['7:5 no-outline']],
    ['size: 2600 x 70', ['7:42 out-of-range']],
    ['size: 2500 x 70, grain: across', []],
    ['size: 70 x 2600, grain: across', ['7:42 out-of-range']],
  ])('in a part with %s', (part, problems) => {
    expect(problemsOf(lumberText('rough: 26, length: 2500', [part]))).toEqual(problems);
  });

  it('beside sheets or boards', () => {
    const text = lumberText('rough: 26').replace(
      'lumber:',
      'sheets: [{ size: 900 x 600 }], lumber:',
    );
    expect(codesOf(text)).toEqual(['misplaced-key']);
  });

  it('and of its parts nothing where the lumber is wrong', () => {
    expect(codesOf(lumberText('rough: 20', ['size: 30 x 20', 'size: 0 x 20']))).toEqual([
      'out-of-range',
      'out-of-range',
    ]);
  });
});
