import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import type { Job } from '../../src/model/job.ts';
import type { Quote } from '../../src/model/quote.ts';
import { joinPackings } from '../../src/packing/boards/join.ts';
import { packBoards } from '../../src/packing/boards/pack-boards.ts';
import { pack } from '../../src/packing/pack.ts';
import { holding } from '../helpers/plan-builder.ts';
import { jobOf } from '../partsfile/reading.ts';

const ROUTER = '{ cutter: { diameter: 6 }, feed: 6000, pass-depth: 18, spacing: 8 }';
const STOCK = '{ size: 1200 x 800, price: 40, trim: 10 }';
const PARTS = `
  - { name: Side, material: ply, size: 600 x 300, count: 2, edges: { left: 1, bottom: 1 }, group: Carcass,
      holes: [{ row: 2, pitch: 100, from: [100, 50], along: length, diameter: 5, depth: 10 }] }
  - { name: Block, material: ply, size: 60 x 40, count: 2 }`;
const COSTS = `{ labour: { machine: 65 per h, bench: 48 per h }, setup: 20 min, loading: 4 min, tool-change: 1 min, hole: 3 s,
  edge-band: { price: 0.85 per m, time: 40 s per m, waste: 10 % }, waste: 5 %, margin: 20 %, tax: 19 %,
  hardware: [{ name: Hinge, price: 2.40, count: 8, group: Carcass }, { name: Screws, price: 3 }] }`;

interface Sketch {
  readonly machine?: string;
  readonly stock?: string;
  readonly boards?: string;
  readonly parts?: string;
  readonly costs?: string | null;
}

function textOf({ machine, stock, boards, parts, costs }: Sketch): string {
  const given = costs === undefined ? COSTS : costs;
  const lengths = boards === undefined ? '' : `, boards: [${boards}]`;
  return `unit: mm
currency: EUR
machine: ${machine ?? ROUTER}
materials: { ply: { name: Ply, thickness: 18, family: plywood, sheets: [${stock ?? STOCK}]${lengths} } }
parts:${parts ?? PARTS}
${given === null ? '' : `costs: ${given}`}
`;
}

async function quoteOf(sketch: Sketch, held: Parameters<typeof costPlan>[2] = []): Promise<Quote> {
  const job = jobOf(textOf(sketch));
  return costPlan(job, [await layoutOf(job)], held).quote;
}

async function layoutOf(job: Job) {
  let asked = 0;
  const shouldStop = () => ++asked > 5;
  const options = { effort: 'quick', seed: 1, shouldStop, onProgress: () => {} } as const;
  const sheets = pack(job, 0, options);
  if (job.lengthParts.length === 0) return sheets.layout;
  return joinPackings(sheets, await packBoards(job, 0, options)).layout;
}

/** Name, amount with its unit, and cost of every line. */
function linesOf({ lines }: Quote): readonly string[] {
  return lines.map(({ name, amount, unit, cents }) => `${name}: ${amount} ${unit}, ${cents}`);
}

