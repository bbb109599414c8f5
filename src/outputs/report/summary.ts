import { doneText } from '../../drawing/sheet-table.ts';
import { formatMoney, formatRun, formatShare, formatSize } from '../../model/format.ts';
import type { Layout } from '../../model/layout.ts';
import { numberedSheets, type Plan } from '../../model/plan.ts';
import {
  adviceCalledFor,
  type CareGroup,
  calmPieces,
  careGroups,
  groupName,
  looseWaste,
  movingSentence,
  pieceName,
  sensitivitySentence,
} from '../care.ts';
import {
  ADVICE_WORDS,
  adviceSentence,
  CAUTIONS,
  explainSentence,
  lostSentences,
  proofSentence,
  stopSentence,
  timeText,
} from '../wording.ts';
import { type Line, type Tone, table, wrap } from './line.ts';

const MOST_CARE_LINES = 12;

/** The plan in a screenful of at most 80 columns: sheets and proof, hold-down, costs, what was assumed, cautions. */
export function planSummary(plan: Plan): readonly Line[] {
  return [
    ...headLines(plan),
    ...plan.layouts.flatMap((layout) => materialLines(plan, layout)),
    blank(),
    ...holdingLines(plan),
    blank(),
    ...costLines(plan),
    ...warningLines(plan),
    ...assumedLines(plan),
    ...(plan.job.table.isGiven ? [] : sensitivityLines(plan)),
    blank(),
    ...CAUTIONS.slice(0, 2).flatMap((caution) => wrap('quiet', caution)),
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
  const sheets = numberedSheets(plan.layouts).length;
  const pieces = plan.job.pieces.length;
  const stopped = stopSentence(plan);
  return [
    ...wrap('heading', `${plan.job.name}: ${count(pieces, 'piece')} on ${count(sheets, 'sheet')}`),
    ...(stopped === null ? [] : wrap('care', stopped)),
  ];
}

function materialLines(plan: Plan, layout: Layout): readonly Line[] {
  const material = plan.job.materials[layout.material]!;
  const tone: Tone =
    layout.status === 'proved' ? 'good' : layout.status === 'limit' ? 'care' : 'bad';
  if (layout.sheets.length === 0 && layout.unplaced.length === 0) return [];
  return [
    ...wrap(tone, `${material.name}: ${proofSentence(plan, layout)}`, '    ', '  '),
    ...layout.unplaced.flatMap(({ piece }) =>
      wrap('bad', `left over: ${pieceName(plan, piece)}`, '      ', '    '),
    ),
  ];
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
      : ` Loose waste that needs care: ${count(care, 'bit')}${moving === 0 ? '' : `, ${moving} of them moving even so`}.`;
  const moves = movingSentence(plan);
  return [
    ...wrap(tone, `Hold-down: ${calm} of ${all} pieces stay put and need nothing.${waste}`),
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
      ? 'price not known, as a sheet has none'
      : `sheets ${formatMoney(costs.totalCents, job.currency)}`;
  const offcuts = costs.sheets.flatMap((sheet) =>
    sheet.offcuts.map(({ box }) => {
      const size = formatSize(box.maxX - box.minX, box.maxY - box.minY, job.unit);
      return `${size} on sheet ${sheet.sheet}`;
    }),
  );
  return [
    ...wrap(
      'plain',
      `Yield ${formatShare(costs.yieldShare)}, ${price}; contours ${formatRun(costs.cutLengthMm, job.unit)}, ${timeText(costs)}.`,
    ),
    ...(offcuts.length > 0 ? wrap('plain', `Worth keeping: ${offcuts.join('; ')}.`, '  ') : []),
  ];
}

function warningLines({ cutWarnings }: Plan): readonly Line[] {
  return cutWarnings.flatMap((text) => wrap('care', text, '  '));
}

function sensitivityLines(plan: Plan): readonly Line[] {
  const sentence = sensitivitySentence(plan);
  return sentence === null ? [] : wrap('plain', sentence, '  ');
}

function assumedLines({ job }: Plan): readonly Line[] {
  const assumed = [...job.machine.assumed, ...job.table.assumed];
  if (assumed.length === 0) return [];
  return wrap('care', `Assumed, as the file does not say: ${assumed.join('; ')}.`, '  ');
}

function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}

function blank(): Line {
  return { tone: 'plain', text: '' };
}
