import { partsFileSchema } from '../index.ts';
import { EXIT, type World } from './world.ts';

export async function schemaCommand(world: World): Promise<number> {
  world.out(`${JSON.stringify(partsFileSchema(), null, 2)}\n`);
  return EXIT.done;
}
