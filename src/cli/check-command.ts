import { dirname, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  checkLines,
  checkRecord,
  checkSarif,
  isPassed,
  type Line,
  unplannedLines,
  wrap,
} from '../index.ts';
import { BESIDE, checkFile, type FileCheck, notPlanned } from './check-file.ts';
import { diskReason } from './disk-reason.ts';
import { expectFolder, replaceFile } from './flush.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { isPattern, partsNames } from './parts-names.ts';
import { printProblems } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export const CHECK_HELP = `Limits of a parts file: sheets, yield, cost, holding, proof, time, weight, drift.
Patterns such as 'jobs/**/*.yaml' are taken by holdfast itself: write them in
quotation marks. Racks and files of readings that one finds are passed over.
Against a plan, these fail: other stock, another cost, more or fewer pieces at
risk, a part that is new, gone, of another count, size, outline, material or
grain, or drilled or banded otherwise.
Proof, yield and the settings of the search are told but fail nothing. Where a
piece lies is not compared.
The exit code is the worst of all files: 130, 74, 2, 1, 0 in this order.
`;

/** The worst first: one code stands for all files. */
const WORST = [EXIT.interrupted, EXIT.disk, EXIT.usage, EXIT.failed, EXIT.done];

export async function checkCommand(
  world: World,
  words: readonly string[],
  settings: Settings,
): Promise<number> {
  const names = partsNames(world, words);
  const { against } = settings;
  if (names.length > 1 && against !== undefined && against !== BESIDE)
    throw new CommandFailure(
      EXIT.usage,
      `--against ${against} is one plan for ${names.length} files: write --against ${BESIDE}, or limits: { drift: … } in each of them`,
    );
  if (settings.sarif !== undefined) expectSarif(world, settings.sarif);
  const isList = names.length > 1 || words.some((word) => isPattern(world, word));
  const show = settings.format === 'text' ? textPrinter(world, settings, isList) : () => {};
  const checks = await checkAll(world, names, settings, show);
  const exitCode = WORST.find((code) => checks.some((check) => check.exitCode === code))!;
  if (settings.sarif !== undefined)
    writeSarif(world, settings.sarif, sarifOf(world, checks, exitCode));
  if (settings.format === 'text') printCount(world, settings, checks, isList);
  else printData(world, settings, checks, { isList, exitCode });
  return exitCode;
}

/**
 * Checks the files in turn, two side by side where there are several, each with a thread of its own; `show` gets them in their order, each as soon as all before
 * it are done. When the person wants to stop, what runs gives the best it has and no further file is begun.
 */
async function checkAll(
  world: World,
  names: readonly string[],
  settings: Settings,
  show: (check: FileCheck, index: number) => void,
): Promise<readonly FileCheck[]> {
  const stops = sharedStop(world);
  const isOne = names.length === 1;
  const own: World = {
    ...world,
    onInterrupt: stops.onInterrupt,
    errIsTerminal: isOne && world.errIsTerminal,
  };
  const ownSettings = isOne ? settings : { ...settings, workers: '1' };
  const checks: (FileCheck | undefined)[] = names.map(() => undefined);
  let shown = 0;
  const queue = names.entries();
  const work = async () => {
    for (const [i, name] of queue) {
      checks[i] = stops.isStopped() ? notReached(name) : await checkFile(own, name, ownSettings);
      for (let next = checks[shown]; next !== undefined; next = checks[shown]) show(next, shown++);
    }
  };
  const lanes = Array.from({ length: Number(settings.workers) }, () =>
    work().catch((error: unknown) => {
      stops.stop();
      throw error;
    }),
  );
  const ends = await Promise.allSettled(lanes);
  stops.deafen();
  for (const end of ends) if (end.status === 'rejected') throw end.reason;
  return checks.map((check) => check!);
}

function notReached(name: string): FileCheck {
  const failure = new CommandFailure(EXIT.interrupted, `${name}: stopped before it was checked`);
  return notPlanned(name, [], failure);
}

