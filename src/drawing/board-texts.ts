import type { BoardLeftover } from '../model/costs.ts';
import { formatLength, formatMoney, keptLength, stopLength, stopNumber } from '../model/format.ts';
import type { FileUnit, Job } from '../model/job.ts';
import type { BoardPattern, PatternCut, StopSetting } from './board-patterns.ts';
import { numberRuns } from './number-runs.ts';

/** Shorter runs of one length are written out. */
const LEAST_RUN = 4;

/** "3 boards of 2400 mm", or "1 board of 96\"". */
export function boardCount({ numbers, stock }: BoardPattern, unit: FileUnit): string {
  const { length } = numbers;
  return `${length} ${length === 1 ? 'board' : 'boards'} of ${formatLength(stock.length, unit)}`;
}

/** "1–3, 7": the numbers of the boards. */
export function boardNumbers({ numbers }: BoardPattern): string {
  return numberRuns(numbers).join(', ');
}

/** "720 · 720 · 640" as they follow one another, "12 × 80" where one length comes often. */
export function cutsText(cuts: readonly PatternCut[], unit: FileUnit): string {
  const runs: { length: number; times: number }[] = [];
  for (const { length } of cuts) {
    const last = runs.at(-1);
    if (last?.length === length) last.times += 1;
    else runs.push({ length, times: 1 });
  }
  return runs
    .flatMap(({ length, times }) => {
      const number = stopNumber(length, unit);
      return times < LEAST_RUN ? Array<string>(times).fill(number) : [`${times} × ${number}`];
    })
    .join(' · ');
}

/** "keep 280.4 mm; 60 mm is waste": what each board leaves over. */
export function leftoversText(leftovers: readonly BoardLeftover[], unit: FileUnit): string {
  const lengths = (isKept: boolean) =>
    leftovers
      .filter((leftover) => leftover.isKept === isKept)
      .map(({ from, to }) => keptLength(to - from, unit))
      .join(' and ');
  const [kept, lost] = [lengths(true), lengths(false)];
  const texts = [
    ...(kept === '' ? [] : [`keep ${kept}`]),
    ...(lost === '' ? [] : [`${lost} ${kept === '' ? 'left over, ' : ''}too short to keep`]),
  ];
  return texts.length === 0 ? 'nothing left over' : texts.join('; ');
}

/** "Leg 1–4, Post 2": the pieces that a stop setting cuts, over all boards of the pattern. */
export function stopPieces({ pieces }: StopSetting): string {
  return pieces.map(({ name, numbers }) => `${name} ${numberRuns(numbers).join(', ')}`).join('; ');
}

/** The cutting list as a table of texts. */
export const PATTERN_HEADS = [
  'Boards',
  'Material',
  'How many',
  'From left to right',
  'Each leaves over',
  'Price each',
];

export function patternRow(
  { unit, currency }: Pick<Job, 'unit' | 'currency'>,
  pattern: BoardPattern,
): readonly string[] {
  const { material, stock, cuts, leftovers } = pattern;
  return [
    boardNumbers(pattern),
    material.name,
    boardCount(pattern, unit),
    cutsText(cuts, unit),
    leftoversText(leftovers, unit),
    stock.priceCents === null ? '–' : formatMoney(stock.priceCents, currency),
  ];
}

/** The settings of the stop as a table of texts. */
export const STOP_HEADS = ['Boards', 'Stop at', 'Times a board', 'Pieces'];

export function stopRows(unit: FileUnit, pattern: BoardPattern): readonly (readonly string[])[] {
  return pattern.stops.map((stop, i) => [
    i === 0 ? boardNumbers(pattern) : '',
    stopLength(stop.length, unit),
    `${stop.timesPerBoard}`,
    stopPieces(stop),
  ]);
}
