import { assert } from '../../geometry/assert.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../../model/resource-limits.ts';
import { readPartsFile } from '../read-parts-file.ts';
import { asText, quote } from '../visible.ts';
import { type Columns, columnName, findColumns, headerWorth } from './columns.ts';
import { decodeList } from './list-bytes.ts';
import { checksOf } from './list-checks.ts';
import { findForm, type ListForm } from './list-form.ts';
import { type ListJob, makeJob } from './list-job.ts';
import { type Given, type ListOptions, readGiven } from './list-options.ts';
import { type ListPart, type ListTrouble, plainText, readPart } from './list-parts.ts';
import { type Row, readRows } from './list-rows.ts';
import { type Sorted, skippedWords, withoutOthers } from './list-skips.ts';
import { writePartsFile } from './write-parts-file.ts';

export type { ListOptions } from './list-options.ts';
export type { ListTrouble } from './list-parts.ts';

/** A parts file made of a list, and all that was taken, passed over or assumed for it. */
export interface ListImport {
  readonly text: string;
  readonly parts: number;
  readonly pieces: number;
  readonly materials: number;
  /** In the order of the list. */
  readonly troubles: readonly ListTrouble[];
  /** Which column is what, and those that nothing is taken from. */
  readonly columns: readonly string[];
  readonly unused: readonly string[];
  /** Rows that are no parts. */
  readonly skipped: readonly string[];
  /** What a person should look at, a sentence each. */
  readonly checks: readonly string[];
}

/** Nothing came of it: why, a sentence each, with what could not be read. */
export interface ListRefused {
  readonly faults: readonly string[];
  readonly troubles: readonly ListTrouble[];
}

/** Reads the bytes of a cut list and writes a parts file of it; `file` is its name. Never throws for a bad list. */
export function importList(
  bytes: Uint8Array,
  file: string,
  options: ListOptions,
  limits: ResourceLimits = USUAL_LIMITS,
): ListImport | ListRefused {
  const decoded = decodeList(bytes, limits);
  if ('why' in decoded) return refused(decoded.why);
  const worth = (head: readonly Row[]) => headerWorth(head, options.columns);
  const cut = readRows(decoded.text, options.separator, worth, limits);
  if ('why' in cut) return refused(cut.why);
  if (cut.rows.every(({ cells }) => cells.every((cell) => cell === '')))
    return refused('the list is empty');
  const found = findColumns(cut.rows, options.columns);
  if ('faults' in found) return refused(...found.faults);
  const missing = missingColumns(found.columns.byRole, cut.rows);
  if (missing !== null) return refused(missing);
  const sorted = withoutOthers(cut.rows, found.columns);
  const form = findForm(sorted.parts, found.columns.byRole, options.unit);
  const read = readGiven(options, form);
  if ('faults' in read) return refused(...read.faults);
  const job = { file, form, given: read.given, note: decoded.note, columns: found.columns, limits };
  return imported(sorted, job);
}

function refused(...faults: readonly string[]): ListRefused {
  return { faults, troubles: [] };
}

function missingColumns(byRole: ListForm['columns'], rows: readonly Row[]): string | null {
  const missing = (['length', 'width'] as const).filter((role) => !byRole.has(role));
  if (missing.length === 0 || byRole.has('size')) return null;
  const first = rows.find(({ cells }) => cells.some((cell) => cell !== ''));
  const shown = first?.cells.slice(0, 5).map(quote).join(', ');
  return (
    `no column is known as ${missing.join(' and ')}; row ${first?.number} has ${shown}. ` +
    'Say which they are by header, letter or number: --columns name=A,length=B,width=C,count=D'
  );
}

/** What the rows are read by. */
interface Reading {
  readonly file: string;
  readonly form: ListForm;
  readonly given: Given;
  readonly columns: Columns;
  readonly note: string | null;
  readonly limits: ResourceLimits;
}

