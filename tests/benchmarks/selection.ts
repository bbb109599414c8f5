import { seededRandom } from '../../src/packing/random.ts';
import type { Task } from './benchmark.ts';
import type { Request } from './request.ts';
import { lowerRow, type Rows } from './results.ts';

/** The instances that are asked for by name or group, and of those each so many-th. */
export function selectedOf(
  instances: readonly string[],
  { only, every }: Pick<Request, 'only' | 'every'>,
): string[] {
  const named = instances.filter(
    (name) =>
      only.length === 0 || only.some((group) => name === group || name.startsWith(`${group}_`)),
  );
  return named.filter((_, k) => k % every === 0);
}

/** A random `count` of the tasks of each variant that no lower effort has proved, in their order; rows of their own effort have no say, so that a stopped run draws the same. */
export function drawnOf(tasks: readonly Task[], rows: Rows, count: number): Task[] {
  const variants = [...new Set(tasks.map(({ variant }) => variant))];
  return variants.flatMap((variant) => {
    const open = tasks.filter((task) => task.variant === variant && !lowerRow(rows, task)?.proved);
    const random = seededRandom(open[0]?.seed ?? 1);
    const keys = new Map(open.map((task) => [task, random()]));
    const drawn = [...open].sort((a, b) => keys.get(a)! - keys.get(b)!).slice(0, count);
    return open.filter((task) => drawn.includes(task));
  });
}
