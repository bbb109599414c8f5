import { resolve } from 'node:path';
import { diskReason } from './disk-reason.ts';
import { writeThrough } from './flush.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** Writes a file that must not be there yet; `hint` is what to do where it is. Throws `CommandFailure` with the disk's reason, and then leaves nothing behind. */
export function writeNew(world: World, name: string, text: string, hint = ''): void {
  try {
    world.guard(() => writeThrough(resolve(world.cwd, name), text, 'wx'));
  } catch (error) {
    const isThere = (error as NodeJS.ErrnoException).code === 'EEXIST';
    const reason = isThere ? `it is there already and is left as it is${hint}` : diskReason(error);
    throw new CommandFailure(EXIT.disk, `cannot write ${name}: ${reason}`);
  }
}
