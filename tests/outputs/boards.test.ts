import { describe, expect, it } from 'vitest';
import {
  boardSvgs,
  checkLines,
  planPdf,
  planRecord,
  planReport,
  planSummary,
} from '../../src/index.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';
import { proofSentence } from '../../src/outputs/wording.ts';
import { BENCH, benchPlan, boardPlan } from '../helpers/board-plan.ts';
import { expectGolden } from '../helpers/golden.ts';
import { readPdf } from '../helpers/pdf-text.ts';

const summaryOf = (plan: Plan) =>
  planSummary(plan)
    .map(({ text }) => text)
    .join('\n');

const SHORT: Partial<Layout> = {
  status: 'impossible',
  unplacedLengths: [
    { part: 0, count: 2, why: 'no-stock' },
    { part: 1, count: 1, why: 'no-stock' },
  ],
};

describe('a job of boards', () => {
  const plan = benchPlan();

  it('has a summary and a report without sheets and vacuum', () => {
    expectGolden('boards-summary.txt', `${summaryOf(plan)}\n`);
    expectGolden('boards-report.md', planReport(plan, null));
  });

  it('has its boards in the record, numbered through the job, in millimetres', () => {
    const record = JSON.parse(planRecord(plan, ''));
    const [material] = record.materials;
    expect(material.boards.map(({ number }: { number: number }) => number)).toEqual([
      1, 2, 3, 4, 5, 6,
    ]);
    expect(material.boards[3]).toEqual({
      number: 4,
      stock: '1800',
      length: 1800,
      pieces: [{ part: 'Post', piece: 2, at: 10, length: 720 }],
      trim: 10,
      defects: [{ at: 800, length: 60, why: 'knot' }],
      yield: 0.4,
      leftovers: [
        { at: 733, length: 67, keep: false },
        { at: 860, length: 930, keep: true },
      ],
    });
    expect(material.sheets).toEqual([]);
    expect(material.provedBy).toBe('area');
    expect(record.costs.boards[3]).toEqual({ number: 4, priceMinor: 980 });
    expect(record.costs.totalMinor).toBe(7760);
  });

  it('has the list and a drawing in the PDF', async () => {
    const pages = readPdf(await planPdf(plan, { paper: 'a4', scale: null, date: null }));
    expect(pages).toHaveLength(3);
    expect(pages[0]?.text).toContain('Settings of the stop');
    expect(pages[0]?.text).not.toContain('vacuum');
    expect(pages[1]?.text).toContain('on length used');
    expect(pages[2]?.text).toContain('Boards 1–3: 3 boards of 2400 mm');
    expect(boardSvgs(plan)).toHaveLength(1);
  });
});

describe('pieces that find no board', () => {
  const plan = boardPlan(BENCH, [{ parts: ['Leg', 'Leg', 'Leg'] }, { parts: ['Post'] }], SHORT);

  it('are named in every output', async () => {
    expect(summaryOf(plan)).toContain('too little stock: 3 pieces left over, 2 boards used');
    expect(summaryOf(plan)).toContain('left over: 2 × Leg\n    left over: Post 2');
    expect(planReport(plan, null)).toContain('the boards do not suffice: 2 × Leg.');
    const record = JSON.parse(planRecord(plan, ''));
    expect(record.materials[0].unplaced).toEqual([
      { part: 'Leg', piece: 4, why: 'no-stock' },
      { part: 'Leg', piece: 5, why: 'no-stock' },
      { part: 'Post', piece: 2, why: 'no-stock' },
    ]);
    const [first] = readPdf(await planPdf(plan, { paper: 'a4', scale: null, date: null }));
    expect(first?.text).toContain('2 × Leg: the boards on hand are used up');
    const lines = checkLines('bench.yaml', plan).map(({ text }) => text);
    expect(lines).toContain('bench.yaml: too little stock: 3 pieces find no board');
  });
});

describe('boards only', () => {
  const router = 'kind: router, cutter: { diameter: 3 }, kerf: 3';

  it.each([
    ['kind: panel-saw, kerf: 3', true],
    [router, false],
  ])('with { %s } have the cautions of a saw: %s', (machine, isSaw) => {
    const plan = boardPlan(BENCH.replace(router, machine), [{ parts: ['Leg'] }]);
    for (const text of [summaryOf(plan), planReport(plan, null)]) {
      expect(text.includes('Guard in place')).toBe(isSaw);
      expect(/stop block/i.test(text)).toBe(isSaw);
    }
  });
});

describe('what is said of a proof of boards', () => {
  const layout = benchPlan().layouts[0]!;
  const sheet = { stock: 0, placements: [], cuts: [] };

  it.each<readonly [Partial<Layout>, string]>([
    [{}, '6 boards; no layout can use fewer (proved)'],
    [{ boards: layout.boards.slice(0, 1), used: 1 }, '1 board; no layout can use fewer (proved)'],
    [{ sheets: [sheet], used: 7 }, '7 sheets and boards; no layout can use fewer (proved)'],
    [
      { sheets: [sheet], used: 7760, objective: 'cost' },
      '1 sheet and 6 boards, 77.60 EUR; no choice of sheets and boards costs less (proved)',
    ],
    [
      { status: 'limit', bound: { atLeast: 5, provedBy: 'area' } },
      '6 boards; at least 5 boards by proof, so less may be possible; more effort may help',
    ],
  ])('%j', (changes, sentence) => {
    expect(proofSentence(benchPlan(), { ...layout, ...changes })).toBe(sentence);
  });
});

describe('a file in inches', () => {
  const text = `job: Rack
unit: in
materials:
  poplar: { family: hardwood, thickness: 3/4, boards: [{ length: 8ft, trim: 1/2 }] }
parts:
  - { name: Slat, material: poplar, length: 28-3/8, count: 3 }
  - { name: Rail, material: poplar, length: 200 mm, count: 1 }
`;

  it('has stops in fractions of an inch, to the nearest 64th', () => {
    const report = planReport(boardPlan(text, [{ parts: ['Slat', 'Slat', 'Slat', 'Rail'] }]), null);
    expect(report).toContain('| 28-3/8" | 3 | Slat 1–3 |');
    expect(report).toContain('| 7-7/8" | 1 | Rail 1 |');
  });
});
