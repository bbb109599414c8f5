import { describe, expect, it } from 'vitest';
import { PLAIN_BOARD, PLAIN_PLACES } from '../helpers/tables.ts';
import { jobOf, MM, read } from './reading.ts';

/** The example of the documentation, with every section and most keys. */
const EXAMPLE = `# yaml-language-server: $schema=./holdfast.schema.json      (printed by \`holdfast schema\`)
job: Window seat
unit: mm                       # or in: 23-1/4, 23 1/4, 23.25, 3/4 all read
currency: EUR
machine:
  kind: router
  cutter: { diameter: 6.35, flutes: 2, spiral: compression, upcut: 6, worn: no }
  speed: 18000 rpm
  feed: 9000                   # file's length unit per minute
  pass-depth: 9
  spacing: 8
table:
  size: 2500 x 1250
  pump: { kind: blower, curve: [[520, 0], [340, 10], [140, 20], [0, 26]] }
  spoilboard: { kind: mdf, thickness: 18 }
  altitude: 300 m
materials:
  birch18:
    name: Birch plywood 18 mm
    family: plywood
    thickness: 18
    sheets:
      - { size: 2440 x 1220, price: 92.00, trim: 10 }
      - { size: 1525 x 1525, price: 61.50, on-hand: 2, grain: first, keep-out: [{ at: [0, 0], size: 120 x 80, why: broken corner }] }
parts:
  - { name: Side, material: birch18, size: 720 x 560, count: 4, grain: along, edges: { left: 1, bottom: 1 }, group: Carcass }
  - name: Arched rail
    material: birch18
    outline: rail.svg
    count: 2
    grain: along
    face: up
    turns: half
    nest-inside: yes
    holes: [{ at: [50, 40], diameter: 8, depth: through }, { row: 5, pitch: 32, from: [37, 60], along: length, diameter: 5, depth: 12 }]
  - { name: Drawer fronts, matched: [[450, 180], [450, 180], [450, 240]], material: birch18, grain: along }
limits: { sheets: 6, yield: 70 %, cost: 600, holding: no piece moves }
`;

const RAIL = `<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="120mm" viewBox="0 0 900 120">
  <path d="M0 0 H900 V120 Q450 60 0 120 Z"/><circle cx="450" cy="40" r="20"/>
</svg>`;

const DRAWINGS = { 'rail.svg': RAIL };

describe('the example of the documentation', () => {
  const job = jobOf(EXAMPLE, DRAWINGS);

  it('names the job, its unit and its drawings', () => {
    expect(job).toMatchObject({
      name: 'Window seat',
      unit: 'mm',
      currency: { code: 'EUR', decimals: 2 },
      drawings: [{ path: 'rail.svg', sha256: 'hash of rail.svg' }],
      limits: {
        sheets: 6,
        yieldShare: 0.7,
        costCents: 60_000,
        holding: 'no piece moves',
        places: { sheets: { line: 37, column: 11 }, holding: { line: 37, column: 46 } },
      },
    });
  });

  it('reads the machine and the table, and names what it had to assume', () => {
    expect(job.machine).toEqual({
      kind: 'router',
      cutter: {
        diameter: 6.35 * MM,
        flutes: 2,
        spiral: 'compression',
        helixDeg: 30,
        upcutLength: 6 * MM,
        worn: false,
      },
      spindleRpm: 18_000,
      feedMmPerMin: 9000,
      passDepth: 9 * MM,
      lastPass: 0,
      finish: 0,
      spacing: 8 * MM,
      boardKerf: 3.2 * MM,
      assumed: ['flutes at 30 degrees'],
    });
    expect(job.table).toEqual({
      size: { length: 2500 * MM, width: 1250 * MM },
      ...PLAIN_PLACES,
      pump: {
        kind: 'blower',
        curve: [
          { flowM3h: 520, vacuumKpa: 0 },
          { flowM3h: 340, vacuumKpa: 10 },
          { flowM3h: 140, vacuumKpa: 20 },
          { flowM3h: 0, vacuumKpa: 26 },
        ],
      },
      spoilboard: PLAIN_BOARD,
      altitudeM: 300,
      friction: { nominal: 0.4, low: 0.3 },
      frictionFilmFaced: { nominal: 0.25, low: 0.2 },
      assumed: [
        'spoilboard permeability 3e-13 m2, at worst 6.3e-13 m2',
        'friction 0.4, at worst 0.3',
        'film-faced friction 0.25, at worst 0.2',
      ],
    });
  });

  it('reads the material with both sheets', () => {
    expect(job.materials).toHaveLength(1);
    expect(job.materials[0]).toMatchObject({
      id: 'birch18',
      name: 'Birch plywood 18 mm',
      family: 'plywood',
      thickness: 18 * MM,
      densityKgPerM3: 680,
      filmFaced: false,
    });
    const trim = { left: 10 * MM, right: 10 * MM, bottom: 10 * MM, top: 10 * MM };
    expect(job.materials[0]?.sheets).toMatchObject([
      { name: '2440 x 1220', trim, grainAxis: 'x', priceCents: 9200, onHand: null, keepOuts: [] },
      {
        name: '1525 x 1525',
        grainAxis: 'x',
        priceCents: 6150,
        onHand: 2,
        keepOuts: [
          { box: { minX: 0, minY: 0, maxX: 120 * MM, maxY: 80 * MM }, why: 'broken corner' },
        ],
      },
    ]);
  });

  it('reads the parts', () => {
    const [side, rail, ...fronts] = job.parts;
    expect(side).toMatchObject({
      index: 0,
      name: 'Side',
      group: 'Carcass',
      count: 4,
      rectangular: true,
      width: 719 * MM,
      height: 559 * MM,
      finishedWidth: 720 * MM,
      finishedHeight: 560 * MM,
      grain: 'along',
      face: 'up',
      turns: [0, 90, 180, 270],
    });
    expect(rail).toMatchObject({
      index: 1,
      count: 2,
      rectangular: false,
      width: 900 * MM,
      height: 120 * MM,
      turns: [0, 180],
      nestInside: true,
      place: { line: 27, column: 5 },
    });
    expect(rail?.shape.inner).toHaveLength(1);
    expect(rail?.holes.map(({ x, y, depth }) => [x / MM, y / MM, depth])).toEqual([
      [50, 40, null],
      ...[37, 69, 101, 133, 165].map((x) => [x, 60, 12 * MM]),
    ]);
    expect(fronts.map(({ name, height }) => [name, height / MM])).toEqual([
      ['Drawer fronts', 180],
      ['Drawer fronts', 180],
      ['Drawer fronts', 240],
    ]);
  });

  it('numbers the pieces within their names and keeps the set together', () => {
    expect(job.pieces.map(({ part, number, setOrder }) => [part, number, setOrder])).toEqual([
      [0, 1, null],
      [0, 2, null],
      [0, 3, null],
      [0, 4, null],
      [1, 1, null],
      [1, 2, null],
      [2, 1, 1],
      [3, 2, 2],
      [4, 3, 3],
    ]);
    expect(job.sets).toEqual([
      { index: 0, name: 'Drawer fronts', number: 1, axis: 'y', pieces: [6, 7, 8] },
    ]);
  });

  it('reads the same with Windows line ends and a byte-order mark', () => {
    const windows = `\ufeff${EXAMPLE.replaceAll('\n', '\r\n')}`;
    expect(read(windows, DRAWINGS)).toEqual(read(EXAMPLE, DRAWINGS));
  });
});
