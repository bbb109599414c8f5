import { offcutSize, rawNumbers } from '../../drawing/offcut-texts.ts';
import { doneText } from '../../drawing/sheet-table.ts';
import { drawYieldBars } from '../../drawing/yield-bar.ts';
import type { Costs, SheetCosts } from '../../model/costs.ts';
import {
  formatMoney,
  formatRun,
  formatShare,
  formatSize,
  formatWeight,
} from '../../model/format.ts';
import type { FileUnit } from '../../model/job.ts';
import { isEmptyLayout, type UnplacedWhy } from '../../model/layout.ts';
import { type NumberedSheet, numberedSheets, type Plan } from '../../model/plan.ts';
import type { SheetStock } from '../../model/stock.ts';
import {
  adviceCalledFor,
  besideSentence,
  type CareGroup,
  calmPieces,
  careGroups,
  groupName,
  movingSentence,
  pieceName,
  sensitivitySentence,
} from '../care.ts';
import { RAW_EDGE } from '../saw-wording.ts';
import { missingLengths, missingText } from '../unplaced.ts';
import {
  adviceSentence,
  assumptions,
  boughtNoun,
  calmSentence,
  cautionsOf,
  lostSentences,
  packSentence,
  priceless,
  proofSentence,
  stockNoun,
  stopSentence,
  timeText,
  yieldText,
} from '../wording.ts';
import { type Block, column } from './blocks.ts';
import { boardBlocks } from './board-blocks.ts';
import { lumberBlocks } from './lumber-blocks.ts';
import { priceBlocks } from './price-blocks.ts';
import { sawBlocks } from './saw-blocks.ts';

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
    ...(plan.job.pieces.length === 0 ? [] : [...sheetBlocks(plan), ...mainBlocks(plan)]),
    ...boardBlocks(plan),
    ...lumberBlocks(plan),
    ...warningBlocks(plan),
    ...assumedBlocks(plan),
    { kind: 'heading', text: 'Cautions' },
    { kind: 'list', entries: cautionsOf(plan.job) },
    ...yieldBlocks(plan),
    ...priceBlocks(plan),
  ];
}

/** What is most to be minded: at a router what will not stay put, at a saw the cuts. */
function mainBlocks(plan: Plan): readonly Block[] {
  return plan.job.machine.kind === 'router' ? careBlocks(plan) : sawBlocks(plan);
}

function proofBlocks(plan: Plan): readonly Block[] {
  const { costs, job } = plan;
  const noun = stockNoun(plan.layouts);
  const share = yieldText(plan);
  const rows = plan.layouts
    .filter((layout) => !isEmptyLayout(layout))
    .map((layout) => [job.materials[layout.material]?.name ?? '', proofSentence(plan, layout)]);
  const stocks: Block = {
    kind: 'table',
    columns: [column('Material', 2), column(`${noun[0]!.toUpperCase()}${noun.slice(1)}`, 5)],
    rows,
  };
  const price =
    costs.totalCents === null
      ? `not known: ${priceless(plan)} no price`
      : formatMoney(costs.totalCents, job.currency);
  const packs = packSentence(plan);
  const time = timeText(costs);
  const cut =
    time === null ? '' : `Cutting length: ${formatRun(costs.cutLengthMm, job.unit)}, ${time}. `;
  return [
    ...(rows.length === 0 ? [] : [stocks]),
    {
      kind: 'paragraph',
      text: [
        `Price of the ${boughtNoun(plan)}: ${price}.`,
        ...(packs === null ? [] : [packs]),
        ...(share === null ? [] : [`Yield: ${share}.`]),
        ...(job.pieces.length === 0 ? [] : [`${cut}${heaviest(costs, job.unit)}`]),
      ].join(' '),
    },
  ];
}

/** Where the stock goes, as bars; last, since nobody needs it at the machine. */
function yieldBlocks(plan: Plan): readonly Block[] {
  const drawings = drawYieldBars(plan);
  if (drawings.length === 0) return [];
  return [
    { kind: 'heading', text: 'Where the stock goes' },
    ...drawings.map((drawing): Block => ({ kind: 'drawing', drawing })),
  ];
}

function unplacedBlocks(plan: Plan): readonly Block[] {
  const why = (reason: UnplacedWhy, noun: string) =>
    reason === 'no-room' ? `fits no ${noun} of its material` : `the ${noun}s on hand are used up`;
  const entries = plan.layouts.flatMap((layout) => [
    ...layout.unplaced.map((each) => `${pieceName(plan, each.piece)}: ${why(each.why, 'sheet')}`),
    ...missingLengths(plan, layout).map(
      (missing) => `${missingText(missing)}: ${why(missing.why, 'board')}`,
    ),
  ]);
  if (entries.length === 0) return [];
  return [
    { kind: 'heading', text: 'Pieces without a place' },
    { kind: 'list', entries },
  ];
}

function sheetBlocks(plan: Plan): readonly Block[] {
  const isRaw = plan.costs.sheets.some(({ offcuts }) =>
    offcuts.some((offcut) => rawNumbers(plan.job, offcut) !== null),
  );
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
    ...(isRaw ? [{ kind: 'paragraph' as const, text: RAW_EDGE }] : []),
  ];
}

function sheetRow(plan: Plan, { number, material, sheet }: NumberedSheet): readonly string[] {
  const { job } = plan;
  const stock = job.materials[material]?.sheets[sheet.stock];
  const costs = plan.costs.sheets.find((entry) => entry.sheet === number);
  return [
    `${number}`,
    job.materials[material]?.name ?? '',
    stock === undefined ? '' : stockText(stock, job.unit),
    `${sheet.placements.length}`,
    costs === undefined ? '' : formatShare(costs.yieldShare),
    costs === undefined ? '' : formatWeight(costs.weightKg, plan.job.unit),
    stock?.priceCents == null ? '–' : formatMoney(stock.priceCents, job.currency),
    offcutText(plan, costs),
  ];
}

function stockText({ length, width, rack }: SheetStock, unit: FileUnit): string {
  return `${rack === null ? '' : `${rack}: `}${formatSize(length, width, unit)}`;
}

function offcutText({ job }: Plan, costs: SheetCosts | undefined): string {
  return (costs?.offcuts ?? [])
    .map((offcut) => {
      const raw = rawNumbers(job, offcut);
      return `${offcutSize(job, offcut)}${raw === null ? '' : ` (raw ${raw})`}`;
    })
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
      calmSentence(calm, all, ' by the reckoning'),
      besideSentence(plan) ?? '',
      movingSentence(plan) ?? '',
    ]
      .filter((text) => text !== '')
      .join(' '),
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
  const entries = assumptions(plan.job);
  const sentence = plan.job.table.isGiven ? null : sensitivitySentence(plan);
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
