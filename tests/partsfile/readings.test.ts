import { describe, expect, it } from 'vitest';
import { gaugeTable } from '../../src/gauge.ts';
import { type AirReading, isAir, type PullReading } from '../../src/model/readings.ts';
import { fromMm } from '../../src/model/units.ts';
import { readReadingsFile } from '../../src/partsfile/readings.ts';

const TABLE = `table:
  size: 2500 x 1250
  pump: { kind: blower, curve: [[520, 0], [340, 10], [140, 20], [0, 26]] }
  spoilboard: { kind: mdf, thickness: 18 }
  altitude: 300 m
`;

function file(readings: readonly string[], table = TABLE): string {
  return `unit: mm\n${table}readings:\n${readings.map((each) => `  - ${each}\n`).join('')}`;
}

const BARE = '{ kind: bare, vacuum: 15 }';
const COVERED = '{ kind: covered, sheet: 2440 x 1220, vacuum: 25 }';
const TILT = '{ kind: tilt, angle: 23 }';

function airOf(text: string): readonly AirReading[] {
  const { readings, problems } = readReadingsFile(text);
  expect(problems).toEqual([]);
  return readings!.readings.filter(isAir);
}

describe('a readings file', () => {
  it('gives every kind of reading in the units inside', () => {
    const text = file([
      '{ kind: bare, throttle: 20, vacuum: 68 mbar }',
      '{ kind: kerf, sheet: 2440 x 1220, length: 10 m, width: 1/4in, vacuum: 24.1 kPa }',
      '{ kind: hole, diameter: 32, vacuum: 4 inHg }',
      '{ kind: tilt, angle: 23°, surface: film-faced }',
      '{ kind: pull, square: 20 cm, vacuum: 20, force: 10 kg, weight: 500 g, covered-beside: yes }',
    ]);
    const { readings, problems } = readReadingsFile(text);
    expect(problems).toEqual([]);
    expect(readings!.readings).toEqual([
      {
        kind: 'bare',
        vacuumKpa: 6.8,
        sheet: null,
        kerfLength: 0,
        kerfWidth: 0,
        throttle: fromMm(20),
      },
      {
        kind: 'kerf',
        vacuumKpa: 24.1,
        sheet: { length: fromMm(2440), width: fromMm(1220) },
        kerfLength: fromMm(10_000),
        kerfWidth: fromMm(6.35),
        throttle: 0,
      },
      { kind: 'hole', vacuumKpa: 13.545556, diameter: fromMm(32) },
      { kind: 'tilt', angleDeg: 23, surface: 'film-faced' },
      {
        kind: 'pull',
        square: fromMm(200),
        vacuumKpa: 20,
        forceN: 98.0665,
        weightKg: 0.5,
        openBeside: false,
        surface: 'raw',
      },
    ]);
  });

  it('takes inches, inHg, lbf and lb in an inch file', () => {
    const text =
      'unit: in\nreadings:\n  - { kind: hole, diameter: 1-1/4, vacuum: 4 }\n' +
      '  - { kind: pull, square: 8, vacuum: 6, force: 15, weight: 1, covered-beside: yes }\n';
    const { readings, problems } = readReadingsFile(text);
    expect(problems).toEqual([]);
    const [hole, pull] = readings!.readings as unknown as [AirReading, PullReading];
    expect(hole).toEqual({ kind: 'hole', vacuumKpa: 13.545556, diameter: fromMm(31.75) });
    expect(pull.forceN).toBeCloseTo(66.72333, 4);
    expect(pull.weightKg).toBeCloseTo(0.45359237, 6);
  });

  it('reads the same with Windows line ends and a byte-order mark', () => {
    const text = file([BARE, COVERED]);
    expect(airOf(`\ufeff${text.replaceAll('\n', '\r\n')}`)).toEqual(airOf(text));
  });

  it('names as assumed only what was left out and matters', () => {
    const assumed = (text: string) => readReadingsFile(text).readings!.table.assumed;
    const board = 'table: { size: 2500 x 1250, spoilboard: { kind: chipboard, thickness: 18 } }\n';
    expect(assumed(file([BARE], board))).toEqual([
      'an ordinary blower, 520 m3/h open and 26 kPa closed',
      'sea level',
    ]);
    expect(assumed(file([BARE, TILT]))).toEqual([]);
  });
});

