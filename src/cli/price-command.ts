import { priceCsv, priceLines, priceRecord, unplacedCount, wrap } from '../index.ts';
import { compareCommand } from './compare-command.ts';
import { exitCodeOf, makePlan } from './make-plan.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { rackStock } from './rack-stock.ts';
import { readJob } from './read-job.ts';
import { EXIT, type World } from './world.ts';

export async function priceCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  if (settings.variants !== undefined) return compareCommand(world, [name!], settings);
  const parts = readJob(world, name!);
  const { job, notes } = rackStock(world, name!, parts.job, settings);
  const plan = await makePlan(world, name!, job, settings);
  if (settings.format === 'json') world.out(priceRecord(plan, parts.sha256));
  else if (settings.format === 'csv') world.out(priceCsv(plan));
  else {
    const paint = paintFor(world, settings);
    for (const { tone, text } of priceLines(plan)) world.out(`${paint(tone, text)}\n`);
    for (const note of notes(plan))
      for (const { text } of wrap('plain', note, '  ')) world.out(`${text}\n`);
    if (parts.variants.length > 0) {
      const count = `${parts.variants.length} ${parts.variants.length === 1 ? 'variant' : 'variants'}`;
      world.out(
        paint('quiet', `\nThe file has ${count}: price --variants sets them side by side.\n`),
      );
    }
  }
  const isShort = plan.layouts.some((layout) => unplacedCount(layout) > 0);
  return exitCodeOf(plan, isShort ? EXIT.failed : EXIT.done);
}
