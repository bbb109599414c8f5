const LONGEST_QUOTE = 60;
const LONGEST_SAYING = 200;

/**
 * Controls, line and paragraph separators, halves of broken characters, and marks that take no room: those that turn the writing direction, and those by
 * which two names could look alike. The joiners that some scripts need, and the Arabic signs around numbers, are seen.
 */
const UNPRINTABLE =
  /[\p{Cc}\p{Cs}\u2028\u2029]|(?![\u200c-\u200d\u0600-\u0605\u06dd\u070f\u0890\u0891\u08e2\u{110bd}\u{110cd}])\p{Cf}/u;
const EVERY_UNPRINTABLE = new RegExp(UNPRINTABLE, 'gu');

/** Controls that no editor writes, halves of broken characters, and the sign that stands for bytes that are no UTF-8. */
export const NOT_TEXT = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufffd]/u;
const ALL_NOT_TEXT = new RegExp(NOT_TEXT, 'gu');

/** The same with a low line, which means nothing in YAML, for whatever no text file holds. */
export function asText(text: string): string {
  return text.replace(ALL_NOT_TEXT, '_');
}

/** Whether a terminal or a page could show `text` as something else than it is. */
export function isUnprintable(text: string): boolean {
  return UNPRINTABLE.test(text);
}

/** The same text with every character that cannot be seen written as its code, such as `\u{7}`. */
export function visible(text: string): string {
  return text.replace(EVERY_UNPRINTABLE, (c) => `\\u{${(c.codePointAt(0) ?? 0).toString(16)}}`);
}

/** The user's own words in quotation marks. */
export function quote(text: string): string {
  return `"${shortened(text)}"`;
}

/** What a library says of a text, which may hold all of it. */
export function saying(text: string): string {
  return cut(text, LONGEST_SAYING);
}

/** The beginning of a long text, with an ellipsis: that is what people recognise it by. */
export function shortened(text: string): string {
  return cut(text, LONGEST_QUOTE);
}

function cut(text: string, most: number): string {
  const letters = Array.from(text.slice(0, 2 * most + 2));
  const short = letters.length <= most ? text : `${letters.slice(0, most).join('')}…`;
  return visible(short);
}
