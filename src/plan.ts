import { costPlan } from './costing/cost-plan.ts';
import { assert } from './geometry/assert.ts';
import { cutWarnings } from './holding/cut-warnings.ts';
import { holdJob, weakMaterials } from './holding/hold.ts';
import { pocketWarnings } from './holding/pocket-warnings.ts';
import { tableWarnings } from './holding/table-warnings.ts';
import { formatLength } from './model/format.ts';
import { isRouterJob, type Job } from './model/job.ts';
import type { Layout } from './model/layout.ts';
import type { Plan, SearchOptions, StopCause } from './model/plan.ts';
import type { Material } from './model/stock.ts';
import { joinPackings } from './packing/boards/join.ts';
import { packBoards } from './packing/boards/pack-boards.ts';
import { type Packing, type PackOptions, pack } from './packing/pack.ts';
import type { Progress } from './packing/task.ts';
import type { Problem } from './partsfile/problem.ts';
import { verifyLayout } from './verify/verify.ts';

/** Searches a layout of one material, here or elsewhere. */
export type Packer = (
  job: Job,
  material: number,
  options: PackOptions,
) => Packing | Promise<Packing>;

/** What the caller may do while a plan is made: run the search elsewhere, stop it early, and watch. */
export interface PlanHooks {
  /** Null: in this thread. */
  readonly pack: Packer | null;
  /** Why the search has to stop; null while it has not. */
  readonly stopCause: () => StopCause | null;
  readonly onProgress: (progress: Progress) => void;
}

/** A plan, or the problems of a job of which some piece fits no sheet at all. */
export type PlanResult =
  | { readonly plan: Plan; readonly problems: readonly [] }
  | { readonly plan: null; readonly problems: readonly Problem[] };

/**
 * The whole way of the data: pack each material, check each layout by the independent road, reckon the hold-down and the costs.
 * Too little stock is a plan with pieces left over; a piece that fits no empty sheet is a problem of the file.
 * Throws `AssertionError` where a layout fails the check: that is our mistake, and nothing may be written from it.
 */
export async function planJob(
  job: Job,
  options: SearchOptions,
  { pack: packer, stopCause, onProgress }: PlanHooks,
): Promise<PlanResult> {
  const { effort, seed } = options;
  const shouldStop = () => stopCause() !== null;
  const packings: Packing[] = [];
  for (const { index } of job.materials) {
    const packOptions = { effort, seed, shouldStop, onProgress };
    const sheets = await (packer ?? pack)(job, index, packOptions);
    const hasLengths = job.lengthParts.some(({ material }) => material === index);
    packings.push(
      hasLengths ? joinPackings(sheets, await packBoards(job, index, packOptions)) : sheets,
    );
  }
  const layouts = packings.map((packing) => packing.layout);
  for (const layout of layouts) checkLayout(job, layout);
  const problems = layouts.flatMap((layout) => [
    ...piecesWithoutRoom(job, layout),
    ...lengthsWithoutRoom(job, layout),
  ]);
  if (problems.length > 0) return { plan: null, problems };

  const stopped = packings.some((packing) => packing.stopped) ? stopCause() : null;
  return { plan: planOfLayouts(job, layouts, options, stopped), problems: [] };
}

/** All that follows from layouts: the hold-down, its warnings and the costs. */
export function planOfLayouts(
  job: Job,
  layouts: readonly Layout[],
  options: SearchOptions,
  stopped: StopCause | null,
): Plan {
  const held = isRouterJob(job) ? holdJob(job, layouts) : NOTHING_HELD;
  const costs = costPlan(job, layouts, held.holding);
  const weak = weakMaterials(layouts, held.holding);
  const warnings = isRouterJob(job)
    ? [
        ...tableWarnings(job, layouts),
        ...cutWarnings(job, undefined, weak),
        ...pocketWarnings(job, held.holding),
      ]
    : [];
  return { job, options, stopped, layouts, ...held, cutWarnings: warnings, costs };
}

/** At a saw nothing lies under vacuum. */
const NOTHING_HELD = { holding: [], sensitivity: [] } as const;

function checkLayout(job: Job, layout: Layout): void {
  const { faults } = verifyLayout(job, layout);
  const [first] = faults;
  assert(
    first === undefined,
    `a layout of ${job.materials[layout.material]!.id} fails its check: ${first?.message}`,
  );
}

/** One problem a part, however many pieces it has. */
function piecesWithoutRoom(job: Job, layout: Layout): readonly Problem[] {
  const pieces = layout.unplaced.filter(({ why }) => why === 'no-room');
  const parts = new Set(pieces.map(({ piece }) => job.pieces[piece]!.part));
  return [...parts].map((index): Problem => {
    const part = job.parts[index]!;
    const material = job.materials[layout.material]!;
    return {
      severity: 'error',
      code: 'fits-no-sheet',
      place: part.place,
      path: 'parts',
      message: `"${part.name}" fits no sheet of ${material.id}, not even an empty one`,
      hint: roomHint(job, material),
    };
  });
}

/** At a saw that a sheet is too long for, its limits come first. */
function roomHint({ machine, unit }: Job, { sheets }: Material): string {
  const usual = 'allow more turns, free the grain, move a keep-out, or add a larger sheet';
  if (machine.kind === 'router') return usual;
  const { longestRip, longestCrosscut } = machine;
  const limits = [
    ...(longestRip !== null && sheets.some(({ length }) => longestRip < length)
      ? [`longest-rip is ${formatLength(longestRip, unit)}`]
      : []),
    ...(longestCrosscut !== null && sheets.some(({ width }) => longestCrosscut < width)
      ? [`longest-crosscut is ${formatLength(longestCrosscut, unit)}`]
      : []),
  ];
  if (limits.length === 0) return usual;
  return `${limits.join(' and ')}, shorter than a cut from edge to edge of the sheet: raise it, buy smaller sheets, or ${usual}`;
}

function lengthsWithoutRoom(job: Job, layout: Layout): readonly Problem[] {
  const parts = layout.unplacedLengths.filter(({ why }) => why === 'no-room');
  return parts.map(({ part: index }): Problem => {
    const part = job.lengthParts[index]!;
    const material = job.materials[layout.material]!;
    return {
      severity: 'error',
      code: 'fits-no-board',
      place: part.place,
      path: 'parts',
      message: `"${part.name}" fits no board of ${material.id}, not even an empty one`,
      hint: 'add a longer board, trim its ends less, or join the part from two',
    };
  });
}
