import { formatLength, stopNumber } from '../model/format.ts';
import type { FileUnit, Job } from '../model/job.ts';
import type { SawCare } from '../model/layout.ts';
import { cutWidth } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { numberRuns } from './number-runs.ts';
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
  trapped: 'trapped: narrow part between blade and fence',
  short: 'short edge along the fence: sliding table, mitre gauge with a stop, or chop saw',
};

/** "Sheets 1 to 4: 2 books of 2". */
export function groupTitle({ numbers, books }: SawGroup): string {
  if (numbers.length === 1) return `Sheet ${numbers[0]}`;
  const sheets = `Sheets ${listed(numberRuns(numbers).map((run) => run.replace('–', ' to ')))}`;
  return `${sheets}: ${books.some((sheetCount) => sheetCount > 1) ? booksText(books) : 'cut alike, one at a time'}`;
}

/** How the table of a sequence is to be read. */
export function sequenceRules({ machine, unit }: Job): readonly string[] {
  return [
    'Fence: what lies between fence and blade, measured from the edge named beside it, as drawn. Along and across are those of the sheet, and sizes are along × across.',
    `Chalk the name on each strip, and measure the first piece before cutting on: the plan reckons with a kerf of ${formatLength(cutWidth(machine), unit)}.`,
  ];
}

/** What the marks in these steps mean; nothing where there is none. */
export function careSentences(steps: readonly SawStep[]): readonly string[] {
  const marks = (['small', 'trapped'] as const).filter((mark) =>
    steps.some(({ care }) => care.includes(mark)),
  );
  return marks.map((mark) => CARE_SENTENCES[mark]);
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

export function sequenceRow(job: Job, step: SawStep): readonly string[] {
  const { number, inHand, axis, edge, setting, isTrim, guided, off, care } = step;
  return [
    `${number}`,
    panelName(inHand),
    isTrim ? `${axis}, trim` : axis,
    settingNumber(setting, job.unit),
    edge,
    sideText(job, inHand, guided),
    sideText(job, inHand, off),
    care.join(', '),
  ];
}

function panelName(name: string | null): string {
  return name === null ? 'sheet' : `strip ${name}`;
}

function sideText(job: Job, inHand: string | null, { thing, along, across }: SawnSide): string {
  const size = `${settingNumber(along, job.unit)} × ${settingNumber(across, job.unit)}`;
  switch (thing.kind) {
    case 'dust':
      return 'dust only';
    case 'offcut':
    case 'waste':
      return `${thing.kind} ${size}`;
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

/** "1, 3 and 5". */
function listed(words: readonly string[]): string {
  return [words.slice(0, -1).join(', '), ...words.slice(-1)].filter(Boolean).join(' and ');
}
