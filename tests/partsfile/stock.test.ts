import { describe, expect, it } from 'vitest';
import type { Material, SheetStock } from '../../src/model/stock.ts';
import { turnsOn } from '../../src/model/turns.ts';
import { codesOf, jobOf, MM, problemsOf } from './reading.ts';

const INCH = 203_200;

function file(sheets: string, part = 'size: 300 x 200', keys = 'family: plywood'): string {
  return `unit: mm\ncurrency: EUR\nmaterials:\n  ply: { ${keys}, thickness: 18, sheets: [${sheets}] }\nparts:\n  - { name: Box, material: ply, ${part} }\n`;
}

function sheetOf(keys: string, part?: string): SheetStock {
  const [sheet] = jobOf(file(`{ ${keys} }`, part)).materials[0]?.sheets ?? [];
  if (sheet === undefined) throw new Error('no sheet');
  return sheet;
}

function materialOf(keys: string): Material {
  const [material] = jobOf(file('{ size: 2440 x 1220 }', undefined, keys)).materials;
  if (material === undefined) throw new Error('no material');
  return material;
}

describe('sheets', () => {
  it.each<readonly [string, 'x' | 'y' | null]>([
    ['size: 2440 x 1220', 'x'],
    ['size: 1220 x 2440', 'y'],
    ['size: 2440 x 1220, grain: long-side', 'x'],
    ['size: 2440 x 1220, grain: short-side', 'y'],
    ['size: 1220 x 2440, grain: short-side', 'x'],
    ['size: 2440 x 1220, grain: first', 'x'],
    ['size: 2440 x 1220, grain: second', 'y'],
    ['size: 2440 x 1220, grain: none', null],
    ['size: 1525 x 1525, grain: second', 'y'],
    ['size: 1525 x 1525', null],
  ])('%s has its grain along %s', (keys, axis) => {
    expect(sheetOf(keys).grainAxis).toBe(axis);
  });

  it('that are square must say their grain as soon as a part has one', () => {
    const square = (keys: string, grain: string) =>
      codesOf(file(`{ size: 1525 x 1525${keys} }`, `size: 300 x 200, grain: ${grain}`));
    expect(square('', 'along')).toEqual(['grain-unclear']);
    expect(square('', 'across')).toEqual(['grain-unclear']);
    expect(square('', 'any')).toEqual([]);
    expect(square(', grain: none', 'along')).toEqual([]);
    expect(square(', grain: long-side', 'any')).toEqual(['grain-unclear']);
  });

  it.each([
    ['as drawn', '[[0, 0], [1200, 0], [1200, 400], [600, 800], [0, 800]]'],
    ['from another corner', '[[600, 800], [0, 800], [0, 0], [1200, 0], [1200, 400]]'],
    ['clockwise', '[[0, 800], [600, 800], [1200, 400], [1200, 0], [0, 0]]'],
    ['closed', '[[0, 0], [1200, 0], [1200, 400], [600, 800], [0, 800], [0, 0]]'],
    ['elsewhere', '[[-100, 50], [1100, 50], [1100, 450], [500, 850], [-100, 850]]'],
    ['with units', '[[0, 0], [1.2m, 0], [1.2m, 40cm], [600, 800], [0, 800]]'],
  ])('have an odd shape, %s', (_, points) => {
    const sheet = sheetOf(`points: ${points}, trim: 10`);
    const { boundary, length, width, trim, grainAxis, name } = sheet;
    const start = boundary?.findIndex(({ x, y }) => x === 0 && y === 0) ?? -1;
    const corners = [...(boundary ?? []).slice(start), ...(boundary ?? []).slice(0, start)];
    expect(corners.map(({ x, y }) => [x / MM, y / MM])).toEqual([
      [0, 0],
      [1200, 0],
      [1200, 400],
      [600, 800],
      [0, 800],
    ]);
    expect([length, width]).toEqual([1200 * MM, 800 * MM]);
    expect(trim).toEqual({ left: 10 * MM, right: 10 * MM, bottom: 10 * MM, top: 10 * MM });
    expect([grainAxis, name]).toEqual(['x', '1200 x 800']);
  });

  it('are rectangles where their points say so', () => {
    const points = '[[10, 10], [310, 10], [610, 10], [610, 410], [10, 410]]';
    expect(sheetOf(`points: ${points}`)).toMatchObject({
      length: 600 * MM,
      width: 400 * MM,
      boundary: null,
    });
    expect(sheetOf('size: 600 x 400').boundary).toBeNull();
  });

  it('have their keep-outs in the coordinates of their points', () => {
    const points = 'points: [[100, 50], [1300, 50], [1300, 450], [700, 850], [100, 850]]';
    const [keepOut] = sheetOf(`${points}, keep-out: [{ at: [120, 60], size: 30 x 20 }]`).keepOuts;
    expect(keepOut?.box).toEqual({ minX: 20 * MM, minY: 10 * MM, maxX: 50 * MM, maxY: 30 * MM });
    expect(codesOf(file(`{ ${points}, keep-out: [{ at: [0, 60], size: 30 x 20 }] }`))).toEqual([
      'keep-out-outside',
    ]);
  });

  it('may have edges that stand up', () => {
    const { lifted } = sheetOf(
      'size: 2440 x 1220, lifted: { top: { gap: 0.3, depth: 15cm }, left: { gap: 1, depth: 2440 } }',
    );
    expect(lifted).toEqual([
      { side: 'left', gap: MM, depth: 2440 * MM },
      { side: 'top', gap: 0.3 * MM, depth: 150 * MM },
    ]);
    expect(sheetOf('size: 2440 x 1220').lifted).toEqual([]);
    const codes = (edge: string) => codesOf(file(`{ size: 2440 x 1220, lifted: { ${edge} } }`));
    expect(codes('top: { gap: 0.3, depth: 1221 }')).toEqual(['out-of-range']);
    expect(codes('left: { gap: 0, depth: 100 }')).toEqual(['out-of-range']);
    expect(codes('left: { gap: 20, depth: 100 }')).toEqual(['out-of-range']);
    expect(codes('left: { gap: 0.3 }')).toEqual(['missing-key']);
    expect(codes('front: { gap: 0.3, depth: 100 }')).toEqual(['unknown-key']);
  });

  it('take the trim for all sides or side by side', () => {
    const ten = 10 * MM;
    expect(sheetOf('size: 2440 x 1220, trim: 10').trim).toEqual({
      left: ten,
      right: ten,
      bottom: ten,
      top: ten,
    });
    expect(sheetOf('size: 2440 x 1220, trim: { left: 10, top: 1cm }').trim).toEqual({
      left: ten,
      right: 0,
      bottom: 0,
      top: ten,
    });
    expect(sheetOf('size: 2440 x 1220').trim.left).toBe(0);
    expect(codesOf(file('{ size: 2440 x 1220, trim: 610 }'))).toEqual(['trim-too-wide']);
    expect(codesOf(file('{ size: 2440 x 1220, trim: -1 }'))).toEqual(['out-of-range']);
  });

  it('have a name, a price in minor units and a number', () => {
    expect(sheetOf('size: 2440 x 1220, name: Full, price: 92.5, on-hand: 0')).toMatchObject({
      name: 'Full',
      priceCents: 9250,
      onHand: 0,
    });
    expect(sheetOf('size: 2440 x 1220')).toMatchObject({
      name: '2440 x 1220',
      priceCents: null,
      onHand: null,
      pack: 1,
    });
  });

  it.each<readonly [string, string, number]>([
    ['EUR', '92', 9200],
    ['EUR', '"92.50"', 9250],
    ['EUR', '0.1', 10],
    ['JPY', '9200', 9200],
    ['KWD', '28.125', 28_125],
  ])('in %s a price of %s is exact', (currency, price, minor) => {
    const text = file(`{ size: 2440 x 1220, price: ${price} }`).replace('EUR', currency);
    expect(jobOf(text).materials[0]?.sheets[0]?.priceCents).toBe(minor);
  });

  it.each<readonly [string, string]>([
    ['9.5 in JPY', 'bad-price'],
    ['€92', 'bad-price'],
    ['92 EUR', 'bad-price'],
    ['"92,50"', 'decimal-comma'],
    ['-1', 'out-of-range'],
    ['99999999999', 'out-of-range'],
  ])('a price of %s is refused', (price, code) => {
    const [value = '', currency = 'EUR'] = price.split(' in ');
    const text = file(`{ size: 2440 x 1220, price: ${value} }`).replace('EUR', currency);
    expect(codesOf(text)).toEqual([code]);
  });

  it('may be 8.38 m long and no longer', () => {
    expect(codesOf(file('{ size: 8388.608 x 2000 }'))).toEqual([]);
    expect(codesOf(file('{ size: 8388.609 x 2000 }'))).toEqual(['out-of-range']);
    expect(codesOf(file('{ size: 100 km x 2 m }'))).toEqual(['out-of-range']);
  });
});

