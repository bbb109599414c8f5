import { faultLines, readRecord, recheck, verifyLines, verifyRecord, visible } from '../index.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { readPlanText } from './plan-file.ts';
import { rackOfPlan } from './rack-stock.ts';
import { readJob } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export async function verifyCommand(
  world: World,
  [planName, partsName]: readonly string[],
  settings: Settings,
): Promise<number> {
  const { file, text } = readPlanText(world, planName!);
  const names = { plan: file, parts: partsName! };
  const { plan, faults } = readRecord(text);
  if (plan === null) {
    if (settings.format === 'json') world.out(verifyRecord(names, faults, null));
    for (const line of faultLines(faults)) world.err(`${visible(line.text)}\n`);
    throw new CommandFailure(
      EXIT.usage,
      `${file} is not the plan.json that holdfast plan writes; nothing was checked`,
    );
  }
  const { job, sha256 } = readJob(world, partsName!, 'nothing was checked');
  const labels = plan.materials.flatMap(({ sheets }) => sheets.flatMap(({ rack }) => rack ?? []));
  const racked = rackOfPlan(world, partsName!, job, settings, labels);
  const checked = recheck(racked, plan, sha256);
  if (settings.format === 'json') world.out(verifyRecord(names, checked.faults, checked));
  else {
    const paint = paintFor(world, settings);
    for (const { tone, text: line } of verifyLines(names, checked, settings.all !== undefined))
      world.out(`${paint(tone, visible(line))}\n`);
  }
  return checked.faults.length > 0 ? EXIT.failed : EXIT.done;
}
