import { describe, expect, it } from 'vitest';
import { NO_LIMITS } from '../../src/model/job.ts';
import type { PanelSaw, Router, Table } from '../../src/model/machine.ts';
import { codesOf, jobOf, jobText, MM, read } from './reading.ts';

const BOX = jobText('size: 300 x 200');

function machineOf(keys: string): Router {
  return routerOf(`${BOX}machine: { ${keys} }\n`);
}

function routerOf(text: string): Router {
  const { machine } = jobOf(text);
  if (machine.kind !== 'router') throw new Error('no router');
  return machine;
}

function tableOf(keys: string): Table {
  return jobOf(`${BOX}table: { ${keys} }\n`).table;
}

describe('the machine', () => {
  it('is cautious where the file says nothing, and names each value', () => {
    expect(jobOf(BOX).machine).toEqual({
      kind: 'router',
      cutter: {
        diameter: 6.35 * MM,
        flutes: 2,
        spiral: 'straight',
        helixDeg: 0,
        upcutLength: 0,
        worn: false,
      },
      spindleRpm: 18_000,
      feedMmPerMin: 9000,
      passDepth: 18 * MM,
      lastPass: 0,
      finish: 0,
      spacing: 6.35 * MM,
      boardKerf: 3.2 * MM,
      assumed: [
        'cutter 6.35 mm',
        '2 flutes',
        'straight flutes',
        'a sharp cutter',
        'spindle speed 18000 rpm',
        'feed 9000 mm/min',
        'each cut in one pass of full depth',
        'spacing 6.35 mm, the cutter',
      ],
    });
  });

  it('takes the cut in one pass for the thickest material', () => {
    const text = BOX.replace(
      'materials: { ',
      'materials: { thick: { family: mdf, thickness: 25, sheets: [{ size: 2440 x 1220 }] }, ',
    );
    expect(routerOf(text).passDepth).toBe(25 * MM);
  });

  it.each<readonly [string, number]>([
    ['feed: 9000', 9000],
    ['feed: 9 m/min', 9000],
    ['feed: 100 mm/s', 6000],
    ['feed: 360 ipm', 9144],
    ['feed: 30 ft/min', 9144],
  ])('reads %s as %d mm a minute', (keys, feed) => {
    expect(machineOf(keys).feedMmPerMin).toBe(feed);
  });

  it('reads the last pass and the finishing allowance', () => {
    expect(machineOf('last-pass: 1, finish: 0.3')).toMatchObject({
      lastPass: MM,
      finish: 0.3 * MM,
    });
  });

  it.each<readonly [string, number]>([
    ['spiral: straight', 0],
    ['spiral: up-cut', 30],
    ['spiral: down-cut, helix: 25', 25],
  ])('reads %s', (keys, helixDeg) => {
    expect(machineOf(`cutter: { diameter: 6, ${keys} }`).cutter).toMatchObject({
      helixDeg,
      upcutLength: 0,
    });
  });

  it('takes the tip of a compression cutter as long as the cutter is wide', () => {
    const machine = machineOf('cutter: { diameter: 6, spiral: compression }');
    expect(machine.cutter.upcutLength).toBe(6 * MM);
    expect(machine.assumed).toContain('an up-cut tip as long as the cutter is wide, 6 mm');
  });

  it.each<readonly [string, number]>([
    ['cutter: { diameter: 6 }', 6],
    ['cutter: { diameter: 6 }, spacing: 6', 6],
    ['cutter: { diameter: 6 }, spacing: 12', 12],
    ['cutter: { diameter: 6 }, spacing: 0, common-cuts: yes', 0],
    ['cutter: { diameter: 6 }, common-cuts: yes', 0],
    ['cutter: { diameter: 6 }, common-cuts: no', 6],
  ])('%s leaves %d mm between pieces', (keys, spacing) => {
    expect(machineOf(keys).spacing).toBe(spacing * MM);
  });

  it.each<readonly [string, string]>([
    ['cutter: { diameter: 6 }, spacing: 5.999', 'spacing-too-small'],
    ['cutter: { diameter: 6 }, spacing: 0', 'spacing-too-small'],
    ['cutter: { diameter: 6 }, spacing: 3, common-cuts: yes', 'spacing-too-small'],
    ['cutter: { diameter: 0 }', 'out-of-range'],
    ['cutter: { diameter: 6, upcut: 5 }', 'misplaced-key'],
    ['cutter: { diameter: 6, spiral: up-cut, upcut: 5 }', 'misplaced-key'],
    ['cutter: { diameter: 6, helix: 30 }', 'misplaced-key'],
    ['cutter: { diameter: 6, flutes: 0 }', 'out-of-range'],
    ['cutter: { diameter: 6, spiral: upcut }', 'unknown-word'],
    ['cutter: { flutes: 2 }', 'missing-key'],
    ['speed: 50', 'out-of-range'],
    ['speed: "18,000 rpm"', 'decimal-comma'],
    ['feed: 9 furlongs', 'bad-quantity'],
    ['feed: 9e3', 'bad-quantity'],
    ['pass-depth: 0', 'out-of-range'],
    ['last-pass: 0', 'out-of-range'],
    ['finish: -1', 'out-of-range'],
    ['cutter: { diameter: 6 }, finish: 3', 'out-of-range'],
    ['kerf: -1', 'out-of-range'],
    ['stages: 2', 'misplaced-key'],
    ['kind: panel-saw, feed: 9000', 'misplaced-key'],
    ['kind: panel-saw, kerf: -1', 'out-of-range'],
    ['kind: panel-saw, kerf: 21', 'out-of-range'],
    ['kind: panel-saw, stages: 1', 'unknown-word'],
    ['kind: panel-saw, stages: 2.5', 'unknown-word'],
    ['kind: panel-saw, first-cut: up', 'unknown-word'],
    ['kind: panel-saw, longest-rip: 0', 'out-of-range'],
    ['kind: panel-saw, least-feed: 120', 'wrong-type'],
    ['kind: panel-saw, least-feed: 120 x', 'bad-size'],
    ['kind: saw', 'unknown-word'],
    ['kind: lathe', 'unknown-word'],
  ])('refuses %s', (keys, code) => {
    expect(
      codesOf(`${BOX}machine: { ${keys} }
`),
    ).toEqual([code]);
  });
});