describe('materials', () => {
  it('have a usual density by their family', () => {
    const densities = [
      ['plywood', 680],
      ['softwood-plywood', 500],
      ['mdf', 750],
      ['particleboard', 655],
      ['osb', 600],
      ['hardboard', 950],
      ['softwood', 450],
      ['hardwood', 700],
    ] as const;
    for (const [family, density] of densities)
      expect(materialOf(`family: ${family}`)).toMatchObject({ family, densityKgPerM3: density });
  });

  it('take their own density, surface and name', () => {
    const keys = 'family: mdf, density: 800, surface: film-faced, name: White board';
    expect(materialOf(keys)).toMatchObject({
      name: 'White board',
      densityKgPerM3: 800,
      filmFaced: true,
    });
    expect(materialOf('family: mdf, density: 40 lb/ft3').densityKgPerM3).toBeCloseTo(640.74, 2);
  });

  it('read solid as hardwood, and say so', () => {
    const text = file('{ size: 2440 x 1220 }', undefined, 'family: solid');
    expect(problemsOf(text)).toEqual(['4:18 assumed-family']);
  });

  it('are named by any key, also by a number', () => {
    const text = file('{ size: 2440 x 1220 }').replaceAll(/\bply\b/g, '18');
    expect(jobOf(text).materials[0]?.id).toBe('18');
  });

  it('with a problem do not make their parts look wrong', () => {
    const text = file('{ size: 0 x 1220 }', 'size: 300 x 200, grain: along');
    expect(codesOf(text)).toEqual(['out-of-range']);
  });
});

