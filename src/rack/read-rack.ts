import type { FileUnit } from '../model/job.ts';
import { type Deed, ID_PATTERN, type Rack, type RackEntry } from '../model/rack.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import type { SheetStock } from '../model/stock.ts';
import { type Currency, readCurrency } from '../partsfile/currencies.ts';
import type { Problem, ProblemCode } from '../partsfile/problem.ts';
import { readTree } from '../partsfile/read-parts-file.ts';
import { Report } from '../partsfile/report.ts';
import { checkShape } from '../partsfile/shape-check.ts';
import { readSheet } from '../partsfile/sheets.ts';
import { child, type Field, isFlawed, itemsOf, rootField, textOf } from '../partsfile/tree.ts';
import {
  POSITIVE,
  type Reading,
  readLength,
  readName,
  readNote,
  readWhole,
} from '../partsfile/values.ts';
import { quote } from '../partsfile/visible.ts';
import { RACK_SCHEMA, rackFileSchema } from './schema.ts';

/** The rack, or null where any problem is an error; problems in the order of the file. */
export interface RackResult {
  readonly rack: Rack | null;
  readonly problems: readonly Problem[];
}

/** Reads a rack file: its text, then its form, then what it means. It never throws for a bad file. */
export function readRack(text: string, limits: ResourceLimits = USUAL_LIMITS): RackResult {
  const report = new Report(limits);
  const tree = readTree(text, report);
  const form = { schema: RACK_SCHEMA, schemaOf: rackFileSchema };
  const root = tree === null ? null : rootField(checkShape(tree, report, form));
  const rack = root === null || isFlawed(root) ? null : readAll(root, report);
  return { rack: report.hasErrors ? null : rack, problems: report.list().map(reworded) };
}

/** The text's own problems are told with parts files in mind. */
const HINTS: Partial<Record<ProblemCode, string>> = {
  'empty-file':
    'take the empty file away and holdfast offcuts add makes a new one; or put the copy back that you keep',
  'yaml-syntax': 'holdfast offcuts --help shows a rack file',
  'not-text': 'a rack file is plain text in UTF-8',
  'several-documents': 'a rack file is one document: remove the line ---',
};

function reworded(problem: Problem): Problem {
  const isOfParts = /holdfast new|parts file/.test(problem.hint ?? '');
  return isOfParts ? { ...problem, hint: HINTS[problem.code] ?? problem.hint } : problem;
}

function readAll(root: Field, report: Report): Rack | null {
  const unitField = child(root, 'unit');
  // Without its unit no length of the file means anything.
  if (unitField === null || isFlawed(unitField)) return null;
  const unit: FileUnit = textOf(unitField) === 'mm' ? 'mm' : 'in';
  const reading: Reading = { unit, report };
  const list = child(root, 'offcuts');
  const items = list === null ? [] : itemsOf(list);
  const isWithin = report.within(list ?? root, {
    ...{ limit: 'offcuts', code: 'out-of-range', found: items.length },
    ...{ subject: 'the rack has', instead: 'take out what was used long ago' },
  });
  if (!isWithin) return null;
  const currency = readRackCurrency(root, items, reading);
  const entries = items.flatMap((item, index) => {
    const entry = readEntry(item, index, { ...reading, currency, grained: false });
    return entry === null ? [] : [entry];
  });
  checkIds(items, report);
  const next = readWhole(child(root, 'next-number')) ?? 1;
  const isNamed = child(root, 'currency') !== null;
  return {
    unit,
    currency: isNamed ? currency : null,
    entries,
    nextNumber: Math.max(next, ...entries.map(({ id }) => labelNumber(id) + 1)),
  };
}

/** Money is never taken in a currency that nobody named. */
function readRackCurrency(root: Field, items: readonly Field[], reading: Reading): Currency {
  const { currency } = readCurrency(root, reading);
  const [priced] = items.flatMap((item) => child(item, 'price') ?? []);
  if (child(root, 'currency') === null && priced !== undefined) {
    const hint = 'write currency: EUR, or whatever it is, at the top of the file';
    reading.report.error(priced, 'missing-key', 'currency is missing, and here is a price', hint);
  }
  return currency;
}

