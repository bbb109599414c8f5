import { describe, expect, it } from 'vitest';
import { explainPiece, explainSheet } from '../../src/holding/explain.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import type { ReckoningLine } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import { numberedSheets } from '../../src/model/plan.ts';
import { fromMm } from '../../src/model/units.ts';
import { partOf } from '../helpers/jobs.ts';
import { disc, rect } from '../helpers/shapes.ts';
import { rows, type Shop, shopJob, singleRectangle } from './jobs.ts';

describe('the reckoning of a piece', () => {
  it('has the figures of the holding plan', () => {
    const shapes = [rect(600, 400), rect(150, 110), disc(140), rect(60, 60)];
    const job = shopJob(shapes.map((shape) => partOf(shape)));
    const layouts = [rows(job, 30)];
    const loose = holdSheets(job, layouts).flatMap((sheet) => sheet.loose);
    for (const holding of loose.filter(({ kind }) => kind === 'piece')) {
      const lines = explainPiece(job, layouts, holding.piece!);
      expect(number(lines, 'Vacuum v')).toBe(holding.vacuumKpa);
      expect(number(lines, 'Holding force F')).toBe(holding.holdingForceN);
      expect(number(lines, 'Cutting force P')).toBeCloseTo(holding.cuttingForceN, 1);
      expect(number(lines, 'Margin')).toBe(holding.margin);
      expect(number(lines, 'Margin at the low end')).toBe(holding.marginLow);
      expect(text(lines, 'Verdict')).toBe(holding.verdict);
      const after = lines.find(({ quantity }) => quantity === 'Margin after the remedy');
      if (holding.action === 'none') expect(after).toBeUndefined();
      else expect(after!.value).toBe(`${holding.marginAfter.toFixed(2)}, ${holding.verdictAfter}`);
    }
  });

  it('is the same of a whole sheet at once, less what a change would do', () => {
    const job = shopJob([rect(600, 400), rect(150, 110), disc(140)].map((shape) => partOf(shape)));
    const layouts = [rows(job, 30)];
    const [sheet] = numberedSheets(layouts);
    const all = explainSheet(job, sheet!);
    expect(all.size).toBe(3);
    for (const [piece, lines] of all) {
      expect(lines.at(-1)!.quantity).toMatch(/^(Verdict|Margin after the remedy)$/);
      const texts = explainPiece(job, layouts, piece).map((each) => JSON.stringify(each));
      const from = texts.indexOf(JSON.stringify(lines[0]));
      expect(texts.slice(from, from + lines.length)).toEqual(lines.map((l) => JSON.stringify(l)));
    }
  });

  it('can be followed from line to line with a calculator', () => {
    const cutter = { spiral: 'up-cut', helixDeg: 25 } as const;
    for (const [width, height] of [
      [210, 160],
      [500, 90],
    ] as const) {
      const [job, layouts] = singleRectangle(width, height, { cutter });
      follow(explainPiece(job, layouts, 0));
    }
  });

  it('follows a sheet that leaks itself, on a mountain, with a worn cutter', () => {
    const shop: Shop = {
      cutter: { worn: true },
      table: { altitudeM: 1200, size: { length: fromMm(2500), width: fromMm(1300) } },
      material: { family: 'mdf', densityKgPerM3: 720 },
    };
    const [job, layouts] = singleRectangle(260, 240, shop);
    const lines = explainPiece(job, layouts, 0);
    follow(lines);
    // 0.857 for hardly any vacuum; less under a deeper one.
    expect(number(lines, 'Share of the vacuum under the piece')).toBeCloseTo(0.839, 3);
  });

  it('names what was taken as given', () => {
    const [job, layouts] = singleRectangle(300, 300);
    const given: RouterJob = { ...job, table: { ...job.table, assumed: ['friction 0.4'] } };
    expect(explainPiece(given, layouts, 0)[0]).toEqual({
      quantity: 'Taken as given',
      formula: 'not in the parts file',
      value: 'friction 0.4',
    });
  });

  it('adds inches of mercury and pounds for a file in inches', () => {
    const [job, layouts] = singleRectangle(300, 300);
    const lines = explainPiece({ ...job, unit: 'in' }, layouts, 0);
    expect(text(lines, 'Vacuum v')).toMatch(/^25\.89 kPa \(7\.65 inHg\)$/);
    expect(text(lines, 'Holding force F')).toMatch(/ N \(\d+\.\d lbf\)$/);
  });

  it('shows how the vacuum falls along the sheet, in one line', () => {
    const job = shopJob([partOf(rect(300, 200), { count: 24 })]);
    const layouts = [rows(job)];
    const { vacuumStartKpa, vacuumAlongKpa } = holdSheets(job, layouts)[0]!;
    const shown = text(explainPiece(job, layouts, 3), 'Vacuum along the sheet');
    const [, from, bars, to] = /^([\d.]+) kPa (\S+) ([\d.]+) kPa$/.exec(shown)!;
    expect([Number(from), Number(to)]).toEqual([vacuumStartKpa, vacuumAlongKpa.at(-1)]);
    expect(bars).toHaveLength(Math.min(30, vacuumAlongKpa.length + 1));
    expect([...bars!]).toEqual([...bars!].sort().reverse());
    expect(bars![0]).toBe('█');
  });

  it('ends with what the margin hangs on, and with what is not usual of the cutter', () => {
    const [job, layouts] = singleRectangle(200, 200);
    const lines = explainPiece(job, layouts, 0);
    const [worn, ...rest] = lines.filter(({ quantity }) => quantity.startsWith('Margin with'));
    expect(worn).toEqual({
      quantity: 'Margin with cutter worn',
      formula: `in place of sharp (margin ${text(lines, 'Margin')}); one of the inputs that move it most`,
      value: worn!.value,
    });
    expect(Number(worn!.value)).toBeLessThan(number(lines, 'Margin'));
    expect(rest).toHaveLength(2);
    expect(text(lines, 'Look at the cutter')).toContain('is over the usual');
  });

  it('says with fixed digits what a person can reckon', () => {
    const [job, layouts] = singleRectangle(300, 300);
    const lines = explainPiece(job, layouts, 0);
    const { feedMmPerMin, spindleRpm, cutter } = job.machine;
    const feed = feedMmPerMin / (spindleRpm * cutter.flutes);
    expect(text(lines, 'Feed per tooth h')).toBe(`${feed.toFixed(4)} mm`);
    expect(text(lines, 'Depth of the pass b')).toBe('18.000 mm');
    // Plywood of the density that its constants are for.
    expect(text(lines, 'Edge force ke')).toBe('1.700 N/mm');
    expect(formula(lines, 'Margin against twisting')).toBe('T / M');
  });

  it.each([
    ['no zones', [], 'one zone, 1 places masked'],
    ['two zones', [false, false], '2 of 2 zones may be open, 1 places masked'],
    ['a zone shut', [false, true, false], '2 of 3 zones may be open, 1 places masked'],
  ])('counts the working table with %s', (_, zones, said) => {
    const [job, layouts] = singleRectangle(300, 300);
    const box = { minX: 0, minY: 0, maxX: fromMm(2500), maxY: fromMm(1300) };
    const masked = [{ ...box, maxX: fromMm(10) }];
    const table = { ...job.table, masked, zones: zones.map((shut) => ({ box, shut })) };
    expect(text(explainPiece({ ...job, table }, layouts, 0), 'Working table')).toBe(said);
  });

  it('is empty for a piece that lies on no sheet', () => {
    const [job] = singleRectangle(300, 300);
    expect(explainPiece(job, [], 0)).toEqual([]);
  });
});

