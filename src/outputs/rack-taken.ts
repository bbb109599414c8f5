import type { Layout } from '../model/layout.ts';
import type { Plan } from '../model/plan.ts';

/** The ids of the offcuts that a layout takes off the rack, in the order of its sheets. */
export function rackTaken(
  { job }: Pick<Plan, 'job'>,
  { material, sheets }: Layout,
): readonly string[] {
  const stocks = job.materials[material]!.sheets;
  return sheets.flatMap(({ stock }) => stocks[stock]?.rack ?? []);
}

/** Whether the rack has anything that could be taken for a material. */
export function hasRack({ job }: Pick<Plan, 'job'>, { material }: Layout): boolean {
  return job.materials[material]!.sheets.some(({ rack }) => rack !== null);
}
