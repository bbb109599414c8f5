// Writes as much on a sticker as its room holds.
// Idea: rows from the name down, each with a size. The letters shrink together until all rows fit; where they would become too small, one row after the
//   other is left out, in the order of `DROPPED`. Rows of figures are never cut short: a wrong size is worse than a small one.
// Source: our own.
// Cost: contents times scales, some hundred measurements a sticker at worst.
// Degenerate cases: name, size and number always stand there, however small they have to be.
import { joinedLengths } from '../model/format.ts';
import type { Item, TextItem } from './display-list.ts';
import type { StickerPlan } from './sticker-code.ts';
import type { Room } from './sticker-figure.ts';
import type { Sticker } from './stickers.ts';
import { fitText, textWidth, wrapText } from './text.ts';

const ROWS = [
  'name',
  'size',
  'number',
  'position',
  'material',
  'edges',
  'other',
  'note',
  'job',
] as const;
type RowName = (typeof ROWS)[number];

/** What is left out, the first first; a note is cut to one line before. */
export const DROPPED: readonly RowName[] = [
  'job',
  'other',
  'note',
  'edges',
  'material',
  'position',
];

/** Heights of the em at full size, and how often a row may be broken. */
const LOOKS: Readonly<Record<RowName, { em: number; lines: number; isWhole: boolean }>> = {
  name: { em: 4.1, lines: 3, isWhole: false },
  size: { em: 3.3, lines: 1, isWhole: true },
  number: { em: 3.1, lines: 1, isWhole: true },
  position: { em: 2.5, lines: 1, isWhole: true },
  material: { em: 2.5, lines: 1, isWhole: false },
  edges: { em: 2.3, lines: 2, isWhole: true },
  other: { em: 2.3, lines: 2, isWhole: true },
  note: { em: 2.3, lines: 3, isWhole: false },
  job: { em: 2.1, lines: 1, isWhole: false },
};

const LINE_PITCH = 1.25;
/** Base line under the top of a line, in ems. */
const ASCENT = 0.82;
const LEAST_EM = 1.75;
const SCALES = { most: 2, least: 0.7, leastOfAll: 0.4, step: 0.05 };
/** Of its row's size, how small the letters of one that is too long may get before it is cut; figures, in millimetres. */
const NARROWED: Partial<Record<RowName, number>> = { name: 0.6 };
const USUALLY_NARROWED = 0.8;
const LEAST_FIGURES = 1.4;
/** A name is cut no shorter than this while something else can be left out. */
const LEAST_NAME = 12;
/** So many of the dropped rows are worth less than the end of a long name. */
const LESS_THAN_NAME = 2;
/** The room for whose width and height the sizes above are meant. */
const USUAL_ROOM = { width: 36, height: 24.5 };

export function drawStickerText(
  sticker: Sticker,
  plan: StickerPlan,
  date: string | null,
  room: Room,
): readonly Item[] {
  const texts = rowTexts(sticker, plan, date);
  for (const setting of settings(room)) {
    const lines = laidRows(setting, texts, room);
    if (lines !== null) return painted(lines, room);
  }
  return painted(squeezed(texts, room), room);
}

/** One way to set the rows. */
interface Setting {
  readonly dropped: number;
  readonly isNameWhole: boolean;
  readonly noteLines: number;
  readonly scale: number;
}

/** From the fullest: with the whole name as far as that is worth it, then with what fits of it. */
function* settings(room: Room): Generator<Setting> {
  const share = Math.min(room.width / USUAL_ROOM.width, room.height / USUAL_ROOM.height);
  const most = Math.max(SCALES.least, Math.min(SCALES.most, share));
  for (const isNameWhole of [true, false]) {
    const last = isNameWhole ? LESS_THAN_NAME : DROPPED.length;
    for (let dropped = 0; dropped <= last; dropped++) {
      const least = dropped === DROPPED.length ? SCALES.leastOfAll : SCALES.least;
      for (const noteLines of [LOOKS.note.lines, 1])
        for (let scale = most; scale >= least - 1e-9; scale -= SCALES.step)
          yield { dropped, isNameWhole, noteLines, scale };
    }
  }
}

function rowsLeft(texts: RowTexts, dropped: number): readonly RowName[] {
  const gone = DROPPED.slice(0, dropped);
  return ROWS.filter((row) => texts[row] !== null && !gone.includes(row));
}

interface Line {
  readonly text: string;
  readonly em: number;
}

type RowTexts = Readonly<Record<RowName, string | null>>;

