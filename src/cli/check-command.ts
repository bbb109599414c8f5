import { brokenLimits, checkLines, checkRecord, type Plan, type Problem, wrap } from '../index.ts';
import { exitCodeOf, tryPlan } from './make-plan.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { rackStock } from './rack-stock.ts';
import { printProblems, readParts } from './read-job.ts';
import { EXIT, type World } from './world.ts';

export async function checkCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  const parts = readParts(world, name!);
  const racked = parts.job === null ? null : rackStock(world, name!, parts.job, settings);
  const result = racked === null ? null : await tryPlan(world, racked.job, settings);
  const problems = [...parts.problems, ...(result?.problems ?? [])];
  const plan = result?.plan ?? null;
  if (settings.format === 'json') world.out(checkRecord(name!, problems, plan));
  else {
    printCheck(world, name!, settings, { problems, plan });
    for (const note of plan === null ? [] : (racked?.notes(plan) ?? []))
      for (const { text } of wrap('plain', note, '  ')) world.out(`${text}\n`);
  }
  if (plan === null) return EXIT.usage;
  return exitCodeOf(plan, brokenLimits(plan).length > 0 ? EXIT.failed : EXIT.done);
}

function printCheck(
  world: World,
  name: string,
  settings: Settings,
  { problems, plan }: { problems: readonly Problem[]; plan: Plan | null },
): void {
  printProblems(world, name, problems);
  if (plan === null) return;
  const paint = paintFor(world, settings);
  for (const { tone, text } of checkLines(name, plan)) world.out(`${paint(tone, text)}\n`);
}
