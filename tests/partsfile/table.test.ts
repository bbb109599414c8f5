import { describe, expect, it } from 'vitest';
import type { Table } from '../../src/model/machine.ts';
import { codesOf, jobOf, jobText, MM } from './reading.ts';

const BOX = jobText('size: 300 x 200');

function tableOf(keys: string): Table {
  return jobOf(`${BOX}table: { ${keys} }\n`).table;
}

function curveOf(pump: string): readonly (readonly [number, number])[] {
  return tableOf(`pump: { ${pump} }`).pump.curve.map(
    (p) => [Number(p.flowM3h.toFixed(3)), p.vacuumKpa] as const,
  );
}

describe('the pump', () => {
  it('of a blower falls straight from its flow to its deepest vacuum', () => {
    expect(curveOf('kind: blower, flow: 400, vacuum: 25')).toEqual([
      [400, 0],
      [0, 25],
    ]);
  });

  it.each(['vane', 'claw', 'liquid-ring'])(
    'of kind %s takes in a steady volume of thinning air',
    (kind) => {
      // S (pa - v - rest) / pa with a rest of 101.325 - 91.1925 kPa.
      expect(curveOf(`kind: ${kind}, flow: 250, vacuum: 91.1925`)).toEqual(
        [
          [225, 0],
          [0, 91.193],
        ].map(([flow, kpa], i) => [flow, i === 0 ? kpa : 91.1925]),
      );
    },
  );

  it('counts pumps side by side, and says so', () => {
    const { pump } = tableOf('pump: { kind: blower, flow: 200, vacuum: 20, count: 3 }');
    expect(pump.kind).toBe('3 x blower');
    expect(pump.curve[0]!.flowM3h).toBe(600);
  });

  it('turns a curve of inlet volumes into free air, with points close enough together', () => {
    const curve = curveOf('kind: vane, volume: inlet, curve: [[250, 0], [250, 50.6625], [0, 90]]');
    expect(curve[0]).toEqual([250, 0]);
    expect(curve.find(([, kpa]) => kpa === 50.6625)).toEqual([125, 50.6625]);
    expect(curve.at(-1)).toEqual([0, 90]);
    const gaps = curve.slice(1).map(([, kpa], i) => kpa - curve[i]![1]);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(10.2);
  });
});

