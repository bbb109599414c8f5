import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { starterFile } from '../index.ts';
import type { Settings } from './options.ts';
import { diskReason } from './read-file.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export async function newCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  try {
    const text = starterFile(settings.unit as 'mm' | 'in');
    writeFileSync(resolve(world.cwd, name!), text, { flag: 'wx' });
  } catch (error) {
    const exists = (error as NodeJS.ErrnoException).code === 'EEXIST';
    const reason = exists ? 'it is there already and is left as it is' : diskReason(error);
    throw new CommandFailure(EXIT.disk, `cannot write ${name}: ${reason}`);
  }
  world.out(`Wrote ${name}. Next: holdfast plan ${name}\n`);
  return EXIT.done;
}
