import type { BoardLeftover } from '../model/costs.ts';
import { formatLength, formatMoney, keptLength, stopLength, stopNumber } from '../model/format.ts';
import type { FileUnit, Job } from '../model/job.ts';
import { boardKerf } from '../model/machine.ts';
import type { BoardPattern, PatternCut, StopSetting } from './board-patterns.ts';
import { type BoardStep, boardSteps, type GapThing } from './board-steps.ts';
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

/** "Leg 1–4 (tapered below); Post 2": the pieces that a stop setting cuts, over all boards of the pattern, with their notes. */
export function stopPieces({ pieces }: StopSetting): string {
  return pieces
    .map(({ name, note, numbers }) => {
      const own = `${name} ${numberRuns(numbers).join(', ')}`;
      return note === null ? own : `${own} (${note})`;
    })
    .join('; ');
}

/** How the places in the steps are meant; null where there are none. */
export function placeRule(steps: readonly BoardStep[]): string | null {
  const hasPlace = steps.some(
    (step) =>
      step.kind === 'gap' ||
      (step.kind === 'rest' && step.things.some(({ kind }) => kind === 'defect')),
  );
  return hasPlace
    ? 'Places count from the left end of the whole board: mark them before the first cut, and keep the kerf on the side of the waste.'
    : null;
}

/** What is done in a step that is no setting of the stop: "knot at 1250 mm, 60 mm long: cut it out; the next piece starts at 1310 mm". */
export function stepText(
  step: Exclude<BoardStep, { readonly kind: 'stop' }>,
  { exact, kept }: LengthTexts,
): string {
  const thing = (each: GapThing) => {
    if (each.kind === 'defect') {
      const { from, to, why } = each.defect;
      return `${why} at ${exact(from)}, ${exact(to - from)} long: cut it out`;
    }
    const { from, to, isKept } = each.leftover;
    return isKept ? `keep ${kept(to - from)}` : `${kept(to - from)} left over, too short to keep`;
  };
  switch (step.kind) {
    case 'trim':
      return `trim ${exact(step.length)} off the left end`;
    case 'gap':
      return [...step.things.map(thing), `the next piece starts at ${exact(step.next)}`].join('; ');
    case 'rest': {
      const raw =
        step.trim === 0 ? '' : `, with ${exact(step.trim)} of untrimmed right end still on it`;
      return `the rest: ${step.things.map(thing).join('; ')}${raw}`;
    }
  }
}

/** How lengths are written: those that are set or marked, and those left over. */
export interface LengthTexts {
  readonly exact: (length: number) => string;
  readonly kept: (length: number) => string;
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

/** The steps of a board as a table of texts. */
export const STEP_HEADS = ['Boards', 'Stop at', 'Times a board', 'What'];

export function stepRows(
  { unit, machine }: Pick<Job, 'unit' | 'machine'>,
  pattern: BoardPattern,
): readonly (readonly string[])[] {
  const texts: LengthTexts = {
    exact: (length) => stopLength(length, unit),
    kept: (length) => keptLength(length, unit),
  };
  return boardSteps(pattern, boardKerf(machine)).map((step, i) => {
    const boards = i === 0 ? boardNumbers(pattern) : '';
    if (step.kind !== 'stop') return [boards, '', '', stepText(step, texts)];
    const { stop } = step;
    return [boards, texts.exact(stop.length), `${stop.timesPerBoard}`, stopPieces(stop)];
  });
}
