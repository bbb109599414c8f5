import type { Offcut } from '../model/costs.ts';
import { formatLength, stopNumber } from '../model/format.ts';
import type { FileUnit, Job } from '../model/job.ts';
import { SAW_CARES, type SawCare } from '../model/layout.ts';
import { cutWidth } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { listed, numberRuns, spokenRuns } from './number-runs.ts';
import { offcutNumbers, rawNumbers } from './offcut-texts.ts';
import type { SawGroup } from './saw-groups.ts';
import type { SawnSide, SawStep } from './saw-steps.ts';

/** What a fence is set to, without its unit: to a tenth of a millimetre or to the nearest 64th of an inch, each from its own exact length. */
export function settingNumber(length: number, unit: FileUnit): string {
  if (unit === 'in') return stopNumber(length, unit);
  return `${Math.round((length * 10) / UNITS_PER_MM) / 10}`;
}

/** Whether the saw leaves more to be cut: an outline that is no rectangle, or openings. */
export function isCutAfterwards({ rectangular, shape }: Part): boolean {
  return !rectangular || shape.inner.length > 0;
}

export const AFTERWARDS = 'cut outline afterwards';

export const CARE_SENTENCES: Readonly<Record<SawCare, string>> = {
  small: 'small: push stick or sled, or leave it in a larger panel',
  trapped:
    'trapped: narrow part between blade and fence; push block over the whole length, or a thin-rip stop on the free side',
  short:
    'short: the edge along the fence is short; sliding table, mitre gauge with a stop, or chop saw; not the fence',
};

/** "Sheets 1 to 4: 2 books of 2". */
export function groupTitle({ numbers, books }: SawGroup): string {
  if (numbers.length === 1) return `Sheet ${numbers[0]}`;
  const sheets = `Sheets ${spokenRuns(numbers)}`;
  return `${sheets}: ${books.some((sheetCount) => sheetCount > 1) ? booksText(books) : 'cut alike, one at a time'}`;
}

/** That sizes at a saw are not those of the finished parts; null where they are. */
export function asCutText(parts: readonly Part[]): string | null {
  if (parts.some(({ edgeBands }) => Object.values(edgeBands).some((thickness) => thickness > 0)))
    return 'sizes as cut, before edge bands';
  return parts.some(isCutOtherwise) ? 'sizes as cut, not as finished' : null;
}

/** Whether what is cut differs from the finished part in size. */
export function isCutOtherwise({ width, height, finishedWidth, finishedHeight }: Part): boolean {
  return width !== finishedWidth || height !== finishedHeight;
}

/** How the table of a sequence is to be read. */
export function sequenceRules({ machine, unit, parts }: Job): readonly string[] {
  const asCut = asCutText(parts);
  const sizes = `sizes are along × across${asCut === null ? '' : `, ${asCut.replace('sizes ', '')}`}`;
  return [
    `Fence: what lies between fence and blade, measured from the edge named beside it, as drawn. Along and across are those of the sheet, and ${sizes}.`,
    'An offcut falls off with the raw edge of the sheet where it lies at the rim: then its clean size inside the trim is given as well.',
    `Chalk the name on each strip, and measure the first piece before cutting on: the plan reckons with a kerf of ${formatLength(cutWidth(machine), unit)}. A piece that falls off has no setting of its own and takes up what the kerfs of its strip differ from that: measure it too.`,
  ];
}

/** What the marks in these steps mean; nothing where there is none. */
export function careSentences(steps: readonly SawStep[]): readonly string[] {
  return caresOf(steps).map((mark) => CARE_SENTENCES[mark]);
}

/** The marks that these steps have, each once. */
export function caresOf(steps: readonly SawStep[]): readonly SawCare[] {
  return SAW_CARES.filter((mark) => steps.some(({ care }) => care.includes(mark)));
}

