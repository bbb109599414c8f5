import { statSync } from 'node:fs';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { type Checked, findingsOf, isPassed, type Job, type Plan, planDrifts } from '../index.ts';
import { isBelow } from './drawing-reader.ts';
import { exitCodeOf, tryPlan } from './make-plan.ts';
import type { Settings } from './options.ts';
import { otherKind } from './parts-names.ts';
import { rackStock } from './rack-stock.ts';
import { readParts, readWithHash } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** All of one file's check: what to print, and how it ends. */
export interface FileCheck {
  readonly checked: Checked;
  /** What is to be said of the rack. */
  readonly notes: readonly string[];
  readonly exitCode: number;
}

/** In place of a record: the one in the folder that `plan` writes to by itself. */
export const BESIDE = 'beside';

/** Checks one file. What keeps it from being checked is part of the result, so that others go on; throws only for our own mistakes. */
export async function checkFile(
  world: World,
  name: string,
  settings: Settings,
): Promise<FileCheck> {
  let problems: Checked['problems'] = [];
  try {
    const other = otherKind(world, name);
    if (other !== null) throw new CommandFailure(EXIT.usage, other);
    const parts = readParts(world, name);
    problems = parts.problems.map((problem) => ({ ...problem, file: name }));
    if (parts.job === null) return notPlanned(name, problems);
    const record = readRecord(world, name, parts.job, settings);
    const racked = rackStock(world, name, parts.job, settings);
    const result = await tryPlan(world, racked.job, settings);
    const found = result.problems.map((problem) => ({ ...problem, file: name }));
    if (result.plan === null) return notPlanned(name, [...problems, ...found]);
    const { plan } = result;
    const checked: Checked = {
      ...{ file: name, problems, plan, failure: null },
      ...findingsOf(plan),
      record: record === null ? null : comparison(plan, record),
    };
    const exitCode = exitCodeOf(plan, isPassed(checked) ? EXIT.done : EXIT.failed);
    return { checked, notes: racked.notes(plan), exitCode };
  } catch (error) {
    if (!(error instanceof CommandFailure)) throw error;
    const own = error.found?.problems ?? [];
    const all = [...problems, ...own.map((each) => ({ ...each, file: error.found!.file }))];
    return notPlanned(name, all, error);
  }
}

/** The result for a file with errors, or of which something else kept it from being checked. */
export function notPlanned(
  file: string,
  problems: Checked['problems'],
  failure: CommandFailure | null = null,
): FileCheck {
  const findings = { broken: [], unheld: [], record: null };
  return {
    checked: { file, problems, plan: null, ...findings, failure: failure?.message ?? null },
    notes: [],
    exitCode: failure?.exitCode ?? EXIT.usage,
  };
}

interface RecordText {
  readonly file: string;
  readonly text: string;
}

/** The record that a plan is held against, before the time is spent on the plan; null where it is held against none. */
function readRecord(world: World, name: string, job: Job, settings: Settings): RecordText | null {
  const file = givenRecord(world, name, settings) ?? namedRecord(world, name, job);
  if (file === null) return null;
  if (!isThere(resolve(world.cwd, file)))
    throw new CommandFailure(
      EXIT.disk,
      `${name}: there is no kept plan ${file} to compare with: holdfast plan makes one, with --out ${dirname(file)} in that folder`,
    );
  return { file, text: readWithHash(world, file).text };
}

function givenRecord(world: World, name: string, { against }: Settings): string | null {
  if (against === undefined) return null;
  if (against !== BESIDE) return inFolder(world, against);
  return join(dirname(name), `${basename(name, extname(name))}-plan`, 'plan.json');
}

/** As a rack, a record that a parts file names lies beside or below it. */
function namedRecord(world: World, name: string, { limits }: Job): string | null {
  if (limits.drift === null) return null;
  const folder = dirname(name);
  const file = inFolder(world, join(folder, limits.drift));
  const path = resolve(world.cwd, folder, limits.drift);
  if (isThere(path) && !isBelow(resolve(world.cwd, folder), path))
    throw new CommandFailure(
      EXIT.usage,
      `${name}: the record "${limits.drift}" is not beside or below the parts file; --against takes one from anywhere`,
    );
  return file;
}

function inFolder(world: World, name: string): string {
  const isFolder = statSync(resolve(world.cwd, name), { throwIfNoEntry: false })?.isDirectory();
  return isFolder === true ? join(name, 'plan.json') : name;
}

function isThere(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false }) !== undefined;
}

function comparison(plan: Plan, { file, text }: RecordText): Checked['record'] {
  const drifts = planDrifts(plan, text);
  if (!('fault' in drifts)) return { file, drifts };
  const where = drifts.fault === '' ? '' : ` (${drifts.fault})`;
  throw new CommandFailure(EXIT.usage, `${file} is no record of a plan${where}`);
}
