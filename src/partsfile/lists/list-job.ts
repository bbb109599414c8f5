import type { FileUnit } from '../../model/job.ts';
import { SIDES } from '../../model/part.ts';
import { BYTES_PER_MB, type ResourceLimits } from '../../model/resource-limits.ts';
import { fromMm, UNITS_PER_INCH } from '../../model/units.ts';
import { showSize } from '../lengths.ts';
import { raiseHint } from '../limit-fault.ts';
import { type ListLength, lengthText } from './list-lengths.ts';
import { familyOf, isFilmed, keyOf, thicknessInName } from './list-materials.ts';
import type { ListPart, ListStuff, ListTrouble } from './list-parts.ts';
import { assumedSheet, type Blank, fitsSheet, type SheetSize } from './list-sheets.ts';

/** A material of the parts file that is made. */
export interface ListMaterial {
  readonly key: string;
  readonly name: string;
  readonly family: string | null;
  readonly isFilmed: boolean;
  readonly thickness: ListLength;
  readonly thicknessFrom: 'list' | 'name' | 'nowhere';
  readonly sheet: SheetSize;
  readonly sheetFrom: 'option' | 'common' | 'parts';
  /** Whether a part of it has a grain. */
  readonly isGrained: boolean;
  /** Whether a part is cut from it; else only rows that were left out have it. */
  readonly isUsed: boolean;
}

/** A material by its key. */
interface Stuff {
  readonly key: string;
  readonly material: string | null;
  readonly thickness: ListLength & { readonly from: ListMaterial['thicknessFrom'] };
}

/** A part with the key of its material. */
export type KeyedPart = Omit<ListPart, 'thickness'> & Stuff;

/** A part with a name of its own. */
export type NamedPart = KeyedPart & {
  readonly name: string;
  /** Rows that are alike in all, this one first. */
  readonly rows: readonly number[];
};

export interface ListJob {
  readonly materials: readonly ListMaterial[];
  readonly parts: readonly NamedPart[];
  /** Names that were not alone and have a number now. */
  readonly renamed: number;
}

/** How far a parts file may be filled; the remarks need some room as well. */
const SHARE_OF_FILE = 0.92;
/** Rows that are left out and whose materials are listed all the same, so that a part can be written by hand. */
const MOST_LOST = 200;

/** The parts by materials, each under a name of its own; `sheet` is what the person said. What fits no sheet or is too much for one file is added to `troubles`. */
export function makeJob(
  rows: readonly ListPart[],
  known: readonly ListTrouble[],
  {
    unit,
    sheet,
    limits,
  }: {
    readonly unit: FileUnit;
    readonly sheet: SheetSize | null;
    readonly limits: ResourceLimits;
  },
  troubles: ListTrouble[],
): ListJob {
  const fitting = rows.filter((part) => {
    const why = misfitOf(blankOf(part), unit, sheet);
    if (why === null) return true;
    troubles.push({ row: part.row, column: null, why, cells: part.cells, stuff: part });
    return false;
  });
  const lost = [...known, ...troubles].flatMap(({ stuff }) =>
    stuff === null || stuff.material === null ? [] : stuff,
  );
  const keyed = keyMaker(unit);
  const held = withinLimits(fitting.map(keyed), limits, troubles);
  const { parts, renamed } = named(merged(held));
  const unused = lost.slice(0, MOST_LOST).map(keyed);
  return { materials: materialsOf(parts, unused, unit, sheet), parts, renamed };
}

/** As it is cut. */
function blankOf({
  length,
  width,
  bands,
  grain,
}: Pick<ListPart, 'length' | 'width' | 'bands' | 'grain'>): Blank {
  const band = (side: (typeof SIDES)[number]) => bands[side]?.length ?? 0;
  return {
    length: length.length - band('left') - band('right'),
    width: width.length - band('bottom') - band('top'),
    grain,
  };
}

/** Why a part can be cut from no sheet; null where it can. */
function misfitOf(blank: Blank, unit: FileUnit, sheet: SheetSize | null): string | null {
  const { length, width, grain } = blank;
  if (length <= 0 || width <= 0) return 'the edge bands take all of it';
  if (sheet === null || fitsSheet(blank, sheet)) return null;
  const lying = grain === 'any' ? '' : `, grain ${grain},`;
  return `${showSize(length, width, unit)}${lying} fits no sheet of ${showSize(sheet.length, sheet.width, unit)}`;
}

function withinLimits(
  rows: readonly KeyedPart[],
  limits: ResourceLimits,
  troubles: ListTrouble[],
): readonly KeyedPart[] {
  const mostBytes = SHARE_OF_FILE * limits.file * BYTES_PER_MB;
  const mostTokens = SHARE_OF_FILE * limits.words;
  const keys = new Set<string>();
  let [pieces, bytes, tokens] = [0, 0, 0];
  const end = rows.findIndex((part) => {
    pieces += part.count;
    tokens += tokensOf(part);
    bytes += bytesOf([part.name, part.key, part.group, part.note]);
    if (!keys.has(part.key)) {
      tokens += 60;
      bytes += bytesOf([part.material]) + 250;
    }
    keys.add(part.key);
    return pieces > limits.pieces || bytes > mostBytes || tokens > mostTokens;
  });
  if (end < 0) return rows;
  const last = rows.at(-1)!.row;
  const all = rows.reduce((sum, { count }) => sum + count, 0);
  const hint = pieces > limits.pieces ? `, or ${raiseHint('pieces', all)}` : '';
  const why = `this row and all below, up to row ${last}, are too many for one parts file: the list has ${all} pieces; the most is ${limits.pieces}, or ${limits.file} MB: split the list${hint}`;
  troubles.push({ row: rows[end]!.row, column: null, why, cells: [], stuff: null });
  return rows.slice(0, end);
}

