import { doneText } from '../../drawing/sheet-table.ts';
import type { Costs, SheetCosts } from '../../model/costs.ts';
import {
  formatMoney,
  formatRun,
  formatShare,
  formatSize,
  formatWeight,
} from '../../model/format.ts';
import type { FileUnit } from '../../model/job.ts';
import { type NumberedSheet, numberedSheets, type Plan } from '../../model/plan.ts';
import {
  adviceCalledFor,
  type CareGroup,
  calmPieces,
  careGroups,
  groupName,
  movingSentence,
  pieceName,
  sensitivitySentence,
} from '../care.ts';
import {
  adviceSentence,
  CAUTIONS,
  lostSentences,
  proofSentence,
  stopSentence,
  timeText,
} from '../wording.ts';

/** One column of a table; `share` is its part of the width. */
export interface Column {
  readonly head: string;
  readonly share: number;
  readonly right: boolean;
}

/** A stretch of a text page; it says nothing about letters or places. */
export type Block =
  | { readonly kind: 'title'; readonly text: string; readonly under: string }
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly entries: readonly string[] }
  | {
      readonly kind: 'table';
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly string[])[];
    };

/** What a person needs to know before the first sheet goes on the machine. */
export function summaryBlocks(plan: Plan, date: string | null): readonly Block[] {
  const stopped = stopSentence(plan);
  return [
    {
      kind: 'title',
      text: plan.job.name,
      under: ['Cutting plan', date].filter((part) => part !== null).join(' · '),
    },
    ...(stopped === null ? [] : [{ kind: 'paragraph' as const, text: stopped }]),
    ...proofBlocks(plan),
    ...unplacedBlocks(plan),
    ...sheetBlocks(plan),
    ...careBlocks(plan),
    ...warningBlocks(plan),
    ...assumedBlocks(plan),
    { kind: 'heading', text: 'Cautions' },
    { kind: 'list', entries: CAUTIONS },
  ];
}

function proofBlocks(plan: Plan): readonly Block[] {
  const { costs, job } = plan;
  const rows = plan.layouts
    .filter(({ sheets, unplaced }) => sheets.length + unplaced.length > 0)
    .map((layout) => [job.materials[layout.material]?.name ?? '', proofSentence(plan, layout)]);
  const price =
    costs.totalCents === null
      ? 'not known: a sheet has no price'
      : formatMoney(costs.totalCents, job.currency);
  const cut = `${formatRun(costs.cutLengthMm, job.unit)}, ${timeText(costs)}`;
  return [
    {
      kind: 'table',
      columns: [column('Material', 2), column('Sheets', 5)],
      rows,
    },
    {
      kind: 'paragraph',
      text: [
        `Price of the sheets: ${price}.`,
        `Yield: ${formatShare(costs.yieldShare)}.`,
        `Cutting length: ${cut}.`,
        heaviest(costs, job.unit),
      ].join(' '),
    },
  ];
}

function unplacedBlocks(plan: Plan): readonly Block[] {
  const entries = plan.layouts.flatMap(({ unplaced }) =>
    unplaced.map(
      ({ piece, why }) =>
        `${pieceName(plan, piece)}: ${why === 'no-room' ? 'fits no sheet of its material' : 'the sheets on hand are used up'}`,
    ),
  );
  if (entries.length === 0) return [];
  return [
    { kind: 'heading', text: 'Pieces without a place' },
    { kind: 'list', entries },
  ];
}

function sheetBlocks(plan: Plan): readonly Block[] {
  return [
    { kind: 'heading', text: 'The sheets' },
    {
      kind: 'table',
      columns: [
        column('No', 1.2, true),
        column('Material', 6),
        column('Size', 5),
        column('Pieces', 2.2, true),
        column('Yield', 2.2, true),
        column('Weight', 2.4, true),
        column('Price', 3.2, true),
        column('To keep', 6),
      ],
      rows: numberedSheets(plan.layouts).map((sheet) => sheetRow(plan, sheet)),
    },
  ];
}

