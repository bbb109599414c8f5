import { describe, expect, it } from 'vitest';
import { jobOf, jobText, read } from './reading.ts';

const BOX = jobText('size: 300 x 200, group: Carcass');
const INCHES = jobText('size: 12 x 8, group: Carcass', 'in');

const withCosts = (keys: string, text = BOX) => `${text}costs: { ${keys} }\n`;
const ratesOf = (keys: string, text = BOX) => jobOf(withCosts(keys, text)).rates;

describe('costs', () => {
  it('are none where the file has none', () => {
    expect(jobOf(BOX).rates).toBeNull();
  });

  it('are nothing where the file says nothing of them', () => {
    expect(ratesOf('')).toEqual({
      labour: null,
      setupS: null,
      loadingS: null,
      toolChangeS: null,
      holeS: null,
      sawCutS: null,
      boardCutS: null,
      edgeBand: null,
      hardware: [],
      wasteShare: 0,
      margin: { share: 0, of: 'cost' },
      taxShare: null,
    });
  });

  it.each<readonly [string, object]>([
    [
      'labour: { machine: 65 per h, bench: 48.50/h }',
      { labour: { machineCents: 6500, benchCents: 4850 } },
    ],
    ['labour: { bench: 48 per hour }', { labour: { machineCents: null, benchCents: 4800 } }],
    ['setup: 20 min, loading: 1.5 h, hole: 3 s', { setupS: 1200, loadingS: 5400, holeS: 3 }],
    ['tool-change: 1min, saw-cut: 20 sec', { toolChangeS: 60, sawCutS: 20 }],
    ['board-cut: 0 s', { boardCutS: 0 }],
    ['hole: 1/2 min', { holeS: 30 }],
    [
      'edge-band: { price: 0.85 per m, time: 40 s per m, waste: 10 % }',
      { edgeBand: { measure: 'm', priceCents: 85, secondsPerM: 40, wasteShare: 0.1 } },
    ],
    [
      'edge-band: { price: 0.26/ft, time: 0.2 min/ft }',
      { edgeBand: { measure: 'ft', priceCents: 26, secondsPerM: 39.3700787402, wasteShare: 0 } },
    ],
    [
      'hardware: [{ name: Hinge, price: 2.40, count: 8, group: Carcass }, { name: Screws }]',
      {
        hardware: [
          { name: 'Hinge', priceCents: 240, count: 8, group: 'Carcass' },
          { name: 'Screws', priceCents: null, count: 1, group: null },
        ],
      },
    ],
    ['waste: 5 %, margin: 20 %', { wasteShare: 0.05, margin: { share: 0.2, of: 'cost' } }],
    ['margin: 0.2, margin-of: price', { margin: { share: 0.2, of: 'price' } }],
    ['tax: 19 %', { taxShare: 0.19 }],
    ['tax: 0 %', { taxShare: 0 }],
  ])('reads %s', (keys, rates) => {
    expect(ratesOf(keys)).toMatchObject(rates);
  });

  it('counts a band without a price in the measure of the file', () => {
    expect(ratesOf('edge-band: {}', INCHES)?.edgeBand?.measure).toBe('ft');
    expect(ratesOf('edge-band: {}')?.edgeBand?.measure).toBe('m');
  });

  it('reads prices in the minor unit of the currency', () => {
    const keys = 'labour: { machine: 25.125 per h }, hardware: [{ name: Pin, price: 0.005 }]';
    const { rates } = jobOf(`currency: KWD\n${withCosts(keys)}`);
    expect(rates?.labour?.machineCents).toBe(25_125);
    expect(rates?.hardware[0]?.priceCents).toBe(5);
  });

  it.each<readonly [string, string, string]>([
    ['setup: 20', 'bad-quantity', 'write a time with its unit'],
    ['setup: 20 days', 'bad-quantity', 'write a time with its unit'],
    ['setup: 101 h', 'out-of-range', 'write a time'],
    ['hole: -3 s', 'out-of-range', 'write a time'],
    ['hole: 2,5 s', 'decimal-comma', '2.5'],
    ['labour: { machine: 65 }', 'bad-price', '9.50 per h'],
    ['labour: { machine: 65 EUR per h }', 'bad-price', '9.50 per h'],
    ['labour: { machine: -65 per h }', 'out-of-range', ''],
    ['labour: 65 per h', 'wrong-type', 'labour, such as'],
    ['edge-band: { price: 0.85 }', 'bad-price', '9.50 per m or 9.50 per ft'],
    ['edge-band: { time: 40 s }', 'bad-quantity', '40 s per m'],
    ['edge-band: 0.85 per m', 'wrong-type', 'an edge band, such as'],
    ['hardware: [{ price: 2 }]', 'missing-key', 'name'],
    ['hardware: [{ name: Hinge, price: 0.005 }]', 'bad-price', ''],
    ['hardware: [{ name: Hinge, count: 0 }]', 'out-of-range', ''],
    ['hardware: [{ name: Hinge, group: Carcas }]', 'unknown-word', 'did you mean Carcass?'],
    ['margin: 20', 'out-of-range', 'a share such as 20 % or 0.2'],
    ['margin: 100 %, margin-of: price', 'out-of-range', 'margin-of: cost'],
    ['margin-of: profit', 'unknown-word', 'possible: cost, price'],
    ['taxes: 19 %', 'unknown-key', 'tax'],
    ['vat: 19 %', 'unknown-key', 'did you mean tax?'],
    ['labor: { machine: 65 per h }', 'unknown-key', 'did you mean labour?'],
  ])('refuses %s', (keys, code, hint) => {
    const { job, problems } = read(withCosts(keys));
    expect(job).toBeNull();
    expect(problems.map((problem) => problem.code)).toEqual([code]);
    expect(problems[0]?.hint ?? '').toContain(hint);
    expect(problems[0]?.place?.line).toBe(5);
  });

  const withMounted = (entry: string, listed = '') =>
    read(
      `${jobText(`size: 300 x 200, count: 200, hardware: [${entry}]`)}costs: { hardware: [${listed}] }\n`,
    );

  it.each<readonly [string, string, readonly unknown[]]>([
    ['{ name: Knob, price: 3.20 }', '', [['Knob', 200, 320]]],
    ['{ name: Knob, count: 3 }', '{ name: Knob, price: 2 }', [['Knob', 600, 200]]],
    ['{ name: Knob, price: 1 }', '{ name: Knob, price: 2 }', [['Knob', 200, 100]]],
    ['{ name: Knob }', '', [['Knob', 200, null]]],
    [
      '{ name: Knob }',
      '{ name: Knob, price: 2, count: 1 }, { name: Pin }',
      [
        ['Knob', 1, 200],
        ['Pin', 1, null],
        ['Knob', 200, 200],
      ],
    ],
  ])('reads the hardware %s of a part beside %s', (entry, listed, bought) => {
    const { hardware } = withMounted(entry, listed).job!.rates!;
    expect(hardware.map(({ name, count, priceCents }) => [name, count, priceCents])).toEqual(
      bought,
    );
  });

  it.each<readonly [string, string, string]>([
    ['{ price: 3 }', '', 'missing-key'],
    ['{ name: Knob, count: 0 }', '', 'out-of-range'],
    ['{ name: Knob, count: 501 }', '', 'out-of-range'],
    ['{ name: Knob, price: 3;20 }', '', 'bad-price'],
    ['{ name: Knob, group: Doors }', '', 'unknown-key'],
    ['{ name: Knob }', '{ name: Knob, price: 2 }, { name: Knob, price: 3 }', 'duplicate-name'],
    ['Knob', '', 'wrong-type'],
  ])('refuses the hardware %s of a part beside %s', (entry, listed, code) => {
    const { job, problems } = withMounted(entry, listed);
    expect(job).toBeNull();
    expect(problems.map((problem) => [problem.code, problem.place?.line])).toEqual([[code, 4]]);
  });

  it('refuses more decimals than the currency has', () => {
    const keys = 'labour: { machine: 9000.5 per h }, edge-band: { price: 0.85 per m }';
    const { problems } = read(`currency: JPY\n${withCosts(keys)}`);
    expect(problems.map(({ code, message }) => [code, message])).toEqual([
      ['bad-price', '"9000.5" has more decimals than JPY, which has 0'],
      ['bad-price', '"0.85" has more decimals than JPY, which has 0'],
    ]);
  });

  it('says where keys belong that stand at the top of the file', () => {
    const wheres = { labour: 'costs', margin: 'costs or labels', tax: 'costs' };
    for (const [key, where] of Object.entries(wheres)) {
      const [problem] = read(`${BOX}${key}: 1\n`).problems;
      expect([problem?.code, problem?.hint]).toEqual(['unknown-key', `${key} belongs to ${where}`]);
    }
  });

  it('names the currency that its prices are taken in', () => {
    expect(jobOf(withCosts('tax: 19 %')).machine.assumed).toContain('prices in EUR');
  });

  it('tells every fault of costs in one run, with Windows line ends as well', () => {
    const text = `${BOX}costs:\n  setup: 20\n  margin: x\n  hardware: [{ name: Pin, price: much }]\n`;
    const codes = ['bad-quantity', 'bad-quantity', 'bad-price'];
    for (const each of [text, text.replaceAll('\n', '\r\n')])
      expect(read(each).problems.map(({ code }) => code)).toEqual(codes);
  });
});
