import { describe, expect, it } from 'vitest';
import { airPressurePa } from '../../src/holding/atmosphere.ts';
import { explainPiece } from '../../src/holding/explain.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { deepestVacuumKpa } from '../../src/holding/pump.ts';
import { lowestVacuum, type WhatIf, whatIfs } from '../../src/holding/what-if.ts';
import type { Holding } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { numberedSheets } from '../../src/model/plan.ts';
import { fromMm, UNITS_PER_INCH } from '../../src/model/units.ts';
import { partOf } from '../helpers/jobs.ts';
import { disc, rect } from '../helpers/shapes.ts';
import { rows, type Shop, shopJob, singleRectangle, VANE } from './jobs.ts';

const UP_CUT = { spiral: 'up-cut', helixDeg: 30 } as const;
const WIDE_TABLE = { size: { length: fromMm(2700), width: fromMm(1500) } };
const COARSE_BOARD = {
  kind: 'particleboard',
  thickness: fromMm(18),
  permeabilityM2: { nominal: 3e-12, low: 4e-12 },
  alongRatio: 1,
};

const SHOPS: Readonly<Record<string, Shop>> = {
  'a straight cutter': {},
  'an up-cut cutter': { cutter: UP_CUT },
  'a compression cutter with a long tip': {
    cutter: { ...UP_CUT, spiral: 'compression', upcutLength: fromMm(15) },
  },
  'a worn up-cut cutter': { cutter: { ...UP_CUT, worn: true }, machine: { passDepth: fromMm(4) } },
  'a last pass of its own': { machine: { passDepth: fromMm(9), lastPass: fromMm(6) } },
  'a finishing cut': { machine: { passDepth: fromMm(9), finish: fromMm(0.4) } },
  'a bare table': { table: { ...WIDE_TABLE, spoilboard: COARSE_BOARD } },
  'a sheet turned on a bare table': {
    table: { size: { length: fromMm(1500), width: fromMm(2700) }, spoilboard: COARSE_BOARD },
  },
  'a vane pump on a mountain': {
    table: { pump: { kind: 'vane', curve: VANE }, altitudeM: 2000, spoilboard: COARSE_BOARD },
  },
  pods: {
    machine: { passDepth: fromMm(9) },
    table: {
      seal: { kind: 'pods', length: fromMm(120), width: fromMm(120), perPiece: 8, leakMm2: 40 },
    },
  },
};

const SHAPES = [rect(800, 600), rect(210, 180), rect(150, 140), rect(60, 60), disc(190)];

describe.each(Object.entries(SHOPS))('what would make a piece stay, with %s', (_, shop) => {
  const job = shopJob(
    SHAPES.map((shape) => partOf(shape)),
    shop,
  );
  const layouts = [rows(job, 20)];
  const pieces = piecesOf(job, layouts);
  const weak = pieces
    .filter((piece) => settled(piece).verdict !== 'stays')
    .map((holding) => ({ holding, found: foundFor(job, layouts, holding) }));

  it('is what the sheet gives when it is planned anew', () => {
    const anew = new Map<string, readonly Holding[]>();
    for (const { holding, found } of weak)
      for (const each of found) {
        const then = anew.get(each.text) ?? piecesOf(each.job, layouts);
        anew.set(each.text, then);
        const { margin, verdict, cutOrder } = settled(
          then.find(({ piece }) => piece === holding.piece)!,
        );
        expect([margin, verdict, cutOrder], each.text).toEqual([
          each.margin,
          each.verdict,
          each.cutOrder,
        ]);
      }
    expect(anew.size).toBeGreaterThan(0);
  });

  it('helps, is the cheaper the sooner it is named, and is a pair only where nothing alone is enough', () => {
    for (const { holding, found } of weak) {
      const alone = found.filter(({ text }) => !text.includes(', and '));
      for (const { text, verdict, margin } of found)
        if (verdict !== 'stays')
          expect(margin, text).toBeGreaterThanOrEqual(settled(holding).margin);
      const costs = alone.map(costOf);
      expect(costs).toEqual(costs.toSorted((a, b) => a - b));
      if (alone.some(({ verdict }) => verdict === 'stays')) expect(found).toEqual(alone);
      else for (const pair of found.slice(alone.length)) expect(pair.verdict).toBe('stays');
    }
  });

  it('is nothing for a piece that stays as planned, which a gauge may then watch', () => {
    const strong = pieces.filter((each) => settled(each).verdict === 'stays');
    expect(strong.length).toBeGreaterThan(0);
    for (const { piece } of strong) {
      const [numbered] = numberedSheets(layouts);
      expect(whatIfs(job, numbered!, piece!)).toEqual([]);
      const lowest = lowestVacuum(job, numbered!, piece!)!;
      expect(lowest.lowestKpa).toBeLessThanOrEqual(lowest.reckonedKpa);
      expect(underVacuum(job, layouts, piece!, lowest.lowestKpa + 0.02)).toBe('stays');
      expect(underVacuum(job, layouts, piece!, lowest.lowestKpa - 0.1)).not.toBe('stays');
    }
    for (const { holding } of weak)
      expect(lowestVacuum(job, numberedSheets(layouts)[0]!, holding.piece!)).toBeNull();
  });
});

