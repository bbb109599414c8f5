import { costPlan } from '../../src/costing/cost-plan.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { type Effort, numberedSheets } from '../../src/model/plan.ts';
import { sheetArea } from '../../src/model/stock.ts';
import { toMm2 } from '../../src/model/units.ts';
import { pack } from '../../src/packing/pack.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { emptyRack } from '../../src/rack/change-rack.ts';
import { addPlan, type Kept } from '../../src/rack/keep-rack.ts';
import { withRack } from '../../src/rack/onto-job.ts';
import type { PlanRecord } from '../../src/rack/plan-record.ts';
import { readRack } from '../../src/rack/read-rack.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { cabinetPieces } from '../packing/cabinet-pieces.ts';
import type { Benchmark, Report, Row, Task } from './benchmark.ts';
import { faultsNote } from './notes.ts';
import { sumOf } from './percentiles.ts';
import { percent, seconds, type Table, whole } from './table.ts';

interface Figures {
  readonly pieces: number;
  /** New sheets. */
  readonly bought: number;
  readonly atLeast: number;
  /** Offcuts off the rack, and how many are on it afterwards, with their area. */
  readonly taken: number;
  readonly onRack: number;
  readonly onRackM2: number;
  readonly ms: number;
}

type Variant = 'without' | 'with';

const QUARTERS = [1, 2, 3];
const JOBS = 60;

/** What a job leaves behind it. */
interface After {
  readonly kept: Kept;
  readonly measured: {
    readonly proved: boolean;
    readonly faults: number;
    readonly figures: Figures;
  };
}

/**
 * Quarters of a year of a small shop: 60 jobs of cabinet pieces one after the other, with the rack that those before have left and without one. An instance is
 * a job of a quarter; one in the middle is run with all those before it, so that a run goes on where it was.
 */
export const rack: Benchmark<Figures> = {
  variants: ['without', 'with'],
  ownProcess: false,
  instances: () =>
    QUARTERS.flatMap((quarter) =>
      Array.from({ length: JOBS }, (_, k) => `${quarter}_${String(k + 1).padStart(2, '0')}`),
    ),
  measure: () => {
    const known = new Map<string, After>();
    return (task) => stateAfter(task, known).measured;
  },
  tables: (report) => [rackTable(report)],
};

/** A job with all those before it, as far as they are not known yet. */
function stateAfter(task: Task, known: Map<string, After>): After {
  const [quarter = 0, last = 0] = task.instance.split('_').map(Number);
  const keyOf = (number: number) =>
    `${quarter} ${number} ${task.variant} ${task.seed} ${task.effort}`;
  let start = task.variant === 'with' ? last : 1;
  while (start > 1 && !known.has(keyOf(start - 1))) start--;
  let kept = known.get(keyOf(start - 1))?.kept ?? keptOf(emptyRack('mm'));
  let after: After | undefined;
  for (let number = task.variant === 'with' ? start : last; number <= last; number++) {
    after = done(kept, quarter, number, task);
    known.set(keyOf(number), after);
    kept = after.kept;
  }
  return after!;
}

function done(kept: Kept, quarter: number, number: number, task: Task): After {
  const { job: own, problems } = readPartsFile(jobText(quarter, number), () => ({
    ok: false,
    reason: 'missing',
    detail: '',
  }));
  if (own === null) throw new Error(`job ${number} cannot be read: ${problems[0]?.message}`);
  const usesRack = (task.variant as Variant) === 'with';
  const job = usesRack ? withRack(own, kept.rack).job : own;
  const start = performance.now();
  const layouts = job.materials.map(
    ({ index }) =>
      pack(job, index, {
        effort: task.effort as Effort,
        seed: task.seed,
        shouldStop: () => false,
        onProgress: () => {},
      }).layout,
  );
  const ms = performance.now() - start;
  const record = recordOf(job, layouts);
  const next = usesRack ? cutOnto(kept, record, `${quarter}_${number}`) : kept;
  const onRack = next.rack.entries.filter(({ used }) => used === null);
  return {
    kept: next,
    measured: {
      proved: layouts.every(({ status }) => status === 'proved'),
      faults: layouts.reduce(
        (sum, layout) => sum + verifyLayout(job, layout).faults.length + layout.unplaced.length,
        0,
      ),
      figures: {
        pieces: job.pieces.length,
        bought: sumOf(layouts.map(({ used }) => used)),
        atLeast: sumOf(layouts.map(({ bound }) => bound.atLeast)),
        taken: record.taken.length,
        onRack: onRack.length,
        onRackM2: sumOf(onRack.map(({ stock }) => toMm2(sheetArea(stock)) / 1e6)),
        ms: Math.round(ms),
      },
    },
  };
}