describe('the table', () => {
  it.each<readonly [string, Partial<Table>]>([
    ['pipe: { loss: 2, flow: 300 }', { pipe: { kind: 'measured', lossKpa: 2, flowM3h: 300 } }],
    [
      'pipe: { bore: 50, length: 6000, elbows: 3 }',
      { pipe: { kind: 'plain', bore: 50 * MM, length: 6000 * MM, elbows: 3 } },
    ],
    [
      'gasket: { around: pieces, inset: 10, leak: 80 mm2 }',
      { seal: { kind: 'gasket', around: 'pieces', inset: 10 * MM, grooveShare: 0, leakMm2: 80 } },
    ],
    [
      'gasket: { around: sheet, inset: 10, grooves: 10 x 50, leak: 0.1 in2 }',
      {
        seal: {
          kind: 'gasket',
          around: 'sheet',
          inset: 10 * MM,
          grooveShare: 1 - 0.8 ** 2,
          leakMm2: 64.516,
        },
      },
    ],
    [
      'pods: { size: 140 x 115, per-piece: 3, leak: 20 }',
      { seal: { kind: 'pods', length: 140 * MM, width: 115 * MM, perPiece: 3, leakMm2: 20 } },
    ],
    [
      'size: 2500 x 1250, sheet-at: [20, 10], zones: [{ at: [0, 0], size: 1250 x 1250 }, { at: [1250, 0], size: 1250 x 1250, shut: yes }]',
      {
        sheetAt: { x: 20 * MM, y: 10 * MM },
        zones: [
          { box: { minX: 0, minY: 0, maxX: 1250 * MM, maxY: 1250 * MM }, shut: false },
          { box: { minX: 1250 * MM, minY: 0, maxX: 2500 * MM, maxY: 1250 * MM }, shut: true },
        ],
      },
    ],
    [
      'size: 2500 x 1250, masked: [{ at: [2440, 0], size: 60 x 1250 }]',
      { masked: [{ minX: 2440 * MM, minY: 0, maxX: 2500 * MM, maxY: 1250 * MM }] },
    ],
  ])('reads %s', (keys, expected) => {
    expect(tableOf(keys)).toMatchObject(expected);
  });

  it('names what it takes for a gasket or pods that say little', () => {
    expect(tableOf('gasket: { around: sheet }').assumed).toEqual(
      expect.arrayContaining([
        'leaks past the seals of 50 mm2 in all',
        'gaskets 12 mm inside the edge',
        'grooves 8 mm wide every 50 mm',
      ]),
    );
    expect(tableOf('pods: { size: 140 x 115 }').assumed).toContain('up to 2 pods under a piece');
    expect(tableOf('gasket: { around: pieces }').assumed.join()).not.toContain('spoilboard');
  });

  it.each<readonly [string, string]>([
    ['pump: { kind: blower, flow: 400 }', 'missing-key'],
    ['pump: { kind: blower, vacuum: 25 }', 'missing-key'],
    ['pump: { flow: 400, vacuum: 25 }', 'unknown-word'],
    ['pump: { kind: screw, flow: 400, vacuum: 25 }', 'unknown-word'],
    ['pump: { kind: blower, flow: 0, vacuum: 25 }', 'out-of-range'],
    ['pump: { kind: blower, flow: 400, vacuum: 0 }', 'out-of-range'],
    ['pump: { kind: vane, flow: 250, vacuum: 102 }', 'out-of-range'],
    ['pump: { kind: vane, flow: 250, vacuum: 90, volume: inlet }', 'misplaced-key'],
    ['pump: { flow: 250, curve: [[520, 0], [0, 26]] }', 'misplaced-key'],
    ['pump: { kind: vane, flow: 250, vacuum: 90, count: 0 }', 'out-of-range'],
    ['pipe: { loss: 2 }', 'missing-key'],
    ['pipe: { bore: 50 }', 'missing-key'],
    ['pipe: {}', 'missing-key'],
    ['pipe: { loss: 2, flow: 0 }', 'out-of-range'],
    ['pipe: { loss: 2, flow: 300, bore: 50 }', 'misplaced-key'],
    ['pipe: { bore: 0, length: 6000 }', 'out-of-range'],
    ['gasket: { around: sheet, grooves: 50 x 8 }', 'out-of-range'],
    ['gasket: { grooves: 8 x 50 }', 'misplaced-key'],
    ['gasket: { around: table }', 'unknown-word'],
    ['gasket: { leak: much }', 'bad-quantity'],
    ['gasket: {}, pods: { size: 140 x 115 }', 'misplaced-key'],
    ['gasket: {}, spoilboard: { thickness: 18 }', 'misplaced-key'],
    ['pods: { per-piece: 2 }', 'missing-key'],
    ['pods: { size: 0 x 115 }', 'out-of-range'],
    ['zones: [{ at: [0, 0], size: 100 x 100 }]', 'missing-key'],
    ['masked: [{ at: [0, 0], size: 100 x 100 }]', 'missing-key'],
    ['sheet-at: [10, 10]', 'missing-key'],
    ['size: 2500 x 1250, sheet-at: [2500, 0]', 'out-of-range'],
    ['size: 2500 x 1250, zones: []', 'wrong-type'],
    ['size: 2500 x 1250, zones: [{ at: [0, 0], size: 100 x 1300 }]', 'out-of-range'],
    ['size: 2500 x 1250, zones: [{ at: [0, 0], size: 100 x 100, shut: yes }]', 'out-of-range'],
    ['size: 2500 x 1250, masked: [{ size: 100 x 100 }]', 'missing-key'],
    ['spoilboard: { thickness: 18, along-ratio: 0 }', 'out-of-range'],
  ])('refuses %s', (keys, code) => {
    expect(codesOf(`${BOX}table: { ${keys} }\n`)).toEqual([code]);
  });
});

it('is known to be given or not', () => {
  expect(jobOf(BOX).table.isGiven).toBe(false);
  expect(tableOf('altitude: 300 m').isGiven).toBe(true);
});
