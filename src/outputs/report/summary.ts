import { boardPatterns } from '../../drawing/board-patterns.ts';
import { boardCount, cutsText, leftoversText } from '../../drawing/board-texts.ts';
import { spokenRuns } from '../../drawing/number-runs.ts';
import { offcutSize } from '../../drawing/offcut-texts.ts';
import { doneText } from '../../drawing/sheet-table.ts';
import { counted, formatMoney, formatRun } from '../../model/format.ts';
import { isEmptyLayout, type Layout } from '../../model/layout.ts';
import type { BrokenLimit } from '../../model/limit.ts';
import type { Plan } from '../../model/plan.ts';
import {
  adviceCalledFor,
  besideSentence,
  type CareGroup,
  calmPieces,
  careGroups,
  groupName,
  looseWaste,
  movingSentence,
  pieceName,
  sensitivitySentence,
} from '../care.ts';
import { brokenSentence } from '../limits.ts';
import { lumberPieces, lumberPurchases, purchaseSentence } from '../lumber.ts';
import { missingLengths, missingText } from '../unplaced.ts';
import {
  ADVICE_WORDS,
  adviceSentence,
  assumptions,
  boughtNoun,
  calmSentence,
  cautionsOf,
  explainSentence,
  lostSentences,
  packSentence,
  priceless,
  proofSentence,
  stockTaken,
  stopSentence,
  timeText,
  yieldText,
} from '../wording.ts';
import { yieldSentence } from '../yield.ts';
import { type Line, type Tone, table, wrap } from './line.ts';
import { sawLines } from './saw-lines.ts';

const MOST_CARE_LINES = 12;
const MOST_PATTERN_LINES = 12;

/** The plan in a screenful of at most 80 columns: sheets and proof, hold-down, costs, what was assumed, cautions. */
export function planSummary(plan: Plan, broken: readonly BrokenLimit[]): readonly Line[] {
  const limits = brokenSentence(plan, broken);
  return [
    ...headLines(plan),
    ...plan.layouts.flatMap((layout) => materialLines(plan, layout)),
    ...boardLines(plan),
    ...lumberLines(plan),
    blank(),
    ...(plan.job.pieces.length === 0 ? [] : [...mainLines(plan), blank()]),
    ...costLines(plan),
    ...(limits === null ? [] : wrap('bad', limits, '  ')),
    ...warningLines(plan),
    ...assumedLines(plan),
    ...(plan.job.table.isGiven ? [] : sensitivityLines(plan)),
    blank(),
    ...cautionsOf(plan.job)
      .slice(0, 2)
      .flatMap((caution) => wrap('quiet', caution)),
  ];
}

/** Every loose thing that needs care, as a table without an end; used by `explain` without a part. */
export function careLines(plan: Plan): readonly Line[] {
  return [
    ...holdingHead(plan),
    ...careTable(plan, Number.POSITIVE_INFINITY),
    ...warningLines(plan),
    ...sensitivityLines(plan),
  ];
}

function headLines(plan: Plan): readonly Line[] {
  const stopped = stopSentence(plan);
  return [
    ...wrap('heading', `${plan.job.name}: ${takenText(plan)}`),
    ...(stopped === null ? [] : wrap('care', stopped)),
  ];
}

/** "12 pieces on 3 sheets, and lumber for 8 more". */
function takenText({ job, layouts }: Plan): string {
  const laid = job.lengthParts.reduce((sum, part) => sum + part.count, job.pieces.length);
  const others = lumberPieces(job);
  const onStock = `${counted(laid, 'piece')} on ${stockTaken(layouts)}`;
  if (others === 0) return onStock;
  return laid === 0
    ? `lumber for ${counted(others, 'piece')}`
    : `${onStock}, and lumber for ${others} more`;
}

