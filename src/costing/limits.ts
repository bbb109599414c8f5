import { stockTitle } from '../model/format.ts';
import type { HoldingLimit } from '../model/job.ts';
import { isEmptyLayout, unplacedCount } from '../model/layout.ts';
import { type BrokenLimit, breaksLimit, type UnheldLimit } from '../model/limit.ts';
import { type NumberedSheet, numberedSheets, type Plan } from '../model/plan.ts';

/**
 * Every limit of the file that the plan breaks; too little stock breaks one that needs no saying.
 * Sheets that are bought, pieces and materials are counted, yield is a share, cost is in minor units, time in seconds, weight in kilograms.
 * An unknown cost or time breaks no limit: `unheldLimits` names it.
 */
export function brokenLimits(plan: Plan): readonly BrokenLimit[] {
  const { limits } = plan.job;
  const { totalCents } = plan.costs;
  const broken: BrokenLimit[] = [];
  const add = (
    limit: BrokenLimit['limit'],
    allowed: number,
    found: number,
    what: string | null = null,
  ) =>
    broken.push({ limit, allowed, found, rule: limit === 'holding' ? limits.holding : null, what });

  const unplaced = plan.layouts.reduce((total, layout) => total + unplacedCount(layout), 0);
  if (unplaced > 0) add('stock', 0, unplaced);
  const sheets = numberedSheets(plan.layouts).filter((sheet) => !isFromRack(plan, sheet)).length;
  if (limits.sheets !== null && sheets > limits.sheets) add('sheets', limits.sheets, sheets);
  const isCut = !plan.layouts.every(isEmptyLayout);
  const yieldShare = leastYield(plan);
  if (limits.yieldShare !== null && isCut && yieldShare < limits.yieldShare)
    add('yield', limits.yieldShare, yieldShare);
  if (limits.costCents !== null && totalCents !== null && totalCents > limits.costCents)
    add('cost', limits.costCents, totalCents);
  const atRisk = limits.holding === null ? 0 : piecesAtRisk(plan, limits.holding);
  if (atRisk > 0) add('holding', 0, atRisk);
  const unproved = limits.proof ? unprovedMaterials(plan) : [];
  if (unproved.length > 0) add('proof', 0, unproved.length, unproved.join(', '));
  const timeS = workTime(plan);
  if (limits.timeS !== null && timeS !== null && timeS > limits.timeS)
    add('time', limits.timeS, timeS);
  const heaviest = heaviestThing(plan);
  if (limits.weightKg !== null && heaviest !== null && heaviest.weightKg > limits.weightKg)
    add('weight', limits.weightKg, heaviest.weightKg, heaviest.name);
  return broken;
}

/** Limits that nothing could be held against, because the plan does not know the figure. */
export function unheldLimits(plan: Plan): readonly UnheldLimit[] {
  const { costCents, timeS } = plan.job.limits;
  return [
    ...(costCents !== null && plan.costs.totalCents === null ? (['cost'] as const) : []),
    ...(timeS !== null && workTime(plan) === null ? (['time'] as const) : []),
  ];
}

function isFromRack({ job }: Plan, { material, sheet }: NumberedSheet): boolean {
  return job.materials[material]!.sheets[sheet.stock]!.rack !== null;
}

/** The smaller one of the yields of sheets and boards. */
function leastYield({ costs: { sheets, boardYieldShare, yieldShare } }: Plan): number {
  if (boardYieldShare === null) return yieldShare;
  return sheets.length === 0 ? boardYieldShare : Math.min(yieldShare, boardYieldShare);
}

/** Pieces that break the holding limit even after the advised remedy. */
function piecesAtRisk(plan: Plan, limit: HoldingLimit): number {
  return plan.holding
    .flatMap((sheet) => sheet.loose)
    .filter((loose) => loose.kind === 'piece' && breaksLimit(loose, limit)).length;
}

/** Too little stock is told on its own. */
function unprovedMaterials({ job, layouts }: Plan): readonly string[] {
  return layouts
    .filter((layout) => !isEmptyLayout(layout) && layout.status === 'limit')
    .map(({ material }) => job.materials[material]!.id);
}

/** At the machine and the bench as the price reckons it; without rates the time of cutting, of tabs and of clamps. */
function workTime({ job, costs }: Plan): number | null {
  const { machineS, benchS } = costs.quote;
  if (job.rates !== null) return machineS === null || benchS === null ? null : machineS + benchS;
  return costs.cutTimeS === null ? null : Math.round(costs.cutTimeS + costs.handTimeS);
}

/** Of whole sheets and of pieces; the weight of boards is not known. */
function heaviestThing({ job, layouts, costs }: Plan): { name: string; weightKg: number } | null {
  const sheets = numberedSheets(layouts).map(({ number, material, sheet }) => ({
    name: `a sheet of ${job.materials[material]!.id}, ${stockTitle(job.materials[material]!.sheets[sheet.stock]!.name, job.unit)},`,
    weightKg: costs.sheets[number - 1]!.weightKg,
  }));
  const pieces = costs.parts.map(({ part, pieceWeightKg }) => ({
    name: `"${job.parts[part]!.name}"`,
    weightKg: pieceWeightKg,
  }));
  const [heaviest] = [...sheets, ...pieces].toSorted((a, b) => b.weightKg - a.weightKg);
  return heaviest ?? null;
}