describe('stages', () => {
  it('that are none are told with what each word means', () => {
    const { problems } = read(`${BOX}machine: { kind: panel-saw, stages: 1 }\n`);
    expect(problems.map(({ hint }) => hint)).toEqual([
      expect.stringMatching(/^2 is strips, then pieces; 3 .*; 4 .*; free /),
    ]);
  });
});

const LEAST_FEED = 'least feed 150 × 300 mm';

describe('the saw', () => {
  const sawn = (keys: string) => jobOf(`${BOX}machine: { kind: panel-saw${keys} }\n`).machine;
  const usual = {
    kind: 'panel-saw',
    kerf: 3.2 * MM,
    spacing: 3.2 * MM,
    stages: null,
    firstCut: null,
    longestRip: null,
    longestCrosscut: null,
    stackHeight: null,
    leastFeed: { width: 150 * MM, length: 300 * MM },
    assumed: ['kerf 3.2 mm', LEAST_FEED],
  };

  it.each<readonly [string, Partial<PanelSaw>]>([
    ['', {}],
    [', kerf: 0.5', { kerf: 0.5 * MM, spacing: 0.5 * MM, assumed: [LEAST_FEED] }],
    [', kerf: 1/8in', { kerf: 3.175 * MM, spacing: 3.175 * MM, assumed: [LEAST_FEED] }],
    [', stages: 3, first-cut: across', { stages: 3, firstCut: 'across' }],
    [', stages: free, first-cut: better', {}],
    [
      ', longest-rip: 3100, longest-crosscut: 1300',
      { longestRip: 3100 * MM, longestCrosscut: 1300 * MM },
    ],
    [', stack: 60', { stackHeight: 60 * MM }],
    [
      ', least-feed: 120 x 250',
      { leastFeed: { width: 120 * MM, length: 250 * MM }, assumed: ['kerf 3.2 mm'] },
    ],
  ])('is read with "%s"', (keys, changes) => {
    expect(sawn(keys)).toEqual({ ...usual, ...changes });
  });

  it('is told that nothing of a vacuum is looked at', () => {
    const idle = 'table: { altitude: 300 m }\nlimits: { holding: no piece moves, sheets: 2 }\n';
    const { job, problems } = read(`${BOX}machine: { kind: panel-saw }\n${idle}`);
    expect(job).not.toBeNull();
    expect(problems.map(({ severity, code, path }) => `${severity} ${code} ${path}`)).toEqual([
      'warning misplaced-key table',
      'warning misplaced-key limits.holding',
    ]);
    expect(codesOf(`${BOX}${idle}`)).toEqual([]);
  });
});

