import { toMm } from '../../model/units.ts';
import { shortened } from '../visible.ts';
import type { ListForm } from './list-form.ts';
import type { ListJob } from './list-job.ts';
import type { Given } from './list-options.ts';
import type { ListPart } from './list-parts.ts';
import { spans } from './list-skips.ts';

/** What was assumed of the list as it was read and laid out, and is for a person to look at: a sentence each. */
export function checksOf(
  rows: readonly ListPart[],
  job: ListJob,
  form: ListForm,
  given: Given,
): readonly string[] {
  return [
    unitCheck(rows, form),
    thicknessUnitCheck(form),
    countCheck(rows, form),
    grainCheck(rows, form),
    ...bandChecks(rows, form, given),
    ...materialChecks(rows, job),
    ...nameChecks(job),
  ].filter((check) => check !== null);
}

/** Longer parts are in most lists of furniture, so where all are shorter the unit may be another. */
const SHORT = 300;

function unitCheck(rows: readonly ListPart[], form: ListForm): string | null {
  if (form.unitFrom !== null) return null;
  const longest = Math.max(
    0,
    ...rows.map(({ length, width }) => Math.max(length.length, width.length)),
  );
  const doubt =
    toMm(longest) < SHORT ? `, and the longest is ${toMm(longest)}: they may be cm or inches` : '';
  return `No unit is said; lengths are taken as mm${doubt} (--unit).`;
}

function thicknessUnitCheck({ isThicknessApart, lengthOf }: ListForm): string | null {
  if (!isThicknessApart) return null;
  return `Thicknesses without a unit are taken as mm; in ${lengthOf('length').unit}, as the lengths, some would be thicker than any panel.`;
}

function countCheck(rows: readonly ListPart[], { columns }: ListForm): string | null {
  if (!columns.has('count')) return 'No column of counts was found; one of each part is taken.';
  const empty = rows.filter(({ isCountAssumed }) => isCountAssumed).map(({ row }) => row);
  return empty.length === 0 ? null : `The count is empty and taken as 1 in ${spans(empty)}.`;
}

function grainCheck(rows: readonly ListPart[], { columns }: ListForm): string | null {
  if (!columns.has('grain'))
    return 'Nothing is said of the grain, so parts may lie either way; write grain: along or across where the figure shows.';
  return rows.some(({ isGrainAssumed }) => isGrainAssumed)
    ? 'A mark or a yes for the grain is taken as along the length.'
    : null;
}

function bandChecks(
  rows: readonly ListPart[],
  { columns }: ListForm,
  { band }: Given,
): readonly string[] {
  const banded = rows.filter(({ bands }) => Object.keys(bands).length > 0);
  if (banded.length === 0) return [];
  const isCut = ['length', 'width'].some((role) => columns.get(role as 'length')?.isCut);
  const sizes = isCut
    ? 'Sizes are taken as sawn, so the edge bands were added to make the finished size.'
    : 'Sizes are taken as finished, so the edge bands will be deducted for the cut.';
  const assumed = banded.filter(({ isBandAssumed }) => isBandAssumed).length;
  const thick = `The thickness of edge bands is assumed as ${withUnit(band.text)} where the list does not say it (--band).`;
  return assumed === 0 ? [sizes] : [sizes, thick];
}

function withUnit(text: string): string {
  return /^[\d.]+$/.test(text) ? `${text} mm` : text;
}

function materialChecks(rows: readonly ListPart[], { materials }: ListJob): readonly string[] {
  const unnamed = rows.filter(({ material }) => material === null).map(({ row }) => row);
  const none =
    unnamed.length === rows.length
      ? 'No material is named; it is called Panel (--material).'
      : `No material is named, and it is called Panel (--material), in ${spans(unnamed)}.`;
  const thin = materials.filter(({ thicknessFrom }) => thicknessFrom === 'nowhere');
  const guessed = materials.filter(({ sheetFrom }) => sheetFrom !== 'option').length;
  const strange = materials.filter(({ family }) => family === null);
  return [
    ...(unnamed.length > 0 ? [none] : []),
    ...(thin.length > 0 ? [`The thickness is assumed (--thickness) of ${namesOf(thin)}.`] : []),
    ...(strange.length > 0
      ? [`The family is not known, and plywood taken, of ${namesOf(strange)}.`]
      : []),
    ...(guessed > 0
      ? ['The sizes of the sheets are assumed (--sheet); prices and trim are open.']
      : []),
  ];
}

function namesOf(materials: ListJob['materials']): string {
  const shown = materials.slice(0, 5).map(({ name }) => shortened(name));
  const more = materials.length - shown.length;
  return `${shown.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}

function nameChecks({ parts, renamed }: ListJob): readonly string[] {
  const alike = parts.filter(({ rows }) => rows.length > 1);
  const joined = alike.reduce((sum, { rows }) => sum + rows.length, 0);
  return [
    ...(joined > 0
      ? [
          `Rows that are alike in all are one part with their counts added: ${joined} rows are ${alike.length}.`,
        ]
      : []),
    ...(renamed > 0 ? [`Names that were taken have a number behind them now: ${renamed}.`] : []),
  ];
}
