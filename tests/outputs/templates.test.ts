import { describe, expect, it } from 'vitest';
import { planPdf, templatesPdf } from '../../src/index.ts';
import type { Job } from '../../src/model/job.ts';
import type { Paper } from '../../src/outputs/pdf/pdf.ts';
import { lineLength, type PdfLine, pdfLines } from '../helpers/pdf-lines.ts';
import { readPdf } from '../helpers/pdf-text.ts';
import { buildPlan, disc, material, stock } from '../helpers/plan-builder.ts';
import { samplePlan, smallPlan } from '../helpers/sample-plan.ts';

/** A PDF has 72 points to the inch (PDF 32000-1:2008, 8.3.2.3), so 100 mm are 283.46 of them. */
const POINTS_OF_100_MM = (100 / 25.4) * 72;
const PAPERS = ['a4', 'letter'] as const;

describe.each(PAPERS)('templates on %s', (paper) => {
  it('have 100 mm as 100 mm, along and up the page', async () => {
    const [page] = readPdf(await templates(jobOf(100, 100), paper));
    const sides = pdfLines(page!.content).filter((line) =>
      near(lineLength(line), POINTS_OF_100_MM),
    );
    expect(sides.filter(({ from, to }) => near(from[1], to[1])).length).toBeGreaterThanOrEqual(2);
    expect(sides.filter(({ from, to }) => near(from[0], to[0])).length).toBeGreaterThanOrEqual(2);
  });

  it('have a line to check the print by on every page', async () => {
    const { job } = samplePlan();
    const pages = readPdf(await templates(job, paper));
    expect(pages.length).toBeGreaterThan(job.parts.length);
    for (const { content, text } of pages) {
      expect(footLines(content, POINTS_OF_100_MM)).toHaveLength(1);
      expect(text).toContain('scale 1 : 1 · print at 100 %: the line is 100 mm long');
    }
    const inches = readPdf(await templates({ ...job, unit: 'in' }, paper));
    for (const { content, text } of inches) {
      expect(footLines(content, 4 * 72)).toHaveLength(1);
      expect(text).toContain('the line is 4 in long');
    }
  });

  it('draw nothing within 10 mm of the edge', async () => {
    const { job } = samplePlan();
    for (const { content, width, height } of readPdf(await templates(job, paper))) {
      const margin = (10 / 25.4) * 72 - 0.01;
      const [left, low, wide, high] = clipOf(content);
      expect(left).toBeGreaterThan(margin);
      expect(low).toBeGreaterThan(margin);
      expect(left! + wide!).toBeLessThan(width - margin);
      expect(low! + high!).toBeLessThan(height - margin);
    }
  });
});

describe('templates', () => {
  it('give the same bytes twice', async () => {
    const { job } = samplePlan();
    const [one, two] = [await templates(job, 'a4'), await templates(job, 'a4')];
    expect(Buffer.compare(Buffer.from(one), Buffer.from(two))).toBe(0);
  });

  it('name their pages by column and row, with the part on each', async () => {
    const pages = readPdf(await templates(jobOf(300, 100), 'a4', 1));
    expect(pages.map(({ text }) => /^Thing · 300 × 100 × \S+ mm/m.test(text))).toEqual([
      true,
      true,
    ]);
    expect(
      pages.map(({ text }) => text.split('\n').filter((line) => /^[AB]1$/.test(line))),
    ).toEqual([
      ['A1', 'A1', 'B1'],
      ['B1', 'A1', 'B1'],
    ]);
  });
});

describe('sheets at a scale', () => {
  it.each([...PAPERS.flatMap((paper) => [2, 5, 10].map((scale) => [scale, paper] as const))])(
    'are drawn at 1 : %s on %s, over pages where they have to be',
    async (scale, paper) => {
      const pages = readPdf(await planPdf(smallPlan(), { paper, scale, date: null }));
      const drawn = pages.filter(({ text }) => text.includes(`scale 1 : ${scale} · `));
      expect(drawn.length > 1).toBe(scale === 2);
      for (const { content } of drawn) expect(footLines(content, POINTS_OF_100_MM)).toHaveLength(1);
      const high = drawn.flatMap(({ content }) => pdfLines(content)).map(lineLength);
      const width = ((smallPlan().job.materials[0]!.sheets[0]!.width / 8000 / scale) * 72) / 25.4;
      expect(high.some((length) => near(length, width))).toBe(true);
    },
  );

  it('fit as before without one, at the scale of a rule where that is near', async () => {
    const pages = readPdf(await planPdf(samplePlan(), { paper: 'a4', scale: null, date: null }));
    const scales = pages.flatMap(({ text }) => /scale 1 : (\S+)/.exec(text)?.[1] ?? []);
    expect(scales).toHaveLength(2);
    for (const scale of scales) expect(Number(scale) * 2).toBe(Math.round(Number(scale) * 2));
  });
});

function templates(job: Job, paper: Paper, count = job.parts.length): Promise<Uint8Array> {
  return templatesPdf(job, job.parts.slice(0, count), { paper, date: null });
}

/** One part with a hole, a disc behind it. */
function jobOf(width: number, height: number): Job {
  return buildPlan({
    name: 'Bench',
    materials: [material(0, 'Plywood', [stock(2440, 1220)])],
    parts: [
      { name: 'Thing', width, height },
      { name: 'Disc', width: 90, height: 90, outer: disc(90) },
    ],
    sheets: [],
  }).job;
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < 0.01;
}

/** Level lines of this length in the lowest 20 mm. */
function footLines(content: string, length: number): readonly PdfLine[] {
  return pdfLines(content).filter(
    (line) => near(lineLength(line), length) && near(line.from[1], line.to[1]) && line.from[1] < 57,
  );
}

/** The rectangle that the drawing is cut off at; the writer's y runs down from the top of the page. */
function clipOf(content: string): readonly number[] {
  const [, ...numbers] = /([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) re\nW n/.exec(content) ?? [];
  expect(numbers).toHaveLength(4);
  return numbers.map(Number);
}