describe('turns', () => {
  const turnsOf = (sheets: string, keys: string) => {
    const { parts, materials } = jobOf(file(`{ ${sheets} }`, `size: 300 x 200, ${keys}`));
    return materials[0]!.sheets.map((sheet) => turnsOn(parts[0]!, sheet));
  };
  const LONG = 'size: 2440 x 1220';
  const SHORT = 'size: 2440 x 1220, grain: short-side';
  const NONE = 'size: 2440 x 1220, grain: none';

  const MIXED = `${NONE} }, { ${SHORT} }, { ${LONG}`;

  it.each<readonly [string, string, readonly (readonly number[])[]]>([
    [LONG, 'count: 1', [[0, 90, 180, 270]]],
    [LONG, 'grain: along', [[0, 180]]],
    [LONG, 'turns: none', [[0]]],
    [LONG, 'turns: half', [[0, 180]]],
    [LONG, 'turns: quarter', [[0, 90, 180, 270]]],
    [LONG, 'turns: none, grain: along', [[0]]],
    [LONG, 'turns: half, grain: along', [[0, 180]]],
    [LONG, 'turns: none, grain: across', [[90]]],
    [LONG, 'turns: half, grain: across', [[90, 270]]],
    [LONG, 'turns: any, grain: across', [[90, 270]]],
    [SHORT, 'turns: half, grain: along', [[90, 270]]],
    [NONE, 'grain: across', [[0, 90, 180, 270]]],
    [NONE, 'turns: half, grain: across', [[0, 180]]],
    [MIXED, 'turns: none, grain: along', [[0], [90], [0]]],
    [
      MIXED,
      'turns: half, grain: along',
      [
        [0, 180],
        [90, 270],
        [0, 180],
      ],
    ],
    [MIXED, 'turns: none, grain: across', [[0], [0], [90]]],
    [MIXED, 'turns: none', [[0], [0], [0]]],
  ])('on sheets of %s, %s: %j', (sheets, part, turns) => {
    expect(turnsOf(sheets, part)).toEqual(turns);
  });

  it('of any are every 15 degrees', () => {
    const [turns] = turnsOf(LONG, 'turns: any');
    expect(turns).toHaveLength(24);
    expect(turns?.slice(0, 4)).toEqual([0, 15, 30, 45]);
  });
});

