import type { Task } from './benchmark.ts';
import { BENCHMARKS } from './benchmarks.ts';
import type { Name } from './request.ts';

// A process of its own: each message is a task, and each answer what came of it. It ends when the one who asks lets go of it.
const [name, root, file] = process.argv.slice(2) as [Name, string, string?];
const measure = BENCHMARKS[name].measure(file ?? null, root);
process.on('message', async (task: Task) => {
  // Where the one who asked is gone, the answer is of no use to anyone.
  process.send?.(await measure(task), undefined, undefined, () => {});
});
