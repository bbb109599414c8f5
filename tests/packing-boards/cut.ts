import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Effort } from '../../src/model/plan.ts';
import { toMm } from '../../src/model/units.ts';
import { packBoards } from '../../src/packing/boards/pack-boards.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { faultsOfBoards } from './legal.ts';

/** The boards of material 0; throws where the check of every plan or the plain one finds a fault. */
export async function cut(
  job: Job,
  effort: Effort = 'quick',
  solver?: () => Promise<null>,
): Promise<Layout> {
  const options = { effort, seed: 1, shouldStop: () => false, onProgress: () => {} };
  const { layout } = await packBoards(job, 0, options, solver);
  const faults = verifyLayout(job, layout).faults.map(({ message }) => message);
  faults.push(...faultsOfBoards(job, layout));
  if (faults.length > 0) throw new Error(faults.join('\n'));
  return layout;
}

/** Each board as its pieces' lengths and places in mm, such as `1000@0 500@1003`. */
export function boardsOf(job: Job, { boards }: Layout): string[] {
  return boards.map(({ pieces }) =>
    pieces.map(({ part, at }) => `${toMm(job.lengthParts[part]!.length)}@${toMm(at)}`).join(' '),
  );
}
