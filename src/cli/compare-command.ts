import {
  AS_IT_IS,
  compareCsv,
  compareLines,
  compareRecord,
  type Job,
  type NamedPlan,
  type Problem,
  unplacedCount,
} from '../index.ts';
import { tryPlan } from './make-plan.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { rackStock } from './rack-stock.ts';
import { printProblems, readJob } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export async function compareCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  const { job, variants } = readJob(world, name!);
  if (variants.length === 0) {
    const hint =
      'write variants: and under it a list, such as - { name: Saw, machine: { kind: panel-saw } }';
    throw new CommandFailure(EXIT.usage, `${name}: there is nothing to compare: ${hint}`);
  }
  const plans: NamedPlan[] = [];
  const problems: Problem[] = [];
  let isStopped = false;
  for (const { name: of, job: own } of [{ name: AS_IT_IS, job }, ...variants]) {
    if (isStopped) {
      plans.push({ name: of, plan: null });
      continue;
    }
    const racked = rackStock(world, name!, own, settings);
    const { plan, problems: found } = await tryPlan(world, racked.job, settings);
    problems.push(...found.map((problem) => named(of, problem)));
    plans.push({ name: of, plan });
    isStopped = plan?.stopped === 'interrupt';
  }
  printProblems(world, name!, problems);
  printComparison(world, name!, job, plans, settings);
  if (isStopped) return EXIT.interrupted;
  if (problems.length > 0) return EXIT.usage;
  const isShort = plans.some(({ plan }) =>
    plan?.layouts.some((layout) => unplacedCount(layout) > 0),
  );
  return isShort ? EXIT.failed : EXIT.done;
}

function named(of: string, problem: Problem): Problem {
  if (of === AS_IT_IS) return problem;
  return { ...problem, message: `in the variant "${of}": ${problem.message}` };
}

function printComparison(
  world: World,
  name: string,
  job: Job,
  plans: readonly NamedPlan[],
  settings: Settings,
): void {
  if (settings.format === 'json') world.out(compareRecord(name, plans, job));
  else if (settings.format === 'csv') world.out(compareCsv(plans, job));
  else {
    const paint = paintFor(world, settings);
    for (const { tone, text } of compareLines(plans, job)) world.out(`${paint(tone, text)}\n`);
  }
}
