/**
 * What the thread that hears the signals and the one that runs the command know of each other. They share two numbers, so that neither waits for the other:
 * what a signal means just now, and how often one has come.
 */
export interface Stops {
  readonly cells: Int32Array;
}

/**
 * `idle`: there is nothing to save, a signal ends the command. `listening`: the first one is for the command, which makes the best of what it has.
 * `guarded`: files are being written, which ends by itself in a moment.
 */
export type Stage = 'idle' | 'listening' | 'guarded';

const STAGES: readonly Stage[] = ['idle', 'listening', 'guarded'];
const [STAGE, COUNT] = [0, 1];

export function newStops(): Stops {
  return { cells: new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT)) };
}

export function stageOf({ cells }: Stops): Stage {
  return STAGES[Atomics.load(cells, STAGE)]!;
}

export function setStage({ cells }: Stops, stage: Stage): void {
  Atomics.store(cells, STAGE, STAGES.indexOf(stage));
}

export function countOf({ cells }: Stops): number {
  return Atomics.load(cells, COUNT);
}

/** One more signal; gives how many have come. */
export function countOne({ cells }: Stops): number {
  return Atomics.add(cells, COUNT, 1) + 1;
}
