// What runs in the thread that `main.ts` starts: the command, from its words to its exit code.
import process from 'node:process';
import { parentPort, workerData } from 'node:worker_threads';
import { run } from './run.ts';
import { countOf, type Stops, setStage, stageOf } from './stops.ts';
import type { Surroundings } from './world.ts';

export interface CommandSetup {
  readonly argv: readonly string[];
  readonly stops: Stops;
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
}

export type CommandMessage =
  | { readonly kind: 'out'; readonly text: string }
  | { readonly kind: 'err'; readonly text: string }
  | { readonly kind: 'end'; readonly code: number };

const { argv, stops, outIsTerminal, errIsTerminal }: CommandSetup = workerData;
const listeners = new Set<() => void>();
const port = parentPort!;

port.on('message', () => {
  for (const listener of listeners) listener();
});

const world: Surroundings = {
  cwd: process.cwd(),
  env: process.env,
  out: (text) => send({ kind: 'out', text }),
  err: (text) => send({ kind: 'err', text }),
  outIsTerminal,
  errIsTerminal,
  now: () => Date.now(),
  hasThreads: true,
  onInterrupt: (listener) => {
    listeners.add(listener);
    if (stageOf(stops) === 'idle') setStage(stops, 'listening');
    return () => void listeners.delete(listener);
  },
  interrupts: () => countOf(stops),
  guard: (act) => {
    const before = stageOf(stops);
    setStage(stops, 'guarded');
    try {
      return act();
    } finally {
      setStage(stops, before);
    }
  },
};

send({ kind: 'end', code: await run(argv, world) });
port.close();

function send(message: CommandMessage): void {
  port.postMessage(message);
}
