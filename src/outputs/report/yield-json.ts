import type { Plan } from '../../model/plan.ts';
import { YIELD_USES, type Yield, type YieldPair } from '../../model/yield.ts';

/**
 * The yields as `plan.json` has them: of sheets and boards in the order of their numbers, of the materials in theirs, and of
 * the job. Sheets are measured in mm2 and boards in mm; `percent` is as printed and adds up to 100.0.
 */
export function yieldRecord({ job, costs: { yields } }: Plan): object {
  return {
    sheets: yields.sheets.map((own, i) => ({ number: i + 1, ...record(own) })),
    boards: yields.boards.map((own, i) => ({ number: i + 1, ...record(own) })),
    materials: job.materials.map(({ id, index }) => ({
      material: id,
      ...pairRecord(yields.materials[index]!),
    })),
    job: pairRecord(yields.job),
  };
}

/** Null where there are none. */
function pairRecord({ sheets, boards }: YieldPair): object {
  return {
    sheets: sheets === null ? null : record(sheets),
    boards: boards === null ? null : record(boards),
  };
}

function record({ bought, amounts, tenths, onPurchase, onUsed }: Yield): object {
  return {
    bought: rounded(bought, 100),
    yieldOnPurchase: rounded(onPurchase, 1e6),
    yieldOnUsed: rounded(onUsed, 1e6),
    shares: Object.fromEntries(
      YIELD_USES.map((use) => [use, bought === 0 ? 0 : rounded(amounts[use] / bought, 1e6)]),
    ),
    percent: Object.fromEntries(YIELD_USES.map((use) => [use, tenths[use] / 10])),
  };
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
