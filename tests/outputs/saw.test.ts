import { describe, expect, it } from 'vitest';
import { drawSheet } from '../../src/drawing/sheet-drawing.ts';
import { boxesOverlap, boxOf } from '../../src/geometry/box.ts';
import {
  brokenLimits,
  checkLines,
  type Plan,
  planPdf,
  planRecord,
  planReport,
  planSummary,
  sheetSvg,
} from '../../src/index.ts';
import { proofSentence } from '../../src/outputs/wording.ts';
import { expectGolden } from '../helpers/golden.ts';
import { readPdf } from '../helpers/pdf-text.ts';
import { CHEST, chestPlan, cratePlan, sawnPlan } from '../helpers/sawn-plan.ts';

const textOf = (lines: readonly { readonly text: string }[]) =>
  lines.map(({ text }) => text).join('\n');

const ROUTER_WORDS = /vacuum|hold-down|holding|spoilboard|null|undefined|NaN/i;

describe('a job for a saw', () => {
  const plan = chestPlan();

  it('has a summary, a report and a drawing that talk of the saw', () => {
    expectGolden('saw-summary.txt', `${textOf(planSummary(plan))}\n`);
    expectGolden('saw-report.md', planReport(plan, null));
    expectGolden('saw-sheet.svg', sheetSvg(plan, 1));
  });

  it('says nothing of a router, in 80 columns', () => {
    for (const each of [plan, cratePlan()]) {
      const lines = planSummary(each).map(({ text }) => text);
      expect(lines.filter((text) => text.length > 80)).toEqual([]);
      expect(lines.join('\n')).not.toMatch(ROUTER_WORDS);
      expect(planReport(each, null)).not.toMatch(ROUTER_WORDS);
    }
  });

  it('has the cuts in the record, in millimetres', () => {
    const record = JSON.parse(planRecord(plan, ''));
    const [sheet] = record.materials[0].sheets;
    expect(sheet.cuts).toHaveLength(11);
    expect(sheet.cuts[0]).toEqual({
      number: 1,
      axis: 'along',
      panel: { minX: 0, minY: 0, maxX: 2440, maxY: 1220 },
      at: 6.8,
      fence: 'high',
      setting: 1210,
      stage: 1,
      care: [],
    });
    expect(sheet.cuts[10]).toEqual({
      number: 11,
      axis: 'along',
      panel: { minX: 1544.4, minY: 313.2, maxX: 2308.4, maxY: 593.2 },
      at: 393.2,
      fence: 'high',
      setting: 196.8,
      stage: 3,
      care: ['small'],
    });
    expect(record.holding).toEqual([]);
    expect(record.costs.cutTimeS).toBeNull();
  });

  it('has the sequence behind the drawing of the first of alike sheets', async () => {
    const pages = readPdf(await planPdf(plan, { paper: 'a4', scale: null, date: null })).map(
      ({ text }) => text,
    );
    expect(pages.map((text) => text.includes('Sequence at the saw'))).toEqual([
      false,
      false,
      true,
      false,
      false,
      false,
      true,
    ]);
    expect(pages.join('\n')).not.toMatch(ROUTER_WORDS);
    expect(pages[2]).toContain('1 book of 2 and 1 sheet by itself');
    expect(pages[2]).toContain('strip A1');
    expect(pages[3]).toContain('the sequence is with sheet 1');
  });

  it('puts a long sequence on several pages', async () => {
    const laths = `job: Laths
unit: mm
machine: { kind: panel-saw, kerf: 3 }
materials: { ply: { family: plywood, thickness: 9, sheets: [{ size: 1500 x 1200 }] } }
parts: [{ name: Lath, material: ply, size: 1500 x 20, count: 40, grain: along }]
`;
    const lain = Array.from({ length: 40 }, (_, i) => ['Lath', 0, i * 23] as const);
    const pages = readPdf(
      await planPdf(sawnPlan(laths, [lain]), { paper: 'a4', scale: null, date: null }),
    );
    const parts = pages.filter(({ text }) => text.includes('Sequence at the saw'));
    expect(parts).toHaveLength(2);
    expect(parts[1]?.text).toContain('Lath 40 done');
  });
});

describe('a part that is no rectangle', () => {
  const text = CHEST.replace(
    '[[0, 0], [400, 0], [400, 60], [200, 100], [0, 60]]',
    '[[0, 0], [900, 0], [900, 600], [0, 500]]',
  );

  it('has on its label, and under the drawing, that the saw is not the end of it', () => {
    const drawing = sheetSvg(sawnPlan(text, [[['Arched rail', 10, 10]]]), 1);
    expect(drawing).toContain('>900 × 600, cut outline afterwards<');
    expect(drawing).toContain('>Arched rail 1: cut outline afterwards<');
  });
});

