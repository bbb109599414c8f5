import { describe, expect, it } from 'vitest';
import type { HoldingLimit } from '../../src/model/job.ts';
import type { Plan } from '../../src/model/plan.ts';
import { checkLines } from '../../src/outputs/report/check.ts';
import { samplePlan } from '../helpers/sample-plan.ts';

describe('what check says of the limit on holding', () => {
  it.each<readonly [HoldingLimit, readonly string[]]>([
    ['no piece moves', ['sheet 1: 2 × Cleat: do not cut free, moves']],
    [
      'no piece marginal',
      ['sheet 1: 2 × Cleat: do not cut free, moves', 'sheet 1: Knob 1: skin 0.5, marginal'],
    ],
  ])('"%s" names the pieces that break it, and what to do', (rule, named) => {
    const found = named.length + 1;
    const lines = checkLines('a.yaml', withUnheld(), {
      broken: [{ limit: 'holding', allowed: 0, found, rule, what: null }],
      unheld: [],
      record: null,
    });
    const texts = lines.map(({ text }) => text.trim());
    expect(texts.filter((text) => text.startsWith('sheet'))).toEqual(named);
  });
});

/** The sample, where nothing holds two cleats. */
function withUnheld(): Plan {
  const plan = samplePlan();
  const isCleat = (piece: number): boolean =>
    plan.job.parts[plan.job.pieces[piece]!.part]!.name === 'Cleat' &&
    plan.job.pieces[piece]!.number < 3;
  const holding = plan.holding.map((sheet) => ({
    ...sheet,
    loose: sheet.loose.map((each) =>
      each.kind === 'piece' && isCleat(each.piece!)
        ? {
            ...each,
            action: 'none' as const,
            tabs: [],
            verdict: 'moves' as const,
            verdictAfter: 'moves' as const,
          }
        : each,
    ),
  }));
  return { ...plan, holding };
}