/** The rack once the job is cut; that an offcut is taken twice is an error of ours. */
function cutOnto(kept: Kept, record: PlanRecord, mark: string): Kept {
  const known = new Set(kept.rack.entries.filter(({ used }) => used === null).map(({ id }) => id));
  const taken = record.taken.map(({ id }) => id);
  if (new Set(taken).size < taken.length || !taken.every((id) => known.has(id)))
    throw new Error(`an offcut is used twice: ${taken.join(', ')}`);
  const outcome = addPlan(kept, { record, sha256: mark.padEnd(16, '-'), date: null });
  if (!outcome.ok) throw new Error(outcome.said.join());
  return outcome.text === null ? kept : keptOf(outcome.text);
}

function keptOf(text: string): Kept {
  const { rack: read, problems } = readRack(text);
  if (read === null) throw new Error(`the rack cannot be read: ${problems[0]?.message}`);
  return { text, rack: read };
}

function recordOf(job: Job, layouts: readonly Layout[]): PlanRecord {
  const costs = costPlan(job, layouts, []);
  const sheets = numberedSheets(layouts).map(({ number, material, sheet }) => {
    const { id, thickness, sheets: stocks } = job.materials[material]!;
    return { number, material: id, thickness, stock: stocks[sheet.stock]! };
  });
  return {
    unit: 'mm',
    job: job.name,
    taken: sheets.flatMap(({ material, stock: { rack: id, length, width } }) =>
      id === null ? [] : [{ id, material, length, width }],
    ),
    left: sheets.flatMap(({ number, material, thickness, stock }) =>
      costs.sheets[number - 1]!.offcuts.map(({ box }) => ({
        material,
        thickness,
        sheet: number,
        length: box.maxX - box.minX,
        width: box.maxY - box.minY,
        grain:
          stock.grainAxis === 'x'
            ? ('first' as const)
            : stock.grainAxis === 'y'
              ? ('second' as const)
              : ('none' as const),
      })),
    ),
  };
}

/** 6 to 40 cabinet pieces of one or two of three materials; of plywood two in three have a grain, along their longer side. */
function jobText(quarter: number, number: number): string {
  const random = seededRandom(1000 * quarter + number);
  const upTo = (most: number) => Math.floor(random() * most);
  const keys = ['ply18', 'mdf18', 'ply12'];
  const first = upTo(3);
  const own = [keys[first]!, ...(upTo(2) === 0 ? [] : [keys[(first + 1 + upTo(2)) % 3]!])];
  const parts = cabinetPieces(6 + upTo(35), 1000 * quarter + number).map(({ width, height }, i) => {
    const material = own[upTo(own.length)]!;
    const way = width < height ? 'across' : 'along';
    const grain = material !== 'mdf18' && upTo(3) > 0 ? `, grain: ${way}` : '';
    return `  - { name: P${i + 1}, material: ${material}, size: ${width} x ${height}${grain} }`;
  });
  const material = (key: string, family: string, thickness: number) =>
    `  ${key}: { family: ${family}, thickness: ${thickness}, sheets: [{ size: 2440 x 1220, trim: 10${family === 'mdf' ? ', grain: none' : ''} }] }`;
  return `job: Job ${number}
unit: mm
machine: { cutter: { diameter: 6 }, spacing: 8 }
materials:
${material('ply18', 'plywood', 18)}
${material('ply12', 'plywood', 12)}
${material('mdf18', 'mdf', 18)}
parts:
${parts.join('\n')}
`;
}

function rackTable(report: Report<Figures>): Table {
  const { rows, request } = report;
  const of = (quarter: number, variant: Variant): readonly Row<Figures>[] =>
    rows.filter((row) => row.variant === variant && row.instance.startsWith(`${quarter}_`));
  const sum = (own: readonly Row<Figures>[], figure: keyof Figures) =>
    sumOf(own.map(({ figures }) => figures[figure]));
  const lines = QUARTERS.filter((quarter) => of(quarter, 'with').length > 0).map((quarter) => {
    const own = of(quarter, 'with');
    const other = of(quarter, 'without');
    const saved = sum(other, 'bought') - sum(own, 'bought');
    return [
      String(quarter),
      whole(own.length),
      whole(sum(own, 'pieces')),
      whole(sum(other, 'bought')),
      whole(sum(own, 'bought')),
      percent(saved / Math.max(1, sum(other, 'bought'))),
      whole(sum(own, 'taken')),
      whole(own.at(-1)!.figures.onRack),
      own.at(-1)!.figures.onRackM2.toFixed(1),
      seconds(sum(other, 'ms')),
      seconds(sum(own, 'ms')),
    ];
  });
  return {
    title: `Quarters of a shop, ${JOBS} jobs each, with the rack and without, ${request.efforts.join()}`,
    columns: [
      'quarter',
      'jobs',
      'pieces',
      'sheets',
      'with rack',
      'saved',
      'taken',
      'left',
      'm2',
      's',
      'with s',
    ],
    rows: lines,
    notes: [
      'Sheets: new ones, without a rack and with it. Taken: offcuts off the rack, none twice. Left: on the rack at the end, nothing thrown away, and their area. Seconds: of all searches.',
      faultsNote(rows),
    ],
  };
}