function materialLines(plan: Plan, layout: Layout): readonly Line[] {
  const material = plan.job.materials[layout.material]!;
  const tone: Tone =
    layout.status === 'proved' ? 'good' : layout.status === 'limit' ? 'care' : 'bad';
  if (isEmptyLayout(layout)) return [];
  return [
    ...wrap(tone, `${material.name}: ${proofSentence(plan, layout)}`, '    ', '  '),
    ...layout.unplaced.flatMap(({ piece }) =>
      wrap('bad', `left over: ${pieceName(plan, piece)}`, '      ', '    '),
    ),
    ...missingLengths(plan, layout).flatMap((missing) =>
      wrap('bad', `left over: ${missingText(missing)}`, '      ', '    '),
    ),
  ];
}

/** The cutting list, boards that are cut alike in one row. */
function boardLines(plan: Plan): readonly Line[] {
  const { unit } = plan.job;
  const patterns = boardPatterns(plan);
  const several = new Set(patterns.map(({ material }) => material)).size > 1;
  return [
    ...patterns.slice(0, MOST_PATTERN_LINES).flatMap((pattern) => {
      const of = several ? ` (${pattern.material.name})` : '';
      const text = `${boardCount(pattern, unit)}${of}: ${cutsText(pattern.cuts, unit)}; ${leftoversText(pattern.leftovers, unit)}`;
      return wrap('plain', text, '      ', '    ');
    }),
    ...(MOST_PATTERN_LINES < patterns.length
      ? wrap('quiet', `    and ${patterns.length - MOST_PATTERN_LINES} more rows: see report.md`)
      : []),
  ];
}

function lumberLines(plan: Plan): readonly Line[] {
  return lumberPurchases(plan).flatMap((purchase) =>
    wrap('plain', `${purchase.lumber.name}: ${purchaseSentence(plan.job, purchase)}`, '    ', '  '),
  );
}

/** What is most to be minded: at a router what will not stay put, at a saw the cuts. */
function mainLines(plan: Plan): readonly Line[] {
  return plan.job.machine.kind === 'router' ? holdingLines(plan) : sawLines(plan);
}

function holdingLines(plan: Plan): readonly Line[] {
  return [...holdingHead(plan), ...careTable(plan, MOST_CARE_LINES)];
}

function holdingHead(plan: Plan): readonly Line[] {
  const { calm, all } = calmPieces(plan);
  const { care, moving } = looseWaste(plan);
  const tone = calm === all && care === 0 ? 'good' : 'plain';
  const waste =
    care === 0
      ? ''
      : ` Loose waste that needs care: ${counted(care, 'bit')}${moving === 0 ? '' : `, ${moving} of them moving even so`}.`;
  const moves = movingSentence(plan);
  const beside = besideSentence(plan);
  return [
    ...wrap(
      tone,
      `Hold-down: ${calmSentence(calm, all, '')}${beside === null ? '' : ` ${beside}`}${waste}`,
    ),
    ...(moves === null ? [] : wrap('bad', moves, '  ')),
    ...lostSentences(plan).flatMap((text) => wrap('bad', text, '  ')),
  ];
}

function careTable(plan: Plan, most: number): readonly Line[] {
  const groups = careGroups(plan);
  if (groups.length === 0) return [];
  const explain = explainSentence(plan);
  const shown = groups.slice(0, most);
  const texts = table([CARE_HEADS, ...shown.map((group) => careRow(plan, group))], CARE_COLUMNS, 1);
  return [
    ...texts.map((text, i): Line => ({ tone: i === 0 ? 'quiet' : careTone(shown[i - 1]!), text })),
    ...(most < groups.length
      ? wrap('quiet', `and ${groups.length - most} more rows: see report.md`)
      : []),
    ...adviceCalledFor(plan).flatMap((advice) =>
      wrap('quiet', `${ADVICE_WORDS[advice]}: ${adviceSentence(advice)}`, '    ', '  '),
    ),
    ...(explain === null ? [] : wrap('quiet', explain, '    ', '  ')),
  ];
}

