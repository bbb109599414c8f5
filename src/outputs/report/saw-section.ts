import { type SawGroup, sawGroups, sawTotals } from '../../drawing/saw-groups.ts';
import {
  careSentences,
  groupTitle,
  sequenceHeads,
  sequenceRows,
  sequenceRules,
} from '../../drawing/saw-texts.ts';
import { formatSize } from '../../model/format.ts';
import type { Job } from '../../model/job.ts';
import type { Plan } from '../../model/plan.ts';
import { sawSentence } from '../saw-wording.ts';
import { plain, table } from './markdown-text.ts';

/** The cuts of each sheet in their order, alike sheets once; empty at a router and where no sheet is cut. */
export function sawSection(plan: Plan): string {
  const groups = sawGroups(plan);
  if (groups.length === 0) return '';
  const steps = groups.flatMap((group) => group.steps);
  return [
    '## Sequence at the saw',
    sawSentence(plan, sawTotals(groups)),
    [...sequenceRules(plan.job), ...careSentences(steps)].map((rule) => `- ${rule}`).join('\n'),
    ...groups.map((group) => groupText(plan.job, group)),
  ].join('\n\n');
}

function groupText(job: Job, group: SawGroup): string {
  const { material, stock, steps } = group;
  const size = formatSize(stock.length, stock.width, job.unit);
  const title = `### ${groupTitle(group)}\n\n${plain(material.name)}, ${size}`;
  if (steps.length === 0) return `${title}: nothing to cut.`;
  const rows = sequenceRows(job, steps).map((row) => row.map(plain));
  return `${title}\n\n${table(sequenceHeads(job.unit), rows, 'rllrllll')}`;
}
