import { ringArea } from '../../src/geometry/area.ts';
import { CHECKING_CHORD_ERROR, flattenContour } from '../../src/geometry/flatten.ts';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import type { Benchmark } from './benchmark.ts';
import { libraryFaults } from './library-check.ts';
import { type Group, type Instance, outlineInstances } from './outline-instances.ts';
import { outlineTables } from './outline-tables.ts';
import type { Published } from './outline-targets.ts';
import { searched } from './searched.ts';

export interface OutlineFigures {
  readonly group: Group;
  readonly pieces: number;
  readonly sheets: number;
  /** Of sheets: proved by the search; and by the area alone. */
  readonly bound: number;
  readonly areaBound: number;
  readonly optimum: number | null;
  /** Of a strip: the share of the length used that the pieces fill, in percent; of others null. */
  readonly density: number | null;
  /** How much of the last sheet is used, by its length or its width, whichever is less; from 0 to 1. */
  readonly lastUse: number;
  readonly published: Published | null;
  readonly firstMs: number;
  readonly ms: number;
  readonly cpuMs: number;
  /** Units of work that were spent. */
  readonly work: number;
}

/** Outlines by the search of the product: strips, jobs on sheets without waste, a kitchen with curved pieces, and ever more curved pieces. */
export const outlines: Benchmark<OutlineFigures> = {
  variants: ['given', 'still', 'turned'],
  variantsOf: (file, root) => {
    const own = byName(file, root);
    return (name) => own.get(name)?.variants ?? [];
  },
  ownProcess: false,
  instances: (file, root) => [...byName(file, root).keys()],
  measure: (file, root) => {
    const instances = byName(file, root);
    return ({ instance, variant, effort, seed }) => {
      const own = instances.get(instance)!;
      const job = own.job(variant);
      return measured(own, job, { work: Number(effort), seed });
    };
  },
  tables: outlineTables,
};

function byName(file: string | null, root: string): ReadonlyMap<string, Instance> {
  return new Map(outlineInstances(file, root).map((instance) => [instance.name, instance]));
}

function measured(
  { group, isStrip, optimum, published }: Instance,
  job: Job,
  { work, seed }: { readonly work: number; readonly seed: number },
) {
  const task = packingTask(job, 0);
  const found = searched(task, { work, seed, leftoverCounts: isStrip });
  const { layout } = found;
  const figures = {
    group,
    pieces: job.pieces.length,
    sheets: layout.sheets.length,
    bound: layout.bound.atLeast,
    areaBound: areaBound(task),
    optimum,
    density: isStrip ? densityOf(job, layout) : null,
    lastUse: lastUse(job, layout),
    published,
    firstMs: Math.round(found.firstMs),
    ms: Math.round(found.ms),
    cpuMs: Math.round(found.cpuMs),
    work: Math.round(found.work),
  };
  // Every job here has stock without end, so a piece that lies nowhere is a fault as well; the library finds it missing.
  const faults = verifyLayout(job, layout).faults.length + libraryFaults(job, layout).length;
  const proved = layout.status === 'proved' && !isStrip;
  return { proved, faults, figures };
}

/** The share of the length used that the pieces fill, in percent; sheets before the last count in full. */
function densityOf(job: Job, layout: Layout): number {
  const { length, width } = job.materials[0]!.sheets[0]!;
  const area = job.pieces.reduce((sum, { part }) => {
    const { outer } = job.parts[part]!.shape;
    return sum + ringArea(flattenContour(outer, 'curve', CHECKING_CHORD_ERROR));
  }, 0);
  const used = (layout.sheets.length - 1) * length + extents(job, layout).x;
  return (100 * area) / (width * used);
}

function lastUse(job: Job, layout: Layout): number {
  const { length, width } = job.materials[0]!.sheets[0]!;
  const { x, y } = extents(job, layout);
  return Math.min(x / length, y / width);
}

/** Up to where the pieces of the last sheet reach. */
function extents(job: Job, { sheets }: Layout): { readonly x: number; readonly y: number } {
  const boxes = (sheets.at(-1)?.placements ?? []).map((placement) =>
    boxOfShape(placeShape(job.parts[job.pieces[placement.piece]!.part]!.shape, placement)),
  );
  return {
    x: Math.max(...boxes.map(({ maxX }) => maxX)),
    y: Math.max(...boxes.map(({ maxY }) => maxY)),
  };
}
