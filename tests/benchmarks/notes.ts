import type { Report, Row } from './benchmark.ts';
import { sumOf } from './percentiles.ts';
import { whole } from './table.ts';

interface WithSheets {
  readonly sheets: number;
}

/** What must be said under every table of sheets: faults, a sample, a draw, figures of a lower effort. */
export function commonNotes<F extends WithSheets>(
  report: Report<F>,
  rows: readonly Row<F>[],
): string[] {
  const { every, only, draw, efforts } = report.request;
  const notes = [faultsNote(rows)];
  if (every > 1) notes.push(`One in ${every} instances only.`);
  if (only.length > 0) notes.push(`Only ${only.join(', ')}.`);
  if (draw !== null) notes.push(drawNote(report, rows));
  const lower = rows.filter(({ effort }) => !efforts.includes(effort)).length;
  if (lower > 0) notes.push(`${whole(lower)} were proved at a lower effort and not run again.`);
  return notes;
}

export function faultsNote(rows: readonly Row[]): string {
  const faulty = rows.filter(({ faults }) => faults > 0);
  if (faulty.length === 0) return 'All layouts passed both checks.';
  const names = faulty.map(({ instance }) => instance).join(', ');
  return `${sumOf(faulty.map(({ faults }) => faults))} FAULTS in ${names}: the sums are not to be compared.`;
}

function drawNote<F extends WithSheets>(report: Report<F>, rows: readonly Row<F>[]): string {
  const variants = new Set(rows.map(({ variant }) => variant));
  const before = report.before.filter(({ variant }) => variants.has(variant));
  const sheets = sumOf(before.map(({ figures }) => figures.sheets));
  const compared =
    before.length > 0 ? ` At lower effort the same took ${whole(sheets)} sheets.` : '';
  return `A random ${rows.length} of the instances that are not proved at a lower effort (${whole(report.drawnFrom ?? 0)} in all variants).${compared}`;
}
