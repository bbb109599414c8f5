// Writes the price for other programs: JSON with money in whole minor units, and comma-separated text with money in the currency itself.
// Keys and columns stand in a fixed order; what is not known is null, or an empty field.
import type { Job } from '../../model/job.ts';
import { isEmptyLayout } from '../../model/layout.ts';
import type { Plan } from '../../model/plan.ts';
import { csvText } from '../csv.ts';
import { totalsOf } from '../price.ts';
import { assumptions } from '../wording.ts';
import type { Origin } from './plan-json.ts';
import { liftingRecord, quoteRecord } from './quote-record.ts';

const FORMAT = 'holdfast-price/1';

export function toPriceJson(plan: Plan, origin: Origin): string {
  const { job, options, layouts } = plan;
  const record = {
    format: FORMAT,
    toolVersion: origin.toolVersion,
    partsFileSha256: origin.partsFileSha256,
    options: { effort: options.effort, seed: options.seed, seconds: options.seconds },
    stoppedByTime: plan.stopped === 'time',
    interrupted: plan.stopped === 'interrupt',
    job: job.name,
    materials: layouts
      .filter((layout) => !isEmptyLayout(layout))
      .map(({ material, status, objective, used, bound, sheets, boards }) => ({
        material: job.materials[material]!.id,
        status,
        objective,
        used,
        atLeast: bound.atLeast,
        sheets: sheets.length,
        boards: boards.length,
      })),
    ...quoteRecord(plan),
    lifting: liftingRecord(plan),
    assumed: assumptions(job),
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}

const COLUMNS = ['row', 'section', 'group', 'name', 'amount', 'unit', 'each', 'money', 'currency'];

/** Rows of four kinds: lines and totals of the quote, then groups and what each of their parts and hardware bears. */
export function toPriceCsv(plan: Plan): string {
  const { job, costs } = plan;
  const { code } = job.currency;
  const money = (cents: number | null) => (cents === null ? null : inCurrency(cents, job));
  const lines = costs.quote.lines.map(({ section, name, amount, unit, eachCents, cents }) => [
    'line',
    section,
    '',
    name,
    amount,
    unit,
    money(eachCents),
    money(cents),
    code,
  ]);
  const totals = totalsOf(plan).map(({ name, cents }) => [
    'total',
    '',
    '',
    name,
    null,
    null,
    null,
    money(cents),
    code,
  ]);
  const groups = costs.quote.groups.flatMap(({ group, cents, shares }) => [
    ['group', '', group, '', null, null, null, money(cents), code],
    ...shares.map((share) => [
      share.kind,
      '',
      group,
      share.name,
      share.count,
      'piece',
      null,
      money(share.cents),
      code,
    ]),
  ]);
  return csvText([COLUMNS, ...lines, ...totals, ...groups]);
}

/** The nearest double, which prints as the decimals it stands for. */
function inCurrency(cents: number, { currency }: Job): number {
  return cents / 10 ** currency.decimals;
}
