import type { Action, Holding } from '../model/holding.ts';
import { circle, type Item, line, rectangle } from './display-list.ts';
import {
  type Alert,
  actionSign,
  alertOf,
  alertSign,
  type Frame,
  frameAt,
  grainArrow,
  lettering,
  orderBadge,
  setTag,
} from './marks.ts';
import { numberBadge } from './saw-marks.ts';
import { hasStrips } from './saw-strips.ts';
import { caresOf } from './saw-texts.ts';
import type { SheetView } from './sheet-view.ts';
import { LETTERS, SIGNS } from './styles.ts';
import { textWidth } from './text.ts';

type Swatch =
  | Exclude<Action, 'none'>
  | 'order'
  | 'grain'
  | Alert
  | 'set'
  | 'band'
  | 'through'
  | 'blind'
  | 'pocket'
  | 'waste'
  | 'keep-out'
  | 'trim'
  | 'offcut'
  | 'cut'
  | 'cut-care'
  | 'strip';

/** One sign that the sheet uses, and what it means. */
export interface LegendEntry {
  readonly swatch: Swatch;
  readonly text: string;
}

const SWATCH_WIDTH = 7;
const ENTRY_GAP = 4;
export const LEGEND_PITCH = 5;

/** Only what appears on this sheet, so that nobody looks for what is not there. */
export function legendEntries(view: SheetView): readonly LegendEntry[] {
  const { pieces, waste, stock } = view;
  const loose = [...pieces.map(({ holding }) => holding), ...waste.map(({ holding }) => holding)];
  const holes = pieces.flatMap(({ part }) => part.holes);
  const steps = view.sawing?.steps ?? [];
  const cares = caresOf(steps);
  const bands = pieces.flatMap(({ part: { edgeBands } }) => Object.values(edgeBands));
  const actions = (['earlier', 'skin', 'tabs', 'clamp'] as const).flatMap((action) => {
    const number = loose.filter((holding) => holding?.action === action).length;
    return entry(number > 0, action, `${SIGNS[action].legend} (${number})`);
  });
  return [
    ...entry(true, 'order', view.sawing === null ? 'cutting order' : 'done by this cut'),
    ...entry(view.sawing !== null, 'cut', 'saw cut, in order'),
    ...entry(hasStrips(steps), 'strip', 'strip in the sequence'),
    ...entry(cares.length > 0, 'cut-care', `needs care: ${cares.join(', ')}`),
    ...entry(stock.grainAxis !== null, 'grain', 'grain'),
    ...actions,
    ...alertEntries(view),
    ...entry(
      pieces.some(({ setTag: tag }) => tag !== null),
      'set',
      'matched set, in order',
    ),
    ...entry(
      bands.some((thickness) => thickness > 0),
      'band',
      'edge band',
    ),
    ...entry(
      holes.some(({ depth }) => depth === null),
      'through',
      'hole through',
    ),
    ...entry(
      holes.some(({ depth }) => depth !== null),
      'blind',
      'hole not through',
    ),
    ...entry(
      pieces.some(({ part }) => part.pockets.length > 0),
      'pocket',
      'pocket',
    ),
    ...entry(waste.length > 0, 'waste', 'loose waste'),
    ...entry(stock.keepOuts.length > 0, 'keep-out', 'keep out'),
    ...entry(
      Object.values(stock.trim).some((width) => width > 0),
      'trim',
      'trim line',
    ),
    ...entry((view.costs?.offcuts.length ?? 0) > 0, 'offcut', 'offcut to keep'),
  ];
}

function alertEntries({ pieces, waste }: SheetView): readonly LegendEntry[] {
  const alerts = (holdings: readonly (Holding | null)[]) =>
    holdings.flatMap((holding) => (holding === null ? [] : (alertOf(holding) ?? [])));
  const [ofPieces, ofWaste] = [pieces, waste].map((things) =>
    alerts(things.map(({ holding }) => holding)),
  ) as [Alert[], Alert[]];
  const left = ofPieces.includes('stop') ? 'do not cut it free in this run' : '';
  const cleared = ofWaste.includes('stop') ? 'clear waste to dust' : '';
  const stop = [left, cleared].filter((text) => text !== '').join('; ');
  return [
    ...entry([...ofPieces, ...ofWaste].includes('test'), 'test', 'may still move: test first'),
    ...entry(stop !== '', 'stop', `moves: ${stop}`),
  ];
}

