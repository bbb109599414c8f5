import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '../../src/packing/random.ts';
import {
  entriesIn,
  exitOf,
  faultOfPlan,
  faultOfRack,
  killAfter,
  LONG_PLANS,
  runOver,
  waitForNote,
  writeLongPlans,
} from '../rack/killed.ts';
import { smallRack } from '../rack/racks.ts';
import type { Benchmark, Report } from './benchmark.ts';
import { stopOnce, untroubledMs } from './kill-signal.ts';
import { percentile, sumOf } from './percentiles.ts';
import { seconds, type Table, whole } from './table.ts';

interface Figures {
  /** How many lines of work were done before the end. */
  readonly done: number;
  /** Whether the lock, or the note of a move, was left behind. */
  readonly wasHeld: boolean;
  /** From the last signal to the end, where there were signals. */
  readonly endMs: number | null;
}

const KILLS = 200;
const STOPS = 100;
const ADD = 'offcuts add --size 600x200 --material ply --thickness 18 --grain none'.split(' ');

const KINDS = ['rack', 'plan', 'moving', 'signal'];

/** Runs that are killed without warning at moments drawn at random: what they leave is the old or the new state, and the next run works. */
export const kill: Benchmark<Figures> = {
  variants: KINDS,
  variantsOf: () => (name) => KINDS.filter((kind) => kind !== 'signal' || Number(name) <= STOPS),
  ownProcess: false,
  instances: () => Array.from({ length: KILLS }, (_, k) => String(k + 1)),
  measure: (_, root) => {
    spawnSync(process.execPath, [join(root, 'bin', 'prepare.js')], { stdio: 'inherit' });
    const wholes = wholePlans(root);
    const wholeMs = inFolder((folder) => untroubledMs(root, folder));
    return async (task) => {
      const folder = mkdtempSync(join(tmpdir(), 'holdfast-kill-'));
      const random = seededRandom(1000 * task.seed + Number(task.instance));
      try {
        if (task.variant === 'signal') return await stopRun(root, folder, { random, wholeMs });
        if (task.variant === 'moving') return await killMoving(root, folder, random);
        return task.variant === 'rack'
          ? await killRack(root, folder, random)
          : await killPlan(root, folder, { random, wholes });
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    };
  },
  tables: (report) => [killTable(report)],
};

/** Two runs add to one rack, and both are killed. */
async function killRack(root: string, folder: string, random: () => number) {
  writeFileSync(join(folder, 'rack.yaml'), smallRack());
  const runs = [0, 1].map(() => runOver(root, folder, { lines: [ADD], times: 1000 }));
  const all = await Promise.all(runs.map((run) => killAfter(run, 80 * random())));
  const done = sumOf(all);
  const wasHeld = readdirSync(folder).some((name) => name.includes('.lock'));
  let faults = faultOfRack(folder, 2 + done) === null ? 0 : 1;
  const before = entriesIn(folder);
  const code = await exitOf(runOver(root, folder, { lines: [ADD], times: 1 }));
  if (code !== 0 || faultOfRack(folder, before + 1) !== null) faults++;
  if (readdirSync(folder).join() !== 'rack.yaml') faults++;
  return { proved: false, faults, figures: { done, wasHeld, endMs: null } };
}

type Plan = Readonly<Record<string, Buffer>>;

interface Killing {
  readonly random: () => number;
  readonly wholes: readonly Plan[];
}

/** A run writes one plan and another into the same folder by turns, and is killed. */
async function killPlan(root: string, folder: string, { random, wholes }: Killing) {
  writeJobs(folder);
  mkdirSync(join(folder, 'plan'));
  for (const [name, content] of Object.entries(wholes[0]!))
    writeFileSync(join(folder, 'plan', name), content);
  const done = await killAfter(
    runOver(root, folder, { lines: LINES, times: 1000 }),
    800 * random(),
  );
  const { fault, wasMoving } = faultOfPlan(join(folder, 'plan'), wholes);
  const code = await exitOf(runOver(root, folder, { lines: LINES, times: 1 }));
  const after = faultOfPlan(join(folder, 'plan'), [wholes[0]!]);
  const faults = [fault !== null, code !== 0, after.fault !== null].filter((each) => each).length;
  return { proved: false, faults, figures: { done, wasHeld: wasMoving, endMs: null } };
}

/** A run moves one long plan and another into the same folder by turns; the second move is killed inside the time that the first was measured to take. */
async function killMoving(root: string, folder: string, random: () => number) {
  const plan = join(folder, 'plan');
  const child = writeLongPlans(root, folder, 1000);
  const ended = exitOf(child);
  waitForNote(plan, true);
  const start = performance.now();
  waitForNote(plan, false);
  const window = performance.now() - start;
  waitForNote(plan, true);
  const end = performance.now() + random() * window;
  while (performance.now() < end);
  child.kill('SIGKILL');
  await ended;
  const { fault, wasMoving } = faultOfPlan(plan, LONG_PLANS);
  const code = await exitOf(writeLongPlans(root, folder, 1));
  const after = faultOfPlan(plan, LONG_PLANS.slice(0, 1));
  const faults = [fault !== null, code !== 0, after.fault !== null].filter((each) => each).length;
  return { proved: false, faults, figures: { done: 1, wasHeld: wasMoving, endMs: null } };
}

async function stopRun(root: string, folder: string, how: Parameters<typeof stopOnce>[2]) {
  const { wasWritten, endMs, faults } = await stopOnce(root, folder, how);
  return { proved: false, faults, figures: { done: wasWritten ? 1 : 0, wasHeld: false, endMs } };
}

function inFolder<T>(act: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-kill-'));
  try {
    return act(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const NAMES = ['one', 'two'];
const LINES = NAMES.map((name) => ['plan', `${name}.yaml`, '--out', 'plan']);

function writeJobs(folder: string): void {
  NAMES.forEach((name, i) => {
    writeFileSync(
      join(folder, `${name}.yaml`),
      `job: ${name}
unit: mm
machine: { cutter: { diameter: 6 }, spacing: 8 }
materials: { ply: { thickness: 18, family: plywood, sheets: [{ size: 1200 x 800 }] } }
parts: [{ name: Side, material: ply, size: 600 x 300, count: ${2 + 4 * i} }]
`,
    );
  });
}

/** Both plans as they are when nothing is killed. */
function wholePlans(root: string): readonly Plan[] {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-kill-'));
  writeJobs(folder);
  const plans = LINES.map((line) => {
    const command = [join(root, 'bin', 'holdfast.js'), ...line];
    spawnSync(process.execPath, command, { cwd: folder, stdio: 'ignore' });
    const plan = join(folder, 'plan');
    return Object.fromEntries(
      readdirSync(plan).map((name) => [name, readFileSync(join(plan, name))]),
    );
  });
  rmSync(folder, { recursive: true, force: true });
  return plans;
}

function killTable({ rows }: Report<Figures>): Table {
  const variants = [...new Set(rows.map(({ variant }) => variant))];
  return {
    title: 'Runs killed at random moments',
    columns: ['what', 'kills', 'runs done', 'held or moving', 'median end s', 'most', 'faults'],
    rows: variants.map((variant) => {
      const own = rows.filter((row) => row.variant === variant);
      const ends = own.flatMap(({ figures }) => figures.endMs ?? []);
      return [
        variant,
        whole(own.length),
        whole(sumOf(own.map(({ figures }) => figures.done))),
        whole(own.filter(({ figures }) => figures.wasHeld).length),
        ...[0.5, 1].map((share) => (ends.length === 0 ? '' : seconds(percentile(ends, share)))),
        whole(sumOf(own.map(({ faults }) => faults))),
      ];
    }),
    notes: [
      'Rack: two runs that add to one rack, both killed; plan: one that writes two plans by turns into one folder; moving: one that only writes files, plans of 202 and 152 by turns, killed in its second move, within the time that its first was measured to take. Signal: a run that makes a plan is stopped by Ctrl-C, SIGTERM or SIGHUP, every third one twice; done is then a plan that verify accepts, and the seconds count from the last signal to the end. Held or moving: the lock of the rack, or the note of a move, was left behind. A fault is a half file, a lost entry, a mixed folder, or a next run that does not work.',
    ],
  };
}