/** Works every step out again from the printed values of the lines above it. */
function follow(lines: readonly ReckoningLine[]): void {
  const value = (quantity: string): number => number(lines, quantity);
  const held = value('Held area');
  const share = value('Share of the vacuum under the piece');
  const force = value('Holding force F');
  close(force, (value('Vacuum v') * share * held) / 1000 + value('Weight'));
  const board = value('Resistance of the spoilboard Rs');
  const outside = value('Air pressure pa');
  const table = outside - value('Vacuum v');
  const part = value('Resistance of the sheet Rw') / (value('Resistance of the sheet Rw') + board);
  const under = Math.sqrt(outside ** 2 - (outside ** 2 - table ** 2) * part);
  close(share, (outside - under) / value('Vacuum v'));

  const tangential = value('Tangential force Ft');
  const depth = value('Depth of the pass b');
  const perMm = value('Edge force ke') + value('Shear force kc') * value('Feed per tooth h');
  close(tangential, depth * perMm);
  const push = value('Cutting force P');
  const ratio = last(formula(lines, 'Cutting force P'));
  close(push, tangential * Math.sqrt(1 + ratio ** 2));

  const lift = value('Lift L');
  const friction = first(formula(lines, 'Most push S'));
  const most = value('Most push S');
  close(most, friction * (force - lift));
  close(value('Margin against sliding'), most / push);
  const mostMoment = value('Most moment T');
  close(mostMoment, (most * value('Mean distance r of the held area from it')) / 1000);
  const [across, along] = numbers(formula(lines, 'Push Q that turns it first')) as [number, number];
  const turningPush = value('Push Q that turns it first');
  close(turningPush, Math.hypot(across, along));
  const moment = value('Moment M');
  close(moment, (turningPush * value('Distance d of its line from that point')) / 1000);
  close(value('Margin against twisting'), mostMoment / moment);
  const [, centre, edge] = numbers(formula(lines, 'Margin against lifting and tipping')) as [
    number,
    number,
    number,
  ];
  const tipping = (push * depth) / 2 + lift * edge;
  close(value('Margin against lifting and tipping'), (force * centre) / tipping);
  const three = [
    'Margin against sliding',
    'Margin against twisting',
    'Margin against lifting and tipping',
  ];
  expect(value('Margin')).toBe(Math.min(...three.map(value)));
}

/** Within the rounding of printed values. */
function close(printed: number, worked: number): void {
  expect(Math.abs(printed - worked)).toBeLessThanOrEqual(0.006 + 0.004 * Math.abs(worked));
}

function number(lines: readonly ReckoningLine[], quantity: string): number {
  return first(text(lines, quantity));
}

function text(lines: readonly ReckoningLine[], quantity: string): string {
  return lines.find((line) => line.quantity === quantity)!.value;
}

function formula(lines: readonly ReckoningLine[], quantity: string): string {
  return lines.find((line) => line.quantity === quantity)!.formula;
}

function first(words: string): number {
  return numbers(words)[0]!;
}

function last(words: string): number {
  return numbers(words).at(-1)!;
}

function numbers(words: string): number[] {
  return [...words.matchAll(/\d+(?:\.\d+)?(?:e\d+)?/g)].map(([digits]) => Number(digits));
}
