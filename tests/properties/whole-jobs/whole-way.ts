import { createHash } from 'node:crypto';
import { parse } from 'yaml';
import {
  addPlan,
  emptyRack,
  type Job,
  type Plan,
  planDrifts,
  planJob,
  planRecord,
  readPartsFile,
  readPlanRecord,
  readRack,
  readRecord,
  recheck,
  withRack,
} from '../../../src/index.ts';
import { packingTask } from '../../../src/packing/bodies.ts';
import { type Packing, type PackOptions, searchStages } from '../../../src/packing/pack.ts';
import { runTurn } from '../../../src/packing/turns.ts';
import type { Problem } from '../../../src/partsfile/problem.ts';
import { verifyLayout } from '../../../src/verify/verify.ts';
import { libraryFaults } from '../../benchmarks/library-check.ts';
import { faultsOfBoards } from '../../packing-boards/legal.ts';
import { outputFaults, type Slow } from './outputs-check.ts';
import { NO_WORD, problemFaults } from './problem-check.ts';
import type { RandomFile } from './random-file.ts';
import { recordFaults } from './record-check.ts';

/** How far a job is carried. */
export interface Way {
  /** Units of work of each track of the search of a material. */
  readonly work: number;
  readonly slow: Slow;
  /** Whether it is planned once more, for the same record. */
  readonly twice: boolean;
}

/** What came of a whole job. */
export interface Arrived {
  /** Codes of what keeps the file from being planned; none where there is a plan. */
  readonly problems: readonly string[];
  readonly pieces: number;
  readonly unplaced: number;
  readonly sheets: number;
  readonly boards: number;
  /** Everything that must not be; also what was thrown. */
  readonly faults: readonly string[];
}

const NOWHERE: Arrived = { problems: [], pieces: 0, unplaced: 0, sheets: 0, boards: 0, faults: [] };

/** From the text of a parts file to all that is written of its plan, and back from the record; each step is checked, and nothing is thrown. */
export async function wholeWay(file: RandomFile, way: Way): Promise<Arrived> {
  try {
    return await carried(file, way);
  } catch (error) {
    const { name, message, stack = '' } = error as Error;
    const [, at = ''] = stack.split('\n').filter((line) => /^\s+at /.test(line));
    return { ...NOWHERE, faults: [`${name}: ${message} ${at.trim()}`] };
  }
}

async function carried(file: RandomFile, way: Way): Promise<Arrived> {
  const { text, rack } = file;
  const read = () => readPartsFile(text, (path) => drawingOf(file, path));
  const { job: own, variants, problems } = read();
  const faults = problemFaults(problems, text);
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (own === null) {
    if (errors.length === 0) faults.push('there is neither a job nor a problem');
    return { ...NOWHERE, problems: codesOf(errors), faults };
  }
  if (errors.length > 0) faults.push(`there is a job in spite of ${codesOf(errors)}`);
  const racked = (job: Job, labels: readonly string[] | null = null) =>
    rack === null ? job : onRack(job, { text: rack, labels }, faults);
  const arrived = await planned({
    file,
    job: racked(own),
    again: () => racked(read().job!),
    forRecheck: (labels) => racked(read().job!, labels),
    way,
  });
  for (const [k, { name, job }] of variants.entries()) {
    const again = () => read().variants[k]!.job;
    const { faults: more } = await planned({ file, job, again, forRecheck: again, way });
    faults.push(...more.map((fault) => `variant ${name}: ${fault}`));
  }
  return { ...arrived, faults: [...faults, ...arrived.faults] };
}

function drawingOf({ drawings }: RandomFile, path: string) {
  const text = drawings.get(path);
  return text === undefined
    ? ({ ok: false, reason: 'missing', detail: '' } as const)
    : ({ ok: true, text, sha256: sha256Of(text) } as const);
}

interface OnRack {
  readonly text: string;
  /** Only these, used or not; null for all that are not used. */
  readonly labels: readonly string[] | null;
}

function onRack(job: Job, { text, labels }: OnRack, faults: string[]): Job {
  const { rack, problems } = readRack(text);
  if (rack === null) {
    faults.push(`the rack: ${problems[0]?.message}`);
    return job;
  }
  const entries = rack.entries
    .filter(({ id }) => labels === null || labels.includes(id))
    .map((entry) => (labels === null ? entry : { ...entry, used: null }));
  const racked = withRack(job, { ...rack, entries });
  // Money in another currency is a matter between two files.
  return racked.problems.length > 0 ? job : racked.job;
}

interface Planning {
  readonly file: RandomFile;
  readonly job: Job;
  /** The same job, read once more; and with offcuts of these labels only. */
  readonly again: () => Job;
  readonly forRecheck: (labels: readonly string[]) => Job;
  readonly way: Way;
}