describe('a part with edge bands', () => {
  const text = CHEST.replace(
    'count: 4, grain: along }',
    'count: 4, grain: along, note: bore later, edges: { left: 1, top: 2 } }',
  );
  const plan = sawnPlan(text, [[['Side', 10, 10]]]);

  it('has its size as cut on the sheet and in the sequence, and both say so', () => {
    const drawing = sheetSvg(plan, 1);
    expect(drawing).toContain('sizes as cut, before edge bands<');
    expect(drawing).toContain('>Sizes as cut, before edge bands; finished: Side 1800 × 300<');
    expect(drawing).toContain('>1799<');
    expect(drawing).toContain('>298<');
    expect(drawing).not.toContain('>1800<');
    const report = planReport(plan, null);
    expect(report).toContain('sizes are along × across, as cut, before edge bands.');
    expect(report).toContain('Side 1 done, 1799 × 298');
  });

  it('has its note on the sheet and in the list of parts', () => {
    expect(sheetSvg(plan, 1)).toContain('>Side: bore later<');
    expect(planReport(plan, null)).toMatch(/\| Side .* \| bore later \|/);
  });
});

describe('an offcut at the rim', () => {
  it('has its clean size and that with the raw edge wherever it is told of', async () => {
    const [page] = readPdf(await planPdf(chestPlan(), { paper: 'a4', scale: null, date: null }));
    expect(page?.text.replaceAll('\n', ' ')).toContain('213.6 × 300 mm (raw 223.6 × 300)');
    expect(page?.text).toContain('larger by the raw edge');
    expect(planReport(chestPlan(), null)).toContain('| 1 | 213.6 × 300 mm | 223.6 × 300 mm |');
    expect(sheetSvg(chestPlan(), 1)).toContain('213.6 × 300 falls off as 223.6 × 300<');
  });

  it('is never told larger than it is', () => {
    const inches = cratePlan();
    expect(planReport(inches, null)).toContain('15-3/8" × 25-9/64"');
    const [box] = inches.costs.sheets[0]!.offcuts.slice(-1).map((offcut) => offcut.box);
    expect((box!.maxY - box!.minY) / 203_200).toBeCloseTo(25.15, 6);
  });
});

describe('the names of strips', () => {
  const textsOf = (plan: Plan) =>
    drawSheet(plan, 0)
      .layers.find(({ name }) => name === 'cuts')!
      .groups.flatMap(({ items }) => items)
      .flatMap((item) => (item.kind === 'text' && /^[A-Z]/.test(item.text) ? [item] : []));

  it('stand beside the sheet, each in the middle of its strip, those of the sheet itself only', () => {
    const names = textsOf(chestPlan());
    expect(names.map(({ text }) => text)).toEqual(['A', 'B']);
    for (const { at } of names) expect(at.x).toBeLessThan(0);
    // Strip A from 10 to 310 mm, B from 313.2 to 593.2 mm.
    expect(names.map(({ at, size }) => at.y + 0.36 * size)).toEqual([
      expect.closeTo(160, 6),
      expect.closeTo(453.2, 6),
    ]);
  });

  it('stand below where the first cuts run across', () => {
    const [name, ...others] = textsOf(cratePlan());
    expect(others).toEqual([]);
    expect(name?.at.y).toBeLessThan(0);
    expect(name?.at.x).toBeCloseTo((96 - 39.5 - 0.125 - 15.375 / 2) * 25.4, 6);
  });
});

describe('a matched set', () => {
  it('is to be numbered in order as it comes off the saw', () => {
    const text = `job: Fronts
unit: mm
machine: { kind: panel-saw, kerf: 3 }
materials: { ash: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }
parts: [{ name: Drawer front, material: ash, grain: along, matched: [[450, 180], [450, 180]] }]
`;
    const fronts = [
      ['Drawer front', 0, 0],
      ['Drawer front', 0, 183],
    ] as const;
    expect(sheetSvg(sawnPlan(text, [fronts]), 1)).toContain(
      '>Drawer front: number the pieces in order as they come off the saw<',
    );
  });
});