const CARE_HEADS = ['sheet', 'what', 'margin', 'low', 'verdict', 'do', 'then'];

const CARE_COLUMNS = [
  { most: 5, right: true },
  { most: 24, right: false },
  { most: 6, right: true },
  { most: 5, right: true },
  { most: 8, right: false },
  { most: 18, right: false },
  { most: 8, right: false },
];

function careRow(plan: Plan, group: CareGroup): readonly string[] {
  const { first, all } = group;
  const weakest = all.toSorted((a, b) => a.margin - b.margin)[0]!;
  return [
    String(first.sheet),
    groupName(plan, group),
    weakest.margin.toFixed(2),
    weakest.marginLow.toFixed(2),
    weakest.verdict,
    doneText(plan.job.unit, first).replace(' × ', '×'),
    first.verdictAfter,
  ];
}

function careTone({ first }: CareGroup): Tone {
  if (first.verdictAfter === 'moves') return 'bad';
  return first.verdictAfter === 'marginal' ? 'care' : 'plain';
}

function costLines(plan: Plan): readonly Line[] {
  const { job, costs } = plan;
  const price =
    costs.totalCents === null
      ? `price not known, as ${priceless(plan)} none`
      : `${boughtNoun(plan)} ${formatMoney(costs.totalCents, job.currency)}`;
  const time = timeText(costs);
  const hasPockets = job.parts.some(({ pockets }) => pockets.length > 0);
  const contours =
    job.pieces.length === 0 || time === null
      ? ''
      : `; contours ${formatRun(costs.cutLengthMm, job.unit)}${hasPockets ? ' and pockets' : ''}, ${time}`;
  const share = yieldText(plan);
  const used =
    share === null ? 'In all: ' : `Yield ${share}${boughtNoun(plan) === 'sheets' ? ',' : ';'} `;
  const offcuts = offcutsBySize(plan);
  const more = yieldSentence(plan);
  const packs = packSentence(plan);
  return [
    ...wrap('plain', `${used}${price}${contours}.`),
    ...(packs === null ? [] : wrap('plain', packs, '  ')),
    ...(more === null ? [] : wrap('plain', more, '  ')),
    ...(offcuts.length > 0 ? wrap('plain', `Worth keeping: ${offcuts.join('; ')}.`, '  ') : []),
  ];
}

/** "536.8 × 1200 mm on each of sheets 1 and 2", "2 of 400 × 230.8 mm on each of sheets 4 to 250": in the order in which sizes come first. */
function offcutsBySize({ job, costs }: Plan): readonly string[] {
  const sheetsOf = new Map<string, number[]>();
  for (const { sheet, offcuts } of costs.sheets) {
    const counts = new Map<string, number>();
    for (const offcut of offcuts) {
      const size = offcutSize(job, offcut);
      counts.set(size, (counts.get(size) ?? 0) + 1);
    }
    for (const [size, count] of counts) {
      const what = count === 1 ? size : `${count} of ${size}`;
      sheetsOf.set(what, [...(sheetsOf.get(what) ?? []), sheet]);
    }
  }
  return [...sheetsOf].map(([what, sheets]) => {
    if (sheets.length === 1) return `${what} on sheet ${sheets[0]}`;
    return `${what} on each of sheets ${spokenRuns(sheets)}`;
  });
}

function warningLines({ cutWarnings }: Plan): readonly Line[] {
  return cutWarnings.flatMap((text) => wrap('care', text, '  '));
}

function sensitivityLines(plan: Plan): readonly Line[] {
  const sentence = sensitivitySentence(plan);
  return sentence === null ? [] : wrap('plain', sentence, '  ');
}

function assumedLines({ job }: Plan): readonly Line[] {
  const assumed = assumptions(job);
  if (assumed.length === 0) return [];
  return wrap('care', `Assumed, as the file does not say: ${assumed.join('; ')}.`, '  ');
}

function blank(): Line {
  return { tone: 'plain', text: '' };
}
