// Measures and fits text before any font is known.
// Idea: each character counts with the advance of a common sans-serif face, rounded up. Accented letters count as their base letter,
//   combining marks as nothing, unknown scripts as a full em.
// Source: advance widths of DejaVu Sans, rounded up to the next twentieth of an em, less a tenth: the condensed face, which the PDF embeds and
//   which runs about as wide as the usual faces of the screen.
// Cost: linear in the text. Meant for labels of some dozen letters.
// Degenerate cases: empty text has width 0; a text that cannot be shortened enough gives null.

/** A text and the size at which it fits. */
export interface FittedText {
  readonly text: string;
  readonly size: number;
}

/** What fits: the size asked for, a smaller one down to `least`, or the text cut short with an ellipsis; null where not even three letters fit. */
export function fitText(
  text: string,
  size: number,
  least: number,
  maxWidth: number,
): FittedText | null {
  const width = textWidth(text, 1);
  if (width * size <= maxWidth) return { text, size };
  if (width * least <= maxWidth) return { text, size: maxWidth / width };
  const short = shorten(text, maxWidth / least);
  return short === null ? null : { text: short, size: least };
}

/** The text in lines no wider than `maxWidth`, broken at spaces; a longer word is cut short. */
export function wrapText(text: string, size: number, maxWidth: number): readonly string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(' ')) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (textWidth(longer, size) <= maxWidth) {
      current = longer;
      continue;
    }
    if (current !== '') lines.push(current);
    current = fitText(word, size, size, maxWidth)?.text ?? '…';
  }
  if (current !== '') lines.push(current);
  return lines;
}

/** Width of the text at this size, in the unit of the size; an upper estimate for the usual sans-serif faces. */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const char of text.normalize('NFD')) ems += advance(char);
  return ems * size * CONDENSED;
}

/**
 * The text without what a drawing cannot show: control characters and line ends become spaces,
 * marks that turn the direction of writing disappear, runs of spaces become one.
 */
export function plainText(text: string): string {
  return text
    .replace(/[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g, '')
    .replace(/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

const CONDENSED = 0.9;
const LEAST_LETTERS = 3;

function shorten(text: string, ems: number): string | null {
  const letters = [...text];
  for (let kept = letters.length - 1; kept >= LEAST_LETTERS; kept--) {
    const short = `${letters.slice(0, kept).join('').trimEnd()}…`;
    if (textWidth(short, 1) <= ems) return short;
  }
  return null;
}

const ASCII_ADVANCES: ReadonlyMap<string, number> = new Map(
  Object.entries({
    0.3: "'IJijl",
    0.35: ' ,./:;\\|',
    0.4: '()-[]ft',
    0.45: '!r',
    0.5: '"*_`',
    0.55: '?csz',
    0.6: 'FLkvxy',
    0.65: '$0123456789EPSTYabdeghnopqu{}',
    0.7: 'ABCKRVXZ',
    0.75: 'NU',
    0.8: '&DGHOQ',
    0.85: '#+<=>^w~',
    0.9: 'M',
    1: '%@Wm',
  }).flatMap(([width, chars]) => [...chars].map((char) => [char, Number(width)] as const)),
);

function advance(char: string): number {
  const known = ASCII_ADVANCES.get(char);
  if (known !== undefined) return known;
  if (/\p{M}/u.test(char)) return 0;
  if (char === '·') return 0.35;
  if (/[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}]/u.test(char)) {
    return /\p{Lu}/u.test(char) ? 0.9 : 0.75;
  }
  return 1;
}
