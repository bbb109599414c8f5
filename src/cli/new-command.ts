import { starterFile } from '../index.ts';
import { writeNew } from './new-file.ts';
import type { Settings } from './options.ts';
import { EXIT, type World } from './world.ts';

export async function newCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  writeNew(world, name!, starterFile(settings.unit as 'mm' | 'in'));
  world.out(`Wrote ${name}. Next: holdfast plan ${name}\n`);
  return EXIT.done;
}
