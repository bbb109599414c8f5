import { join } from 'node:path';
import { createVitest, type TestModule } from 'vitest/node';
import type { Asked, Verdict } from './run-tests.ts';

const LOOK_EVERY_MS = 250;
const LONGEST_MS = 1_200_000;

/**
 * Runs test files one after the other in a thread of this process, until one fails, and sends a verdict for each.
 * The thread's seconds of processor time are counted here, so that a machine that is busy otherwise makes no test late.
 */
process.once('message', async ({ root, files }: Asked) => {
  const vitest = await createVitest('test', {
    root,
    config: join(root, 'tests', 'vitest.config.ts'),
    watch: false,
    pool: 'threads',
    maxWorkers: 1,
    bail: 1,
    // By the clock, which tells little on a machine that is busy otherwise.
    testTimeout: LONGEST_MS,
    hookTimeout: LONGEST_MS,
    reporters: [{}],
  });
  for (const { file, limit } of files) {
    const began = secondsUsed();
    const late = setInterval(() => {
      const seconds = secondsUsed() - began;
      if (seconds > limit) tell({ file, outcome: 'late', test: null, seconds });
    }, LOOK_EVERY_MS);
    const specification = vitest.getRootProject().createSpecification(join(root, file));
    const { testModules, unhandledErrors } = await vitest.runTestSpecifications([specification]);
    clearInterval(late);
    const seconds = secondsUsed() - began;
    const passed = unhandledErrors.length === 0 && testModules.every((each) => each.ok());
    const outcome = passed && testModules.length > 0 ? 'passed' : 'failed';
    tell({ file, outcome, test: outcome === 'passed' ? null : failing(testModules), seconds });
    if (outcome === 'failed') break;
  }
  process.disconnect();
});

function secondsUsed(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

function tell(verdict: Verdict): void {
  process.send?.(verdict);
}

function failing(modules: readonly TestModule[]): string | null {
  for (const each of modules)
    for (const { fullName } of each.children.allTests('failed')) return fullName;
  return null;
}
