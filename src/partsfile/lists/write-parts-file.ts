import { Document, Pair, Scalar, YAMLMap, YAMLSeq } from 'yaml';
import type { FileUnit } from '../../model/job.ts';
import { SIDES } from '../../model/part.ts';
import { shortened, visible } from '../visible.ts';
import type { ListJob, ListMaterial, NamedPart } from './list-job.ts';
import { type ListLength, lengthText } from './list-lengths.ts';
import type { ListTrouble } from './list-parts.ts';

/** What the head of the file says, and the name of the job. */
export interface FileHead {
  readonly job: string;
  readonly unit: FileUnit;
  readonly unitRemark: string;
  readonly lines: readonly string[];
}

/** More would bury the parts. */
const MOST_REMARKS = 500;

/** The text of a parts file. What could not be read stands as a remark where the part would be. */
export function writePartsFile(
  head: FileHead,
  { materials, parts }: ListJob,
  troubles: readonly ListTrouble[],
): string {
  const document = new Document({});
  const root = document.contents as unknown as YAMLMap;
  document.commentBefore = head.lines.map(remark).join('\n');
  root.add(new Pair(new Scalar('job'), text(head.job)));
  root.add(new Pair(new Scalar('unit'), remarked(new Scalar(head.unit), head.unitRemark)));
  const stock = new YAMLMap();
  for (const material of materials) stock.add(materialPair(material, head.unit));
  root.add(section('materials', stock));
  const list = new YAMLSeq();
  const kept = new Set(parts.flatMap(({ rows }) => rows));
  const remarks = troubles
    .slice(0, MOST_REMARKS)
    .map((trouble) => ({ row: trouble.row, text: troubleRemark(trouble, !kept.has(trouble.row)) }));
  let told = 0;
  for (const part of parts) {
    const node = partNode(part, head.unit);
    node.comment = remark(rowsOf(part));
    const from = told;
    while (told < remarks.length && remarks[told]!.row <= part.row) told++;
    if (from < told) node.commentBefore = linesOf(remarks.slice(from, told));
    list.add(node);
  }
  const more = troubles.length - MOST_REMARKS;
  const rest = [
    ...remarks.slice(told),
    ...(more > 0 ? [{ text: remark(`and ${more} more`) }] : []),
  ];
  if (rest.length > 0) list.comment = linesOf(rest);
  root.add(section('parts', list));
  return document.toString({ lineWidth: 0 });
}

function linesOf(remarks: readonly { readonly text: string }[]): string {
  return remarks.map(({ text: line }) => line).join('\n');
}

function section(name: string, value: YAMLMap | YAMLSeq): Pair {
  const key = new Scalar(name);
  key.spaceBefore = true;
  return new Pair(key, value);
}

/** What the library takes for a comment is one line of letters that can be seen. */
function remark(line: string): string {
  return line === '' ? '' : ` ${visible(line).slice(0, 300)}`;
}

function remarked(node: Scalar, line: string): Scalar {
  node.comment = remark(line);
  return node;
}

function troubleRemark({ row, column, why, cells }: ListTrouble, isLeftOut: boolean): string {
  const what = isLeftOut ? 'LEFT OUT' : 'NOT READ';
  const shown = cells.filter((cell) => cell !== '').join('; ');
  const where = column === null ? '' : `column ${column}: `;
  return remark(
    `${what}: row ${row}${shown === '' ? '' : ` (${shortened(shown)})`}: ${where}${why}`,
  );
}

function rowsOf({ rows }: NamedPart): string {
  if (rows.length === 1) return `row ${rows[0]}`;
  const shown = rows.slice(0, 10).join(', ');
  return `rows ${shown}${rows.length > 10 ? ` and ${rows.length - 10} more` : ''}`;
}

/** A text of the list, in quotation marks wherever YAML would take it for something else. */
function text(value: string): Scalar {
  return new Scalar(value);
}

