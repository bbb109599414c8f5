import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/area.ts';
import { airOf, vacuumAt } from '../../src/holding/air.ts';
import { borderLossMm, fieldShare } from '../../src/holding/border.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { pipeLossKpa } from '../../src/holding/pipe.ts';
import { podsUnder } from '../../src/holding/pods.ts';
import { reachOf } from '../../src/holding/reach.ts';
import { tableWarnings } from '../../src/holding/table-warnings.ts';
import type { Holding } from '../../src/model/holding.ts';
import type { Pipe, Seal, Table } from '../../src/model/machine.ts';
import { fromMm, toMm2 } from '../../src/model/units.ts';
import { at, layoutOf, type PartInput, partOf, sheetOf } from '../helpers/jobs.ts';
import { cutOut, lShape, rect } from '../helpers/shapes.ts';
import { DEFAULT_TABLE, regionOf, shopJob, VANE } from './jobs.ts';

const SIZE = { length: fromMm(2500), width: fromMm(1250) };
const SHEET = sheetOf(2440, 1220);

function gasket(change: Partial<Extract<Seal, { kind: 'gasket' }>>): Seal {
  return { kind: 'gasket', around: 'pieces', inset: 0, grooveShare: 0, leakMm2: 50, ...change };
}

describe('gaskets', () => {
  it.each([
    [50, 90.07, 1351],
    [100, 81.35, 1220],
    [200, 63.65, 955],
    [400, 32.05, 481],
    [800, 10.67, 160],
  ])(
    'with %d mm2 open leave a vane pump %d kPa and a piece of 150 x 100 mm %d N',
    (leakMm2, kpa, forceN) => {
      // The worked example of a grid table (derived), by the same numbers.
      const [piece] = held([partOf(rect(150, 100))], { seal: gasket({ leakMm2 }) });
      expect(Math.abs(piece!.vacuumKpa - kpa)).toBeLessThan(0.011);
      expect(Math.abs(piece!.holdingForceN - piece!.weightN - forceN)).toBeLessThan(1);
    },
  );

  it('round pieces are untouched by the kerfs outside them, one round the sheet is not', () => {
    const many = [partOf(rect(500, 350), { count: 6 })];
    const vacuums = (seal: Seal): number[] => held(many, { seal }).map((p) => p.vacuumKpa);
    expect(new Set(vacuums(gasket({}))).size).toBe(1);
    const round = vacuums(gasket({ around: 'sheet', grooveShare: 0.3 }));
    expect(round.at(-1)).toBeLessThan(round[0]! / 2);
  });

  it('hold what lies inside the cord, and no waste', () => {
    const frame = partOf(cutOut(rect(400, 300), rect(200, 120), 100, 90));
    const things = held([frame], { seal: gasket({ inset: fromMm(10) }) });
    const piece = things.find(({ kind }) => kind === 'piece')!;
    const inside = 380 * 280 - 220 * 140;
    expect(piece.holdingForceN - piece.weightN).toBeCloseTo((piece.vacuumKpa * inside) / 1000, 0);
    const slug = things.find(({ kind }) => kind === 'slug')!;
    expect(slug.holdingForceN).toBeCloseTo(slug.weightN, 1);
  });

  it('have no hold on a piece narrower than two insets', () => {
    const [piece] = held([partOf(rect(300, 20))], { seal: gasket({ inset: fromMm(10) }) });
    expect(piece!.verdict).toBe('moves');
  });
});

describe('pods', () => {
  const pods = { kind: 'pods', length: fromMm(140), width: fromMm(100), leakMm2: 0 } as const;
  const clear = fromMm(6);

  it.each([
    ['one in a piece a little larger', rect(152, 112), 4, 1],
    ['none in one a little smaller', rect(151, 112), 4, 0],
    ['one turned a quarter', rect(112, 152), 4, 1],
    ['two in a long piece', rect(330, 120), 4, 2],
    ['no more than are to be had', rect(600, 400), 3, 3],
    ['both arms of an L', lShape(400, 400, 130), 2, 2],
    ['none in a thin ring', cutOut(rect(200, 200), rect(160, 160), 20, 20), 4, 0],
  ])('fit: %s', (_, shape, perPiece, count) => {
    expect(podsUnder(regionOf(shape), { ...pods, perPiece }, clear)).toHaveLength(count);
  });

  it('give a piece their area and no more', () => {
    const [piece] = held([partOf(rect(600, 400))], { seal: { ...pods, perPiece: 2 } });
    const force = (piece!.vacuumKpa * 2 * 140 * 100) / 1000;
    expect(piece!.holdingForceN - piece!.weightN).toBeCloseTo(force, 0);
  });
});

