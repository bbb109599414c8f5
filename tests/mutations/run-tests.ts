import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface Asked {
  readonly root: string;
  readonly files: readonly { readonly file: string; readonly limit: number }[];
}

/** What one test file said: `ended` where the process broke down under it. */
export interface Verdict {
  readonly file: string;
  readonly outcome: 'passed' | 'failed' | 'late' | 'ended';
  /** The first test that failed. */
  readonly test: string | null;
  /** Of processor time. */
  readonly seconds: number;
}

/** What a fault may fill before it counts as caught. */
const MOST_MEGABYTES = 3000;

/** Runs test files in their order, in a process of their own, until one does not pass. */
export function runTests(asked: Asked, done: (verdict: Verdict) => void): Promise<void> {
  const path = fileURLToPath(new URL('./runner.js', import.meta.url));
  return new Promise((resolve, reject) => {
    const child = fork(path, {
      cwd: asked.root,
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
      execArgv: [`--max-old-space-size=${MOST_MEGABYTES}`],
    });
    const stop = () => child.kill('SIGKILL');
    // Before the folder goes that it works in.
    process.prependOnceListener('exit', stop);
    let said = '';
    let passed = 0;
    let caught = false;
    child.stderr?.on('data', (text) => {
      said += text;
    });
    child.on('message', (verdict: Verdict) => {
      if (caught) return;
      done(verdict);
      if (verdict.outcome === 'passed') passed += 1;
      else {
        caught = true;
        stop();
      }
    });
    child.on('exit', () => {
      process.off('exit', stop);
      const under = asked.files[passed];
      if (caught || under === undefined) resolve();
      // Before the first test, it is not the fault that ended it.
      else if (passed === 0 && !said.includes('heap')) reject(new Error(`no test ran\n${said}`));
      else {
        done({ file: under.file, outcome: 'ended', test: null, seconds: 0 });
        resolve();
      }
    });
    child.send(asked);
  });
}
