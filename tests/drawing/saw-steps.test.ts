import { describe, expect, it } from 'vitest';
import { type SawGroup, sawGroups, sawTotals } from '../../src/drawing/saw-groups.ts';
import {
  careSentences,
  groupTitle,
  sequenceRows,
  settingNumber,
} from '../../src/drawing/saw-texts.ts';
import type { SawCare } from '../../src/model/layout.ts';
import { cutWidth } from '../../src/model/machine.ts';
import type { Plan } from '../../src/model/plan.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../../src/model/units.ts';
import { CHEST, chestPlan, cratePlan, sawnPlan } from '../helpers/sawn-plan.ts';

const rowsOf = ({ job }: Plan, { steps }: SawGroup) =>
  sequenceRows(job, steps).map((row) => row.join(' | ').trimEnd());

describe('the steps at a saw', () => {
  it('name strips, pieces, offcuts, waste and what needs care, of alike sheets at once', () => {
    const plan = chestPlan();
    expect(rowsOf(plan, sawGroups(plan)[0]!)).toEqual([
      '1 | sheet | along, trim | 1210 | upper | rest of the sheet, 2440 × 1210 | waste 2440 × 6.8 |',
      '2 | sheet | across, trim | 2430 | right | rest of the sheet, 2430 × 1210 | waste 6.8 × 1210 |',
      '3 | sheet | along | 300 | lower | strip A, 2430 × 300 | rest of the sheet, 2430 × 906.8 |',
      '4 | sheet | along | 280 | lower | strip B, 2430 × 280 | leftover 2430 × 623.6, with a keep-out on it |',
      '5 | strip A | across | 1800 | left | Side 1–3 done, 1800 × 300 | rest of strip A, 626.8 × 300 |',
      '6 | strip A | across | 400 | left | strip A1, 400 × 300 | offcut 223.6 × 300 with the raw edge, 213.6 × 300 clean |',
      '7 | strip A1 | along | 196.8 | upper | offcut 400 × 196.8 | Arched rail 1–3 done, 400 × 100; cut outline afterwards | small',
      '8 | strip B | across | 764 | left | Shelf 1, 3, 5 done, 764 × 280 | rest of strip B, 1662.8 × 280 |',
      '9 | strip B | across | 764 | left | Shelf 2, 4, 6 done, 764 × 280 | rest of strip B, 895.6 × 280 |',
      '10 | strip B | across, trim | 764 | left | strip B1, 764 × 280 | waste 128.4 × 280 |',
      '11 | strip B1 | along | 196.8 | upper | offcut 764 × 196.8 | Kick 1–3 done, 764 × 80 | small',
    ]);
  });

  it('measure from the side of the fence, in inches to the nearest 64th', () => {
    const plan = cratePlan();
    expect(rowsOf(plan, sawGroups(plan)[0]!)).toEqual([
      '1 | sheet | across | 30 | left | Base 1 done, 30 × 48 | rest of the sheet, 65-7/8 × 48 |',
      '2 | sheet | across | 3-1/2 | left | Slat 1 done, 3-1/2 × 48 | rest of the sheet, 62-1/4 × 48 | small, trapped',
      '3 | sheet | across | 3-1/2 | left | Slat 2 done, 3-1/2 × 48 | rest of the sheet, 58-5/8 × 48 | small, trapped',
      '4 | sheet | across | 3-1/2 | left | Slat 3 done, 3-1/2 × 48 | rest of the sheet, 55 × 48 | small, trapped',
      '5 | sheet | across | 15-3/8 | left | strip A, 15-3/8 × 48 | offcut 39-1/2 × 48 |',
      '6 | strip A | along | 11-19/64 | lower | End 1 done, 15-3/8 × 11-19/64 | rest of strip A, 15-3/8 × 36-37/64 |',
      '7 | strip A | along | 11-19/64 | lower | End 2 done, 15-3/8 × 11-19/64 | offcut 15-3/8 × 25-9/64 |',
    ]);
  });

  it('put the blade exactly where the layout has it, from either edge', () => {
    for (const plan of [chestPlan(), cratePlan()]) {
      const kerf = cutWidth(plan.job.machine);
      for (const { cut, setting } of sawGroups(plan).flatMap(({ steps }) => steps)) {
        const { panel, axis, fence, at } = cut;
        const [low, high] = axis === 'x' ? [panel.minY, panel.maxY] : [panel.minX, panel.maxX];
        expect(fence === 'low' ? low + setting : high - setting - kerf).toBe(at);
      }
    }
  });

  it('number the strips of a strip through, however deep they lie', () => {
    const text = CHEST.replace('stages: 3', 'stages: 4');
    const plan = sawnPlan(text, [
      [
        ['Side', 10, 10],
        ['Kick', 1813.2, 10, 90],
        ['Kick', 1896.4, 10, 90],
        ['Shelf', 10, 313.2],
        ['Shelf', 10, 596.4],
        ['Kick', 777.2, 777.2],
      ],
    ]);
    const names = sawGroups(plan).flatMap(({ steps }) => steps.map(({ inHand }) => inHand));
    expect([...new Set(names)]).toEqual([null, 'A', 'A1', 'A4', 'A5', 'A6', 'A2', 'A3']);
  });
});