/** A number without quotation marks where it is one, as people write it. */
function length({ text: written }: ListLength): Scalar {
  return new Scalar(/^\d+(\.\d+)?$/.test(written) ? Number(written) : written);
}

const SHEET_REMARKS: Readonly<Record<ListMaterial['sheetFrom'], string>> = {
  option: 'as --sheet says; add its price, trim and how many are on hand',
  common: 'CHECK: a common size, assumed; add its price, trim and how many are on hand',
  parts: 'CHECK: no common sheet takes the largest part; this size would',
};

const THICKNESS_REMARKS: Readonly<Record<ListMaterial['thicknessFrom'], string | null>> = {
  list: null,
  name: 'from its name',
  nowhere: 'CHECK: assumed, the list does not say it',
};

const UNUSED = 'only in rows that were left out';

function materialPair(material: ListMaterial, unit: FileUnit): Pair {
  const entry = new YAMLMap();
  const name = text(material.name);
  entry.add(new Pair(new Scalar('name'), material.isUsed ? name : remarked(name, UNUSED)));
  if (material.family === null)
    entry.comment = remark('CHECK: family: its name says none; plywood is assumed');
  else
    entry.add(new Pair(new Scalar('family'), remarked(new Scalar(material.family), 'by its name')));
  const thickness = length(material.thickness);
  const from = THICKNESS_REMARKS[material.thicknessFrom];
  entry.add(
    new Pair(new Scalar('thickness'), from === null ? thickness : remarked(thickness, from)),
  );
  if (material.isFilmed)
    entry.add(new Pair(new Scalar('surface'), remarked(new Scalar('film-faced'), 'by its name')));
  entry.add(new Pair(new Scalar('sheets'), sheetList(material, unit)));
  return new Pair(text(material.key), entry);
}

function sheetList({ sheet, sheetFrom, isGrained }: ListMaterial, unit: FileUnit): YAMLSeq {
  const node = new YAMLMap();
  node.flow = true;
  const [first, second] = [sheet.length, sheet.width].map((side) => lengthText(side, unit, unit));
  node.add(new Pair(new Scalar('size'), new Scalar(`${first} x ${second}`)));
  const isSquare = sheet.length === sheet.width && isGrained;
  if (isSquare) node.add(new Pair(new Scalar('grain'), new Scalar('first')));
  const grain = isSquare ? 'CHECK: grain along the first number is assumed; ' : '';
  node.comment = remark(`${grain}${SHEET_REMARKS[sheetFrom]}`);
  const list = new YAMLSeq();
  list.add(node);
  return list;
}

/** The reader takes a unit with both lengths of a size, or with neither. */
function sizeText(sides: readonly ListLength[], unit: FileUnit): string {
  const hasUnit = sides.map(({ text: written }) => /[a-z]$/.test(written));
  const isMixed = new Set(hasUnit).size > 1;
  return sides
    .map(({ text: written }, i) => (isMixed && !hasUnit[i] ? `${written}${unit}` : written))
    .join(' x ');
}

function partNode(part: NamedPart, unit: FileUnit): YAMLMap {
  const node = new YAMLMap();
  node.flow = true;
  const add = (key: string, value: unknown) => node.add(new Pair(new Scalar(key), value));
  add('name', text(part.name));
  add('material', text(part.key));
  add('size', new Scalar(sizeText([part.length, part.width], unit)));
  if (part.count !== 1) add('count', new Scalar(part.count));
  if (part.grain !== 'any') add('grain', new Scalar(part.grain));
  const banded = SIDES.flatMap((side) => {
    const band = part.bands[side];
    return band === undefined ? [] : [new Pair(new Scalar(side), length(band))];
  });
  if (banded.length > 0) {
    const edges = new YAMLMap();
    edges.flow = true;
    edges.items = banded;
    add('edges', edges);
  }
  if (part.group !== null) add('group', text(part.group));
  if (part.note !== null) add('note', text(part.note));
  return node;
}
