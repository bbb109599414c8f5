import { formatMoney } from './model/format.ts';
import type { Job } from './model/job.ts';
import type { Layout } from './model/layout.ts';
import type { Recheck, RecordFault } from './model/recheck.ts';
import { differences } from './record/differences.ts';
import { headFacts, placementFacts } from './record/facts.ts';
import { holdingFaults } from './record/holding.ts';
import { layoutFaults, spoilsLayout } from './record/layout-faults.ts';
import { offcutFaults } from './record/offcuts.ts';
import { outlineFaults } from './record/outlines.ts';
import { type RebuiltLayout, rebuild } from './record/rebuild.ts';
import { nameOf } from './record/rebuilding.ts';
import type { PlanFile } from './record/schema.ts';
import { layPieces } from './verify/laid-piece.ts';
import { plainBound } from './verify/plain-bound.ts';

/** The record that follows from layouts, as its text; the options and how the search ended are taken from the record in hand. */
export type Reckon = (layouts: readonly Layout[], plan: PlanFile) => string;

/**
 * Checks a plan's record against the job of its parts file. The layouts are rebuilt from it and go through the check of every layout; what the record
 * says of sheets and pieces is compared with the job; and where the layouts are sound, all else that follows from them is reckoned anew and compared.
 */
export function recheckPlan(
  job: Job,
  plan: PlanFile,
  partsFileSha256: string,
  reckon: Reckon,
): Recheck {
  const { layouts, faults: unknown } = rebuild(job, plan);
  const found = layoutFaults(job, plan, layouts);
  const isReckoned = unknown.length === 0 && !found.some(spoilsLayout);
  const provedAgain = layouts
    .filter(({ layout }) => isPlain(job, layout))
    .map(({ layout }) => job.materials[layout.material]!.id);
  const faults = [
    ...fileFaults(plan, partsFileSha256),
    ...differences(headFacts(job), plan, '', 'head'),
    ...unknown,
    ...found,
    ...layouts.flatMap((each) => sheetsFaults(job, plan, each)),
    ...holdingFaults(plan),
  ];
  const reckoned = isReckoned ? reckonedFaults(layouts, plan, reckon) : [];
  const told = new Set(faults.map(({ path }) => path));
  const more = reckoned.filter(({ path }) => !wholesOf(path).some((whole) => told.has(whole)));
  return {
    faults: [...faults, ...more],
    counts: countsOf(plan),
    isReckoned,
    provedAgain,
    notChecked: notChecked(job, plan, isReckoned, provedAgain),
  };
}

/** Whether what a layout is bound by follows without a search. */
function isPlain(job: Job, { objective, material, bound }: Layout): boolean {
  return objective === 'sheets' && bound.atLeast > 0 && bound.atLeast <= plainBound(job, material);
}

function fileFaults(plan: PlanFile, sha256: string): readonly RecordFault[] {
  if (plan.partsFileSha256 === sha256) return [];
  const message = 'the plan was made from another parts file, or the file was changed since';
  return [{ code: 'other-file', path: 'partsFileSha256', message }];
}

function sheetsFaults(
  job: Job,
  plan: PlanFile,
  { layout, place }: RebuiltLayout,
): readonly RecordFault[] {
  const laid = layPieces(job, layout);
  return plan.materials[place]!.sheets.flatMap((sheet, s) => {
    const path = `materials[${place}].sheets[${s}]`;
    const order = new Map(
      sheet.placements.map((each, p) => [nameOf(each.part, each.piece), p] as const).reverse(),
    );
    const pieces = layout.sheets[s]!.placements.flatMap((placement) => {
      const piece = job.pieces[placement.piece]!;
      const name = nameOf(job.parts[piece.part]!.name, piece.number);
      const p = order.get(name)!;
      const own = sheet.placements[p]!;
      const at = `${path}.placements[${p}]`;
      return [
        ...outlineFaults(job, placement, own, at),
        ...differences(placementFacts(job, placement), own, at, 'piece'),
      ];
    });
    return [...pieces, ...offcutFaults(job, laid[s]!, sheet, path)];
  });
}

function reckonedFaults(
  layouts: readonly RebuiltLayout[],
  plan: PlanFile,
  reckon: Reckon,
): readonly RecordFault[] {
  const text = reckon(
    layouts.map(({ layout }) => layout),
    plan,
  );
  const wanted = JSON.parse(text) as PlanFile;
  // Pieces are compared on their own, with the tolerance that outlines have.
  const materials = wanted.materials.map((material) => ({
    ...material,
    sheets: material.sheets.map(({ placements: _, ...sheet }) => sheet),
  }));
  const { toolVersion: _, ...rest } = { ...wanted, materials };
  return differences(rest, plan, '', 'figure');
}

/** A place in the record and all that it lies within: `a[0].b` is in `a[0]` and in `a`. */
function wholesOf(path: string): readonly string[] {
  const ends = [...path.matchAll(/[.[]/g)].map(({ index }) => index);
  return [...ends, path.length].map((end) => path.slice(0, end));
}

function countsOf({ materials }: PlanFile): Recheck['counts'] {
  const sheets = materials.flatMap((each) => each.sheets);
  const boards = materials.flatMap((each) => each.boards);
  return {
    sheets: sheets.length,
    pieces: sheets.reduce((sum, { placements }) => sum + placements.length, 0),
    boards: boards.length,
    lengths: boards.reduce((sum, { pieces }) => sum + pieces.length, 0),
  };
}

function notChecked(
  { currency }: Job,
  { materials }: PlanFile,
  isReckoned: boolean,
  provedAgain: readonly string[],
): readonly string[] {
  const bounds = materials
    .filter(({ material, atLeast }) => atLeast > 0 && !provedAgain.includes(material))
    .map(({ material, objective, atLeast }) => {
      const least = objective === 'cost' ? formatMoney(atLeast, currency) : String(atLeast);
      return `${material}: at least ${least}`;
    });
  const racked = materials.flatMap(({ sheets }) => sheets.flatMap(({ rack }) => rack ?? []));
  return [
    ...(bounds.length === 0
      ? []
      : [
          `That no layout can do with less (${bounds.join(', ')}) is taken as written: only holdfast plan proves it.`,
        ]),
    ...(materials.some(({ sheets }) => sheets.some(({ cuts }) => cuts.length > 0))
      ? ['Of the saw cuts, side of the fence, stage and care notes are taken as written.']
      : []),
    ...(racked.length === 0
      ? []
      : [`Whether ${racked.join(', ')} lie on the rack still is not looked at.`]),
    ...(isReckoned
      ? []
      : ['Yields, offcuts, costs and hold-down were not reckoned, as the layout is wrong.']),
  ];
}
