import { statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { readWithHash } from './read-job.ts';
import type { World } from './world.ts';
import { finishMoving } from './write-files.ts';

export interface PlanText {
  /** Of the record itself, for messages. */
  readonly file: string;
  readonly text: string;
  readonly sha256: string;
}

/** The record of a plan by its own name or that of its folder, in which an interrupted write is completed first. Throws `CommandFailure` only where the disk says no. */
export function readPlanText(world: World, name: string): PlanText {
  const path = resolve(world.cwd, name);
  const isWhole = isFolder(path);
  if (isWhole) finishMoving(path);
  const file = isWhole ? join(name, 'plan.json') : name;
  return { file, ...readWithHash(world, file) };
}

export function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}