describe('a sheet of narrow strips', () => {
  const text = `job: Slips
unit: mm
machine: { kind: panel-saw, kerf: 3.2 }
materials: { ply: { family: plywood, thickness: 12, sheets: [{ size: 2440 x 1220 }] } }
parts: [{ name: Slip for a drawer, material: ply, size: 1200 x 22, count: 20, grain: along, edges: { top: 1 } }]
`;
  const slips = Array.from({ length: 20 }, (_, i) => ['Slip for a drawer', 0, i * 24.2] as const);
  const { layers, paperScale } = drawSheet(sawnPlan(text, [slips]), 0);
  const itemsOf = (layer: string) =>
    layers
      .filter(({ name }) => name === layer)
      .flatMap(({ groups }) => groups.flatMap(({ items }) => items));

  it('has numbers of pieces that are read, and bands that are not taken for strips', () => {
    const sizes = itemsOf('numbers').flatMap((item) => (item.kind === 'text' ? [item.size] : []));
    expect(sizes).toHaveLength(20);
    for (const size of sizes) expect(size / paperScale).toBeGreaterThan(1.6);
    const styles = itemsOf('pieces').map(({ style }) => style);
    expect(styles.filter((style) => style === 'band-thin')).toHaveLength(20);
    expect(styles).not.toContain('band');
  });

  it('has numbers of cuts that lie apart', () => {
    const boxes = itemsOf('cuts').flatMap((item) => {
      if (item.kind !== 'path' || !item.style.startsWith('cut-number')) return [];
      const corners = item.runs.flatMap(({ start, sides }) => [start, ...sides]);
      return [boxOf(corners.map(({ x, y }) => ({ x, y })))];
    });
    expect(boxes.length).toBeGreaterThan(30);
    for (const [i, box] of boxes.entries())
      for (const other of boxes.slice(i + 1)) expect(boxesOverlap(box, other)).toBe(false);
  });
});

describe('limits that a plan breaks', () => {
  const text = CHEST.replace('parts:', 'limits: { cost: 100, sheets: 1, yield: 90 % }\nparts:');
  const plan = sawnPlan(text, [[['Side', 10, 10]], [['Side', 10, 10]]]);
  const sentence =
    /Limits broken: 2 sheets against 1; yield 18\.1 % against 90\.0 %; cost 184\.00 EUR\s+against 100\.00 EUR\./;

  it('are told in the summary and in the report', () => {
    expect(textOf(planSummary(plan))).toMatch(sentence);
    expect(planReport(plan, null)).toMatch(sentence);
  });

  it('are not spoken of where all are kept', () => {
    expect(textOf(planSummary(chestPlan()))).not.toContain('Limits broken');
    expect(planReport(chestPlan(), null)).not.toContain('Limits broken');
  });
});

describe('the leftovers of a saw', () => {
  it('are the panels that its cuts leave, inside the trimmed edges, and nothing with a keep-out', () => {
    const boxes = chestPlan().costs.sheets[0]!.offcuts.map(({ box }) =>
      [box.minX, box.minY, box.maxX, box.maxY].map((length) => length / 8000),
    );
    expect(boxes).toEqual([
      [1544.4, 396.4, 2308.4, 593.2],
      [1813.2, 113.2, 2213.2, 310],
      [2216.4, 10, 2430, 310],
    ]);
  });

  it('make up the sheet with pieces, trim, kerf and waste', () => {
    for (const sheet of [...chestPlan().costs.sheets, ...cratePlan().costs.sheets]) {
      const { pieceAreaMm2, trimAreaMm2, kerfAreaMm2, offcutAreaMm2, wasteAreaMm2 } = sheet;
      expect(wasteAreaMm2).toBeGreaterThan(-1e-6);
      expect(pieceAreaMm2 + trimAreaMm2 + kerfAreaMm2 + offcutAreaMm2 + wasteAreaMm2).toBeCloseTo(
        sheet.areaMm2,
        3,
      );
    }
    const [crate] = cratePlan().costs.sheets;
    // Five cuts of 48", two of 15-3/8", an eighth wide; all the rest of the sheet is pieces and offcuts.
    expect(crate!.kerfAreaMm2 / 645.16).toBeCloseTo((5 * 48 + 2 * 15.375) / 8, 6);
    expect(crate!.wasteAreaMm2).toBeCloseTo(0, 3);
  });
});

describe('what is said of a proof at a saw', () => {
  const plan = chestPlan();
  const said = (changes: Partial<Plan['layouts'][number]>) =>
    proofSentence(plan, { ...plan.layouts[0]!, ...changes });

  it.each([
    [{}, '4 sheets; no layout, sawn or routed, uses fewer (proved)'],
    [
      { objective: 'cost', used: 36_800 },
      '4 sheets, 368.00 EUR; no choice of sheets, sawn or routed, costs less (proved)',
    ],
    [
      { status: 'limit', bound: { atLeast: 3, provedBy: 'area' } },
      '4 sheets; at least 3 sheets by proof, however it is cut, so less may be possible; more effort may help',
    ],
  ] as const)('%j', (changes, sentence) => {
    expect(said(changes)).toBe(sentence);
  });

  it('is what check prints', () => {
    const limited = sawnPlan(`${CHEST}limits: { sheets: 3 }\n`, [
      [['Side', 10, 10]],
      [['Side', 10, 10]],
      [['Side', 10, 10]],
      [['Side', 10, 10]],
    ]);
    const lines = checkLines('chest.yaml', limited);
    expect(textOf(lines)).toContain('birch18: 4 sheets; no layout, sawn or routed, uses fewer');
    expect(brokenLimits(limited)).toHaveLength(1);
  });
});
