import { createHash } from 'node:crypto';
import {
  type Job,
  labelGrid,
  labelsPerPage,
  type Paper,
  type Plan,
  type PlanLabels,
  planLabels,
} from '../index.ts';
import type { Settings } from './options.ts';
import { CommandFailure, EXIT } from './world.ts';

/** So much of the hash of the plan's record is in each code. */
const MARK_LENGTH = 8;

/** Which label of the first sheet is printed first. Throws `CommandFailure` where the sheet has none of that number. */
export function firstLabel(job: Job, settings: Settings): number {
  const first = Number(settings['first-label']);
  const most = labelsPerPage(labelGrid(job, settings.paper as Paper));
  if (first <= most) return first;
  const why = most === 1 ? 'there is one label on a page' : `a sheet has ${most} labels`;
  throw new CommandFailure(EXIT.usage, `--first-label is ${first}, but ${why}`);
}

/** The labels of the plan with this record; null where there is nothing to label. */
export async function labelsOf(
  plan: Plan,
  record: string,
  settings: Settings,
  date: Date | null,
): Promise<PlanLabels | null> {
  const mark = createHash('sha256').update(record).digest('hex').slice(0, MARK_LENGTH);
  const paper = settings.paper as Paper;
  const labels = await planLabels(plan, {
    paper,
    date,
    mark,
    first: firstLabel(plan.job, settings),
  });
  return labels.count === 0 ? null : labels;
}