describe('what is named', () => {
  const cases: readonly (readonly [string, Shop, readonly RegExp[]])[] = [
    [
      'passes and feed',
      {},
      [
        /^pass depth 9 mm: 2 passes in place of 1$/,
        /^pass depth 6 mm: 3 passes in place of 1$/,
        /^feed 6750 mm\/min in place of 9000 mm\/min$/,
        /^feed 4500 mm\/min in place of 9000 mm\/min$/,
        /^a pump that pulls 5 kPa deeper$/,
      ],
    ],
    [
      'a spiral that does not lift',
      { cutter: UP_CUT },
      [
        /^a down-cut or straight cutter in place of the up-cut one$/,
        /^a compression cutter with a tip of 6.35 mm in place of the up-cut one$/,
      ],
    ],
    ['a fresh cutter', { cutter: { worn: true } }, [/^a fresh cutter in place of the worn one$/]],
    [
      'a mask',
      { table: { ...WIDE_TABLE, spoilboard: COARSE_BOARD } },
      [/^the bare table beside the sheet masked$/],
    ],
    [
      'half of the last pass',
      { machine: { passDepth: fromMm(9), lastPass: fromMm(8) } },
      [/^last pass 4 mm in place of 8 mm$/],
    ],
  ];

  it.each(cases)('%s', (_, shop, texts) => {
    const [job, layouts] = singleRectangle(200, 170, shop);
    const named = whatIfs(job, numberedSheets(layouts)[0]!, 0).map(({ text }) => text);
    for (const text of texts) expect(named.filter((each) => text.test(each))).toHaveLength(1);
  });

  it('never a vacuum that there is not', () => {
    const pump = { kind: 'vane', curve: VANE };
    const [job, layouts] = singleRectangle(90, 70, { table: { pump } });
    const named = whatIfs(job, numberedSheets(layouts)[0]!, 0).map(({ text }) => text);
    expect(named.some((text) => text.includes('pass depth'))).toBe(true);
    expect(named.some((text) => text.includes('deeper'))).toBe(false);
  });

  it.each([
    [18, 2.6],
    [12, 1.9],
    [19.05, 6.35],
    [6, 0.7],
  ])(
    'a pass depth for %f mm that gives its passes when typed into the file',
    (thickness, depth) => {
      const machine = { passDepth: fromMm(depth) };
      const material = { thickness: fromMm(thickness) };
      const [job, layouts] = singleRectangle(70, 60, { machine, material });
      const texts = whatIfs(job, numberedSheets(layouts)[0]!, 0).map(({ text }) => text);
      const named = texts.flatMap((text) => [
        ...text.matchAll(/^pass depth ([\d.]+) mm: (\d+) p/g),
      ]);
      expect(named).toHaveLength(2);
      for (const [, typed, count] of named)
        expect(Math.ceil(fromMm(thickness) / fromMm(Number(typed)))).toBe(Number(count));
    },
  );

  it('in inches, and inches of mercury, where the file is in inches', () => {
    const [job, layouts] = singleRectangle(200, 170, {
      machine: { passDepth: UNITS_PER_INCH / 4, feedMmPerMin: 9144 },
      material: { thickness: (UNITS_PER_INCH * 3) / 4 },
      cutter: { worn: true },
    });
    const [numbered] = numberedSheets(layouts);
    const texts = whatIfs({ ...job, unit: 'in' }, numbered!, 0).map(({ text }) => text);
    expect(texts).toContain('feed 270 in/min in place of 360 in/min');
    expect(texts).toContain('pass depth 3/16": 4 passes in place of 3');
    expect(texts).toContain('a pump that pulls 5 kPa (1.5 inHg) deeper');
  });

  it('with the trouble of a thin chip', () => {
    const [job, layouts] = singleRectangle(150, 150, { machine: { passDepth: fromMm(6) } });
    const found = whatIfs(job, numberedSheets(layouts)[0]!, 0);
    const slow = found.find(({ text }) => text.startsWith('feed 4500'))!;
    expect(slow.but).toMatch(/^0\.13 mm a tooth is under the usual 0\.15 to 0\.23 mm/);
    expect(found.find(({ text }) => text.startsWith('feed 6750'))!.but).toBeNull();
  });
});

