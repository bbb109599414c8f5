/** A table; `align` has an l or r for each column. */
export function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  align: string,
): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const rule = [...align].map((side) => (side === 'r' ? '---:' : '---'));
  return [line(head), line(rule), ...rows.map(line)].join('\n');
}

/** A user's text without anything that Markdown or HTML would act on. */
export function plain(text: string): string {
  return text.replace(/[\\`*_[\]<>|~&#]/g, (character) => `\\${character}`).replace(/\s+/g, ' ');
}
