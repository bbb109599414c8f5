import type { Job } from '../model/job.ts';
import type { RecordFault } from '../model/recheck.ts';
import { type Fault, verifyLayout } from '../verify/verify.ts';
import type { RebuiltLayout } from './rebuild.ts';
import { nameOf } from './rebuilding.ts';
import type { MaterialRecord, PlanFile } from './schema.ts';

/** What the layout says of itself; all else that can be wrong with it makes it no layout to reckon from. */
const CLAIMS: Readonly<Record<string, string>> = {
  used: 'used',
  bound: 'atLeast',
  status: 'status',
};

/** Told already where the layout was rebuilt. */
const TOLD = 'unknown-stock';

/** What the check of every layout finds wrong with those that were rebuilt, with its place in the record. */
export function layoutFaults(
  job: Job,
  plan: PlanFile,
  layouts: readonly RebuiltLayout[],
): readonly RecordFault[] {
  return layouts.flatMap(({ layout, place }) => {
    const record = plan.materials[place]!;
    const { faults } = verifyLayout(job, layout);
    return faults
      .filter(({ code }) => code !== TOLD)
      .map((fault) => ({
        code: fault.code,
        path: `materials[${place}]${placeOf(job, record, fault)}`,
        message: `${record.material}: ${fault.message}${numberText(record, fault)}`,
      }));
  });
}

/** Whether a fault is of the layout itself and not only of a claim about it. */
export function spoilsLayout({ code }: RecordFault): boolean {
  return !Object.hasOwn(CLAIMS, code);
}

function placeOf(job: Job, { sheets, unplaced }: MaterialRecord, fault: Fault): string {
  const claim = CLAIMS[fault.code];
  if (claim !== undefined) return `.${claim}`;
  const piece = fault.piece === null ? undefined : job.pieces[fault.piece];
  const name = piece && nameOf(job.parts[piece.part]!.name, piece.number);
  const isIt = (each: { part: string; piece: number }) => nameOf(each.part, each.piece) === name;
  if (fault.sheet === null) {
    const left = unplaced.findIndex(isIt);
    return left < 0 ? '' : `.unplaced[${left}]`;
  }
  const found = sheets[fault.sheet]!.placements.findIndex(isIt);
  return `.sheets[${fault.sheet}]${found < 0 ? '' : `.placements[${found}]`}`;
}

/** The check counts the sheets of each material, a plan those of the job. */
function numberText({ sheets }: MaterialRecord, { sheet }: Fault): string {
  const number = sheet === null ? null : sheets[sheet]!.number;
  return number === null || number === sheet! + 1 ? '' : ` (number ${number} of the plan)`;
}
