import { describe, expect, it } from 'vitest';
import { holdJob, holdSheets } from '../../src/holding/hold.ts';
import type { Influence } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Router, Table } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { rows, type Shop, shopJob, singleRectangle, VANE } from './jobs.ts';

const COARSE_BOARD = {
  kind: 'particleboard',
  thickness: fromMm(18),
  permeabilityM2: { nominal: 1e-12, low: 3e-12 },
  alongRatio: 1,
};

const SHOPS: Readonly<Record<string, Shop>> = {
  'the usual table': {},
  'a coarse spoilboard': { table: { spoilboard: COARSE_BOARD } },
  'a vane pump': { table: { pump: { kind: 'vane', curve: VANE }, spoilboard: COARSE_BOARD } },
  'a worn up-cut cutter': {
    cutter: { spiral: 'up-cut', helixDeg: 30, worn: true },
    machine: { passDepth: fromMm(6) },
  },
  'a film-faced panel': { material: { filmFaced: true } },
};

describe.each(Object.entries(SHOPS))('which inputs move a margin, on %s', (_, shop) => {
  const [job, layouts] = singleRectangle(240, 200, shop);
  const { sensitivity, holding } = holdJob(job, layouts);

  it('starts with the strongest, from the margin of the plan', () => {
    const strengths = sensitivity.map(strength);
    expect(strengths).toEqual(strengths.toSorted((a, b) => b - a));
    expect(strengths.at(-1)).toBeGreaterThan(0);
    for (const { marginFrom } of sensitivity) expect(marginFrom).toBe(holding[0]!.loose[0]!.margin);
  });

  it('gives the margin of the job with that input changed', () => {
    const checked = sensitivity.flatMap((influence) => {
      const changed = changedJob(job, influence);
      return changed === null ? [] : [[influence.input, influence.marginTo, changed] as const];
    });
    for (const [input, marginTo, changed] of checked)
      expect(marginOf(changed, layouts), input).toBe(marginTo);
    expect(checked.length).toBeGreaterThanOrEqual(4);
    expect(checked.map(([input]) => input)).toContain(sensitivity[0]!.input);
  });

  it('moves the margin by the force as much as the force moves', () => {
    const { marginFrom, marginTo } = sensitivity.find(({ input }) => input === 'cutting force')!;
    // With lift the push and the lift both grow.
    if (job.machine.cutter.spiral === 'straight') expect(marginTo).toBeCloseTo(marginFrom / 1.4, 1);
    else expect(marginTo).toBeLessThan(marginFrom / 1.4);
  });
});

describe('which inputs move the margins of a job', () => {
  it('is read off pieces near the line between staying and not', () => {
    const sizes = [30, 80, 210, 900] as const;
    const job = shopJob(sizes.map((size) => partOf(rect(size, 0.8 * size))));
    const { sensitivity } = holdJob(job, [rows(job, 20)]);
    expect(sensitivity[0]!.piece).toBe(2);
  });

  it('is the same however often a part is cut', () => {
    const inputs = (count: number) => {
      const job = shopJob([partOf(rect(230, 210), { count })]);
      return holdJob(job, [rows(job, 20)]).sensitivity.map(({ input }) => input);
    };
    expect(inputs(7).slice(0, 3)).toEqual(inputs(1).slice(0, 3));
  });

  it('says nothing of a spoilboard that is not there, nor of a job without pieces', () => {
    const seal = {
      kind: 'gasket',
      around: 'pieces',
      inset: 0,
      grooveShare: 0,
      leakMm2: 40,
    } as const;
    const [job, layouts] = singleRectangle(240, 200, { table: { seal } });
    const inputs = holdJob(job, layouts).sensitivity.map(({ input }) => input);
    expect(inputs).toContain('cutting force');
    expect(inputs.filter((input) => /board|border/.test(input))).toEqual([]);
    expect(holdJob(job, []).sensitivity).toEqual([]);
  });

  it('names values in the unit of the file', () => {
    const [job, layouts] = singleRectangle(240, 200);
    const text = (unit: RouterJob['unit']) =>
      holdJob({ ...job, unit }, layouts).sensitivity.map(
        ({ input, from, to }) => `${input} ${from} ${to}`,
      );
    expect(text('mm')).toContain('feed 9000 mm/min 10800 mm/min');
    expect(text('in')).toContain('feed 354 in/min 425 in/min');
    expect(text('mm').some((each) => each.startsWith('border without vacuum 8.1 mm 10.2 mm'))).toBe(
      true,
    );
  });
});

function strength({ marginFrom, marginTo }: Influence): number {
  return Math.abs(Math.log(marginTo / marginFrom));
}

function marginOf(job: RouterJob, layouts: readonly Layout[]): number {
  return holdSheets(job, layouts)[0]!.loose[0]!.margin;
}

/** What a person would write into the file for it; null where a file cannot say it. */
function changedJob(job: RouterJob, { input, to }: Influence): RouterJob | null {
  const { machine, table } = job;
  const { spoilboard } = table;
  const withTable = (changed: Partial<Table>): RouterJob => ({
    ...job,
    table: { ...table, ...changed },
  });
  const withMachine = (changed: Partial<Router>): RouterJob => ({
    ...job,
    machine: { ...machine, ...changed },
  });
  const value = Number.parseFloat(to);
  switch (input) {
    case 'cutter':
      return withMachine({ cutter: { ...machine.cutter, worn: to === 'worn' } });
    case 'feed':
      return withMachine({ feedMmPerMin: value });
    case 'friction': {
      const friction = { nominal: value, low: value };
      return withTable({ friction, frictionFilmFaced: friction });
    }
    case 'spoilboard permeability':
      return withTable({
        spoilboard: { ...spoilboard, permeabilityM2: { nominal: value, low: value } },
      });
    case 'spoilboard thickness':
      return withTable({ spoilboard: { ...spoilboard, thickness: fromMm(value) } });
    case 'pump flow': {
      const curve = table.pump.curve.map((point) => ({
        ...point,
        flowM3h: (point.flowM3h * value) / 100,
      }));
      return withTable({ pump: { ...table.pump, curve } });
    }
    default:
      return null;
  }
}
