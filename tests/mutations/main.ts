import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { globSync } from 'tinyglobby';
import { commitOf } from '../benchmarks/commit.ts';
import { markdownTable } from '../benchmarks/table.ts';
import { drawn, FOLDERS, folderOf, rankedBy } from './draw.ts';
import { type Fault, faultsOf, keyOf } from './faults.ts';
import { digestOf, type ImportGraph, importGraph } from './import-graph.ts';
import { copyProject, withFaults, wrongFiles } from './project-copy.ts';
import { changeOf, fateOf, sameOf, type Tried, tablesOf } from './report.ts';
import { parseRequest, type Request } from './request.ts';
import { openRows, type Row, type Rows } from './rows.ts';
import { runTests } from './run-tests.ts';
import { testOrder } from './test-order.ts';

/** What all steps look at: the project, the copy that gets the faults, and what is known. */
interface Setting {
  readonly root: string;
  readonly copy: string;
  readonly texts: ReadonlyMap<string, string>;
  readonly graph: ImportGraph;
  readonly digests: ReadonlyMap<string, string>;
  readonly rows: Rows;
  readonly near: boolean;
  /** Tests that do not pass without a fault either; they are left out. */
  readonly unsound: Set<string>;
}

type Numbered = Omit<Tried, 'caught'>;

/** A test may take so many times as long as without a fault, and so many seconds more, before it counts as caught. */
const TIMES_AS_LONG = 10;
const SECONDS_MORE = 20;
const UNKNOWN_LIMIT = 60;

/** So many tests are run at first, then twice as many each time. */
const FIRST_BATCH = 3;

/** Runs one command line; `root` is the project's folder. Gives the exit code: 1 where a fault survived that is not known to change nothing. */
export async function main(argv: readonly string[], root: string): Promise<number> {
  const request = parseRequest(argv, print);
  if (typeof request === 'number') return request;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => process.exit(130));
  const setting = settingOf(root, request);
  const { numbered, unfit } = await drawAll(setting, request);
  const selected = numbered.filter((each) => isAsked(each, request));
  if (selected.length === 0) {
    print('no fault is selected\n');
    return 1;
  }
  if (request.list) {
    for (const each of selected) print(`${lineOf(each)}\n`);
    return 0;
  }
  const tried: Tried[] = [];
  for (const { number, fault } of selected) {
    const caught = sameOf(fault) === null ? await tryFault(setting, fault) : null;
    tried.push({ number, fault, caught });
    print(`${lineOf({ number, fault })}: ${fateOf(fault, caught)}\n`);
  }
  const tables = tablesOf(tried, unfit).map(markdownTable);
  print(`\n${tables[0]}\n`);
  if (request.only.length === 0 && !request.near) writeReport(root, request, tables);
  return tried.every((each) => !fateOf(each.fault, each.caught).startsWith('SURVIVED')) ? 0 : 1;
}

function settingOf(root: string, { fresh, near }: Request): Setting {
  const files = globSync(['src/**/*.ts', 'tests/**/*.ts'], { cwd: root }).sort();
  const texts = new Map(files.map((file) => [file, readFileSync(join(root, file), 'utf8')]));
  const graph = importGraph(texts);
  const rows = openRows(join(resultsFolder(root), 'rows', 'rows.jsonl'), fresh);
  const digests = new Map(files.map((file) => [file, digestOf(graph, texts, file)]));
  return { root, copy: copyProject(root), texts, graph, digests, rows, near, unsound: new Set() };
}

/** Draws the faults of all folders and numbers them; one that the types catch gives its turn to the next. */
async function drawAll(setting: Setting, { seed, each }: Request) {
  const { texts } = setting;
  const ranked = FOLDERS.map((folder) => {
    const all = [...texts].filter(([file]) => folderOf(file) === folder);
    return rankedBy(
      seed,
      all.flatMap(([file, text]) => faultsOf(file, text)),
    );
  });
  for (;;) {
    const found = ranked.map((faults) =>
      drawn(faults, each, (fault) => typesOf(setting, fault) === 'types broken'),
    );
    const faults = found.flatMap((of) => of.faults);
    const unknown = faults.filter((fault) => typesOf(setting, fault) === null);
    if (unknown.length === 0)
      return {
        numbered: faults.map((fault, k) => ({ number: k + 1, fault })),
        unfit: found.flatMap((of) => of.unfit),
      };
    await askTypes(setting, unknown);
  }
}

function typesOf({ digests, rows }: Setting, fault: Fault): Row['outcome'] | null {
  return rows.get(keyOf(fault), fault.file, digests.get(fault.file)!)?.outcome ?? null;
}

