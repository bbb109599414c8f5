import { depthText } from '../../drawing/depth-texts.ts';
import { offcutSize, rawSize } from '../../drawing/offcut-texts.ts';
import {
  formatForce,
  formatLength,
  formatMoney,
  formatRun,
  formatShare,
  formatSize,
  formatWeight,
  stockTitle,
  stopLength,
} from '../../model/format.ts';
import { adviceOf, type ContourStep, type Holding, type SkinStep } from '../../model/holding.ts';
import { isEmptyLayout, type Layout } from '../../model/layout.ts';
import type { BrokenLimit } from '../../model/limit.ts';
import type { Part } from '../../model/part.ts';
import { numberedSheets, type Plan } from '../../model/plan.ts';
import {
  adviceCalledFor,
  besideSentence,
  calmPieces,
  looseName,
  movingSentence,
  needsCare,
  pieceName,
  sensitivitySentence,
} from '../care.ts';
import { brokenSentence } from '../limits.ts';
import { RAW_EDGE } from '../saw-wording.ts';
import {
  ADVICE_WORDS,
  adviceSentence,
  assumptions,
  boughtNoun,
  calmSentence,
  cautionsOf,
  explainSentence,
  lostSentences,
  orderSentence,
  packSentence,
  proofSentence,
  stopSentence,
  timeText,
  vacuumSentence,
  yieldText,
} from '../wording.ts';
import { boardPartSection, boardSection } from './board-sections.ts';
import { lumberPartSection, lumberSection } from './lumber-sections.ts';
import { plain, table } from './markdown-text.ts';
import { liftingSection, priceSection } from './price-section.ts';
import { sawSection } from './saw-section.ts';
import { yieldSection } from './yield-section.ts';

