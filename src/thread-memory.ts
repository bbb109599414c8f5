import type { ResourceLimits as ThreadLimits } from 'node:worker_threads';
import { RESOURCE_LIMITS } from './model/resource-limits.ts';

/** Less than this no thread starts with. */
const LEAST_MB = 64;

/**
 * What a thread that runs a command may keep in memory. A thread is given it when it starts, before the command reads its options: what `--limit` says of it
 * is read here on its own, and what is wrong there the command says. It also keeps the thread from letting garbage lie as long as the machine has room.
 */
export function threadMemory(words: readonly string[]): ThreadLimits {
  const { usual, most } = RESOURCE_LIMITS.memory;
  const given = words.map((word) => /(?:^|[=,])\s*memory\s*=\s*(\d+)/.exec(word)?.[1]);
  const askedMb = Number(given.find((value) => value !== undefined) ?? usual);
  return { maxOldGenerationSizeMb: Math.min(most, Math.max(LEAST_MB, askedMb)) };
}

/** What is said where a thread ran out of it; null where something else went wrong. */
export function memoryFault(
  error: unknown,
  { maxOldGenerationSizeMb }: ThreadLimits,
): string | null {
  const { code } = error as NodeJS.ErrnoException;
  if (code !== 'ERR_WORKER_OUT_OF_MEMORY' || maxOldGenerationSizeMb === undefined) return null;
  const { most } = RESOURCE_LIMITS.memory;
  const more = Math.min(most, 2 * maxOldGenerationSizeMb);
  const way = more > maxOldGenerationSizeMb ? `, or raise the limit: --limit memory=${more}` : '';
  return `this job takes more memory than the ${maxOldGenerationSizeMb} MB it may: split the file${way}`;
}
