import { isUnprintable } from '../../src/partsfile/visible.ts';

interface Told {
  readonly severity: string;
  readonly code: string;
  readonly place: { readonly line: number; readonly column: number } | null;
  readonly path: string;
  readonly message: string;
  readonly hint: string | null;
}

/** Longer is nothing that anyone reads; quoted words are cut long before. */
const LONGEST_MESSAGE = 600;

/** Problems of a file that speak of no place in it. */
const WITHOUT_PLACE = ['too-many-problems'];

/** What is wrong with the problems themselves: each has a code, stands in the file, and is told in one line. */
export function toldFaults(
  problems: readonly Told[],
  text: string,
  codes: ReadonlySet<string>,
): string[] {
  const lines = text.replace(/^\ufeff/, '').split('\n');
  return problems.flatMap((problem) => {
    const { code, place, message, hint } = problem;
    const faults: string[] = [];
    if (!codes.has(code)) faults.push(`no known code: ${code}`);
    if (place === null ? !WITHOUT_PLACE.includes(code) : !isIn(place, lines))
      faults.push(
        `${code} stands outside the file: ${JSON.stringify(place)} of ${lines.length} lines`,
      );
    faults.push(...sentenceFaults(message), ...(hint === null ? [] : sentenceFaults(hint)));
    if (typeof problem.path !== 'string') faults.push(`${code} has no path`);
    return faults;
  });
}

/** A column may be one behind the last letter, where something is missing. */
function isIn(
  { line, column }: { line: number; column: number },
  lines: readonly string[],
): boolean {
  const own = lines[line - 1];
  return Number.isInteger(column) && own !== undefined && 1 <= column && column <= own.length + 1;
}

/** What is told in words has to be one line without anything that a terminal obeys, and no value of the language. */
export function sentenceFaults(text: unknown): string[] {
  if (typeof text !== 'string') return [`no text is told: ${String(text)}`];
  if (text === '') return ['nothing is told'];
  if (isUnprintable(text)) return [`not one plain line: ${JSON.stringify(text)}`];
  if (LONGEST_MESSAGE < text.length)
    return [`${text.length} letters are told: ${text.slice(0, 80)}`];
  if (/\[object|\[native code|function \w*\(/.test(text))
    return [`a value of the language is told: ${text}`];
  return [];
}

/** Errors and a result go never together. */
export function severityFaults(problems: readonly Told[], isRead: boolean): string[] {
  const hasError = problems.some(({ severity }) => severity === 'error');
  return hasError !== isRead
    ? []
    : [isRead ? 'read in spite of an error' : 'not read, and no error told'];
}