/** Lets the compiler look at faults of as many files all at once. It is sure of those in whose files it finds something, and of all where it finds nothing. */
async function askTypes(setting: Setting, faults: readonly Fault[]): Promise<void> {
  const { copy, texts, digests, rows } = setting;
  const wrong = await withFaults(copy, faults, texts, () => wrongFiles(copy));
  const broken = faults.filter(({ file }) => wrong.includes(file));
  // Something is found only where the file is used: then each for itself.
  if (wrong.length > 0 && broken.length === 0) {
    if (faults.length > 1) for (const fault of faults) await askTypes(setting, [fault]);
    else broken.push(...faults);
  }
  const sure = wrong.length === 0 ? faults : broken;
  const outcome = wrong.length === 0 ? 'types hold' : 'types broken';
  for (const fault of sure) {
    const { file } = fault;
    rows.add({
      fault: keyOf(fault),
      file,
      digest: digests.get(file)!,
      outcome,
      test: null,
      seconds: 0,
    });
  }
}

function isAsked({ number, fault }: Numbered, { only }: Request): boolean {
  return (
    only.length === 0 || only.some((each) => each === `${number}` || fault.file.startsWith(each))
  );
}

/** Tries a fault on the tests that reach it, a few at a time, until one does not pass. */
async function tryFault(setting: Setting, fault: Fault): Promise<Row | null> {
  const { copy, texts, rows } = setting;
  const key = keyOf(fault);
  const { caught, due } = knownOf(setting, fault);
  for (let size = FIRST_BATCH; caught === null && due.length > 0; size *= 2) {
    const batch = due.splice(0, size);
    const verdict = await withFaults(copy, [fault], texts, () => verdictOf(setting, key, batch));
    if (verdict === null) continue;
    const { file, outcome } = verdict;
    const after = batch.slice(batch.indexOf(file) + 1);
    const isSound = await passesSound(setting, file);
    const isLate = outcome === 'late' && verdict.seconds < limitOf(setting, file);
    if (isSound && !isLate) {
      rows.add(verdict);
      return verdict;
    }
    due.unshift(...(isSound ? [file] : []), ...after);
  }
  return caught;
}

/** What earlier runs tell of a fault, and the tests that are still to be run: what caught it last comes first. */
function knownOf({ graph, digests, rows, near, unsound }: Setting, fault: Fault) {
  const key = keyOf(fault);
  const all = testOrder(graph, fault.file, (test) => rows.lastSeconds(test));
  const tests = all.filter(({ isNear }) => isNear || !near).map(({ test }) => test);
  const known = tests.map((test) => rows.get(key, test, digests.get(test)!));
  const last = rows.lastCatcher(key);
  const due = tests.filter((test, k) => known[k] === null && !unsound.has(test));
  due.sort((a, b) => Number(b === last) - Number(a === last));
  return { caught: known.find((row) => row !== null && row.outcome !== 'passed') ?? null, due };
}

/** Whether a test passes without a fault: only then does it say anything that it does not with one. */
async function passesSound(setting: Setting, test: string): Promise<boolean> {
  const { digests, rows } = setting;
  if (rows.get('', test, digests.get(test)!) !== null) return true;
  const failed = await verdictOf(setting, '', [test]);
  if (failed === null) return true;
  print(`${test} does not pass without a fault: ${failed.test}\n`);
  setting.unsound.add(test);
  return false;
}

/** The first verdict that is no pass; passes are kept. */
async function verdictOf(setting: Setting, fault: string, tests: readonly string[]) {
  const { copy, digests, rows } = setting;
  const files = tests.map((file) => ({ file, limit: limitOf(setting, file) }));
  let caught: Row | null = null;
  await runTests({ root: copy, files }, (verdict) => {
    const row = { ...verdict, fault, digest: digests.get(verdict.file)! };
    if (row.outcome === 'passed') rows.add(row);
    else caught = row;
  });
  return caught as Row | null;
}

/** What a test takes without a fault is first measured where it fails with one. */
function limitOf({ rows, digests }: Setting, file: string): number {
  const sound = rows.get('', file, digests.get(file)!);
  return sound === null ? UNKNOWN_LIMIT : TIMES_AS_LONG * sound.seconds + SECONDS_MORE;
}

function writeReport(root: string, { seed }: Request, tables: readonly string[]): void {
  const path = join(resultsFolder(root), `seed-${seed}.md`);
  mkdirSync(dirname(path), { recursive: true });
  const title = `# Faults of seed ${seed}\n\nCommit ${commitOf(root)}.`;
  writeFileSync(path, `${[title, ...tables].join('\n\n')}\n`);
  print(`Written to ${relative(root, path)}\n`);
}

function resultsFolder(root: string): string {
  return join(root, 'tests', 'mutations', 'results');
}

function lineOf({ number, fault }: Numbered): string {
  return `${number}. ${fault.file}:${fault.line}: ${changeOf(fault)}`;
}

function print(text: string): void {
  process.stdout.write(text);
}
