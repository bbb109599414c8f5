import { doneText } from '../../drawing/sheet-table.ts';
import { type Drift, isFailing } from '../../model/drift.ts';
import { counted, formatMoney, formatShare, formatWeight } from '../../model/format.ts';
import type { HoldingLimit } from '../../model/job.ts';
import { type BrokenLimit, breaksLimit, type UnheldLimit } from '../../model/limit.ts';
import type { Place } from '../../model/place.ts';
import type { Plan } from '../../model/plan.ts';
import { careGroups, groupName } from '../care.ts';
import { minutesText } from '../limits.ts';
import { boughtNoun, proofSentence, stockWords } from '../wording.ts';
import { type Line, wrap } from './line.ts';

/** A problem of a file, as the check's record needs it. */
interface FileProblem {
  readonly severity: 'error' | 'warning';
  readonly code: string;
  readonly place: Place | null;
  readonly message: string;
  readonly hint: string | null;
}

/** What a plan is worth: the limits it breaks, those nothing could be held against, and what is otherwise than in the record. */
export interface Findings {
  readonly broken: readonly BrokenLimit[];
  readonly unheld: readonly UnheldLimit[];
  /** Null where the plan is held against no record. */
  readonly record: { readonly file: string; readonly drifts: readonly Drift[] } | null;
}

/** All that the check of one file has found. */
export interface Checked extends Findings {
  readonly file: string;
  /** Of the parts file, and of the rack that it takes. */
  readonly problems: readonly (FileProblem & { readonly file: string })[];
  /** Null where something keeps the file from being planned. */
  readonly plan: Plan | null;
  /** Why the check did not come to its end, where the problems do not say it. */
  readonly failure: string | null;
}

export function isPassed({ plan, failure, broken, record }: Checked): boolean {
  if (plan === null || failure !== null || plan.stopped === 'interrupt') return false;
  return broken.length === 0 && !(record?.drifts ?? []).some(isFailing);
}

/** What `check` says of a plan: a line for each broken limit and for each thing that has changed, or that all is kept. */
export function checkLines(
  file: string,
  plan: Plan,
  { broken, unheld, record }: Findings,
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
  return [
    ...proofs,
    ...unheld.flatMap((limit) =>
      wrap('care', `${placeOf(file, plan, limit)} ${unheldSentence(limit)}`, '  '),
    ),
    ...broken.flatMap((limit) => [
      ...wrap('bad', `${placeOf(file, plan, limit.limit)} ${limitSentence(plan, limit)}`, '  '),
      ...(limit.rule === null ? [] : riskLines(plan, limit.rule)),
    ]),
    ...(broken.length > 0 || record?.drifts.some(isFailing)
      ? []
      : wrap(
          'good',
          `${file}: ${hasLimits(plan) ? 'all limits are kept' : 'no limits in the file'}`,
        )),
    ...(record === null ? [] : driftLines(file, record)),
  ];
}

/** Of a file without a plan: why. The first of its problems stands for all, which are told in full elsewhere. */
export function unplannedLines({ file, problems, failure }: Checked): readonly Line[] {
  const errors = problems.filter(({ severity }) => severity === 'error');
  const [first] = errors;
  if (failure !== null || first === undefined) {
    const why =
      failure === null
        ? ''
        : `: ${failure.slice(failure.startsWith(`${file}: `) ? file.length + 2 : 0)}`;
    return wrap('bad', `${file}: nothing planned${why}`, '  ');
  }
  const at = first.place === null ? '' : `${first.place.line}:${first.place.column}:`;
  const more = errors.length === 1 ? '' : ` (and ${errors.length - 1} more)`;
  return wrap('bad', `${first.file}:${at} nothing planned: ${first.message}${more}`, '  ');
}

function driftLines(
  file: string,
  { file: of, drifts }: NonNullable<Findings['record']>,
): readonly Line[] {
  if (!drifts.some(isFailing))
    return [
      ...wrap('good', `${file}: still as in ${of}`, '  '),
      ...drifts.flatMap(({ message }) => wrap('plain', message, '      ', '    ')),
    ];
  return [
    ...wrap('bad', `${file}: no longer as in ${of}: make the plan again and keep it`, '  '),
    ...drifts.flatMap((drift) =>
      wrap(isFailing(drift) ? 'bad' : 'plain', drift.message, '      ', '    '),
    ),
  ];
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

/** The same as JSON. */
export function checkRecord(checked: Checked): object {
  const { file, problems, plan, broken, unheld, record } = checked;
  return {
    format: 'holdfast-check/1',
    file,
    passed: isPassed(checked),
    failure: checked.failure,
    problems: problems.map(({ severity, code, place, message, hint, file: of }) => ({
      severity,
      code,
      line: place?.line ?? null,
      column: place?.column ?? null,
      message,
      hint,
      file: of,
    })),
    limits:
      plan === null
        ? []
        : broken.map((limit) => ({ ...limit, message: limitSentence(plan, limit) })),
    unheld,
    against: record?.file ?? null,
    drift: (record?.drifts ?? []).map((drift) => ({ ...drift, fails: isFailing(drift) })),
    materials: (plan?.layouts ?? []).map((layout) => ({
      material: plan!.job.materials[layout.material]!.id,
      status: layout.status,
      objective: layout.objective,
      used: layout.used,
      atLeast: layout.bound.atLeast,
    })),
  };
}

export function unheldSentence(limit: UnheldLimit): string {
  return `the ${limit} is not known, so its limit holds nothing`;
}

export function limitSentence(
  plan: Plan,
  { limit, allowed, found, rule, what }: BrokenLimit,
): string {
  const { currency, unit } = plan.job;
  switch (limit) {
    case 'stock':
      return `too little stock: ${counted(found, 'piece')} ${found === 1 ? 'finds' : 'find'} no ${stockWords(plan.layouts)[0]}`;
    case 'sheets':
      return `the limit is ${counted(allowed, 'sheet')}, the plan takes ${found}`;
    case 'yield':
      return `the limit is a yield of ${formatShare(allowed)}, the plan reaches ${formatShare(found)}`;
    case 'cost':
      return `the limit is ${formatMoney(allowed, currency)}, the ${boughtNoun(plan)} cost ${formatMoney(found, currency)}`;
    case 'holding':
      return `the limit is "${rule}", and ${found === 1 ? '1 piece breaks' : `${found} pieces break`} it even with the remedy`;
    case 'proof':
      return `the limit is a proof, and there is none for ${what}; --effort normal or long looks further`;
    case 'time':
      return `the limit is ${minutesText(allowed)}, the work takes ${minutesText(found)}`;
    case 'weight':
      return `the limit is ${formatWeight(allowed, unit, 2)}, ${what} weighs ${formatWeight(found, unit, 2)}`;
  }
}

function hasLimits({ job: { limits } }: Plan): boolean {
  return Object.keys(limits.places).length > 0;
}

function placeOf(file: string, { job }: Plan, limit: BrokenLimit['limit']): string {
  const place = limit === 'stock' ? undefined : job.limits.places[limit];
  return place === undefined ? `${file}:` : `${file}:${place.line}:${place.column}:`;
}
