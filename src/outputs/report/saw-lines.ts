import { sawGroups, sawTotals } from '../../drawing/saw-groups.ts';
import { groupTitle } from '../../drawing/saw-texts.ts';
import type { Plan } from '../../model/plan.ts';
import { sawSentence } from '../saw-wording.ts';
import { type Line, wrap } from './line.ts';

const MOST_GROUPS = 6;

/** How much there is to saw, and which sheets are cut alike. */
export function sawLines(plan: Plan): readonly Line[] {
  const groups = sawGroups(plan);
  if (groups.length === 0) return [];
  const totals = sawTotals(groups);
  const alike = groups.filter(({ numbers }) => numbers.length > 1);
  return [
    ...wrap(totals.marked === 0 ? 'plain' : 'care', sawSentence(plan, totals), '  '),
    ...alike
      .slice(0, MOST_GROUPS)
      .flatMap((group) => wrap('plain', groupTitle(group), '    ', '  ')),
    ...(MOST_GROUPS < alike.length
      ? wrap('quiet', `  and ${alike.length - MOST_GROUPS} more groups: see report.md`)
      : []),
    ...wrap('quiet', 'The sequence with its fence settings: report.md and plan.pdf.', '  '),
  ];
}
