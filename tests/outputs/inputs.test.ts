import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import { careLines, planReport, planSummary } from '../../src/index.ts';
import type { Influence } from '../../src/model/holding.ts';
import type { Plan } from '../../src/model/plan.ts';
import { sensitivitySentence } from '../../src/outputs/care.ts';
import { summaryBlocks } from '../../src/outputs/pdf/summary.ts';
import { toPlanJson } from '../../src/outputs/report/plan-json.ts';
import { smallPlan } from '../helpers/sample-plan.ts';

const MOVES: readonly Influence[] = [
  { input: 'cutter', from: 'sharp', to: 'worn', piece: 0, marginFrom: 2.1, marginTo: 1 },
  { input: 'friction', from: '0.4', to: '0.3', piece: 0, marginFrom: 2.1, marginTo: 1.57 },
  { input: 'pump flow', from: '100 %', to: '80 %', piece: 0, marginFrom: 2.1, marginTo: 2 },
  {
    input: 'feed',
    from: '9000 mm/min',
    to: '10800 mm/min',
    piece: 0,
    marginFrom: 2.1,
    marginTo: 2.05,
  },
];
const SENTENCE =
  'The three inputs that move the verdict most: cutter (worn in place of sharp: margin 2.10 to 1.00), friction (0.3 in place of 0.4: margin 2.10 to 1.57), pump flow (80 % in place of 100 %: margin 2.10 to 2.00); margins of Panel 1.';
const WARNING = 'Oak ply: the tip only lifts.';

const OUTPUTS: Readonly<Record<string, (plan: Plan) => string>> = {
  summary: (plan) => textOf(planSummary(plan)),
  explain: (plan) => textOf(careLines(plan)),
  report: (plan) => planReport(plan, null),
  pdf: (plan) => JSON.stringify(summaryBlocks(plan, null)),
};

describe('what the verdict hangs on', () => {
  it.each([
    { isGiven: true, outputs: ['explain', 'report'] },
    { isGiven: false, outputs: ['summary', 'explain', 'report', 'pdf'] },
  ])('is said in $outputs where a table is given: $isGiven', ({ isGiven, outputs }) => {
    const said = Object.keys(OUTPUTS).filter((name) =>
      OUTPUTS[name]!(planOf({ isGiven })).includes(SENTENCE),
    );
    expect(said).toEqual(outputs);
  });

  it('names the piece of each margin where they are of several, and fewer inputs where there are fewer', () => {
    const [first, second] = MOVES as readonly [Influence, Influence];
    const plan = { ...smallPlan(), sensitivity: [first, { ...second, piece: 2 }] };
    expect(sensitivitySentence(plan)).toBe(
      'What moves the verdict most: cutter (worn in place of sharp: margin of Panel 1 2.10 to 1.00), friction (0.3 in place of 0.4: margin of Dial 1 2.10 to 1.57).',
    );
    expect(sensitivitySentence({ ...plan, sensitivity: [] })).toBeNull();
  });

  it('ends the record, all inputs of it, with what is said of the cutter', () => {
    const record = JSON.parse(
      toPlanJson(planOf({}), [[]], { toolVersion: '0', partsFileSha256: '' }),
    );
    expect(Object.keys(record).slice(-3)).toEqual(['costs', 'sensitivity', 'cutWarnings']);
    expect(record.sensitivity).toHaveLength(MOVES.length);
    expect(record.sensitivity[0]).toEqual({
      input: 'cutter',
      from: 'sharp',
      to: 'worn',
      part: 'Panel',
      piece: 1,
      marginFrom: 2.1,
      marginTo: 1,
    });
    expect(record.cutWarnings).toEqual([WARNING]);
  });
});

it.each(Object.keys(OUTPUTS))(
  'what is not usual of the cutter is said in the %s in the same words',
  (name) => {
    expect(OUTPUTS[name]!(planOf({}))).toContain(WARNING);
    expect(OUTPUTS[name]!({ ...planOf({}), cutWarnings: [] })).not.toContain('the tip');
  },
);

function planOf({ isGiven = true }: { readonly isGiven?: boolean }): Plan {
  const plan = smallPlan();
  const table = { ...plan.job.table, isGiven, assumed: ['friction 0.4'] };
  const job = { ...plan.job, table };
  const costs = costPlan(job, plan.layouts, []);
  return { ...plan, job, costs, sensitivity: MOVES, cutWarnings: [WARNING] };
}

/** As one line, however it was broken. */
function textOf(lines: readonly { readonly text: string }[]): string {
  return lines.map(({ text }) => text.trim()).join(' ');
}
