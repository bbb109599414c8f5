// Writes what the square code of a sticker says, and draws it.
// Idea: one line of fields that a person could read as well, the first of which names form and edition. The code is taken at a medium share of repair
//   letters, at a low one where it would be too fine to print, then without the name of the job and with the beginning of the part's name only, as
//   place and mark tell the piece all the same. Dark modules side by side in a row are one rectangle.
// Source: ISO/IEC 18004 for the symbol, by the library `uqr`. One of its eight masks for all: trying them takes twenty times as long, and any is legal.
// Cost: linear in the modules.
// Degenerate cases: where even the shortest text does not fit, there is no code.
import { encode } from 'uqr';
import { closedRun, type DrawnPoint, type Item } from './display-list.ts';
import type { Sticker } from './stickers.ts';

/** What all stickers of a plan have in common. */
export interface StickerPlan {
  readonly job: string;
  readonly unit: 'mm' | 'in';
  /** The beginning of the hash of the plan's record. */
  readonly mark: string;
}

/** Fewer millimetres a module, and scanners of phones fail on a label of an ordinary printer. Common practice, no source. */
export const LEAST_MODULE = 0.35;
const MOST_MODULE = 0.6;
/** Of a printer of 300 or 600 dots an inch, in millimetres. */
const DOT = 25.4 / 300;
/** Modules that the symbol keeps white around it. */
export const QUIET_ZONE = 4;
const SHORT_NAME = 16;
/** More bytes never fit a label. */
const MOST_BYTES = 600;

/** `HF1|job|part|2/4|720x560x18mm|material|S1#5|mark`; a bar or backslash in a name has a backslash before it. An offcut has no part. */
export function codeText(sticker: Sticker, { job, unit, mark }: StickerPlan): string {
  const { kind, name, number, of, lengths, material, place } = sticker;
  return [
    'HF1',
    job,
    kind === 'offcut' ? '' : name,
    `${number}/${of}`,
    `${lengths.join('x')}${unit}`,
    material.id,
    place,
    mark,
  ]
    .map((field) => field.replace(/[\\|]/g, '\\$&'))
    .join('|');
}

/** A code, and where its modules are dark: rows from the top. */
export interface Code {
  readonly text: string;
  readonly rows: readonly (readonly boolean[])[];
}

/** A square with its quiet zone, by its upper right corner. */
export interface CodeRoom {
  readonly corner: DrawnPoint;
  readonly side: number;
}

/** The fullest text that a square of this side, quiet zone included, has room for; null where none has. */
export function fittingCode(sticker: Sticker, plan: StickerPlan, side: number): Code | null {
  const short = [...sticker.name].slice(0, SHORT_NAME).join('');
  const texts = [
    codeText(sticker, plan),
    codeText(sticker, { ...plan, job: '' }),
    codeText({ ...sticker, name: short }, { ...plan, job: '' }),
  ];
  for (const text of texts) {
    const bytes = bytesOf(text);
    if (bytes.length > MOST_BYTES) continue;
    for (const ecc of ['M', 'L'] as const) {
      const { data, size } = encode(bytes, { ecc, boostEcc: true, border: 0, maskPattern: 2 });
      if ((size + 2 * QUIET_ZONE) * LEAST_MODULE + DOT <= side) return { text, rows: data };
    }
  }
  return null;
}

/** Scanners guess at what letters beyond ASCII are, and some guess wrongly, unless the bytes begin with the mark of UTF-8. */
function bytesOf(text: string): readonly number[] {
  const isPlain = /^[ -~]*$/.test(text);
  return [...new TextEncoder().encode(isPlain ? text : `\ufeff${text}`)];
}

/** The code in its room, as large as its quiet zone and a sensible module let it, on whole dots from the upper left corner of the page. */
export function drawCode({ rows }: Code, { corner, side }: CodeRoom, pageHeight: number): Item {
  const module = moduleSize((side - DOT) / (rows.length + 2 * QUIET_ZONE));
  const left = onDots(corner.x - (rows.length + QUIET_ZONE) * module);
  const top = pageHeight - onDots(pageHeight - corner.y + QUIET_ZONE * module + DOT);
  const runs = rows.flatMap((row, i) =>
    darkStretches(row).map(({ from, to }) => {
      const [low, high] = [top - (i + 1) * module, top - i * module];
      const [west, east] = [left + from * module, left + to * module];
      return closedRun([
        { x: west, y: low },
        { x: east, y: low },
        { x: east, y: high },
        { x: west, y: high },
      ]);
    }),
  );
  return { kind: 'path', style: 'sticker-code', runs };
}

/** A whole number of dots where there is room for it: then all modules of a print are alike. */
function moduleSize(most: number): number {
  const whole = onDots(Math.min(MOST_MODULE, most));
  return whole < LEAST_MODULE ? Math.min(MOST_MODULE, most) : whole;
}

/** Down to a whole number of dots. */
function onDots(length: number): number {
  return Math.floor(length / DOT + 1e-6) * DOT;
}

function darkStretches(
  row: readonly boolean[],
): readonly { readonly from: number; readonly to: number }[] {
  const stretches: { from: number; to: number }[] = [];
  row.forEach((isDark, i) => {
    const last = stretches.at(-1);
    if (!isDark) return;
    if (last?.to === i) last.to = i + 1;
    else stretches.push({ from: i, to: i + 1 });
  });
  return stretches;
}
