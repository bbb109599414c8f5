import { describe, expect, it } from 'vitest';
import { drawSheet } from '../../src/drawing/sheet-drawing.ts';
import { planReport, planSummary } from '../../src/index.ts';
import { adviceOf } from '../../src/model/holding.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';
import { movingSentence } from '../../src/outputs/care.ts';
import { summaryBlocks } from '../../src/outputs/pdf/summary.ts';
import { explanation } from '../../src/outputs/report/explanation.ts';
import {
  adviceSentence,
  CAUTIONS,
  lostSentences,
  orderSentence,
  proofSentence,
  vacuumSentence,
} from '../../src/outputs/wording.ts';
import { samplePlan } from '../helpers/sample-plan.ts';

const PLAN = samplePlan();
const LAYOUT = PLAN.layouts[0] as Layout;

describe('what is said of a proof', () => {
  const cases: readonly (readonly [Partial<Layout>, Partial<Plan>, string])[] = [
    [{ used: 3 }, {}, '3 sheets; no layout can use fewer (proved)'],
    [{ used: 1 }, {}, '1 sheet; no layout can use fewer (proved)'],
    [
      { used: 4, status: 'limit', bound: { atLeast: 3, provedBy: 'area' } },
      {},
      '4 sheets; at least 3 sheets by proof, so less may be possible; more effort may help',
    ],
    [
      { used: 4, status: 'limit', bound: { atLeast: 3, provedBy: 'area' } },
      { options: { effort: 'long', seed: 1, seconds: null } },
      '4 sheets; at least 3 sheets by proof, so less may be possible; the search ended unproved',
    ],
    [
      { used: 4, status: 'limit', bound: { atLeast: 3, provedBy: 'area' } },
      { stopped: 'time' },
      '4 sheets; at least 3 sheets by proof, so less may be possible; the search was stopped by time',
    ],
    [
      { used: 4, status: 'limit', bound: { atLeast: 3, provedBy: 'area' } },
      { stopped: 'interrupt' },
      '4 sheets; at least 3 sheets by proof, so less may be possible; the search was stopped by hand',
    ],
    [
      { used: 31_200, objective: 'cost' },
      {},
      '1 sheet, 312.00 EUR; no choice of sheets costs less (proved)',
    ],
    [
      { used: 2, status: 'impossible', unplaced: [{ piece: 3, why: 'no-stock' }] },
      {},
      'too little stock: 1 piece left over, 2 sheets used',
    ],
  ];

  it.each(cases)('%j with %j', (layout, plan, sentence) => {
    expect(proofSentence({ ...PLAN, ...plan }, { ...LAYOUT, ...layout })).toBe(sentence);
  });
});

describe('what is said of care', () => {
  it('has its own sentence for each thing to do', () => {
    const all = ['none', 'earlier', 'skin', 'tabs', 'clamp', 'leave', 'try', 'pocket'] as const;
    expect(new Set(all.map(adviceSentence)).size).toBe(all.length);
  });

  it.each([
    ['piece', 'stays', 'none'],
    ['piece', 'moves', 'leave'],
    ['piece', 'marginal', 'try'],
    ['slug', 'moves', 'pocket'],
    ['sliver', 'marginal', 'pocket'],
  ] as const)(
    'tells of a %s that %s by itself and has no remedy: %s',
    (kind, verdictAfter, advice) => {
      expect(adviceOf({ kind, action: 'none', verdictAfter })).toBe(advice);
    },
  );

  it('says of a piece that nothing holds in every output what to do in its place', async () => {
    const plan = withUnheld('moves');
    const drawn = JSON.stringify(drawSheet(plan, 0));
    expect(drawn).toContain('moves: do not cut it free in this run');
    expect(drawn).toContain('"sign-stop"');
    expect(JSON.stringify(summaryBlocks(plan, null))).toContain('do not cut free');
    const explained = explanation(plan, UNHELD, [])
      .map(({ text }) => text)
      .join(' ');
    expect(explained).toContain('In this run: do not cut free.');
    expect(explained).not.toContain('Nothing needed');
    const summary = planSummary(plan)
      .map(({ text }) => text)
      .join(' ');
    expect(summary).toContain('do not cut free: Do not cut it free in this run');
    expect(planReport(plan, null)).toContain('Side 1 (**do not cut free**)');
  });

  it('points to another setting with which the piece stays, where there is one', () => {
    const plan = withUnheld('marginal');
    const said = (verdict: string): string => {
      const change = { quantity: 'What if feed', formula: '', value: `margin 2.50: ${verdict}` };
      const lines = explanation(plan, UNHELD, [change]);
      return lines.map(({ text }) => text).join(' ');
    };
    expect(said('stays')).toContain('see What if, above');
    expect(said('marginal')).not.toContain('see What if');
    const pointer = /holdfast explain with/;
    const summaryOf = (of: Plan): string =>
      planSummary(of)
        .map(({ text }) => text.trim())
        .join(' ');
    expect(summaryOf(plan)).toMatch(pointer);
    const calm = plan.holding.map((sheet) => ({
      ...sheet,
      loose: sheet.loose.map((each) => ({ ...each, verdictAfter: 'stays' as const })),
    }));
    expect(summaryOf({ ...plan, holding: calm })).not.toMatch(pointer);
  });

  it('is in proportion where a piece only may move', () => {
    const plan = withUnheld('marginal');
    const explained = explanation(plan, UNHELD, [])
      .map(({ text }) => text)
      .join(' ');
    expect(explained).toContain('In this run: try in waste.');
    expect(JSON.stringify(drawSheet(plan, 0))).not.toContain('"sign-stop"');
  });

  it.each([
    'no guarantee',
    'test cut',
    'vacuum gauge',
    '80 %',
    'Never reach in',
    'thrown',
    'eye and hearing',
    'dust',
    'lift',
    'Local rules',
    'trained people',
  ])('cautions with the words "%s"', (words) => {
    expect(CAUTIONS.join(' ')).toContain(words);
  });
});

