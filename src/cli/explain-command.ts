import { careLines, explainLines, type Holding, nearest, type Plan } from '../index.ts';
import { exitCodeOf, makePlan } from './make-plan.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { rackStock } from './rack-stock.ts';
import { readJob } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export async function explainCommand(
  world: World,
  [name, partName]: readonly string[],
  settings: Settings,
): Promise<number> {
  const { job } = readJob(world, name!);
  if (job.machine.kind !== 'router')
    throw new CommandFailure(
      EXIT.usage,
      'explain reckons the hold-down on a router; this file is for a panel saw',
    );
  const racked = rackStock(world, name!, job, settings);
  const plan = await makePlan(world, name!, racked.job, settings);
  const lines =
    partName === undefined
      ? careLines(plan)
      : explainLines(plan, choosePiece(plan, partName, settings.piece));
  const paint = paintFor(world, settings);
  for (const { tone, text } of lines) world.out(`${paint(tone, text)}\n`);
  return exitCodeOf(plan, EXIT.done);
}

/** A message lists no more parts than a person would read. */
const MOST_NAMES = 20;

/** The index of the asked piece of a part, or of the one that is held worst. */
function choosePiece(plan: Plan, partName: string, number: string | undefined): number {
  const names = plan.job.parts.map((part) => part.name);
  if (!names.includes(partName)) {
    const close = nearest(partName, names);
    const list = [...new Set(names)].slice(0, MOST_NAMES).join(', ');
    const hint = close === null ? `; there are ${list}` : `; did you mean "${close}"?`;
    throw new CommandFailure(EXIT.usage, `there is no part "${partName}"${hint}`);
  }
  const held = plan.holding
    .flatMap((sheet) => sheet.loose)
    .filter((loose) => loose.kind === 'piece' && nameOf(plan, loose) === partName);
  const asked =
    number === undefined
      ? held.toSorted((a, b) => a.margin - b.margin)[0]
      : held.find((loose) => plan.job.pieces[loose.piece!]!.number === Number(number));
  if (asked === undefined) {
    const which = number === undefined ? '' : ` ${number}`;
    throw new CommandFailure(EXIT.usage, `no piece${which} of "${partName}" lies on a sheet`);
  }
  return asked.piece!;
}

function nameOf(plan: Plan, loose: Holding): string {
  return plan.job.parts[plan.job.pieces[loose.piece!]!.part]!.name;
}
