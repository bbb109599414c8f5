import { type Contour, rectangle } from '../geometry/shape.ts';
import type { Lumber, LumberPart } from '../model/lumber.ts';
import {
  type LengthPart,
  type Part,
  type PartFace,
  type PartGrain,
  SIDES,
  type Side,
} from '../model/part.ts';
import type { Material } from '../model/stock.ts';
import { soundBody } from './body-check.ts';
import { readCutOuts } from './cut-outs.ts';
import { findMisfit } from './fit-check.ts';
import { readHoles } from './holes.ts';
import { type Common, readLengthPart } from './length-parts.ts';
import type { Excess } from './limit-fault.ts';
import { readLumberPart } from './lumber.ts';
import { readMembers, rowAxis, rowSize } from './matched.ts';
import { suggest } from './nearest.ts';
import { type OutlineKind, outlineKind } from './outline-kinds.ts';
import { type Outline, type OutlineReading, readOutline } from './outlines.ts';
import { readPockets, soundPockets } from './pockets.ts';
import { child, type Field, isFlawed, itemsOf, keySpot, textOf } from './tree.ts';
import { type TurnWord, turnsOf } from './turns.ts';
import { plainName, readName, readNote, readWhole, readWord, readYes } from './values.ts';
import { quote } from './visible.ts';

/** What reading the parts needs beyond their own lines. */
export interface PartsReading extends OutlineReading {
  /** By their keys, null for those that could not be read; null where the file has no list of them to look into. */
  readonly materials: ReadonlyMap<string, Material | null> | null;
  /** Materials that parts are only reckoned from. */
  readonly lumber: readonly Lumber[];
  /** Null where the machine could not be read. */
  readonly spacing: number | null;
}

/** One entry of the list: a part, or the members of a matched set in their order; without indices yet. */
export interface PartEntry {
  readonly name: string;
  readonly members: readonly Part[];
  /** Which way the pieces of a set follow one another, in their own coordinates; null for a part on its own. */
  readonly axis: 'x' | 'y' | null;
}

/** The parts of the file in its order, by what they are cut from. */
export interface PartsRead {
  readonly entries: readonly PartEntry[];
  readonly lengthParts: readonly LengthPart[];
  /** By the keys of their materials. */
  readonly lumberParts: ReadonlyMap<string, readonly LumberPart[]>;
}

/** The parts of the file in its order; those with a problem are left out. */
export function readParts(parts: Field, reading: PartsReading): PartsRead {
  const { report } = reading;
  const entries: PartEntry[] = [];
  const lengthParts: LengthPart[] = [];
  const lumberParts = new Map<string, LumberPart[]>();
  const names = new Map<string, Field>();
  const sum = { parts: 0, pieces: 0, holes: 0, sides: 0 };
  for (const item of itemsOf(parts)) {
    if (isFlawed(item)) continue;
    const read = readEntry(item, names, reading);
    if (read.entry !== null) entries.push(read.entry);
    if (read.lengthPart !== null)
      lengthParts.push({ ...read.lengthPart, index: lengthParts.length });
    if (read.lumberPart !== null) {
      const { of, part } = read.lumberPart;
      const own = lumberParts.get(of) ?? [];
      own.push(part);
      lumberParts.set(of, own);
    }
    sum.parts++;
    sum.pieces += piecesOf(item);
    sum.holes += read.holes;
    sum.sides += read.sides;
    if (!excessesOf(sum).every((excess) => report.within(item, excess))) break;
  }
  return { entries, lengthParts, lumberParts };
}

/** What all parts of one file come to, taken together with their counts and rows. */
function excessesOf({ parts, pieces, holes, sides }: Sums): readonly Excess[] {
  const words = {
    subject: 'up to this part the file has',
    instead: 'split the job into several files',
  };
  return [
    { ...words, limit: 'parts', found: parts, code: 'too-many-pieces' },
    { ...words, limit: 'pieces', found: pieces, code: 'too-many-pieces' },
    { ...words, limit: 'all-holes', found: holes, code: 'too-complex' },
    { ...words, limit: 'all-vertices', found: sides, code: 'too-complex' },
  ];
}