/** The yield report as Markdown: sheets with proof, where the area goes, hold-down, cutting order, parts, cautions. */
export function toMarkdown(plan: Plan, date: Date | null, broken: readonly BrokenLimit[]): string {
  const isRouter = plan.job.machine.kind === 'router';
  const sections = [
    headSection(plan, date, broken),
    sheetSection(plan),
    boardSection(plan),
    lumberSection(plan),
    priceSection(plan),
    yieldSection(plan),
    offcutSection(plan),
    ...(isRouter ? [holdingSection(plan)] : [sawSection(plan)]),
    inputSection(plan),
    orderSection(plan),
    partSection(plan),
    boardPartSection(plan),
    lumberPartSection(plan),
    assumedSection(plan),
    liftingSection(plan),
    `## Cautions\n\n${cautionsOf(plan.job)
      .map((caution) => `- ${caution}`)
      .join('\n')}`,
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

function headSection(plan: Plan, date: Date | null, broken: readonly BrokenLimit[]): string {
  const { calm, all } = calmPieces(plan);
  const lines = [
    `# ${plain(plan.job.name)}`,
    date === null ? '' : date.toISOString().slice(0, 10),
    plan.layouts
      .filter((layout) => !isEmptyLayout(layout))
      .map(
        (layout) => `- **${plain(materialOf(plan, layout).name)}**: ${proofSentence(plan, layout)}`,
      )
      .join('\n'),
    all === 0 ? '' : calmSentence(calm, all, ' under vacuum'),
    besideSentence(plan) ?? '',
    movingSentence(plan) ?? '',
    ...lostSentences(plan),
    stopSentence(plan) ?? '',
    plain(brokenSentence(plan, broken) ?? ''),
  ];
  return lines.filter((line) => line !== '').join('\n\n');
}

function sheetSection(plan: Plan): string {
  if (plan.job.pieces.length === 0) return '';
  const rows = numberedSheets(plan.layouts).map(({ number, material, sheet }) => {
    const { name, sheets } = plan.job.materials[material]!;
    const costs = plan.costs.sheets[number - 1]!;
    return [
      String(number),
      plain(name),
      plain(stockTitle(sheets[sheet.stock]!.name, plan.job.unit)),
      String(sheet.placements.length),
      formatShare(costs.yieldShare),
      placeLength(plan, costs.usedLength),
      costs.priceCents === null ? '' : formatMoney(costs.priceCents, plan.job.currency),
      formatWeight(costs.weightKg, plan.job.unit),
      formatRun(costs.cutLengthMm, plan.job.unit),
    ];
  });
  const { costs, job } = plan;
  const total =
    costs.totalCents === null ? 'not known' : formatMoney(costs.totalCents, job.currency);
  const isRouter = job.machine.kind === 'router';
  const time = timeText(costs);
  const packs = packSentence(plan);
  return [
    '## Sheets',
    table(
      [
        'Sheet',
        'Material',
        'Size',
        'Pieces',
        'Yield',
        'Used length',
        'Price',
        'Weight',
        isRouter ? 'Contours' : 'Saw cuts',
      ],
      rows,
      'rllrrrrrr',
    ),
    `Yield on what is bought: ${yieldText(plan)}. Price of the ${boughtNoun(plan)}: ${total}.` +
      (time === null
        ? ''
        : ` Contours to cut: ${formatRun(costs.cutLengthMm, job.unit)}, ${time}, ` +
          'without loading, tool changes, drilling and rapid moves.'),
    ...(packs === null ? [] : [plain(packs)]),
  ].join('\n\n');
}

function offcutSection(plan: Plan): string {
  const { costs, job } = plan;
  const offcuts = costs.sheets.flatMap((sheet) =>
    sheet.offcuts.map((offcut) => ({ offcut, number: sheet.sheet })),
  );
  if (offcuts.length === 0) return '';
  const isRaw = offcuts.some(({ offcut }) => rawSize(job, offcut) !== null);
  const rows = offcuts.map(({ offcut, number }) => [
    String(number),
    offcutSize(job, offcut),
    ...(isRaw ? [rawSize(job, offcut) ?? ''] : []),
    `${placeLength(plan, offcut.box.minX)}, ${placeLength(plan, offcut.box.minY)}`,
  ]);
  const heads = ['Sheet', 'Size', ...(isRaw ? ['With the raw edge'] : []), 'Lower left corner'];
  const note = isRaw ? `\n\n${RAW_EDGE}` : '';
  return `## Offcuts worth keeping\n\n${table(heads, rows, isRaw ? 'rlll' : 'rll')}${note}`;
}

/** At a saw as its settings are given. */
function placeLength({ job: { machine, unit } }: Plan, length: number): string {
  return machine.kind === 'router' ? formatLength(length, unit) : stopLength(length, unit);
}

function holdingSection(plan: Plan): string {
  if (plan.job.pieces.length === 0) return '';
  const care = plan.holding.flatMap((sheet) => sheet.loose).filter(needsCare);
  if (care.length === 0) return '## Hold-down\n\nEverything stays put; nothing is to be done.';
  const rows = care.map((loose) => [
    String(loose.sheet),
    String(loose.cutOrder),
    plain(looseName(plan, loose)),
    formatForce(loose.holdingForceN, plan.job.unit),
    formatForce(loose.cuttingForceN, plan.job.unit),
    `${loose.margin.toFixed(2)} (${loose.marginLow.toFixed(2)})`,
    loose.verdict,
    ADVICE_WORDS[adviceOf(loose)],
    loose.action === 'none' ? '' : loose.marginAfter.toFixed(2),
    plain(loose.why),
  ]);
  return [
    '## Hold-down',
    table(
      [
        'Sheet',
        'Cut',
        'What',
        'Held by',
        'Pushed by',
        'Margin (low)',
        'Verdict',
        'Do',
        'Margin then',
        'Why',
      ],
      rows,
      'rrlrrrllrl',
    ),
    adviceCalledFor(plan)
      .map((advice) => `- **${ADVICE_WORDS[advice]}**: ${adviceSentence(advice)}`)
      .join('\n'),
    explainSentence(plan) ?? '',
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

/** What the verdicts hang on, and what is asked of the cutter that is not usual. */
function inputSection(plan: Plan): string {
  const sentence = sensitivitySentence(plan);
  return [
    ...(sentence === null ? [] : [plain(sentence)]),
    plan.cutWarnings.map((text) => `- ${plain(text)}`).join('\n'),
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

function orderSection(plan: Plan): string {
  const sheets = plan.holding.map((holding) => {
    const { sheet, steps, loose } = holding;
    const cuts = steps.flatMap((step) =>
      step.kind === 'skin' ? [] : [cutWords(plan, loose, step)],
    );
    const skins = steps.flatMap((step) => (step.kind === 'skin' ? [skinWords(plan, step)] : []));
    const last = skins.length === 0 ? '' : ` Then take the skin off: ${joinRuns(skins)}.`;
    const worth = [
      orderSentence(holding, plan.job.unit),
      vacuumSentence(holding, plan.job.unit),
    ].filter((text) => text !== null);
    return [`**Sheet ${sheet}**: ${joinRuns(cuts)}.${last}`, worth.join(' ')]
      .join('\n\n')
      .trimEnd();
  });
  return sheets.length === 0 ? '' : `## Order of cutting\n\n${sheets.join('\n\n')}`;
}

function cutWords(plan: Plan, loose: readonly Holding[], { kind, piece }: ContourStep): string {
  const name = plain(pieceName(plan, piece));
  return kind === 'outline' ? `${name}${unheldMark(loose, piece)}` : `${kind} in ${name}`;
}

/** A piece that nothing holds stays in the order, as the sheet is reckoned with its cut. */
function unheldMark(loose: readonly Holding[], piece: number): string {
  const holding = loose.find((each) => each.kind === 'piece' && each.piece === piece);
  const advice = holding === undefined ? 'none' : adviceOf(holding);
  return advice === 'leave' || advice === 'try' ? ` (**${ADVICE_WORDS[advice]}**)` : '';
}

function skinWords(plan: Plan, { thing, piece }: SkinStep): string {
  const name = plain(pieceName(plan, piece));
  return thing === 'piece' ? name : `${thing} in ${name}`;
}

function partSection(plan: Plan): string {
  if (plan.job.parts.length === 0) return '';
  const { unit } = plan.job;
  const hasNotes = plan.job.parts.some(({ note }) => note !== null);
  const hasDepths = plan.job.parts.some((part) => depthText(part, unit) !== null);
  const rows = plan.job.parts.map((part) => [
    partTitle(plan, part),
    plain(plan.job.materials[part.material]!.name),
    String(part.count),
    formatSize(part.finishedWidth, part.finishedHeight, plan.job.unit),
    formatSize(part.width, part.height, plan.job.unit),
    formatWeight(plan.costs.parts[part.index]!.pieceWeightKg, plan.job.unit, 2),
    ...(hasDepths ? [plain(depthText(part, unit) ?? '')] : []),
    ...(hasNotes ? [plain(part.note ?? '')] : []),
  ]);
  const heads = [
    'Part',
    'Material',
    'Count',
    'Finished',
    'As cut',
    'Weight each',
    ...(hasDepths ? ['Not through'] : []),
    ...(hasNotes ? ['Note'] : []),
  ];
  return `## Parts\n\n${table(heads, rows, 'llrllr'.padEnd(heads.length, 'l'))}`;
}

/** The part's name; of a matched set also which place in it. */
function partTitle({ job }: Plan, part: Part): string {
  const order = job.pieces.find((piece) => piece.part === part.index)?.setOrder ?? null;
  return order === null ? plain(part.name) : `${plain(part.name)}, ${order} in the set`;
}

function assumedSection({ job }: Plan): string {
  const assumed = assumptions(job);
  if (assumed.length === 0) return '';
  return `## Assumed, as the file does not say\n\n${assumed.map((line) => `- ${plain(line)}`).join('\n')}`;
}

/** Equal neighbours as one word with a count, so that twelve holes are not twelve words. */
function joinRuns(words: readonly string[]): string {
  const runs: { word: string; times: number }[] = [];
  for (const word of words) {
    const last = runs.at(-1);
    if (last?.word === word) last.times += 1;
    else runs.push({ word, times: 1 });
  }
  return runs.map(({ word, times }) => (times === 1 ? word : `${times} × ${word}`)).join(', ');
}

function materialOf(plan: Plan, layout: Layout) {
  return plan.job.materials[layout.material]!;
}