it('never lowers a margin to take more passes, unless the tip of a compression cutter only lifts then', () => {
  for (const cutter of [{}, UP_CUT, { spiral: 'down-cut', helixDeg: 30 }] as const)
    for (const [width, height] of [
      [300, 300],
      [150, 90],
      [400, 40],
      [60, 60],
    ] as const) {
      const margins = [18, 9, 6, 4.5, 3, 2, 1].map((depth) => {
        const shop = { cutter, machine: { passDepth: fromMm(depth) } };
        const [job, layouts] = singleRectangle(width, height, shop);
        return planned(job, layouts, 0).margin;
      });
      expect(margins).toEqual(margins.toSorted((a, b) => a - b));
    }
});

describe('the explanation', () => {
  const lines = (width: number, height: number, unit: RouterJob['unit'] = 'mm') => {
    const [job, layouts] = singleRectangle(width, height, { machine: { passDepth: fromMm(9) } });
    return explainPiece({ ...job, unit }, layouts, 0);
  };
  const whatIf = (width: number, height: number) =>
    lines(width, height).filter(({ quantity }) => quantity.startsWith('What if'));

  it('says what each change gives and costs', () => {
    const first = whatIf(170, 150)[0]!;
    expect(first.value).toMatch(/^margin \d\.\d\d, low end \d\.\d\d: (stays|marginal)$/);
    expect(first.formula).toMatch(
      /^about \d+ s more round this piece alone, or about \d+ s on the whole sheet/,
    );
  });

  it('names the best change only where none and no two are enough', () => {
    expect(whatIf(40, 30)).toHaveLength(1);
    expect(whatIf(40, 30)[0]!.formula).toContain('not enough');
  });

  it('says to two digits how low the vacuum may fall', () => {
    const lowest = (unit: RouterJob['unit']) =>
      lines(400, 300, unit).find(({ quantity }) => quantity.startsWith('Lowest vacuum'))!.value;
    expect(lowest('mm')).toMatch(/^(\d\.\d|\d\d) kPa$/);
    expect(lowest('in')).toMatch(/^(\d\.\d|\d\d) kPa \(\d\.\d inHg\)$/);
  });
});

function foundFor(job: RouterJob, layouts: readonly Layout[], holding: Holding): readonly WhatIf[] {
  return whatIfs(job, numberedSheets(layouts)[holding.sheet - 1]!, holding.piece!);
}

function piecesOf(job: RouterJob, layouts: readonly Layout[]): readonly Holding[] {
  const loose = holdSheets(job, layouts).flatMap((sheet) => sheet.loose);
  return loose.filter(({ kind }) => kind === 'piece');
}

function planned(job: RouterJob, layouts: readonly Layout[], piece: number): Holding {
  return piecesOf(job, layouts).find((each) => each.piece === piece)!;
}

/** A piece that is only cut earlier needs nothing else. */
function settled(holding: Holding): Pick<Holding, 'margin' | 'verdict' | 'cutOrder'> {
  const { action, marginAfter, verdictAfter, cutOrder } = holding;
  if (action !== 'earlier') return holding;
  return { margin: marginAfter, verdict: verdictAfter, cutOrder };
}

function costOf({ sheetS, aloneS, setUpS }: WhatIf): number {
  return setUpS === null ? Number.MAX_VALUE : setUpS + (aloneS ?? sheetS);
}

/** The verdict on a table that holds this vacuum whatever leaks in, with as deep a pump, which sets the border. */
function underVacuum(
  job: RouterJob,
  layouts: readonly Layout[],
  piece: number,
  atTableKpa: number,
) {
  const { pump, altitudeM } = job.table;
  const vacuumKpa = (atTableKpa * airPressurePa(0)) / airPressurePa(altitudeM);
  const curve = [
    { flowM3h: 1e9, vacuumKpa: 0 },
    { flowM3h: 1e9, vacuumKpa },
    { flowM3h: 0, vacuumKpa: vacuumKpa + 1e-6 },
    { flowM3h: 0, vacuumKpa: deepestVacuumKpa(pump.curve) },
  ];
  const table = { ...job.table, pump: { kind: 'steady', curve }, pipe: null };
  return planned({ ...job, table }, layouts, piece).verdict;
}