describe('a quote', () => {
  it('is what a person reckons by hand', async () => {
    const quote = await quoteOf({});
    expect(linesOf(quote)).toEqual([
      'Ply, 1200 × 800 mm: 1 sheet, 4000',
      'Waste allowance, 5 % on sheets and boards: null null, 200',
      // 2 x (600 + 300) mm and a tenth.
      'Edge band, 10 % added for waste: 1.98 m, 168',
      'Hinge: 8 piece, 1920',
      'Screws: 1 piece, 300',
      'Set up: 1200 s, 2167',
      'Load 1 sheet of Ply: 240 s, 433',
      // 2 x 1796 + 2 x 200 mm at 100 mm/s.
      'Cut contours: 40 s, 72',
      // To the drill and back.
      '2 tool changes: 120 s, 217',
      'Drill 4 holes: 12 s, 22',
      'Put on edge bands: 72 s, 96',
    ]);
    expect(quote).toMatchObject({
      costCents: 9595,
      marginCents: 1919,
      priceCents: 11_514,
      // 21.8766.
      taxCents: 2188,
      totalCents: 13_702,
      machineS: 1612,
      benchS: 72,
      unknown: [],
      leftOut: [],
    });
  });

  it('sells a thousand feet of edge band as a thousand feet', async () => {
    const { lines } = await quoteOf({
      costs: '{ edge-band: { price: 10 per ft } }',
      // 2 x 762 mm on each of 200 pieces are 304.8 m, an inch having 25.4 mm by definition.
      parts: `
  - { name: Shelf, material: ply, size: 762 x 40, count: 200, edges: { top: 1, bottom: 1 } }`,
    });
    expect(lines[1]).toMatchObject({ amount: 1000, unit: 'ft', cents: 1_000_000 });
  });

  it('lets each part and group bear what it takes', async () => {
    const { groups, priceCents } = await quoteOf({
      costs: '{ hardware: [{ name: Hinge, price: 2.40, count: 8, group: Carcass }] }',
      parts: `
  - { name: Side, material: ply, size: 400 x 300, count: 2, group: Carcass }
  - { name: Block, material: ply, size: 200 x 100, count: 4 }`,
    });
    // 40.00 by 240,000 and 80,000 mm2.
    expect(priceCents).toBe(5920);
    expect(groups).toEqual([
      {
        group: 'Carcass',
        cents: 4920,
        shares: [
          { kind: 'part', name: 'Side', count: 2, cents: 3000 },
          { kind: 'hardware', name: 'Hinge', count: 8, cents: 1920 },
        ],
      },
      {
        group: null,
        cents: 1000,
        shares: [{ kind: 'part', name: 'Block', count: 4, cents: 1000 }],
      },
    ]);
  });

  it('lets a part bear the hardware on each of its pieces, those of a matched set too', async () => {
    const { lines, groups, priceCents } = await quoteOf({
      costs:
        '{ hardware: [{ name: Hinge, price: 2.40 }, { name: Pin, price: 0.10, count: 3, group: Doors }] }',
      parts: `
  - { name: Door, material: ply, size: 400 x 300, count: 2, group: Doors, hardware: [{ name: Hinge, count: 2 }, { name: Knob, price: 3.20 }] }
  - { name: Front, material: ply, matched: [[200, 100], [200, 100]], count: 2, hardware: [{ name: Pin }, { name: Knob, price: 1 }] }`,
    });
    expect(lines.slice(1).map(({ name, amount, cents }) => [name, amount, cents])).toEqual([
      // 3 of the group and 4 on the fronts.
      ['Pin', 7, 70],
      ['Hinge', 4, 960],
      ['Knob', 2, 640],
      ['Knob', 4, 400],
    ]);
    // 40.00 of the sheet by 240,000 and 80,000 mm2.
    expect(priceCents).toBe(6070);
    expect(groups).toEqual([
      {
        group: 'Doors',
        cents: 4630,
        shares: [
          { kind: 'part', name: 'Door', count: 2, cents: 3000 + 960 + 640 },
          { kind: 'hardware', name: 'Pin', count: 3, cents: 30 },
        ],
      },
      {
        group: null,
        cents: 1440,
        shares: [{ kind: 'part', name: 'Front', count: 4, cents: 1000 + 40 + 400 }],
      },
    ]);
  });

  it('has the hardware of parts where the file has no costs, and parts from boards and lumber have it too', async () => {
    const { lines, priceCents, leftOut } = await quoteOf({
      costs: null,
      boards: '{ length: 2400, price: 10 }',
      parts: `
  - { name: Rail, material: ply, length: 400, count: 3, hardware: [{ name: Dowel, price: 0.05, count: 4 }] }`,
    });
    expect(lines.map(({ name, cents }) => [name, cents])).toEqual([
      ['Ply, 2400 mm', 1000],
      ['Dowel', 60],
    ]);
    expect([priceCents, leftOut]).toEqual([1060, ['labour']]);
  });

  it('spreads setup and margin over all else, and the margin of price by its own rule', async () => {
    const costs =
      '{ labour: { machine: 60 per h }, setup: 40 min, margin: 20 %, margin-of: price }';
    const machine = '{ kind: panel-saw }';
    const { groups, ...quote } = await quoteOf({
      costs: costs.replace('setup', 'saw-cut: 0 s, setup'),
      machine,
      parts: `
  - { name: Side, material: ply, size: 400 x 300, count: 2 }
  - { name: Block, material: ply, size: 200 x 100, count: 4 }`,
    });
    expect(quote).toMatchObject({ costCents: 8000, marginCents: 2000, priceCents: 10_000 });
    expect(groups[0]!.shares.map(({ cents }) => cents)).toEqual([7500, 2500]);
  });

  it('is of material only where the file has no costs', async () => {
    const quote = await quoteOf({ costs: null });
    expect(linesOf(quote)).toEqual(['Ply, 1200 × 800 mm: 1 sheet, 4000']);
    expect(quote).toMatchObject({
      isMaterialOnly: true,
      priceCents: 4000,
      taxCents: null,
      totalCents: 4000,
      machineS: null,
      leftOut: [],
    });
  });

  it.each<readonly [string, string, readonly string[]]>([
    ['labour as a whole', '{ tax: 19 % }', ['labour', 'edge bands']],
    [
      'each time that the job would have',
      '{ labour: { machine: 65 per h, bench: 48 per h }, edge-band: { price: 1 per m } }',
      ['setup', 'loading', 'tool changes', 'drilling', 'putting on edge bands'],
    ],
    [
      'none that is said to be nothing',
      '{ labour: { machine: 65 per h, bench: 48 per h }, setup: 0 s, loading: 0 s, tool-change: 0 s, hole: 0 s, edge-band: { price: 1 per m, time: 0 s per m } }',
      [],
    ],
  ])('names what it counts as nothing: %s', async (_, costs, leftOut) => {
    const quote = await quoteOf({ costs });
    expect(quote.leftOut).toEqual(leftOut);
    expect(quote.totalCents).not.toBeNull();
  });

  it.each<readonly [string, Sketch, string]>([
    [
      'a sheet',
      { stock: '{ size: 1200 x 800 }' },
      'Ply, 1200 × 800 mm: the file has no price for it',
    ],
    [
      'hardware',
      { costs: '{ hardware: [{ name: Hinge, count: 8 }] }' },
      'Hinge: the file has no price for it',
    ],
    [
      'an edge band',
      { costs: '{ edge-band: { time: 40 s per m } }' },
      'Edge band: edge-band has no price',
    ],
    [
      'an hour at the machine',
      { costs: '{ labour: { bench: 48 per h } }' },
      'Cut contours: labour has no machine',
    ],
    [
      'an hour at the bench',
      {
        costs: '{ labour: { machine: 48 per h }, edge-band: { price: 1 per m, time: 9 s per m } }',
      },
      'Put on edge bands: labour has no bench',
    ],
    [
      'a cut of the saw',
      { machine: '{ kind: panel-saw }', costs: '{ labour: { machine: 48 per h } }' },
      'costs has no saw-cut, so its time is not known',
    ],
    [
      'pieces without a sheet',
      { stock: '{ size: 620 x 340, price: 9, on-hand: 1 }' },
      'too little stock: pieces left over',
    ],
  ])('is not known where %s has no price or time', async (_, sketch, why) => {
    const quote = await quoteOf(sketch);
    expect(quote.unknown.join('\n')).toContain(why);
    expect(quote).toMatchObject({
      costCents: null,
      marginCents: null,
      priceCents: null,
      taxCents: null,
      totalCents: null,
      groups: [],
    });
  });

  it('puts sheets that a file lists twice, at one price, into one line', async () => {
    const stock = `${STOCK.replace(' }', ', on-hand: 1 }')}, ${STOCK}`;
    const parts = '\n  - { name: Panel, material: ply, size: 1100 x 700, count: 3 }';
    const { lines } = await quoteOf({ stock, parts, costs: null });
    expect(lines.map(({ name, amount, cents }) => [name, amount, cents])).toEqual([
      ['Ply, 1200 × 800 mm', 3, 12_000],
    ]);
  });

  it.each<readonly [string, string, string, number]>([
    ['a board that is the piece is not cut', 'length: 600', 'length: 600, count: 2', 0],
    ['one cut between two pieces that fill a board', 'length: 603.2', 'length: 300, count: 2', 1],
    ['a sliver comes off as well', 'length: 610', 'length: 300, count: 2', 2],
    ['both trims', 'length: 643.2, trim: 20', 'length: 300, count: 2', 3],
    ['a kept end keeps its raw edge', 'length: 2000, trim: 20', 'length: 300, count: 2', 3],
    [
      'a knot is cut out on both sides',
      'length: 1000, defects: [{ at: 400, length: 40, why: knot }]',
      'length: 400, count: 2',
      3,
    ],
  ])('counts the cuts of boards: %s', async (_, board, rail, cuts) => {
    const { lines } = await quoteOf({
      boards: `{ ${board}, price: 10 }`,
      parts: `\n  - { name: Rail, material: ply, ${rail} }`,
      costs: '{ labour: { machine: 36 per h }, board-cut: 30 s }',
    });
    const seconds = lines.find(({ name }) => name.endsWith('of boards'))?.amount ?? 0;
    expect(seconds / 30).toBe(cuts);
  });

  it('shares the cuts of boards among what is cut from them', async () => {
    const quote = await quoteOf({
      boards: '{ length: 1000, price: 10 }',
      parts:
        '\n  - { name: Rail, material: ply, length: 300, count: 4 }\n  - { name: Top, material: ply, size: 300 x 300 }',
      costs: '{ labour: { machine: 36 per h }, board-cut: 30 s }',
    });
    expect(linesOf(quote)).toContain('Ply, 1000 mm: 2 board, 2000');
    expect(linesOf(quote)).toContain('4 cuts of boards: 120 s, 120');
    expect(quote.groups[0]!.shares.map(({ name, cents }) => `${name} ${cents}`)).toEqual([
      'Top 4012',
      'Rail 2120',
    ]);
  });

  it.each<readonly [string, number]>([
    ['', 12],
    [', stack: 35', 12],
    [', stack: 36', 8],
    [', stack: 54', 4],
  ])('counts the cuts of a book once: with%s %i of them', async (stack, cuts) => {
    const quote = await quoteOf({
      machine: `{ kind: panel-saw${stack} }`,
      parts: '\n  - { name: Panel, material: ply, size: 1100 x 700, count: 3 }',
      costs: '{ labour: { machine: 36 per h }, saw-cut: 10 s }',
    });
    expect(linesOf(quote)).toContain(`${cuts} saw cuts: ${10 * cuts} s, ${10 * cuts}`);
  });

  it('drills at the bench of a saw, and changes no tool there', async () => {
    const quote = await quoteOf({
      machine: '{ kind: panel-saw }',
      costs:
        '{ labour: { machine: 36 per h, bench: 36 per h }, saw-cut: 0 s, tool-change: 1 min, hole: 10 s }',
    });
    const time = quote.lines.filter(({ unit }) => unit === 's');
    expect(time.map(({ section, name, cents }) => [section, name, cents])).toEqual([
      ['bench', 'Drill 4 holes', 40],
    ]);
  });

  it.each<readonly [string, string, number]>([
    ['none for holes of the diameter of the cutter', 'diameter: 6', 0],
    ['to one drill and back', 'diameter: 5', 2],
  ])('counts tool changes: %s', async (_, diameter, changes) => {
    const parts = PARTS.replace('diameter: 5', diameter);
    const quote = await quoteOf({ parts });
    const line = quote.lines.find(({ name }) => name.includes('tool change'));
    expect(line?.amount ?? 0).toBe(changes * 60);
  });

  it('changes tools before each sheet that has holes', async () => {
    const stock = '{ size: 620 x 340, price: 9 }';
    const quote = await quoteOf({
      stock,
      parts: PARTS.replace('count: 2, edges', 'count: 3, edges'),
    });
    expect(linesOf(quote)).toContain('6 tool changes: 360 s, 650');
  });

  it('lets those bear tabs and clamps whose pieces need them', async () => {
    const job = jobOf(textOf({ costs: '{ labour: { machine: 0 per h, bench: 36 per h } }' }));
    const block = job.pieces.findIndex(({ part }) => job.parts[part]!.name === 'Block');
    const loose = [
      holding(1, { piece: block, action: 'tabs', remedyS: 90 }),
      holding(1, { piece: null, kind: 'sliver', action: 'clamp', remedyS: 30 }),
    ];
    const layout = await layoutOf(job);
    const sheet = { sheet: 1, loose } as unknown as Parameters<typeof costPlan>[2][number];
    const [none, held] = [costPlan(job, [layout], []), costPlan(job, [layout], [sheet])];
    expect(linesOf(held.quote)).toContain('Tabs and clamps: 120 s, 120');
    const bearing = ({ quote }: typeof held, name: string) =>
      quote.groups.flatMap(({ shares }) => shares).find((share) => share.name === name)!.cents;
    expect(bearing(held, 'Block') - bearing(none, 'Block')).toBe(120);
    expect(bearing(held, 'Side')).toBe(bearing(none, 'Side'));
  });
});

describe('lifting', () => {
  it('holds each kind of sheet and heavy pieces against what one person should lift', async () => {
    const job = jobOf(
      textOf({
        costs: null,
        stock: '{ size: 2440 x 1220 }, { size: 900 x 700, on-hand: 1 }',
        parts: `
  - { name: Top, material: ply, size: 2000 x 1000 }
  - { name: Shelf, material: ply, size: 800 x 600, count: 3 }`,
      }),
    );
    const { lifting, sheets } = costPlan(job, [await layoutOf(job)], []);
    expect(lifting.limitKg).toBe(12.94);
    const [first] = lifting.lifts;
    expect(first).toMatchObject({ kind: 'sheet', name: 'Ply, 2440 × 1220 mm' });
    expect(first!.weightKg).toBe(sheets[0]!.weightKg);
    expect(first!.index).toBeCloseTo(first!.weightKg / 12.9375, 1);
    expect(lifting.lifts.filter(({ kind }) => kind === 'piece').map(({ name }) => name)).toEqual([
      'Top',
    ]);
  });
});