describe('the table', () => {
  it('is cautious where the file says nothing, and names each value', () => {
    const { table } = jobOf(BOX);
    expect(table.size).toBeNull();
    expect(table.pump.curve.map(({ flowM3h, vacuumKpa }) => [flowM3h, vacuumKpa])).toEqual([
      [520, 0],
      [430, 5],
      [340, 10],
      [245, 15],
      [140, 20],
      [0, 26],
    ]);
    expect(table.spoilboard).toEqual({
      kind: 'mdf',
      thickness: 18 * MM,
      permeabilityM2: { nominal: 3e-13, low: 6.3e-13 },
      alongRatio: 1,
    });
    expect(table.assumed).toEqual([
      'vacuum under the whole sheet',
      'an ordinary blower, 520 m3/h open and 26 kPa closed',
      'an MDF spoilboard of 18 mm',
      'spoilboard permeability 3e-13 m2, at worst 6.3e-13 m2',
      'sea level',
      'friction 0.4, at worst 0.3',
      'film-faced friction 0.25, at worst 0.2',
    ]);
  });

  it('names what it takes in the units of a file in inches', () => {
    const { table } = jobOf(jobText('size: 30 x 20', 'in'));
    expect(table.assumed).toContain('an ordinary blower, 306 cfm open and 7.68 inHg closed');
    expect(table.assumed).toContain('an MDF spoilboard of 0.7087 in');
  });

  it('takes measured values with their cautious ends', () => {
    const table = tableOf(
      'friction: 0.5, friction-film-faced: [0.3, 0.2], spoilboard: { kind: mdf, thickness: 19, permeability: [2e-13, 4e-13] }',
    );
    expect(table.friction).toEqual({ nominal: 0.5, low: 0.375 });
    expect(table.frictionFilmFaced).toEqual({ nominal: 0.3, low: 0.2 });
    expect(table.spoilboard.permeabilityM2).toEqual({ nominal: 2e-13, low: 4e-13 });
    expect(table.assumed).toContain('friction at worst 0.375');
  });

  it('takes units with the values and sorts the curve', () => {
    const table = tableOf('pump: { kind: vane, curve: [[0, 980 mbar], [100 cfm, 0 kPa]] }');
    expect(table.pump).toEqual({
      kind: 'vane',
      curve: [
        { flowM3h: 169.9011, vacuumKpa: 0 },
        { flowM3h: 0, vacuumKpa: 98 },
      ],
    });
  });

  it.each<readonly [string, string]>([
    ['pump: { kind: blower }', 'missing-key'],
    ['pump: { curve: [[520, 0]] }', 'bad-pump-curve'],
    ['pump: { curve: [[0, 0], [0, 20]] }', 'bad-pump-curve'],
    ['pump: { curve: [[520, 10], [520, 10]] }', 'bad-pump-curve'],
    ['pump: { curve: [[520, 0], [0, 120]] }', 'out-of-range'],
    ['pump: { curve: [[520, 0, 1], [0, 26]] }', 'wrong-type'],
    ['spoilboard: { kind: particleboard, thickness: 18 }', 'missing-key'],
    ['spoilboard: { kind: mdf, thickness: 18, permeability: 1 }', 'out-of-range'],
    ['spoilboard: { kind: mdf, thickness: 18, permeability: loose }', 'bad-quantity'],
    ['altitude: 9000 m', 'out-of-range'],
    ['friction: 40 %', 'bad-quantity'],
    ['size: 0 x 1250', 'out-of-range'],
  ])('refuses %s', (keys, code) => {
    expect(codesOf(`${BOX}table: { ${keys} }\n`)).toEqual([code]);
  });
});

describe('limits', () => {
  it.each<readonly [string, object]>([
    ['yield: 70 %', { yieldShare: 0.7 }],
    ['yield: 0.7', { yieldShare: 0.7 }],
    ['sheets: 6', { sheets: 6, yieldShare: null, costCents: null, holding: null }],
    ['holding: no piece marginal', { holding: 'no piece marginal' }],
    ['proof: yes', { proof: true }],
    ['proof: no', { proof: false }],
    ['time: 1.5 h', { timeS: 5400 }],
    ['weight: 25 kg', { weightKg: 25 }],
    ['weight: 50 lb', { weightKg: 22.6796185 }],
    ['drift: plans/wall/plan.json', { drift: 'plans/wall/plan.json' }],
    ['sheets: 6, proof: yes', { places: { sheets: { line: 5, column: 11 } } }],
  ])('reads %s', (keys, limits) => {
    expect(jobOf(`${BOX}limits: { ${keys} }\n`).limits).toMatchObject(limits);
  });

  it.each<readonly [string, string]>([
    ['yield: 70', 'out-of-range'],
    ['sheets: -1', 'out-of-range'],
    ['sheets: 2.5', 'wrong-type'],
    ['holding: every piece', 'unknown-word'],
    ['proof: perhaps', 'wrong-type'],
    ['time: 90', 'bad-quantity'],
    ['weight: 25', 'bad-quantity'],
    ['weight: 0 kg', 'out-of-range'],
  ])('refuses %s', (keys, code) => {
    expect(codesOf(`${BOX}limits: { ${keys} }\n`)).toEqual([code]);
  });

  it('are none where the file sets none', () => {
    expect(jobOf(BOX).limits).toEqual(NO_LIMITS);
  });
});

describe('prices', () => {
  it('are in a usual currency where the file names none, and the plan says so', () => {
    const priced = BOX.replace('2440mm x 1220mm', '2440mm x 1220mm, price: 92');
    expect(jobOf(priced).currency).toEqual({ code: 'EUR', decimals: 2 });
    expect(jobOf(priced).machine.assumed).toContain('prices in EUR');
    expect(jobOf(jobText('size: 30 x 20', 'in')).currency.code).toBe('USD');
    expect(jobOf(BOX).machine.assumed).not.toContain('prices in EUR');
    expect(jobOf(`${priced}currency: GBP\n`).machine.assumed).not.toContain('prices in EUR');
  });
});