async function planned({ file, job, again, forRecheck, way }: Planning): Promise<Arrived> {
  const { plan, problems } = await planOf(job, way);
  if (plan === null)
    return { ...NOWHERE, problems: codesOf(problems), faults: problemFaults(problems, file.text) };
  const sha256 = sha256Of(file.text);
  const record = planRecord(plan, sha256);
  const faults = [
    ...layoutFaults(plan),
    ...recordFaults(JSON.parse(record), askedIn(file.text), stagesOf(job)),
    ...driftFaults(plan, record),
    ...rackFaults(job, record),
    ...recheckFaults(forRecheck, record, sha256),
    ...(await outputFaults(plan, sha256, way.slow)),
  ];
  if (way.twice) {
    const { plan: second } = await planOf(again(), way);
    if (second === null || planRecord(second, sha256) !== record)
      faults.push('the same job twice gives two records');
  }
  const sheets = plan.layouts.flatMap((layout) => layout.sheets);
  const boards = plan.layouts.flatMap((layout) => layout.boards);
  return {
    problems: [],
    pieces: [...sheets.flatMap(({ placements }) => placements), ...boards.flatMap((b) => b.pieces)]
      .length,
    unplaced: plan.layouts.reduce(
      (sum, { unplaced, unplacedLengths }) =>
        unplacedLengths.reduce((more, { count }) => more + count, sum + unplaced.length),
      0,
    ),
    sheets: sheets.length,
    boards: boards.length,
    faults,
  };
}

/** How often the search for boards is let go on; it asks as it counts its work, so it ends at the same step everywhere. */
const BOARD_STEPS = 20;

function planOf(job: Job, { work }: Way) {
  let asked = 0;
  return planJob(
    job,
    { effort: 'quick', seed: 1, seconds: null },
    {
      pack: (own, material, options) => packLittle(own, material, options, work),
      stopCause: () => (++asked > BOARD_STEPS ? 'time' : null),
      onProgress: () => {},
    },
  );
}

/** The search of the product with an amount of work in place of an effort. */
function packLittle(job: Job, material: number, { seed }: PackOptions, work: number): Packing {
  const task = packingTask(job, material);
  const watch = { shouldStop: () => false, report: () => {} };
  const search = searchStages(task, { seed, works: [work], restsAtBound: true });
  let step = search.next();
  while (!step.done) step = search.next(step.value.map((turn) => runTurn(task, turn, watch)));
  return step.value;
}

function layoutFaults({ job, layouts }: Plan): string[] {
  return layouts.flatMap((layout) => [
    ...verifyLayout(job, layout).faults.map(({ message }) => message),
    ...libraryFaults(job, layout),
    ...faultsOfBoards(job, layout),
    ...job.materials[layout.material]!.sheets.flatMap(({ onHand, name }, k) => {
      const used = layout.sheets.filter(({ stock }) => stock === k).length;
      return onHand === null || used <= onHand ? [] : [`${used} sheets of ${name}`];
    }),
  ]);
}

/** How many pieces of each name the text asks for to be laid out, without the reader of the product. */
function askedIn(text: string): ReadonlyMap<string, number> {
  const { materials, parts } = parse(text) as {
    readonly materials: Readonly<Record<string, { readonly lumber?: object }>>;
    readonly parts: readonly {
      readonly name: string;
      readonly material: string;
      readonly count?: number;
      readonly matched?: readonly unknown[];
    }[];
  };
  return new Map(
    parts
      .filter(({ material }) => materials[material]?.lumber === undefined)
      .map(({ name, count = 1, matched = [0] }) => [String(name), count * matched.length]),
  );
}

function stagesOf({ machine }: Job): number | null {
  return machine.kind === 'router' ? null : machine.stages;
}

/** A plan never differs from its own record; that a search was stopped is told of any. */
function driftFaults(plan: Plan, text: string): string[] {
  const drifts = planDrifts(plan, text);
  if ('fault' in drifts) return [drifts.fault];
  return drifts.filter(({ kind }) => kind !== 'search').map((drift) => JSON.stringify(drift));
}

/** What the plan leaves goes onto a rack, which then reads. */
function rackFaults(job: Job, text: string): string[] {
  const record = readPlanRecord(text);
  if ('fault' in record) return [`for the rack: ${record.fault}`];
  const before = emptyRack(job.unit);
  const { rack } = readRack(before);
  const kept = addPlan(
    { text: before, rack: rack! },
    { record, sha256: sha256Of(text), date: null },
  );
  if (!kept.ok) return [`onto the rack: ${kept.said}`];
  return kept.text === null || readRack(kept.text).rack !== null ? [] : ['the rack does not read'];
}

/** What `verify` says of the record as it lies on the disk. */
function recheckFaults(
  job: (labels: readonly string[]) => Job,
  text: string,
  sha256: string,
): string[] {
  const { plan: record, faults } = readRecord(text);
  if (record === null) return faults.map(({ path, message }) => `the record: ${path} ${message}`);
  const sheets = record.materials.flatMap((material) => material.sheets);
  const checked = recheck(job(sheets.flatMap(({ rack }) => rack ?? [])), record, sha256);
  return [
    ...checked.faults.map(({ code, path, message }) => `recheck ${code} ${path}: ${message}`),
    ...(checked.isReckoned ? [] : ['what follows from the record was not reckoned']),
    ...(NO_WORD.test(text) ? ['the record has words that are none'] : []),
  ];
}

function codesOf(problems: readonly Problem[]): readonly string[] {
  return [...new Set(problems.map(({ code }) => code))];
}

function sha256Of(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}
