// What runs in each thread that `workers.ts` starts: turns of a search, one after the other, as they are asked for.
import { parentPort, workerData } from 'node:worker_threads';
import { AssertionError, assert } from './geometry/assert.ts';
import type { Job } from './model/job.ts';
import { packingTask } from './packing/bodies.ts';
import type { PackingTask } from './packing/task.ts';
import { runTurn, type Turn, type TurnResult, type TurnWatch } from './packing/turns.ts';

export type WorkerRequest =
  | { readonly kind: 'material'; readonly job: Job; readonly material: number }
  | { readonly kind: 'turn'; readonly turn: Turn };

export type WorkerAnswer =
  | { readonly kind: 'ready' }
  | { readonly kind: 'report'; readonly used: number | null; readonly share: number }
  | { readonly kind: 'result'; readonly result: TurnResult }
  | {
      readonly kind: 'failure';
      readonly isAssertion: boolean;
      readonly message: string;
      readonly stack: string;
    };

const REPORT_EVERY_MS = 100;

const stop: Int32Array = workerData;
let task: PackingTask | null = null;

parentPort?.on('message', (request: WorkerRequest) => {
  try {
    if (request.kind === 'material') task = packingTask(request.job, request.material);
    else answer({ kind: 'result', result: resultOf(request.turn) });
  } catch (error) {
    const { message, stack = message } = error instanceof Error ? error : new Error(String(error));
    answer({ kind: 'failure', isAssertion: error instanceof AssertionError, message, stack });
  }
});
answer({ kind: 'ready' });

function resultOf(turn: Turn): TurnResult {
  assert(task !== null, 'a turn comes after its material');
  return runTurn(task, turn, {
    shouldStop: () => Atomics.load(stop, 0) !== 0,
    report: seldom((state) => answer({ kind: 'report', ...state })),
  });
}

/** Passes on about ten reports a second; the next one carries the least of those that were held back. */
function seldom(report: TurnWatch['report']): TurnWatch['report'] {
  let last = Number.NEGATIVE_INFINITY;
  let least: number | null = null;
  return ({ used, share }) => {
    if (used !== null) least = Math.min(used, least ?? used);
    if (performance.now() - last < REPORT_EVERY_MS) return;
    last = performance.now();
    report({ used: least, share });
  };
}

function answer(message: WorkerAnswer): void {
  parentPort?.postMessage(message);
}