function rowTexts(sticker: Sticker, { job, unit }: StickerPlan, date: string | null): RowTexts {
  const { lengths, number, of, setTag, edges, face, group, note, kind } = sticker;
  return {
    name: sticker.name,
    size: joinedLengths(lengths, unit),
    number: setTag === null ? `${number} of ${of}` : `${number} of ${of} · set ${setTag}`,
    position: sticker.position,
    material: sticker.material.name,
    edges: joined([edges, face]),
    other: joined([sticker.otherSize]),
    note: kind === 'offcut' ? note : note === null ? null : `Note: ${note}`,
    job: joined([job, group, date]),
  };
}

function joined(texts: readonly (string | null)[]): string | null {
  const there = texts.filter((text) => text !== null && text !== '');
  return there.length === 0 ? null : capital(there.join(' · '));
}

function capital(text: string): string {
  const [first = '', ...rest] = text;
  return `${first.toUpperCase()}${rest.join('')}`;
}

/** The lines of the rows, or null where they do not all fit. */
function laidRows(setting: Setting, texts: RowTexts, room: Room): readonly Line[] | null {
  const lines: Line[] = [];
  for (const row of rowsLeft(texts, setting.dropped)) {
    const own = laidRow(row, texts[row]!, setting, room.width);
    if (own === null) return null;
    lines.push(...own);
  }
  return heightOf(lines) <= room.height ? lines : null;
}

function laidRow(
  row: RowName,
  text: string,
  { scale, noteLines, isNameWhole }: Setting,
  width: number,
): readonly Line[] | null {
  const look = LOOKS[row];
  const em = Math.max(LEAST_EM, look.em * scale);
  if (textWidth(text, em) <= width) return [{ text, em }];
  const smaller = width / textWidth(text, 1);
  if (look.isWhole && smaller >= em * USUALLY_NARROWED) return [{ text, em: smaller }];
  const most = row === 'note' ? noteLines : look.lines;
  const broken = most > 1 ? wrapText(text, em, width) : [];
  const isBrokenCut = broken.length > most || broken.some((line) => line.endsWith('…'));
  if (most > 1 && !isBrokenCut) return broken.map((line) => ({ text: line, em }));
  if (look.isWhole) return smaller < LEAST_FIGURES ? null : [{ text, em: smaller }];
  if (row === 'note' && most > 1) return cutBroken(broken, most, em, width);
  const least = Math.max(LEAST_EM, em * (NARROWED[row] ?? USUALLY_NARROWED));
  const fitted = fitText(text, em, least, width);
  if (fitted === null) return null;
  if (fitted.text === text || row !== 'name') return [{ text: fitted.text, em: fitted.size }];
  if (isNameWhole || [...fitted.text].length < LEAST_NAME) return null;
  return broken.length > 1
    ? cutBroken(broken, most, em, width)
    : [{ text: fitted.text, em: least }];
}

/** The first lines, the last of them with an ellipsis. */
function cutBroken(
  broken: readonly string[],
  most: number,
  em: number,
  width: number,
): readonly Line[] | null {
  const kept = broken.slice(0, most);
  const rest = fitText(broken.slice(most - 1).join(' '), em, em, width);
  if (rest === null) return null;
  return [...kept.slice(0, -1), rest.text].map((text) => ({ text, em }));
}

/** As many rows as there is height for, each in one line as small as it has to be. */
function squeezed(texts: RowTexts, room: Room): readonly Line[] {
  const fewest = rowsLeft(texts, DROPPED.length);
  const em = Math.min(LEAST_EM, room.height / fewest.length / LINE_PITCH);
  const counts = Array.from({ length: DROPPED.length + 1 }, (_, dropped) => dropped);
  const dropped = counts.find(
    (count) => rowsLeft(texts, count).length * em * LINE_PITCH <= room.height,
  );
  return rowsLeft(texts, dropped ?? DROPPED.length).map((row) => {
    const text = texts[row]!;
    const fitted = LOOKS[row].isWhole ? null : fitText(text, em, em * USUALLY_NARROWED, room.width);
    if (fitted !== null) return { text: fitted.text, em: fitted.size };
    return { text, em: Math.min(em, room.width / textWidth(text, 1)) };
  });
}

function heightOf(lines: readonly Line[]): number {
  return lines.reduce((sum, { em }) => sum + em * LINE_PITCH, 0);
}

function painted(lines: readonly Line[], { left, bottom, width, height }: Room): readonly Item[] {
  let top = bottom + height;
  return lines.map(({ text, em }): TextItem => {
    const at = { x: left, y: top - ASCENT * em };
    top -= em * LINE_PITCH;
    const style = 'sticker-text';
    return { kind: 'text', style, at, text, size: em, anchor: 'start', turn: 0, maxWidth: width };
  });
}