/** The sequence as a table of texts. */
export function sequenceHeads(unit: FileUnit): readonly string[] {
  return [
    'Cut',
    'In hand',
    'Runs',
    `Fence (${unit})`,
    'From edge',
    'Against the fence',
    'Falls off',
    'Mind',
  ];
}

/** A row a cut. */
export function sequenceRows(job: Job, steps: readonly SawStep[]): readonly (readonly string[])[] {
  const minds = careTexts(steps);
  return steps.map((step, i) => sequenceRow(job, step, minds[i]!));
}

function sequenceRow(job: Job, step: SawStep, mind: string): readonly string[] {
  const { number, inHand, axis, edge, setting, isTrim, guided, off } = step;
  return [
    `${number}`,
    panelName(inHand),
    isTrim ? `${axis}, trim` : axis,
    settingNumber(setting, job.unit),
    edge,
    sideText(job, inHand, guided),
    sideText(job, inHand, off),
    mind,
  ];
}

/** The marks of each cut; one that all cuts of a strip have stands with the first of them only. */
function careTexts(steps: readonly SawStep[]): readonly string[] {
  return steps.map((step) => {
    const own =
      step.inHand === null ? [step] : steps.filter(({ inHand }) => inHand === step.inHand);
    const isShared = (mark: SawCare) =>
      own.length > 1 && own.every(({ care }) => care.includes(mark));
    const shared = step === own[0] ? step.care.filter(isShared) : [];
    const all = `${shared.join(', ')}: ${own.length === 2 ? 'both' : `all ${own.length}`} cuts of strip ${step.inHand}`;
    const others = step.care.filter((mark) => !isShared(mark)).join(', ');
    return [...(shared.length === 0 ? [] : [all]), others].filter((text) => text !== '').join('; ');
  });
}

/** "offcut 546.8 × 1210 with the raw edge, 536.8 × 1200 clean". */
function offcutText(job: Job, offcut: Offcut): string {
  const raw = rawNumbers(job, offcut);
  const clean = offcutNumbers(job, offcut);
  return raw === null ? `offcut ${clean}` : `offcut ${raw} with the raw edge, ${clean} clean`;
}

function panelName(name: string | null): string {
  return name === null ? 'sheet' : `strip ${name}`;
}

function sideText(job: Job, inHand: string | null, { thing, along, across }: SawnSide): string {
  const size = `${settingNumber(along, job.unit)} × ${settingNumber(across, job.unit)}`;
  switch (thing.kind) {
    case 'dust':
      return 'dust only';
    case 'waste':
      return `waste ${size}`;
    case 'offcut':
      return offcutText(job, thing.offcut);
    case 'spoiled':
      return `leftover ${size}, with a keep-out on it`;
    case 'strip':
      return `strip ${thing.name}, ${size}`;
    case 'rest':
      return `rest of ${inHand === null ? 'the sheet' : `strip ${inHand}`}, ${size}`;
    case 'piece':
      return `${pieceNames(job, thing.pieces)} done, ${size}${afterwards(job, thing.pieces)}`;
  }
}

/** "Shelf 1, 4"; one and the same part on alike sheets. */
function pieceNames({ parts, pieces }: Job, own: readonly number[]): string {
  const part = parts[pieces[own[0]!]!.part]!;
  const numbers = own.map((piece) => pieces[piece]!.number).toSorted((a, b) => a - b);
  return `${part.name} ${numberRuns(numbers).join(', ')}`;
}

function afterwards({ parts, pieces }: Job, own: readonly number[]): string {
  return isCutAfterwards(parts[pieces[own[0]!]!.part]!) ? `; ${AFTERWARDS}` : '';
}

/** "2 books of 2", "1 book of 3 and 1 sheet by itself". */
function booksText(books: readonly number[]): string {
  const sizes = [...new Set(books)];
  return listed(
    sizes.map((size) => {
      const count = books.filter((other) => other === size).length;
      if (size === 1) return '1 sheet by itself';
      return `${count} ${count === 1 ? 'book' : 'books'} of ${size}`;
    }),
  );
}