describe('the marks of cuts', () => {
  const marksOf = (care: readonly (readonly SawCare[])[]) => {
    const plan = chestPlan();
    const steps = sawGroups(plan)[0]!.steps.slice(4, 6);
    const marked = steps.map((step, i) => ({ ...step, inHand: 'A', care: care[i]! }));
    return sequenceRows(plan.job, marked).map((row) => row.at(-1));
  };

  it.each<readonly [readonly SawCare[], readonly SawCare[], readonly string[]]>([
    [['small'], ['small'], ['small: both cuts of strip A', '']],
    [['small'], ['small', 'trapped'], ['small: both cuts of strip A', 'trapped']],
    [
      ['small', 'short'],
      ['small', 'trapped'],
      ['small: both cuts of strip A; short', 'trapped'],
    ],
    [['short'], [], ['short', '']],
    [[], [], ['', '']],
  ])('%j and %j are said once where all cuts of a strip have them', (first, second, texts) => {
    expect(marksOf([first, second])).toEqual(texts);
  });

  it('are explained with what to do, those that there are', () => {
    const [step] = sawGroups(chestPlan())[0]!.steps;
    const sentences = (care: readonly SawCare[]) => careSentences([{ ...step!, care }]);
    expect(sentences([])).toEqual([]);
    expect(sentences(['short', 'trapped']).join(' ')).toMatch(/push block .* mitre gauge/);
  });
});

describe('a setting', () => {
  it.each([
    [283.2 * UNITS_PER_MM, 'mm', '283.2'],
    [283.25 * UNITS_PER_MM, 'mm', '283.3'],
    [283 * UNITS_PER_MM, 'mm', '283'],
    [0.04 * UNITS_PER_MM, 'mm', '0'],
    [11.3 * UNITS_PER_INCH, 'in', '11-19/64'],
    [30 * UNITS_PER_INCH, 'in', '30'],
    [UNITS_PER_INCH / 128 + 1, 'in', '1/64'],
  ] as const)('of %d in %s is %s', (length, unit, text) => {
    expect(settingNumber(length, unit)).toBe(text);
  });

  it('is rounded from its own length, never added up', () => {
    const text = `job: Laths
unit: mm
machine: { kind: panel-saw, kerf: 3.17 }
materials: { ply: { family: plywood, thickness: 9, sheets: [{ size: 600 x 300, trim: { bottom: 5 } }] } }
parts: [{ name: Lath, material: ply, size: 600 x 31.66, count: 3, grain: along }]
`;
    const plan = sawnPlan(text, [
      [
        ['Lath', 0, 5],
        ['Lath', 0, 39.83],
        ['Lath', 0, 74.66],
      ],
    ]);
    const { steps } = sawGroups(plan)[0]!;
    // All of them lie on the free side, so the fence counts from the far edge: 295 less one, two, three laths and kerfs.
    const settings = sequenceRows(plan.job, steps).map((row) => row[3]);
    expect(settings).toEqual(['295', '260.2', '225.3', '190.5']);
  });
});

describe('sheets that are alike', () => {
  const stacked = (stack: string) =>
    sawnPlan(
      CHEST.replace(', stack: 40', stack),
      [1, 2, 3, 4].map(() => [['Side', 10, 10]]),
    );

  it.each([
    ['', 'Sheets 1 to 4: cut alike, one at a time', 4],
    [', stack: 17', 'Sheets 1 to 4: cut alike, one at a time', 4],
    [', stack: 36', 'Sheets 1 to 4: 2 books of 2', 2],
    [', stack: 54', 'Sheets 1 to 4: 1 book of 3 and 1 sheet by itself', 2],
    [', stack: 300', 'Sheets 1 to 4: 1 book of 4', 1],
  ])('with%s are "%s"', (stack, title, books) => {
    const groups = sawGroups(stacked(stack));
    expect(groups.map(groupTitle)).toEqual([title]);
    expect(sawTotals(groups)).toEqual({
      cuts: 4 * books,
      runMm: (2440 + 1210 + 2430 + 300) * books,
      // No piece is parted from another; what is cut at all has one stage.
      stages: 1,
      marked: 0,
    });
  });

  it('are not alike where a part or a turn differs', () => {
    const plan = sawnPlan(CHEST, [
      [['Kick', 10, 10]],
      [['Kick', 10, 10, 180]],
      [['Arched rail', 10, 10]],
      [['Kick', 10, 10]],
    ]);
    expect(sawGroups(plan).map(groupTitle)).toEqual([
      'Sheets 1 and 4: 1 book of 2',
      'Sheet 2',
      'Sheet 3',
    ]);
  });
});
