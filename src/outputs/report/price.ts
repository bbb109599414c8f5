import { isEmptyLayout } from '../../model/layout.ts';
import type { Plan } from '../../model/plan.ts';
import {
  amountText,
  eachText,
  groupTitle,
  heavyLifts,
  LIFT_CAUTION,
  liftRule,
  liftText,
  moneyText,
  priceHeadline,
  priceNotes,
  SECTION_WORDS,
  SHARE_RULE,
  sectionsOf,
  shareName,
  totalsOf,
} from '../price.ts';
import { assumptions, proofSentence, stopSentence } from '../wording.ts';
import { type Line, type Tone, wholeTable, wrap } from './line.ts';

/** Longer lists of parts are for a file. */
const MOST_SHARES = 60;

/** What the help of the command says below its options. */
export const PRICE_HELP = wrap('plain', SHARE_RULE)
  .map(({ text }) => text)
  .join('\n');

/** The price of a plan in at most 80 columns: lines, totals, who bears how much, what it does not cover, what is heavy. */
export function priceLines(plan: Plan): readonly Line[] {
  const { quote } = plan.costs;
  return [
    ...wrap(
      quote.totalCents === null ? 'bad' : 'heading',
      `${plan.job.name}: ${priceHeadline(plan)}`,
    ),
    ...proofLines(plan),
    ...quote.unknown.flatMap((text) => wrap('bad', `not known: ${text}`, '    ', '  ')),
    blank(),
    ...quoteTable(plan),
    ...shareTable(plan),
    blank(),
    ...priceNotes(plan).flatMap((note) => wrap('plain', note, '  ')),
    ...assumedLines(plan),
    ...liftLines(plan),
  ];
}

function proofLines(plan: Plan): readonly Line[] {
  const stopped = stopSentence(plan);
  return [
    ...(stopped === null ? [] : wrap('care', stopped)),
    ...plan.layouts
      .filter((layout) => !isEmptyLayout(layout))
      .flatMap((layout) => {
        const { name } = plan.job.materials[layout.material]!;
        const tones = { proved: 'good', limit: 'care', impossible: 'bad' } as const;
        return wrap(tones[layout.status], `${name}: ${proofSentence(plan, layout)}`, '    ', '  ');
      }),
  ];
}

interface Row {
  readonly tone: Tone;
  readonly cells: readonly string[];
}

function quoteTable(plan: Plan): readonly Line[] {
  const { job } = plan;
  const sections = sectionsOf(plan).flatMap(({ section, lines }): readonly Row[] => [
    { tone: 'plain', cells: [SECTION_WORDS[section]] },
    ...lines.map(
      (line): Row => ({
        tone: line.cents === null ? 'bad' : 'plain',
        cells: [
          `  ${line.name}`,
          amountText(line),
          eachText(line, job),
          moneyText(line.cents, job),
        ],
      }),
    ),
  ]);
  const totals = totalsOf(plan);
  const sums = totals.map(
    ({ name, cents }, i): Row => ({
      tone: i === totals.length - 1 ? 'heading' : 'plain',
      cells: [name, '', '', moneyText(cents, job)],
    }),
  );
  const head: Row = { tone: 'quiet', cells: ['', 'amount', 'each', job.currency.code] };
  return tableLines([head, ...sections, ...sums]);
}

/** One row a group, then one for each of its parts. */
function shareTable(plan: Plan): readonly Line[] {
  const { job, costs } = plan;
  const { groups } = costs.quote;
  if (groups.length === 0) return [];
  const rows = groups.flatMap(({ group, cents, shares }): readonly Row[] => [
    { tone: 'plain', cells: [groupTitle(group), moneyText(cents, job)] },
    ...shares.map(
      (share): Row => ({
        tone: 'quiet',
        cells: [`  ${shareName(share)}`, moneyText(share.cents, job)],
      }),
    ),
  ]);
  const head: Row = { tone: 'quiet', cells: ['share of the price before tax', job.currency.code] };
  const left = rows.length - MOST_SHARES;
  return [
    blank(),
    ...tableLines([head, ...rows.slice(0, MOST_SHARES)]),
    ...(left > 0 ? wrap('quiet', `and ${left} more rows: see --format csv`) : []),
  ];
}

/** Names to the left, figures to the right. */
function tableLines(rows: readonly Row[]): readonly Line[] {
  const isRight = rows[0]!.cells.map((_, i) => i > 0);
  const texts = wholeTable(
    rows.map(({ cells }) => cells),
    isRight,
  );
  return texts.flatMap((lines, i) => lines.map((text) => ({ tone: rows[i]!.tone, text })));
}

function assumedLines({ job }: Plan): readonly Line[] {
  if (job.rates?.labour == null) return [];
  const assumed = assumptions(job);
  if (assumed.length === 0) return [];
  return wrap('care', `Assumed, as the file does not say: ${assumed.join('; ')}.`, '  ');
}

function liftLines(plan: Plan): readonly Line[] {
  const heavy = heavyLifts(plan);
  if (heavy.length === 0) return [];
  return [
    blank(),
    ...heavy.flatMap((lift) => wrap('care', `Heavy: ${liftText(plan.job, lift)}`, '    ', '  ')),
    ...wrap('quiet', `${liftRule(plan)} ${LIFT_CAUTION}`),
  ];
}

function blank(): Line {
  return { tone: 'plain', text: '' };
}