type EntryReading = Parameters<typeof readSheet>[2];

function readEntry(item: Field, index: number, reading: EntryReading): RackEntry | null {
  if (isFlawed(item)) return null;
  const id = readId(child(item, 'id'), reading);
  const material = nameIn(item, 'material', reading);
  const thicknessField = child(item, 'thickness');
  const thickness = thicknessField === null ? null : readLength(thicknessField, reading, POSITIVE);
  const stock = readSheet(item, index, reading);
  const from = child(item, 'from');
  const origin: Deed = { ...readDeed(from, reading), date: readDate(child(item, 'date'), reading) };
  const used = readUse(item, reading);
  const note = readNote(child(item, 'note'), reading);
  if (id === null || material === null || thickness === null || stock === null) return null;
  return { id, material, thickness, stock: onRack(stock, id), from: origin, note, used };
}

/** There is one of it, and it costs nothing unless the file says so. */
function onRack(stock: SheetStock, id: string): SheetStock {
  return {
    ...stock,
    priceCents: stock.priceCents ?? 0,
    onHand: 1,
    rack: id,
  };
}

function readId(field: Field | null, { report }: Reading): string | null {
  if (field === null || isFlawed(field)) return null;
  const id = textOf(field);
  if (ID_PATTERN.test(id)) return id;
  const hint = 'up to 8 letters and digits, - and _ between them, such as R12';
  report.error(field, 'bad-name', `${quote(id)} is no id for a label`, hint);
  return null;
}

/** Two labels that say the same would end in the wrong piece being cut; neither may only the case of letters tell them apart. */
function checkIds(items: readonly Field[], report: Report): void {
  const lineOf = new Map<string, number>();
  for (const item of items) {
    const field = child(item, 'id');
    if (field === null || isFlawed(field)) continue;
    const id = textOf(field).toUpperCase();
    const first = lineOf.get(id);
    lineOf.set(id, first ?? field.place.line);
    if (first === undefined) continue;
    const message = `the id ${quote(textOf(field))} is here twice; the first is in line ${first}`;
    report.error(field, 'duplicate-name', message, 'give one of the two another label');
  }
}

function readUse(item: Field, reading: Reading): Deed | null {
  const state = child(item, 'state');
  const by = child(item, 'used-by');
  const isUsed = state !== null && !isFlawed(state) && textOf(state) === 'used';
  if (!isUsed && by !== null && !(state !== null && isFlawed(state))) {
    const hint = 'write state: used as well, or take used-by out';
    reading.report.error(by, 'misplaced-key', 'what is on the rack has no used-by', hint);
  }
  const date = by === null ? null : readDate(child(by, 'date'), reading);
  return isUsed ? { ...readDeed(by, reading), date } : null;
}

function readDeed(field: Field | null, reading: Reading): Omit<Deed, 'date'> {
  if (field === null || isFlawed(field)) return { job: null, sheet: null, plan: null };
  return {
    job: nameIn(field, 'job', reading),
    sheet: readWhole(child(field, 'sheet')),
    plan: nameIn(field, 'plan', reading),
  };
}

function nameIn(field: Field, key: string, reading: Reading): string | null {
  const found = child(field, key);
  return found === null ? null : readName(found, reading);
}

function readDate(field: Field | null, { report }: Reading): string | null {
  if (field === null || isFlawed(field)) return null;
  const text = textOf(field);
  if (isDay(text)) return text;
  const hint = 'write year, month and day, such as 2026-03-31';
  report.error(field, 'bad-date', `${quote(text)} is no date`, hint);
  return null;
}

function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** 12 of R12; 0 of a label of another form. */
export function labelNumber(id: string): number {
  return Number(/^R(\d{1,9})$/i.exec(id)?.[1] ?? 0);
}
