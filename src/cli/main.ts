import process from 'node:process';
import { Worker } from 'node:worker_threads';
import { memoryFault, threadMemory } from '../thread-memory.ts';
import type { CommandMessage, CommandSetup } from './command-thread.ts';
import { diskReason, isRefusal } from './disk-reason.ts';
import { outletOf } from './outlets.ts';
import { countOf, countOne, newStops, type Stops, stageOf } from './stops.ts';
import { EXIT } from './world.ts';

/** As many signals end the process even where files are being written. */
const AT_ANY_RATE = 3;

/**
 * Runs the command of this process and sets its exit code. The command has a thread of its own, so that this one hears every signal at once, whatever is being
 * reckoned: nothing but listening and printing is done here.
 */
export function main(): void {
  const err = outletOf(process.stderr, () => {});
  const out = outletOf(process.stdout, (reason) =>
    err.write(`holdfast: cannot write to standard output: ${reason}\n`),
  );
  const stops = newStops();
  const setup: CommandSetup = {
    argv: process.argv.slice(2),
    stops,
    outIsTerminal: process.stdout.isTTY === true,
    errIsTerminal: process.stderr.isTTY === true,
  };
  const resourceLimits = threadMemory(setup.argv);
  const thread = new Worker(new URL('./command-thread.js', import.meta.url), {
    workerData: setup,
    resourceLimits,
  });
  let code: number = EXIT.ours;
  thread.on('message', (message: CommandMessage) => {
    if (message.kind === 'out') out.write(message.text);
    else if (message.kind === 'err') err.write(message.text);
    else code = message.code;
  });
  thread.on('error', (error: NodeJS.ErrnoException) => {
    const fault = memoryFault(error, resourceLimits);
    if (fault !== null) code = EXIT.usage;
    else if (isRefusal(error)) code = EXIT.disk;
    err.write(`holdfast: ${fault ?? lossOf(error)}\n`);
  });
  const clear = setup.errIsTerminal ? '\r\u001b[K' : '';
  hear(stops, {
    first: () => thread.postMessage('stop'),
    say: (text) => err.write(`${clear}holdfast: ${text}\n`),
  });
  process.on('exit', () => {
    if (process.exitCode === EXIT.interrupted) return;
    const hasFailed = out.hasFailed() || err.hasFailed();
    process.exitCode = lastCode(code, countOf(stops) > 0, hasFailed);
  });
}

/** Ctrl-C, what a system ends programs with, and a terminal that is closed mean the same. */
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

interface Heard {
  /** Once, where the command can make something of it. */
  readonly first: () => void;
  readonly say: (text: string) => void;
}

function hear(stops: Stops, { first, say }: Heard): void {
  const onSignal = () => {
    const count = countOne(stops);
    const stage = stageOf(stops);
    if (stage === 'listening' && count === 1) {
      say('stopping with the best found so far; once more ends at once');
      first();
    } else if (stage !== 'guarded' || count >= AT_ANY_RATE) {
      say('stopped at once');
      process.exit(EXIT.interrupted);
    }
  };
  for (const signal of SIGNALS) process.on(signal, onSignal);
}

/** How the process ends: whoever stops it is told so, and a result that could not be printed is none. */
function lastCode(code: number, wasStopped: boolean, hasFailed: boolean): number {
  if (code > EXIT.usage) return code;
  if (wasStopped) return EXIT.interrupted;
  return hasFailed ? EXIT.disk : code;
}

function lossOf(error: NodeJS.ErrnoException): string {
  const { message, path } = error;
  if (isRefusal(error)) return `cannot read ${path ?? 'its own files'}: ${diskReason(error)}`;
  return `this is a mistake in holdfast, not in your file. ${message}`;
}
