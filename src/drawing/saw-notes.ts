import { numberRuns } from './number-runs.ts';
import { AFTERWARDS, groupTitle, isCutAfterwards } from './saw-texts.ts';
import type { SheetView } from './sheet-view.ts';

/** What has to be known of a sheet at the saw: which others are like it, and which pieces are not done when they are sawn. */
export function sawNotes({ sawing, number, pieces }: SheetView): readonly string[] {
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
    ...(names.length > 0 ? [`${names.join(' · ')}: ${AFTERWARDS}`] : []),
  ];
}
