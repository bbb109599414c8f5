import { counted, gaugeLines, gaugeTable } from '../index.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { printProblems, readText } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export async function gaugeCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  const { readings, calibration, problems } = gaugeTable(readText(world, name!), world.limits);
  printProblems(world, name!, problems);
  if (readings === null) {
    const count = counted(problems.length, 'problem');
    throw new CommandFailure(EXIT.usage, `${name}: ${count}, nothing reckoned`);
  }
  const paint = paintFor(world, settings);
  for (const { tone, text } of gaugeLines(readings, calibration)) {
    world.out(`${paint(tone, text)}\n`);
  }
  return EXIT.done;
}
