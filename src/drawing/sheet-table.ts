import type { Point } from '../geometry/point.ts';
import { counted, lengthNumber, UNHELD_WORDS } from '../model/format.ts';
import { type Action, adviceOf, type Holding } from '../model/holding.ts';
import type { FileUnit } from '../model/job.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import { depthText } from './depth-texts.ts';
import { type Alert, alertOf } from './marks.ts';
import { numberRuns } from './number-runs.ts';
import { middleOf } from './outline.ts';
import { sawNotes } from './saw-notes.ts';
import type { SheetView } from './sheet-view.ts';
import { plainText } from './text.ts';

/** One line of the table beside a sheet: what comes free, in the order it does. */
export interface TableRow {
  readonly order: string;
  readonly kind: Holding['kind'];
  readonly name: string;
  readonly count: string;
  readonly size: string;
  readonly action: Action;
  readonly alert: Alert | null;
  /** "skin 0.5", "3 tabs 8 × 3", or nothing. */
  readonly done: string;
}

/** Everything on the sheet, in cutting order. */
export function sheetRows(view: SheetView): readonly TableRow[] {
  const pieces = view.pieces.map((laid) => ({
    at: laid.holding?.cutOrder ?? laid.doneBy ?? Number.POSITIVE_INFINITY,
    row: {
      ...holdingFields(view, laid.holding),
      ...(laid.doneBy === null ? {} : { order: `${laid.doneBy}` }),
      kind: 'piece' as const,
      name: laid.name,
      count: laid.count,
      size: laid.size,
    },
  }));
  const waste = view.waste.map(({ holding, name }) => ({
    at: holding.cutOrder,
    row: { ...holdingFields(view, holding), kind: holding.kind, name, count: '', size: '' },
  }));
  return [...pieces, ...waste].sort((a, b) => a.at - b.at).map(({ row }) => row);
}

/** What has to be known apart from the rows: where the tabs are, and what the keep-outs mean. */
export function sheetNotes(view: SheetView): readonly string[] {
  const { unit } = view.job;
  const inOrder = [
    ...view.pieces.flatMap(({ holding }) => (holding === null ? [] : [holding])),
    ...view.waste.map(({ holding }) => holding),
  ].sort((a, b) => a.cutOrder - b.cutOrder);
  const tabs = inOrder
    .filter((holding) => holding.tabs.length > 0)
    .map(
      (holding) =>
        `${holding.cutOrder}: ${holding.tabs.map(({ at }) => placeText(unit, at)).join(' ')}`,
    );
  const clamps = inOrder.flatMap(({ clamp, cutOrder }) =>
    clamp === null ? [] : [`${cutOrder}: ${placeText(unit, middleOf(clamp))}`],
  );
  const keepOuts = view.stock.keepOuts.map((keepOut, i) => `K${i + 1}: ${plainText(keepOut.why)}`);
  const skins = skinTexts(view);
  return [
    ...sawNotes(view),
    ...(skins.length > 0 ? [`After all cuts take the skin off: ${skins.join(', ')}`] : []),
    ...(tabs.length > 0 ? [`Tabs (x, y) from the lower left: ${tabs.join(' · ')}`] : []),
    ...(clamps.length > 0 ? [`Middle of clamps (x, y): ${clamps.join(' · ')}`] : []),
    ...(keepOuts.length > 0 ? [`Keep out: ${keepOuts.join(' · ')}`] : []),
    ...depthNotes(view),
    ...partNotes(view),
  ];
}

/** "Not through: Side: 10 holes of 5 mm, 12 mm deep · Rail: 1 pocket, 6 mm deep". */
function depthNotes({ job, pieces }: SheetView): readonly string[] {
  const texts = pieces.flatMap(({ name, part }) => {
    const text = depthText(part, job.unit);
    return text === null ? [] : [`${name}: ${text}`];
  });
  return texts.length === 0 ? [] : [`Not through: ${[...new Set(texts)].join(' · ')}`];
}

/** "Rail: pocket screws on the back", what the file notes of the parts on the sheet. */
function partNotes({ pieces }: SheetView): readonly string[] {
  const notes = pieces.flatMap(({ name, part: { note } }) =>
    note === null ? [] : [`${name}: ${plainText(note)}`],
  );
  return [...new Set(notes)];
}

/** "(1245, 610)": where on the sheet something is. */
export function placeText(unit: FileUnit, { x, y }: Point): string {
  return `(${nearNumber(x, unit, 1)}, ${nearNumber(y, unit, 1)})`;
}

/** By the number of the cut that left the skin, runs of three and more as `4–9`. */
function skinTexts({ skins }: SheetView): readonly string[] {
  return numberRuns(skins.map(({ cutOrder }) => cutOrder));
}

/** What to do, in few words; nothing where nothing is needed. */
export function doneText(unit: FileUnit, holding: Holding): string {
  const { skin, tabs } = holding;
  const advice = adviceOf(holding);
  switch (advice) {
    case 'none':
      return '';
    case 'leave':
    case 'try':
    case 'pocket':
      return UNHELD_WORDS[advice];
    case 'earlier':
      return 'cut earlier';
    case 'skin':
      return `skin ${lengthNumber(skin, unit)}`;
    case 'tabs': {
      const [tab] = tabs;
      if (tab === undefined) return 'tabs';
      return `${counted(tabs.length, 'tab')} ${nearNumber(tab.width, unit, 2)} × ${nearNumber(tab.height, unit, 2)}`;
    }
    case 'clamp':
      return 'clamp';
  }
}

function holdingFields(
  view: SheetView,
  holding: Holding | null,
): Pick<TableRow, 'order' | 'action' | 'alert' | 'done'> {
  if (holding === null) return { order: '–', action: 'none', alert: null, done: '' };
  return {
    order: `${holding.cutOrder}`,
    action: holding.action,
    alert: alertOf(holding),
    done: doneText(view.job.unit, holding),
  };
}

/** To a whole millimetre or a 16th of an inch, or the half of it where `parts` is 2: nobody sets a tab finer. */
function nearNumber(length: number, unit: FileUnit, parts: 1 | 2): string {
  const step = (unit === 'mm' ? UNITS_PER_MM : UNITS_PER_INCH / 16) / parts;
  return lengthNumber(Math.round(length / step) * step, unit);
}