describe('the table under the sheet', () => {
  const areas = (change: Partial<Table>) => {
    const { materials } = shopJob([], { sheet: SHEET });
    return reachOf({ ...DEFAULT_TABLE, size: SIZE, ...change }, materials[0]!.sheets[0]!);
  };
  const left = { minX: 0, minY: 0, maxX: fromMm(1250), maxY: fromMm(1250) };
  const right = { ...left, minX: fromMm(1250), maxX: fromMm(2500) };

  it('is bare beside the sheet, and less so where it is masked', () => {
    expect(areas({}).bareMm2).toBeCloseTo(2500 * 1250 - 2440 * 1220, 3);
    const strip = { minX: 0, minY: fromMm(1220), maxX: fromMm(2500), maxY: fromMm(1250) };
    expect(areas({ masked: [strip] }).bareMm2).toBeCloseTo(60 * 1220, 3);
    expect(areas({ masked: [strip] }).within).toBeNull();
  });

  it('shuts a zone that no sheet reaches', () => {
    const small = shopJob([], { sheet: sheetOf(1200, 1200) }).materials[0]!.sheets[0]!;
    const zones = [left, right].map((box) => ({ box, shut: false }));
    const one = reachOf({ ...DEFAULT_TABLE, size: SIZE, zones }, small);
    expect(one.tableMm2).toBeCloseTo(1250 * 1250, 3);
    expect(reachOf({ ...DEFAULT_TABLE, size: SIZE }, small).tableMm2).toBeCloseTo(2500 * 1250, 3);
  });

  it('does not hold what lies over a shut zone, a mask or beside the table', () => {
    const zones = [
      { box: left, shut: false },
      { box: right, shut: true },
    ];
    const parts = [partOf(rect(500, 500), { count: 2 })];
    const places = [at(0, 100, 100), at(1, 1500, 100)];
    const cases: readonly Partial<Table>[] = [
      { size: SIZE, zones },
      { size: SIZE, masked: [right] },
      { size: { length: fromMm(1250), width: fromMm(1250) } },
    ];
    for (const table of cases) {
      const [here, there] = held(parts, table, places).toSorted((a, b) => a.piece! - b.piece!);
      expect(here!.verdict).toBe('stays');
      expect([there!.verdict, there!.holdingForceN]).toEqual(['moves', there!.weightN]);
    }
  });

  it('holds the part of a piece that is over it', () => {
    const half = { length: fromMm(1300), width: fromMm(1250) };
    const [piece] = held([partOf(rect(600, 400))], { size: half }, [at(0, 1000, 100)]);
    const reached = 300 - piece!.borderMm;
    const area = reached * (400 - 2 * piece!.borderMm);
    expect(piece!.holdingForceN - piece!.weightN).toBeCloseTo((piece!.vacuumKpa * area) / 1000, 0);
  });

  it('ties a thing no better than the sheet is held', () => {
    const parts = [partOf(rect(180, 150))];
    const all = { minX: 0, minY: 0, maxX: fromMm(2500), maxY: fromMm(1250) };
    const helped = (masked: Table['masked']) =>
      held(parts, { size: SIZE, masked }, [at(0, 1500, 400)])[0]!;
    const over = { ...all, maxX: fromMm(1250) };
    expect(helped([]).verdictAfter).toBe('stays');
    // The half of the sheet that is held holds what is tied to the other half.
    const half = helped([{ ...over, minX: fromMm(1250), maxX: fromMm(2500) }]);
    expect([half.verdict, half.verdictAfter]).toEqual(['moves', 'marginal']);
    expect(half.why).toContain('No vacuum reaches it');
    const none = helped([all]);
    expect([none.verdict, none.verdictAfter]).toEqual(['moves', 'moves']);
  });

  it('is warned of where it does not hold all of a sheet, or the sheet lies turned', () => {
    const job = shopJob([partOf(rect(600, 400))], { sheet: SHEET });
    const layouts = [layoutOf([{ stock: 0, placements: [at(0, 100, 100)] }])];
    const warned = (table: Partial<Table>): string =>
      tableWarnings({ ...job, table: { ...job.table, ...table } }, layouts).join(' ');
    expect(warned({})).toBe('');
    expect(warned({ size: SIZE, seal: gasket({ around: 'sheet', inset: fromMm(20) }) })).toBe('');
    expect(warned({ size: { length: fromMm(1220), width: fromMm(1220) } })).toContain(
      'only 50.0 %',
    );
    expect(warned({ size: SIZE, sheetAt: { x: fromMm(-3000), y: 0 } })).toContain(
      'nothing of the sheet',
    );
    const across = { length: fromMm(1250), width: fromMm(2500) };
    expect(warned({ size: across })).toBe('');
    expect(warned({ size: across, zones: [{ box: left, shut: false }] })).toContain(
      'turned a quarter',
    );
  });

  it('takes the sheet at its place, turned where it lies across', () => {
    const sheetAt = { x: fromMm(60), y: fromMm(30) };
    expect(areas({ sheetAt }).within).toBeNull();
    expect(areas({ sheetAt: { x: fromMm(61), y: 0 } }).within).not.toBeNull();
    const across = { length: fromMm(1250), width: fromMm(2500) };
    expect(
      areas({ size: across, masked: [{ ...left, maxX: fromMm(1220) }] }).coveredMm2,
    ).toBeCloseTo(1220 * 1190, 3);
  });
});

