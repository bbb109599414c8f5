/** More than any release of the format takes in one line of letters. */
const LONGEST = 250;

/**
 * A text as a DXF file has it, in ASCII. Other letters are written `\U+00FC`, as the format has done since release 13: programs of today read that also in
 * a file of release 12. What that form cannot hold, above U+FFFF, is a question mark. A caret and two percent signs,
 * which begin other signs, get a blank behind them or between them.
 */
export function dxfText(text: string): string {
  let written = '';
  for (const char of text.normalize('NFC')) {
    const next = dxfChar(char);
    if (written.length + next.length > LONGEST) break;
    written += next;
  }
  return written.replace(/%(?=%)/g, '% ');
}

function dxfChar(char: string): string {
  const code = char.codePointAt(0) ?? 0;
  if (char === '^') return '^ ';
  if (char === '\\') return '\\U+005C';
  if (0x20 <= code && code <= 0x7e) return char;
  if (code < 0x20 || 0xffff < code || (0xd800 <= code && code <= 0xdfff)) return '?';
  return `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
}