function sheetRow(plan: Plan, { number, material, sheet }: NumberedSheet): readonly string[] {
  const { job } = plan;
  const stock = job.materials[material]?.sheets[sheet.stock];
  const costs = plan.costs.sheets.find((entry) => entry.sheet === number);
  return [
    `${number}`,
    job.materials[material]?.name ?? '',
    stock === undefined ? '' : formatSize(stock.length, stock.width, job.unit),
    `${sheet.placements.length}`,
    costs === undefined ? '' : formatShare(costs.yieldShare),
    costs === undefined ? '' : formatWeight(costs.weightKg, plan.job.unit),
    stock?.priceCents == null ? '–' : formatMoney(stock.priceCents, job.currency),
    offcutText(plan, costs),
  ];
}

function offcutText({ job }: Plan, costs: SheetCosts | undefined): string {
  return (costs?.offcuts ?? [])
    .map(({ box }) => formatSize(box.maxX - box.minX, box.maxY - box.minY, job.unit))
    .join(', ');
}

/** Everything that does not simply stay: alike pieces of a sheet in one row, then what each action means. */
function careBlocks(plan: Plan): readonly Block[] {
  const { calm, all } = calmPieces(plan);
  const groups = careGroups(plan);
  const heading: Block = { kind: 'heading', text: 'What will not stay by itself' };
  const reckoned: Block = {
    kind: 'paragraph',
    text: [
      `${calm} of ${all} pieces stay put by the reckoning and need nothing.`,
      movingSentence(plan) ?? '',
    ]
      .join(' ')
      .trim(),
  };
  const lost = lostSentences(plan).map((text): Block => ({ kind: 'paragraph', text }));
  if (groups.length === 0) return [heading, reckoned, ...lost];
  return [
    heading,
    reckoned,
    ...lost,
    {
      kind: 'table',
      columns: [
        column('Sheet', 1.6, true),
        column('Cut', 2.4),
        column('What', 6),
        column('Margin', 1.8, true),
        column('At worst', 2, true),
        column(plan.job.unit === 'mm' ? 'Do (mm)' : 'Do (inches)', 4),
        column('Then', 4),
      ],
      rows: groups.map((group) => careRow(plan, group)),
    },
    { kind: 'list', entries: adviceCalledFor(plan).map(adviceSentence) },
  ];
}

function careRow(plan: Plan, group: CareGroup): readonly string[] {
  const { first, all } = group;
  return [
    `${first.sheet}`,
    [...new Set(all.map(({ cutOrder }) => cutOrder))].join(', '),
    groupName(plan, group),
    Math.min(...all.map(({ margin }) => margin)).toFixed(2),
    Math.min(...all.map(({ marginLow }) => marginLow)).toFixed(2),
    doneText(plan.job.unit, first),
    first.verdictAfter === 'marginal' ? 'marginal: test first' : first.verdictAfter,
  ];
}

function warningBlocks({ cutWarnings }: Plan): readonly Block[] {
  if (cutWarnings.length === 0) return [];
  return [
    { kind: 'heading', text: 'Look at first' },
    { kind: 'list', entries: cutWarnings },
  ];
}

/** Without a table in the file it is also said what the verdict hangs on. */
function assumedBlocks(plan: Plan): readonly Block[] {
  const { machine, table } = plan.job;
  const entries = [...machine.assumed, ...table.assumed];
  const sentence = table.isGiven ? null : sensitivitySentence(plan);
  if (entries.length === 0) return [];
  return [
    { kind: 'heading', text: 'Taken for granted, because the parts file does not say' },
    { kind: 'list', entries },
    ...(sentence === null ? [] : [{ kind: 'paragraph' as const, text: sentence }]),
  ];
}

function heaviest({ sheets }: Costs, unit: FileUnit): string {
  const weight = Math.max(0, ...sheets.map(({ weightKg }) => weightKg));
  return `Heaviest sheet: ${formatWeight(weight, unit)}.`;
}

function column(head: string, share: number, right = false): Column {
  return { head, share, right };
}
