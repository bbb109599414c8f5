/**
 * Rows as comma-separated text after RFC 4180: CRLF after each row, quotes where a field needs them.
 * A text that a spreadsheet would take for a formula, the wide forms of its signs included, gets an apostrophe in front; numbers are written as they are.
 * Source of the characters: OWASP, "CSV Injection".
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