type Sums = Readonly<Record<'parts' | 'pieces' | 'holes' | 'sides', number>>;

/** How many pieces an entry of the list stands for. */
export function piecesOf(item: Field): number {
  const members = child(item, 'matched');
  const count = readWhole(child(item, 'count')) ?? 1;
  return count * Math.max(1, members === null ? 1 : itemsOf(members).length);
}

/** An entry, or null after a problem; and what it took to look at it, sound or not. */
interface EntryRead {
  readonly entry: PartEntry | null;
  readonly lengthPart: LengthPart | null;
  readonly lumberPart: { readonly of: string; readonly part: LumberPart } | null;
  readonly sides: number;
  readonly holes: number;
}

const NOTHING_READ: EntryRead = {
  entry: null,
  lengthPart: null,
  lumberPart: null,
  sides: 0,
  holes: 0,
};

function readEntry(item: Field, names: Map<string, Field>, reading: PartsReading): EntryRead {
  const nameField = child(item, 'name');
  const name = nameField === null ? null : readName(nameField, reading);
  const unique = name === null || nameField === null || isUnique(name, nameField, names, reading);
  const material = readMaterialOf(item, reading);
  const note = readNote(child(item, 'note'), reading);
  const groupField = child(item, 'group');
  const group = groupField === null ? null : readName(groupField, reading);
  const read = readAny(item, { name: name ?? '', group, note, material }, reading);
  const sound = name !== null && unique && (groupField === null || group !== null);
  return sound ? read : { ...NOTHING_READ, sides: read.sides, holes: read.holes };
}

function readAny(item: Field, common: Common, reading: PartsReading): EntryRead {
  const material = child(item, 'material');
  const id = material === null ? '' : plainName(textOf(material));
  const lumber = reading.lumber.find((each) => each.id === id);
  if (lumber !== undefined) {
    const part = readLumberPart(item, common, lumber, reading);
    return { ...NOTHING_READ, lumberPart: part === null ? null : { of: id, part } };
  }
  if (child(item, 'length') !== null)
    return { ...NOTHING_READ, lengthPart: readLengthPart(item, common, reading) };
  return readShaped(item, outlineKind(item, reading), common, reading);
}

/** A part that is cut from a sheet. */
function readShaped(
  item: Field,
  kind: OutlineKind | null,
  common: Common,
  reading: PartsReading,
): EntryRead {
  if (kind === null) return NOTHING_READ;
  const { material } = common;
  if (material !== null && material.sheets.length === 0) {
    const message = `${material.id} has boards only, and the part has no length`;
    const hint = `write length: in place of the outline, or give ${material.id} sheets`;
    reading.report.error(child(item, 'material') ?? item, 'no-sheets', message, hint);
    return NOTHING_READ;
  }
  if (kind !== 'matched') return readSingle(item, kind, common, reading);
  return { ...NOTHING_READ, entry: readSet(item, common, reading) };
}

function isUnique(
  name: string,
  field: Field,
  names: Map<string, Field>,
  { report }: PartsReading,
): boolean {
  const first = names.get(name);
  if (first === undefined) {
    names.set(name, field);
    return true;
  }
  const message = `there is a part named ${quote(name)} already, in line ${first.place.line}`;
  report.error(field, 'duplicate-name', message, 'give each part a name of its own, or use count');
  return false;
}

/** The material that the part names; null where it names none that could be read. */
function readMaterialOf(item: Field, reading: PartsReading): Material | null {
  const field = child(item, 'material');
  if (field === null || isFlawed(field)) return null;
  const { materials } = reading;
  const id = plainName(textOf(field));
  const material = materials === null ? null : materials.get(id);
  if (material !== undefined) return material;
  const ids = [...(materials?.keys() ?? [])].slice(0, 20);
  const hint = ids.length === 0 ? 'write it under materials' : suggest(id, ids);
  reading.report.error(field, 'unknown-material', `there is no material ${quote(id)}`, hint);
  return null;
}