/** What is wrong, where it stands, and a word of the message and of the hint. */
const FAULTS: readonly (readonly [string, string, string, RegExp, RegExp | null])[] = [
  ['an empty file', '', '1:1 empty-file', /empty/, /gauge --help/],
  ['only a remark', '# later\n', '1:1 empty-file', /says nothing/, /gauge --help/],
  ['no unit', 'readings: [{ kind: tilt, angle: 23 }]\n', '1:1 missing-key', /unit/, /unit: mm/],
  ['no readings', `unit: mm\n${TABLE}`, '1:1 missing-key', /readings/, /kind: bare/],
  [
    'zero readings',
    `unit: mm\n${TABLE}readings: []\n`,
    '7:11 wrong-type',
    /empty list/,
    /kind: bare/,
  ],
  [
    'a parts file',
    'unit: mm\nparts: []\nreadings: [{ kind: tilt, angle: 23 }]\n',
    '2:1 unknown-key',
    /parts/,
    /possible: unit/,
  ],
  [
    'a duplicate key',
    file(['{ kind: tilt, angle: 23, angle: 24 }']),
    '8:30 duplicate-key',
    /angle/,
    null,
  ],
  ['an unknown kind', file(['{ kind: tlit, angle: 23 }']), '8:13 unknown-word', /tlit/, /tilt/],
  ['no kind', file(['{ angle: 23 }']), '8:5 missing-key', /kind/, /bare or covered/],
  ['a mistyped key', file(['{ kind: bare, vacum: 15 }']), '8:19 unknown-key', /vacum/, /vacuum/],
  [
    'a missing key',
    file(['{ kind: kerf, sheet: 2440 x 1220, length: 9 m, vacuum: 24 }']),
    '8:5 missing-key',
    /width/,
    /width: 6.35/,
  ],
  [
    'a key of another kind',
    file(['{ kind: bare, angle: 3, vacuum: 15 }']),
    '8:19 misplaced-key',
    /no angle/,
    /kind: bare/,
  ],
  [
    'a decimal comma',
    file(['{ kind: bare, vacuum: "12,5" }']),
    '8:27 decimal-comma',
    /12,5/,
    /12\.5/,
  ],
  ['an unknown unit', file(['{ kind: bare, vacuum: 15 psi }']), '8:27 bad-quantity', /psi/, /kPa/],
  ['a gauge at rest', file(['{ kind: bare, vacuum: 0 }']), '8:27 out-of-range', /0\.05/, null],
  [
    'too steep an angle',
    file(['{ kind: tilt, angle: 61 }']),
    '8:26 out-of-range',
    /60 degrees/,
    null,
  ],
  [
    'an angle under 0',
    file(['{ kind: tilt, angle: -1 }']),
    '8:26 out-of-range',
    /60 degrees/,
    null,
  ],
  [
    'an angle of nothing',
    file(['{ kind: tilt, angle: 1 }']),
    '8:26 impossible-reading',
    /under 0\.02/,
    /again/,
  ],
  [
    'a sheet the other way round',
    file(['{ kind: covered, sheet: 1220 x 2440, vacuum: 25 }']),
    '8:29 impossible-reading',
    /reaches over/,
    /2440 x 1220/,
  ],
  [
    'a kerf in too large a sheet',
    file(['{ kind: kerf, sheet: 2550 x 1220, length: 9 m, width: 6, vacuum: 24 }']),
    '8:26 impossible-reading',
    /larger than the table/,
    /no larger/,
  ],
  [
    'a kerf longer than fits',
    file(['{ kind: kerf, sheet: 2440 x 1220, length: 600 m, width: 6, vacuum: 24 }']),
    '8:47 impossible-reading',
    /does not fit/,
    /unit/,
  ],
  [
    'a kerf in the wrong unit',
    file(['{ kind: kerf, sheet: 2440 x 1220, length: 10, width: 6, vacuum: 24 }']),
    '8:47 out-of-range',
    /100 mm/,
    null,
  ],
  ['no table', `unit: mm\nreadings: [${BARE}]\n`, '1:1 missing-key', /table/, /spoilboard/],
  [
    'no size of the table',
    file([BARE], 'table: { spoilboard: { thickness: 18 } }\n'),
    '2:8 missing-key',
    /size/,
    /2500 x 1250/,
  ],
  [
    'no spoilboard',
    file([BARE], 'table: { size: 2500 x 1250 }\n'),
    '2:8 missing-key',
    /spoilboard/,
    /thickness/,
  ],
  [
    'no spoilboard under an open pull',
    file(['{ kind: pull, square: 200, vacuum: 20, force: 200 }'], ''),
    '1:1 missing-key',
    /table/,
    /spoilboard/,
  ],
  [
    'gaskets',
    file(
      [BARE],
      'table: { size: 2500 x 1250, gasket: { inset: 12 }, spoilboard: { thickness: 18 } }\n',
    ),
    '2:29 misplaced-key',
    /gasket/,
    /hole and tilt/,
  ],
  [
    'a masked place',
    file(
      [BARE],
      TABLE.replace('  altitude', '  masked: [{ at: [0, 0], size: 100 x 100 }]\n  altitude'),
    ),
    '6:3 misplaced-key',
    /all of it open/,
    /parts file only/,
  ],
  [
    'a vacuum deeper than the air',
    file(['{ kind: bare, vacuum: 99 }']),
    '8:27 impossible-reading',
    /whole air at 300 m, 97\.8 kPa/,
    /altitude/,
  ],
  [
    'a vacuum deeper than the pump pulls',
    file(['{ kind: bare, vacuum: 27 }']),
    '8:27 impossible-reading',
    /pump can pull, 25\.1 kPa/,
    /3 air readings/,
  ],
  [
    'the same where the pump is fitted',
    file([BARE, COVERED, '{ kind: hole, diameter: 20, vacuum: 41 }']),
    '10:41 impossible-reading',
    /pump can pull/,
    /plate/,
  ],
  [
    'a pull under a vacuum that the pump cannot pull',
    file(['{ kind: pull, square: 200, vacuum: 40, force: 200 }']),
    '8:40 impossible-reading',
    /pump can pull/,
    /plate/,
  ],
  [
    'a bare table that holds better than a covered one',
    file(['{ kind: bare, vacuum: 24 }', '{ kind: covered, sheet: 2440 x 1220, vacuum: 20 }']),
    '8:27 impossible-reading',
    /bare table.*24\.0 kPa against 20\.0/,
    /swapped/,
  ],
  [
    'a vacuum that grows with more kerf',
    file([
      '{ kind: kerf, sheet: 2440 x 1220, length: 10 m, width: 6, vacuum: 22 }',
      '{ kind: kerf, sheet: 2440 x 1220, length: 20 m, width: 6, vacuum: 23 }',
    ]),
    '9:71 impossible-reading',
    /more open kerf/,
    /again/,
  ],
  [
    'a vacuum that grows with a smaller sheet',
    file([
      '{ kind: covered, sheet: 1220 x 1220, vacuum: 24 }',
      '{ kind: covered, sheet: 2440 x 1220, vacuum: 21 }',
    ]),
    '8:50 impossible-reading',
    /less cover/,
    /again/,
  ],
  [
    'a vacuum that grows with a larger hole',
    file(['{ kind: hole, diameter: 20, vacuum: 12 }', '{ kind: hole, diameter: 25, vacuum: 14 }']),
    '9:41 impossible-reading',
    /larger hole/,
    /again/,
  ],
  [
    'a pull of too much',
    file(['{ kind: pull, square: 200, vacuum: 20, force: 2000 N }']),
    '8:51 impossible-reading',
    /over 2/,
    /units/,
  ],
  [
    'a pull of too little',
    file(['{ kind: pull, square: 200, vacuum: 20, force: 10 N }']),
    '8:51 impossible-reading',
    /under 0\.02/,
    /units/,
  ],
  [
    'a square that is all border',
    file(['{ kind: pull, square: 15, vacuum: 20, force: 10 N }']),
    '8:27 impossible-reading',
    /no vacuum left/,
    /covered-beside/,
  ],
];

