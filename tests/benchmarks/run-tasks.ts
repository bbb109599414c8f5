import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Measured, Task } from './benchmark.ts';
import { BENCHMARKS } from './benchmarks.ts';
import type { Request } from './request.ts';

export interface Runs {
  readonly request: Request;
  readonly root: string;
  readonly tasks: readonly Task[];
}

export type Done = (task: Task, measured: Measured) => void;

/** Runs all tasks, here or in as many processes as asked for; each result is handed over at once. */
export async function runTasks(runs: Runs, done: Done): Promise<void> {
  const { request, root, tasks } = runs;
  const { ownProcess, measure } = BENCHMARKS[request.benchmark];
  if (ownProcess) {
    for (const task of tasks) await runInChild(runs, [task], done);
  } else if (request.jobs === 1) {
    const run = measure(request.file, root);
    for (const task of tasks) done(task, await run(task));
  } else {
    // All take from one queue, so that a few slow instances hold up no process.
    const queue = [...tasks];
    await Promise.all(Array.from({ length: request.jobs }, () => runInChild(runs, queue, done)));
  }
}

async function runInChild({ request, root }: Runs, queue: Task[], done: Done): Promise<void> {
  const path = fileURLToPath(new URL('./worker.js', import.meta.url));
  const { benchmark, file } = request;
  const child = fork(path, [benchmark, root, ...(file === null ? [] : [file])]);
  for (let task = queue.shift(); task !== undefined; task = queue.shift())
    done(task, await answerOf(child, task));
  child.disconnect();
}

function answerOf(child: ChildProcess, task: Task): Promise<Measured> {
  return new Promise((resolve, reject) => {
    const ended = () => reject(new Error(`the process of ${task.instance} ended early`));
    child.once('exit', ended);
    child.once('message', (measured: Measured) => {
      child.off('exit', ended);
      resolve(measured);
    });
    child.send(task);
  });
}