function readSingle(
  item: Field,
  kind: Exclude<OutlineKind, 'matched'>,
  common: Common,
  reading: PartsReading,
): EntryRead {
  const outline = readOutline(item, kind, reading);
  if (outline === null) return NOTHING_READ;
  const cutOuts = readCutOuts(item, outline, reading);
  const holes = readHoles(item, outline, common.material?.thickness ?? null, reading);
  const recesses = readPockets(item, outline, common.material?.thickness ?? null, reading);
  const shape = soundBody(outline, cutOuts, holes, reading);
  const pockets =
    shape === null
      ? null
      : soundPockets(recesses, shape, readYes(child(item, 'nest-inside')), reading);
  const contours = [
    outline.outer,
    ...outline.inner,
    ...cutOuts.map(({ contour }) => contour),
    ...recesses.map(({ pocket }) => pocket.contour),
  ];
  const sides = contours.reduce((sum, contour) => sum + contour.length, 0);
  const work = { ...NOTHING_READ, sides, holes: holes.length };
  if (shape === null || pockets === null || common.material === null) return work;
  const part: Part = {
    ...partOf(item, outline, common.material, common),
    shape,
    rectangular: outline.rectangular || isBox(shape.outer, outline),
    holes: holes.map(({ hole }) => hole),
    pockets,
  };
  const misfit = findMisfit({ part, row: null }, common.material, reading.unit);
  if (misfit !== null)
    reading.report.error(outline.field, 'fits-no-sheet', misfit.message, misfit.hint);
  return { ...work, entry: { name: common.name, members: [part], axis: null } };
}

function readSet(item: Field, common: Common, reading: PartsReading): PartEntry | null {
  const field = child(item, 'matched');
  const { material } = common;
  const outlines = field === null ? null : readMembers(item, field, reading);
  if (field === null || outlines === null) return null;
  const axis = rowAxis(item, field, outlines, reading);
  if (axis === null || material === null) return null;
  const members = outlines.map((outline) => partOf(item, outline, material, common));
  const [part] = members;
  const { spacing } = reading;
  if (part !== undefined && spacing !== null) {
    const body = { part, row: rowSize(outlines, axis, spacing) };
    const misfit = findMisfit(body, material, reading.unit);
    if (misfit !== null) reading.report.error(field, 'fits-no-sheet', misfit.message, misfit.hint);
  }
  return { name: common.name, members, axis };
}

/** A part of the given outline, without cut-outs, holes and pockets. */
function partOf(item: Field, outline: Outline, material: Material, common: Common): Part {
  const turns = child(item, 'turns');
  const word = turns === null || isFlawed(turns) ? null : readWord<TurnWord>(turns, 'quarter');
  return {
    index: 0,
    name: common.name,
    material: material.index,
    group: common.group,
    note: common.note,
    count: readWhole(child(item, 'count')) ?? 1,
    shape: { outer: outline.outer, inner: [] },
    rectangular: outline.rectangular,
    width: outline.width,
    height: outline.height,
    finishedWidth: outline.finishedWidth,
    finishedHeight: outline.finishedHeight,
    edgeBands: outline.edgeBands,
    showEdges: readShowEdges(child(item, 'show-edge')),
    grain: readWord<PartGrain>(child(item, 'grain'), 'any'),
    face: readWord<PartFace>(child(item, 'face'), 'up'),
    turns: turnsOf(word),
    nestInside: readYes(child(item, 'nest-inside')),
    holes: [],
    pockets: [],
    place: (common.name === '' ? item : keySpot(item, 'name')).place ?? item.place,
  };
}

/** One side, several, or all; each once. */
function readShowEdges(field: Field | null): readonly Side[] {
  if (field === null || isFlawed(field)) return [];
  const words = (field.tree.kind === 'list' ? itemsOf(field) : [field]).map(textOf);
  return SIDES.filter((side) => words.includes(side) || words.includes('all'));
}

/** Whether a drawn outline is just the box round it. */
function isBox(outer: Contour, { width, height }: Outline): boolean {
  const corners = rectangle(0, 0, width, height);
  return (
    outer.length === 4 &&
    outer.every(({ x, y, via }) => via === null && corners.some((c) => c.x === x && c.y === y))
  );
}
