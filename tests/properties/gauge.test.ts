import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaugeLines, gaugeTable, readPartsFile } from '../../src/index.ts';

const kpa = fc.integer({ min: 10, max: 260 }).map((tenths) => tenths / 10);
const mm = fc.integer({ min: 5, max: 90 });
const throttle = fc.option(mm, { nil: null }).map((hole) => (hole ? `, throttle: ${hole}` : ''));
const sheet = fc.constantFrom('2440 x 1220', '1220 x 1220', '2600 x 1300');

/** A line of each kind, whether or not the readings go together. */
const reading = fc.oneof(
  fc.tuple(kpa, throttle).map(([v, t]) => `{ kind: bare, vacuum: ${v}${t} }`),
  fc
    .tuple(sheet, kpa, throttle)
    .map(([size, v, t]) => `{ kind: covered, sheet: ${size}, vacuum: ${v}${t} }`),
  fc
    .tuple(fc.integer({ min: 1, max: 300 }), kpa)
    .map(([m, v]) => `{ kind: kerf, sheet: 2440 x 1220, length: ${m} m, width: 6, vacuum: ${v} }`),
  fc.tuple(mm, kpa).map(([hole, v]) => `{ kind: hole, diameter: ${hole}, vacuum: ${v} }`),
  fc.integer({ min: 2, max: 60 }).map((angle) => `{ kind: tilt, angle: ${angle} }`),
  fc
    .tuple(mm, kpa, fc.integer({ min: 1, max: 900 }))
    .map(([s, v, n]) => `{ kind: pull, square: ${3 * s}, vacuum: ${v}, force: ${n} N }`),
);

const PARTS = `materials: { ply: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }
parts: [{ name: Box, material: ply, size: 300 x 200 }]
`;

describe('whatever was read', () => {
  it('the table is printed in 80 columns and read back, or the file is refused with a place', () => {
    let printed = 0;
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1, maxLength: 5 }), (lines) => {
        const table =
          'table: { size: 2500 x 1250, spoilboard: { thickness: 18 }, altitude: 300 m }';
        const text = `unit: mm\n${table}\nreadings:\n${lines.map((line) => `  - ${line}\n`).join('')}`;
        const { readings, calibration, problems } = gaugeTable(text);
        if (readings === null) {
          expect(problems.length).toBeGreaterThan(0);
          expect(problems.every(({ place }) => place !== null)).toBe(true);
          return;
        }
        printed++;
        const shown = gaugeLines(readings, calibration).map((line) => line.text);
        expect(shown.join('\n')).not.toMatch(/NaN|Infinity|undefined/);
        expect(shown.every((line) => [...line].length <= 80)).toBe(true);
        const block = shown.slice(shown.indexOf('table:'), shown.indexOf('', 3)).join('\n');
        const back = readPartsFile(`unit: mm\n${block}\n${PARTS}`, () => {
          throw new Error('there is no drawing');
        });
        expect(back.problems).toEqual([]);
      }),
      { seed: 20260331, numRuns: 150 },
    );
    expect(printed).toBeGreaterThan(40);
  });
});