describe('a part that fits no sheet', () => {
  it.each<readonly [string, string, readonly string[]]>([
    ['exactly the sheet', 'size: 2440 x 1220', []],
    ['turned', 'size: 1220 x 2440', []],
    ['turned, where it may not be', 'size: 1220 x 2440, turns: half', ['fits-no-sheet']],
    ['turned, where the grain forbids it', 'size: 1220 x 2440, grain: along', ['fits-no-sheet']],
    ['across, where the grain asks for it', 'size: 1220 x 2440, grain: across', []],
    ['longer by the smallest unit', 'size: 2440.000125 x 1220', ['fits-no-sheet']],
    ['slanting', 'size: 2500 x 10, turns: any', []],
    ['slanting, where it may not', 'size: 2500 x 10', ['fits-no-sheet']],
  ])('%s', (_, part, codes) => {
    expect(codesOf(file('{ size: 2440 x 1220 }', part))).toEqual(codes);
  });

  it('is told where only another sheet would let it lie turned', () => {
    const sheets = '{ size: 300 x 1000, grain: none }, { size: 500 x 400, grain: second }';
    const part = 'size: 600 x 200, grain: along, turns: none';
    expect(codesOf(file(sheets, part))).toEqual(['fits-no-sheet']);
  });

  it('counts the trim', () => {
    expect(codesOf(file('{ size: 2440 x 1220, trim: 10 }', 'size: 2420 x 1200'))).toEqual([]);
    expect(codesOf(file('{ size: 2440 x 1220, trim: 10 }', 'size: 2421 x 1200'))).toEqual([
      'fits-no-sheet',
    ]);
  });
});

describe('an inch file', () => {
  it('reads everything in inches', () => {
    const job = jobOf(`unit: in
currency: USD
materials: { ply: { family: plywood, thickness: 23/32, sheets: [{ size: 96 x 48-1/2, trim: 3/8 }] } }
parts:
  - { name: Box, material: ply, size: 23-1/4 x 9 3/16, count: 2, grain: along }
machine: { cutter: { diameter: 1/4 }, feed: 354, speed: "18000" }
table: { pump: { curve: [[300, 0], [0, 8]] }, altitude: 5000 }
`);
    expect(job.materials[0]?.sheets[0]).toMatchObject({
      name: '96 x 48-1/2',
      length: 96 * INCH,
      width: 48.5 * INCH,
    });
    expect(job.parts[0]).toMatchObject({ width: 23.25 * INCH, height: 9.1875 * INCH });
    expect(job.machine).toMatchObject({ spacing: INCH / 4, feedMmPerMin: 8991.6 });
    expect(job.table.altitudeM).toBe(1524);
    expect(job.table.pump.curve).toEqual([
      { flowM3h: 509.7033, vacuumKpa: 0 },
      { flowM3h: 0, vacuumKpa: 27.091112 },
    ]);
  });
});