describe('the pipe', () => {
  const plain: Pipe = { kind: 'plain', bore: fromMm(50), length: fromMm(6000), elbows: 3 };

  it('takes more of the vacuum the more air flows, in proportion to the square', () => {
    expect(pipeLossKpa(plain, 200)).toBeCloseTo(4 * pipeLossKpa(plain, 100), 9);
    expect(pipeLossKpa(null, 200)).toBe(0);
    const read: Pipe = { kind: 'measured', lossKpa: 2, flowM3h: 300 };
    expect(pipeLossKpa(read, 150)).toBeCloseTo(0.5, 9);
  });

  it('is by the equation of Darcy and Weisbach', () => {
    // 100 m3/h through 50 mm: 14.15 m/s, 120.5 Pa; 2.4 + 2.7 such.
    expect(pipeLossKpa(plain, 100)).toBeCloseTo(0.6145, 3);
  });

  it('lowers the vacuum at the table, the more so the leakier it is', () => {
    const falls = [20_000, 60_000, 150_000].map((kerf) => {
      const [free, piped] = [null, plain].map((pipe) =>
        vacuumAt(airFor({ pipe }), kerf, 'nominal'),
      );
      return free! - piped!;
    });
    expect(falls[0]).toBeGreaterThan(0);
    expect(falls).toEqual(falls.toSorted((a, b) => a - b));
  });
});

describe('the border along a kerf', () => {
  it('has lost half its vacuum at 0.221 of the thickness of the board', () => {
    expect(fieldShare(Math.LN2 / Math.PI)).toBeCloseTo(0.5, 9);
  });

  it('is wider the deeper the vacuum, and starts from the closed form', () => {
    const widths = [1, 0.7, 0.5, 0.3, 0.1].map((share) => borderLossMm(18, share));
    expect(widths).toEqual(widths.toSorted((a, b) => a - b));
    // Squared pressures and plain ones agree where both differences are small.
    expect(widths[1]! / widths[0]!).toBeLessThan(1.15);
    expect(widths[3]! / widths[0]!).toBeGreaterThan(1.3);
  });

  it('grows with a board that lets more through along than across', () => {
    const spoilboard = { ...DEFAULT_TABLE.spoilboard, alongRatio: 4 };
    const wider = airFor({ spoilboard }).borderMm / airFor({}).borderMm;
    // Twice beside a wide kerf; a common one is narrower for a board that counts as thicker.
    expect(wider).toBeGreaterThan(1.8);
    expect(wider).toBeLessThan(2);
    expect(airFor({ spoilboard }).leakWidthMm).toBeGreaterThan(airFor({}).leakWidthMm);
  });
});

function airFor(table: Partial<Table>) {
  const job = shopJob([], { sheet: SHEET });
  const [material] = job.materials;
  return airOf(
    { ...DEFAULT_TABLE, ...table },
    job.machine.cutter.diameter,
    material!,
    material!.sheets[0]!,
  );
}

interface Held extends Holding {
  readonly weightN: number;
  readonly borderMm: number;
}

/** Film-faced plywood on a vane pump, pieces 600 mm apart unless `places` says where. */
function held(
  parts: readonly PartInput[],
  table: Partial<Table>,
  places?: Parameters<typeof layoutOf>[0][number]['placements'],
): Held[] {
  const shop = { sheet: SHEET, material: { filmFaced: true } };
  const job = shopJob(parts, { ...shop, table: { pump: { kind: 'vane', curve: VANE }, ...table } });
  const placements =
    places ?? job.pieces.map((_, i) => at(i, 50 + (i % 4) * 600, 50 + Math.floor(i / 4) * 600));
  const { loose } = holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!;
  const borderMm = airFor({ pump: { kind: 'vane', curve: VANE } }).borderMm;
  return loose.map((each) => ({ ...each, weightN: weightOf(job, each), borderMm }));
}

/** To the printed 0.1 N. */
function weightOf(job: ReturnType<typeof shopJob>, { kind, piece, outline }: Holding): number {
  const shape = job.parts[job.pieces[piece!]!.part]!.shape;
  const region = kind === 'piece' ? regionOf(shape) : { outer: outline!, holes: [] };
  const areaMm2 = toMm2(regionArea(region));
  const { densityKgPerM3, thickness } = job.materials[0]!;
  return Math.round(areaMm2 * 1e-9 * (thickness / 8000) * densityKgPerM3 * 9.80665 * 10) / 10;
}
