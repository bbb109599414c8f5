const LONGEST_QUOTE = 60;

/** Controls, line and paragraph separators, marks that turn the writing direction, and halves of broken characters. */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/u;
const EVERY_UNPRINTABLE = new RegExp(UNPRINTABLE, 'gu');

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

/** The beginning of a long text, with an ellipsis: that is what people recognise it by. */
export function shortened(text: string): string {
  const letters = Array.from(text.slice(0, 2 * LONGEST_QUOTE + 2));
  const short =
    letters.length <= LONGEST_QUOTE ? text : `${letters.slice(0, LONGEST_QUOTE).join('')}…`;
  return visible(short);
}