/** One listener for the signal, who tells all searches that run. */
function sharedStop(world: World) {
  const listeners = new Set<() => void>();
  let isStopped = false;
  const stop = () => {
    isStopped = true;
    for (const listener of listeners) listener();
  };
  const deafen = world.onInterrupt(stop);
  const onInterrupt: World['onInterrupt'] = (listener) => {
    listeners.add(listener);
    return () => void listeners.delete(listener);
  };
  return { isStopped: () => isStopped, stop, deafen, onInterrupt };
}

function textPrinter(
  world: World,
  settings: Settings,
  isList: boolean,
): (check: FileCheck, index: number) => void {
  const paint = paintFor(world, settings);
  const print = (lines: readonly Line[]) => {
    for (const { tone, text } of lines) world.out(`${paint(tone, text)}\n`);
  };
  return ({ checked, notes }, index) => {
    const { file, plan, problems, failure } = checked;
    if (isList) print([...(index === 0 ? [] : wrap('plain', '')), ...wrap('heading', file)]);
    for (const problem of problems) printProblems(world, problem.file, [problem]);
    if (failure !== null) world.err(`holdfast: ${failure}\n`);
    if (plan !== null) print(checkLines(file, plan, checked));
    else if (isList) print(unplannedLines(checked));
    for (const note of notes) print(wrap('plain', note, '  '));
  };
}

/** How it went with many files. */
function printCount(
  world: World,
  settings: Settings,
  checks: readonly FileCheck[],
  isList: boolean,
): void {
  if (!isList) return;
  const paint = paintFor(world, settings);
  const passed = checks.filter(({ checked }) => isPassed(checked)).length;
  const planned = checks.filter(({ checked }) => checked.plan !== null).length;
  const failed = planned - passed;
  const texts = [
    `${checks.length === 1 ? '1 file' : `${checks.length} files`}: ${passed} passed`,
    ...(failed > 0 ? [`${failed} failed`] : []),
    ...(planned < checks.length ? [`${checks.length - planned} not planned`] : []),
  ];
  const tone = passed === checks.length ? 'good' : 'bad';
  for (const { text } of wrap(tone, texts.join(', '))) world.out(`\n${paint(tone, text)}\n`);
}

function printData(
  world: World,
  { format }: Settings,
  checks: readonly FileCheck[],
  { isList, exitCode }: { readonly isList: boolean; readonly exitCode: number },
): void {
  const files = checks.map(({ checked }) => checked);
  for (const { failure } of files) if (failure !== null) world.err(`holdfast: ${failure}\n`);
  if (format === 'sarif') {
    world.out(sarifOf(world, checks, exitCode));
    return;
  }
  const record = isList
    ? {
        format: 'holdfast-checks/1',
        passed: files.every(isPassed),
        files: files.map((file) => checkRecord(file)),
      }
    : checkRecord(files[0]!);
  world.out(`${JSON.stringify(record, null, 1)}\n`);
}

function sarifOf(world: World, checks: readonly FileCheck[], exitCode: number): string {
  const files = checks.map(({ checked }) => checked);
  return checkSarif(files, exitCode, (file) => uriOf(world, file));
}

/** Fails before the checks are made where the file could not be written after them. */
function expectSarif(world: World, name: string): void {
  try {
    expectFolder(dirname(resolve(world.cwd, name)));
  } catch (error) {
    throw new CommandFailure(EXIT.disk, `cannot write ${name}: ${diskReason(error)}`);
  }
}

function writeSarif(world: World, name: string, text: string): void {
  try {
    world.guard(() => replaceFile(resolve(world.cwd, name), text));
  } catch (error) {
    throw new CommandFailure(EXIT.disk, `cannot write ${name}: ${diskReason(error)}`);
  }
}

/** Counted from the current folder; whole where another drive has no way there. */
function uriOf({ cwd }: World, file: string): string {
  const path = resolve(cwd, file);
  const way = relative(cwd, path);
  if (resolve(way) === way) return pathToFileURL(path).href;
  return way
    .split(sep)
    .map((step) => encodeURIComponent(step))
    .join('/');
}