/** Words and signs of YAML that a part takes, as counted in files and rounded up. */
function tokensOf({ grain, group, note, count, bands }: KeyedPart): number {
  const keys = [grain !== 'any', group !== null, note !== null, count > 1].filter(Boolean).length;
  const sides = Object.keys(bands).length;
  return 36 + 7 * keys + (sides > 0 ? 10 + 9 * sides : 0);
}

/** In UTF-8 and with the signs that quotation marks need. */
function bytesOf(texts: readonly (string | null)[]): number {
  return 150 + new TextEncoder().encode(JSON.stringify(texts)).length;
}

/** What gives each row the key of its material. Materials are the same where their names are and their thickness is. */
function keyMaker(unit: FileUnit): <Row extends ListStuff>(row: Row) => Row & Stuff {
  const keys = new Map<string, string>();
  const taken = new Set<string>();
  return (row) => {
    const thickness = row.thickness ?? { ...usualThickness(unit), from: 'nowhere' as const };
    const name = nameOf(row.material, thickness, unit);
    const same = `${name.toLowerCase()}|${thickness.length}`;
    const known = keys.get(same);
    if (known !== undefined) return { ...row, thickness, key: known };
    const plain = keyOf(name, `material-${keys.size + 1}`);
    let key = plain;
    for (let i = 2; taken.has(key); i++) key = `${plain}-${i}`;
    keys.set(same, key);
    taken.add(key);
    return { ...row, thickness, key };
  };
}

function nameOf(material: string | null, { text }: ListLength, unit: FileUnit): string {
  const name = material ?? 'Panel';
  if (thicknessInName(name) !== null) return name;
  return `${name} ${text}${/[a-z]$/.test(text) ? '' : ` ${unit}`}`;
}

function usualThickness(unit: FileUnit): ListLength {
  const length = unit === 'mm' ? fromMm(18) : (UNITS_PER_INCH * 3) / 4;
  return { length, text: lengthText(length, unit, unit) };
}

type MergedPart = KeyedPart & { readonly rows: readonly number[] };

/** Rows that are alike in everything are one part with their counts added, in the place of the first. */
function merged(parts: readonly KeyedPart[]): readonly MergedPart[] {
  const byContent = new Map<string, MergedPart>();
  for (const part of parts) {
    const { name, key, length, width, grain, bands, group, note } = part;
    const sides = SIDES.map((side) => bands[side]?.length ?? 0);
    const alike = [name, key, length.length, width.length, grain, sides, group, note];
    const content = JSON.stringify(name === null ? [part.row] : alike);
    const first = byContent.get(content);
    byContent.set(
      content,
      first === undefined
        ? { ...part, rows: [part.row] }
        : { ...first, count: first.count + part.count, rows: [...first.rows, part.row] },
    );
  }
  return [...byContent.values()];
}

function named(parts: readonly MergedPart[]): {
  readonly parts: readonly NamedPart[];
  readonly renamed: number;
} {
  const taken = new Set(parts.map(({ name }) => name));
  const given = new Set<string>();
  const next = new Map<string, number>();
  let renamed = 0;
  const withNames = parts.map((part) => {
    const plain = part.name ?? `Part ${part.row}`;
    let name = plain;
    if (given.has(plain) || (part.name === null && taken.has(plain))) {
      let number = next.get(plain) ?? 2;
      while (taken.has(`${plain} (${number})`) || given.has(`${plain} (${number})`)) number++;
      name = `${plain} (${number})`;
      next.set(plain, number + 1);
      renamed++;
    }
    given.add(name);
    return { ...part, name };
  });
  return { parts: withNames, renamed };
}

/** Those of the parts, then those of rows that were left out. */
function materialsOf(
  parts: readonly NamedPart[],
  lost: readonly Stuff[],
  unit: FileUnit,
  asked: SheetSize | null,
): readonly ListMaterial[] {
  const byKey = new Map<string, { readonly stuff: Stuff; readonly own: NamedPart[] }>();
  for (const stuff of [...parts, ...lost])
    if (!byKey.has(stuff.key)) byKey.set(stuff.key, { stuff, own: [] });
  for (const part of parts) byKey.get(part.key)!.own.push(part);
  return [...byKey.values()].map(({ stuff: { key, material, thickness }, own }) => {
    const sheet = asked === null ? assumedSheet(own.map(blankOf), unit) : null;
    const source = sheet?.isCommon ? 'common' : 'parts';
    return {
      key,
      name: nameOf(material, thickness, unit),
      family: familyOf(material ?? ''),
      isFilmed: isFilmed(material ?? ''),
      thickness,
      thicknessFrom: thickness.from,
      sheet: sheet ?? asked!,
      sheetFrom: sheet === null ? 'option' : source,
      isGrained: own.some(({ grain }) => grain !== 'any'),
      isUsed: own.length > 0,
    };
  });
}