describe('a bad readings file is refused with the reason:', () => {
  it.each(FAULTS)('%s', (_, text, where, message, hint) => {
    const { readings, calibration, problems } = gaugeTable(text);
    expect(readings).toBeNull();
    expect(calibration).toBeNull();
    expect(problems.map(({ place, code }) => `${place?.line}:${place?.column} ${code}`)).toEqual([
      where,
    ]);
    expect(problems[0]!.message).toMatch(message);
    if (hint !== null) expect(problems[0]!.hint).toMatch(hint);
  });

  it('all of it in one run', () => {
    const text = file(['{ kind: bare, vacuum: 15 psi }', '{ kind: tilt, angle: 90 }']);
    expect(gaugeTable(text).problems).toHaveLength(2);
  });

  it('never throws, whatever the text', () => {
    for (const text of [
      '- a\n- b\n',
      'unit: mm\ntable: 5\nreadings: 7\n',
      '{',
      `a: ${'['.repeat(99)}`,
    ]) {
      const { readings, problems } = gaugeTable(text);
      expect(readings).toBeNull();
      expect(problems.length).toBeGreaterThan(0);
    }
  });

  it('but readings within what a dial shows, and a pull without a known pump, are not', () => {
    const near = [
      '{ kind: bare, vacuum: 25.1 }',
      '{ kind: covered, sheet: 2440 x 1220, vacuum: 25 }',
    ];
    expect(gaugeTable(file(near)).problems).toEqual([]);
    const pull = ['{ kind: pull, square: 200, vacuum: 80, force: 900, covered-beside: yes }'];
    expect(gaugeTable(file(pull, '')).problems).toEqual([]);
  });
});
