import type { HoldingLimit } from '../model/job.ts';
import { isEmptyLayout, unplacedCount } from '../model/layout.ts';
import { type BrokenLimit, breaksLimit } from '../model/limit.ts';
import { type NumberedSheet, numberedSheets, type Plan } from '../model/plan.ts';

/**
 * Every limit of the file that the plan breaks; too little stock breaks one that needs no saying.
 * Sheets that are bought and pieces are counted, yield is a share, cost is in minor units. An unknown cost breaks no limit.
 */
export function brokenLimits(plan: Plan): readonly BrokenLimit[] {
  const { limits } = plan.job;
  const { totalCents } = plan.costs;
  const sheets = numberedSheets(plan.layouts).filter((sheet) => !isFromRack(plan, sheet)).length;
  const unplaced = plan.layouts.reduce((total, layout) => total + unplacedCount(layout), 0);
  const yieldShare = leastYield(plan);
  const broken: BrokenLimit[] = [];
  const add = (limit: BrokenLimit['limit'], allowed: number, found: number) =>
    broken.push({ limit, allowed, found, rule: limit === 'holding' ? limits.holding : null });

  if (unplaced > 0) add('stock', 0, unplaced);
  if (limits.sheets !== null && sheets > limits.sheets) add('sheets', limits.sheets, sheets);
  const isCut = !plan.layouts.every(isEmptyLayout);
  if (limits.yieldShare !== null && isCut && yieldShare < limits.yieldShare) {
    add('yield', limits.yieldShare, yieldShare);
  }
  if (limits.costCents !== null && totalCents !== null && totalCents > limits.costCents) {
    add('cost', limits.costCents, totalCents);
  }
  if (limits.holding !== null) {
    const atRisk = piecesAtRisk(plan, limits.holding);
    if (atRisk > 0) add('holding', 0, atRisk);
  }
  return broken;
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