function imported(
  { parts: rows, skipped, troubles: known }: Sorted,
  reading: Reading,
): ListImport | ListRefused {
  const troubles = [...known];
  const read = rows.flatMap((row) => readPart(row, reading.form, reading.given, troubles) ?? []);
  const made = soundFile(read, troubles, reading);
  if ('text' in made) {
    const { text, job, checks } = made;
    return {
      text,
      parts: job.parts.length,
      pieces: job.parts.reduce((sum, { count }) => sum + count, 0),
      materials: job.materials.length,
      troubles: made.troubles,
      columns: columnsUsed(reading.columns),
      unused: reading.columns.unused,
      skipped: skippedWords(skipped),
      checks,
    };
  }
  const why = rows.length === 0 ? 'the list has no rows below its header' : 'no row could be read';
  return { faults: [why], troubles: made.troubles };
}

function columnsUsed({ byRole }: Columns): readonly string[] {
  const inOrder = [...byRole.values()].toSorted((a, b) => a.index - b.index);
  return inOrder.map((column) => `${column.role} ${columnName(column)}`);
}

interface Made {
  readonly job: ListJob;
  readonly text: string;
  readonly checks: readonly string[];
  readonly troubles: readonly ListTrouble[];
}

function make(parts: readonly ListPart[], known: readonly ListTrouble[], reading: Reading): Made {
  const { form, given, note, file, columns, limits } = reading;
  const more: ListTrouble[] = [];
  const job = makeJob(parts, known, { unit: form.fileUnit, sheet: given.sheet, limits }, more);
  const troubles = [...known, ...more].toSorted((a, b) => a.row - b.row);
  const checks = [...(note === null ? [] : [note]), ...checksOf(parts, job, form, given)];
  const head = {
    job: plainText(file.replace(/\.\w+$/, '')) || 'List',
    unit: form.fileUnit,
    unitRemark: form.unitFrom ?? 'CHECK: assumed, the list does not say it',
    lines: [
      `Made of ${file} by holdfast import; the remark behind a part is its row there.`,
      `Columns: ${columnsUsed(columns).join(', ')}.`,
      'CHECK what was assumed, not read:',
      ...checks.map((check) => `- ${check}`),
    ],
  };
  // Headers and left-out rows stand in remarks as they are.
  return { job, text: asText(writePartsFile(head, job, troubles)), checks, troubles };
}

/**
 * The file of all parts that the reader of parts files takes. It is the judge here: a part that it does not take is left out with what it says, so what is written can be
 * planned. Without text where no part is left.
 */
function soundFile(
  read: readonly ListPart[],
  troubles: readonly ListTrouble[],
  reading: Reading,
): Made | Pick<Made, 'troubles'> {
  let parts = read;
  const known = [...troubles];
  for (;;) {
    const made = make(parts, known, reading);
    if (made.job.parts.length === 0) return { troubles: made.troubles };
    const refusals = refusalsOf(made, reading.limits);
    if (refusals.size === 0) return made;
    for (const part of parts) {
      const { row, cells } = part;
      const why = refusals.get(row);
      if (why !== undefined) known.push({ row, column: null, why, cells, stuff: part });
    }
    parts = parts.filter(({ row }) => !refusals.has(row));
  }
}

/** What the reader of parts files says of each row that it does not take. */
function refusalsOf({ job, text }: Made, limits: ResourceLimits): ReadonlyMap<number, string> {
  const { problems } = readPartsFile(text, NO_DRAWINGS, limits);
  const refusals = new Map<number, string>();
  for (const { severity, path, message, code } of problems) {
    if (severity === 'warning' || code === 'too-many-problems') continue;
    const [, index] = /^parts\[(\d+)\]/.exec(path) ?? [];
    const part = index === undefined ? undefined : job.parts[Number(index)];
    assert(part !== undefined, `a parts file made of a list does not read: ${path}: ${message}`);
    for (const row of part.rows) refusals.set(row, message);
  }
  return refusals;
}

const NO_DRAWINGS = () => ({ ok: false, reason: 'missing', detail: '' }) as const;