/** The first piece of the sample. */
const UNHELD = 0;

/** The sample, where nothing reckoned holds one piece. */
function withUnheld(verdict: 'marginal' | 'moves'): Plan {
  const holding = PLAN.holding.map((sheet) => ({
    ...sheet,
    steps: [{ kind: 'outline' as const, piece: UNHELD, feature: 0 }],
    loose: sheet.loose.map((each) =>
      each.kind === 'piece' && each.piece === UNHELD
        ? { ...each, action: 'none' as const, verdict, verdictAfter: verdict }
        : each,
    ),
  }));
  const parts = PLAN.job.parts.map((_, part) => ({ part, pieceAreaMm2: 1, pieceWeightKg: 1 }));
  return { ...PLAN, holding, costs: { ...PLAN.costs, parts } };
}

describe('what is said of the cutting order', () => {
  const [held] = PLAN.holding;

  it('is its way and its smallest margin beside those of the parts file', () => {
    expect(orderSentence(held!, 'mm')).toBe(
      'In this order the cutter goes 4.0 m straight from centre to centre of the pieces, in the order of the parts file 6.0 m, and the smallest margin is 0.80 against 0.70.',
    );
  });

  it('is nothing where there is one piece', () => {
    const loose = held!.loose.filter(({ kind }) => kind === 'piece').slice(0, 1);
    expect(orderSentence({ ...held!, loose }, 'mm')).toBeNull();
  });
});

describe('a vacuum that breaks down', () => {
  const broken: Plan = {
    ...PLAN,
    holding: PLAN.holding.map((sheet, i) =>
      i === 0 ? { ...sheet, vacuumStartKpa: 16, vacuumAlongKpa: [14, 0.52], lostAfter: 2 } : sheet,
    ),
  };
  const sentence =
    'Sheet 1: the vacuum breaks down, from 16.0 kPa to 0.5 kPa after cut 2; from there on the table holds next to nothing: stop there.';

  it('is said with the cut after which it has, and nothing of it elsewhere', () => {
    const [first, ...others] = lostSentences(broken);
    expect(first).toContain(sentence);
    expect(others).toEqual([]);
    expect(lostSentences(PLAN)).toEqual([]);
    expect(vacuumSentence(broken.holding[0]!, 'mm')).toContain('after cut 2 the table no longer');
  });

  it('stands at the head of every output', () => {
    const lines = planSummary(broken).map(({ text }) => text.trim());
    expect(lines.join(' ')).toContain(sentence);
    expect(JSON.stringify(summaryBlocks(broken, null))).toContain(sentence);
    const parts = PLAN.job.parts.map((_, part) => ({ part, pieceAreaMm2: 1, pieceWeightKg: 1 }));
    const report = planReport({ ...broken, costs: { ...PLAN.costs, parts } }, null);
    expect(report.split('## Sheets')[0]).toContain(sentence);
  });
});

describe('pieces that move whatever is done', () => {
  const withMoving = (count: number): Plan => {
    const plan = samplePlan();
    const [first, ...others] = plan.holding;
    let left = count;
    const loose = first!.loose.map((each) => ({
      ...each,
      verdictAfter: each.kind === 'piece' && left-- > 0 ? ('moves' as const) : ('stays' as const),
    }));
    return {
      ...plan,
      holding: [{ ...first!, loose }, ...others.map((o) => ({ ...o, loose: [] }))],
    };
  };

  it.each([
    [0, null],
    [1, '1 piece moves whatever is done here: do not cut it free in this run.'],
    [3, '3 pieces move whatever is done here: do not cut them free in this run.'],
  ])('%d of them are said to', (count, sentence) => {
    expect(movingSentence(withMoving(count))).toBe(sentence);
  });
});
