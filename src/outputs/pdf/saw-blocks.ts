import { sawGroups, sawTotals } from '../../drawing/saw-groups.ts';
import { careSentences, groupTitle } from '../../drawing/saw-texts.ts';
import type { Plan } from '../../model/plan.ts';
import { sawSentence } from '../saw-wording.ts';
import type { Block } from './blocks.ts';

/** How much there is to saw, which sheets are cut alike, and what the marks mean; the sequence itself is with the drawings. */
export function sawBlocks(plan: Plan): readonly Block[] {
  const groups = sawGroups(plan);
  if (groups.length === 0) return [];
  const alike = groups.filter(({ numbers }) => numbers.length > 1);
  const entries = [
    ...alike.map(groupTitle),
    ...careSentences(groups.flatMap(({ steps }) => steps)),
  ];
  return [
    { kind: 'heading', text: 'What is to be sawn' },
    {
      kind: 'paragraph',
      text: `${sawSentence(plan, sawTotals(groups))} The sequence with its fence settings follows the drawing of each sheet.`,
    },
    ...(entries.length === 0 ? [] : [{ kind: 'list' as const, entries }]),
  ];
}