/** The entries in rows no wider than `width` millimetres of paper. */
export function legendRows(
  entries: readonly LegendEntry[],
  width: number,
): readonly (readonly LegendEntry[])[] {
  const rows: LegendEntry[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const next of entries) {
    const wide = entryWidth(next);
    if (used + wide > width) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)?.push(next);
    used += wide;
  }
  return rows;
}

/** Width of the entries one below the other. */
export function legendColumnWidth(entries: readonly LegendEntry[]): number {
  return Math.max(...entries.map(entryWidth)) - ENTRY_GAP;
}

/** Rows downwards from the upper left corner at (0, 0) of the frame. */
export function drawLegend(rows: readonly (readonly LegendEntry[])[], frame: Frame): Item[] {
  return rows.flatMap((row, i) => {
    const y = -(i + 0.5) * LEGEND_PITCH;
    let x = 0;
    return row.flatMap((next) => {
      const centre = frame.at(x + SWATCH_WIDTH / 2, y);
      const items = drawSwatch(next.swatch, frameAt(centre, frame.unit));
      const how = { style: 'text', size: LETTERS.table, anchor: 'start', maxWidth: 200 } as const;
      items.push(...lettering(frame, x + SWATCH_WIDTH + 1.2, y, next.text, how));
      x += entryWidth(next);
      return items;
    });
  });
}

function entry(shown: boolean, swatch: Swatch, text: string): readonly LegendEntry[] {
  return shown ? [{ swatch, text }] : [];
}

function entryWidth({ text }: LegendEntry): number {
  return SWATCH_WIDTH + 1.2 + textWidth(text, LETTERS.table) + ENTRY_GAP;
}

function drawSwatch(swatch: Swatch, frame: Frame): Item[] {
  const middle = { x: 0, y: 0 };
  const low = frame.at(-3.5, -1.7);
  const high = frame.at(3.5, 1.7);
  switch (swatch) {
    case 'order':
      return orderBadge(frame, middle, '1', 'piece');
    case 'grain':
      return grainArrow(frame, middle, 5, 'x');
    case 'test':
    case 'stop':
      return alertSign(frame, middle, swatch);
    case 'set':
      return setTag(frame, middle, 'A1');
    case 'band':
      return [line('band', frame.at(-3.5, 0), frame.at(3.5, 0))];
    case 'trim':
      return [line('trim', frame.at(-3.5, 0), frame.at(3.5, 0))];
    case 'through':
      return [
        circle('hole-through', frame.at(0, 0), 1.1 * frame.unit),
        line('hole-cross', frame.at(-1.1, 0), frame.at(1.1, 0)),
        line('hole-cross', frame.at(0, -1.1), frame.at(0, 1.1)),
      ];
    case 'blind':
      return [circle('hole-blind', frame.at(0, 0), 1.1 * frame.unit)];
    case 'cut':
    case 'cut-care':
      return [
        line('saw-cut', frame.at(-3.5, 0), frame.at(3.5, 0)),
        ...numberBadge('1', swatch === 'cut-care', frame.at(0, 0), frame.unit),
      ];
    case 'strip': {
      const how = { style: 'text', size: LETTERS.size, anchor: 'middle', maxWidth: 7 } as const;
      return lettering(frame, 0, 0, 'A', how);
    }
    case 'waste':
    case 'keep-out':
    case 'offcut':
    case 'pocket':
      return [rectangle(swatch, low, high)];
    case 'earlier':
    case 'skin':
    case 'tabs':
    case 'clamp':
      return [
        rectangle(SIGNS[swatch].piece, low, high),
        ...actionSign(frame, { x: -1.8, y: 0 }, swatch),
      ];
  }
}
