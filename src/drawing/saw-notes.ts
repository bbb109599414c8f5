import type { Offcut } from '../model/costs.ts';
import type { FileUnit, Job } from '../model/job.ts';
import { numberRuns } from './number-runs.ts';
import { offcutNumbers, rawNumbers } from './offcut-texts.ts';
import {
  AFTERWARDS,
  asCutText,
  groupTitle,
  isCutAfterwards,
  isCutOtherwise,
  settingNumber,
} from './saw-texts.ts';
import type { LaidPiece, SheetView } from './sheet-view.ts';
import { plainText } from './text.ts';

/** What has to be known of a sheet at the saw: which others are like it, what its sizes are, and which pieces are not done when they are sawn. */
export function sawNotes({ sawing, number, pieces, costs, job }: SheetView): readonly string[] {
  if (sawing === null) return [];
  const [first] = sawing.numbers;
  const others = number === first ? '' : `; the sequence is with sheet ${first}`;
  const unfinished = pieces.filter(({ part }) => isCutAfterwards(part));
  const names = [...new Set(unfinished.map(({ name }) => name))].map((name) => {
    const own = unfinished.filter((laid) => laid.name === name).map(({ piece }) => piece.number);
    return `${name} ${numberRuns(own.toSorted((a, b) => a - b)).join(', ')}`;
  });
  return [
    ...(sawing.numbers.length > 1 ? [`${groupTitle(sawing)}${others}`] : []),
    ...finishedNote(job.unit, pieces),
    ...(names.length > 0 ? [`${names.join(' · ')}: ${AFTERWARDS}`] : []),
    ...setNotes(job, pieces),
    ...rawNotes(job, costs?.offcuts ?? []),
  ];
}

/** What is larger than it is said to be, by the raw edge. */
function rawNotes(job: Job, offcuts: readonly Offcut[]): readonly string[] {
  const texts = offcuts.flatMap((offcut) => {
    const raw = rawNumbers(job, offcut);
    return raw === null ? [] : [`${offcutNumbers(job, offcut)} falls off as ${raw}`];
  });
  if (texts.length === 0) return [];
  return [`Offcuts that have a raw edge of the sheet still on: ${[...new Set(texts)].join(' · ')}`];
}

/** "Sizes as cut, before edge bands; finished: Side 720 × 560". */
function finishedNote(unit: FileUnit, pieces: readonly LaidPiece[]): readonly string[] {
  const parts = [...new Set(pieces.map(({ part }) => part))];
  const text = asCutText(parts);
  if (text === null) return [];
  const finished = parts.filter(isCutOtherwise).map(({ name, finishedWidth, finishedHeight }) => {
    const [first, second] = [finishedWidth, finishedHeight].map((size) =>
      settingNumber(size, unit),
    );
    return `${plainText(name)} ${first} × ${second}`;
  });
  return [`S${text.slice(1)}; finished: ${[...new Set(finished)].join(' · ')}`];
}

function setNotes({ sets }: Job, pieces: readonly LaidPiece[]): readonly string[] {
  const own = sets.filter(({ index }) => pieces.some(({ piece }) => piece.set === index));
  const names = [...new Set(own.map(({ name }) => plainText(name)))];
  return names.map((name) => `${name}: number the pieces in order as they come off the saw`);
}
