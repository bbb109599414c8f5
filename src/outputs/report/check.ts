import { doneText } from '../../drawing/sheet-table.ts';
import { formatMoney, formatShare } from '../../model/format.ts';
import type { HoldingLimit } from '../../model/job.ts';
import { type BrokenLimit, breaksLimit } from '../../model/limit.ts';
import type { Plan } from '../../model/plan.ts';
import { careGroups, groupName } from '../care.ts';
import { boughtNoun, proofSentence, stockWords } from '../wording.ts';
import { type Line, wrap } from './line.ts';

/** A problem of the parts file as the check's record needs it. */
interface FileProblem {
  readonly severity: string;
  readonly code: string;
  readonly place: { readonly line: number; readonly column: number } | null;
  readonly message: string;
  readonly hint: string | null;
}

/** What `check` says of a plan: a line for each broken limit, or that all are kept. */
export function checkLines(
  file: string,
  plan: Plan,
  broken: readonly BrokenLimit[],
): readonly Line[] {
  const proofs = plan.layouts
    .filter((layout) => layout.used > 0)
    .flatMap((layout) =>
      wrap(
        'plain',
        `${plan.job.materials[layout.material]!.id}: ${proofSentence(plan, layout)}`,
        '  ',
      ),
    );
  const verdict =
    broken.length === 0
      ? wrap(
          'good',
          `${file}: ${hasLimits(plan) ? 'all limits are kept' : 'no limits in the file'}`,
        )
      : broken.flatMap((limit) => [
          ...wrap('bad', `${placeOf(file, plan)} ${limitSentence(plan, limit)}`, '  '),
          ...(limit.rule === null ? [] : riskLines(plan, limit.rule)),
        ]);
  return [...proofs, ...verdict];
}

/** Which pieces break the limit on holding, alike ones together, and what to do about them. */
function riskLines(plan: Plan, rule: HoldingLimit): readonly Line[] {
  const groups = careGroups(plan).filter(
    ({ first }) => first.kind === 'piece' && breaksLimit(first, rule),
  );
  const texts = groups.map((group) => {
    const { sheet, verdictAfter } = group.first;
    const done = doneText(plan.job.unit, group.first);
    return `sheet ${sheet}: ${groupName(plan, group)}: ${done}, ${verdictAfter}`;
  });
  const more = texts.length - MOST_RISKS;
  const shown = more > 1 ? [...texts.slice(0, MOST_RISKS), `and ${more} more such rows`] : texts;
  return shown.flatMap((text) => wrap('bad', text, '      ', '    '));
}

const MOST_RISKS = 6;

/** The same as JSON, with the problems of the file; `plan` is null where there are errors among them. */
export function checkRecord(
  file: string,
  problems: readonly FileProblem[],
  plan: Plan | null,
  broken: readonly BrokenLimit[],
): string {
  const record = {
    format: 'holdfast-check/1',
    file,
    passed: plan !== null && broken.length === 0,
    problems: problems.map(({ severity, code, place, message, hint }) => ({
      severity,
      code,
      line: place?.line ?? null,
      column: place?.column ?? null,
      message,
      hint,
    })),
    limits:
      plan === null
        ? []
        : broken.map((limit) => ({ ...limit, message: limitSentence(plan, limit) })),
    materials: (plan?.layouts ?? []).map((layout) => ({
      material: plan!.job.materials[layout.material]!.id,
      status: layout.status,
      objective: layout.objective,
      used: layout.used,
      atLeast: layout.bound.atLeast,
    })),
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}

function limitSentence(plan: Plan, { limit, allowed, found, rule }: BrokenLimit): string {
  const { currency } = plan.job;
  switch (limit) {
    case 'stock':
      return `too little stock: ${found} pieces find no ${stockWords(plan.layouts)[0]}`;
    case 'sheets':
      return `the limit is ${allowed} sheets, the plan takes ${found}`;
    case 'yield':
      return `the limit is a yield of ${formatShare(allowed)}, the plan reaches ${formatShare(found)}`;
    case 'cost':
      return `the limit is ${formatMoney(allowed, currency)}, the ${boughtNoun(plan)} cost ${formatMoney(found, currency)}`;
    case 'holding':
      return `the limit is "${rule}", and ${found === 1 ? '1 piece breaks' : `${found} pieces break`} it even with the remedy`;
  }
}

function hasLimits({ job: { limits } }: Plan): boolean {
  return [limits.sheets, limits.yieldShare, limits.costCents, limits.holding].some(
    (limit) => limit !== null,
  );
}

function placeOf(file: string, { job }: Plan): string {
  const { place } = job.limits;
  return place === null ? `${file}:` : `${file}:${place.line}:${place.column}:`;
}
