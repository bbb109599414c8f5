import { type PartGrain, SIDES, type Side } from '../../model/part.ts';
import { isUnprintable, quote } from '../visible.ts';
import type { ColumnRole } from './column-words.ts';
import { type Column, columnName } from './columns.ts';
import { type ListForm, SIZE_SIGN } from './list-form.ts';
import { type ListLength, lengthText, readListLength } from './list-lengths.ts';
import { thicknessInName } from './list-materials.ts';
import type { Row } from './list-rows.ts';
import { type Band, readBand, readCount, readEdges, readGrain } from './list-words.ts';

/** What a row is taken to be where it does not say. */
export interface Assumed {
  readonly material: string | null;
  readonly thickness: ListLength | null;
  readonly band: ListLength;
}

/** A row of the list as a part. */
export interface ListPart {
  readonly row: number;
  readonly cells: readonly string[];
  /** Null where the list has none. */
  readonly name: string | null;
  readonly material: string | null;
  /** Null where neither a cell nor the name of the material says it. */
  readonly thickness: (ListLength & { readonly from: 'list' | 'name' }) | null;
  readonly length: ListLength;
  readonly width: ListLength;
  readonly count: number;
  /** Whether the cell of the count was empty. */
  readonly isCountAssumed: boolean;
  readonly grain: PartGrain;
  /** Whether the list says only that the grain counts: along the length is what that means. */
  readonly isGrainAssumed: boolean;
  readonly bands: Readonly<Partial<Record<Side, ListLength>>>;
  /** Whether a band is said to be there, and not how thick it is. */
  readonly isBandAssumed: boolean;
  readonly group: string | null;
  readonly note: string | null;
}

/** The material of a row, by which it is known again; the name is null where the row has none. */
export type ListStuff = Pick<ListPart, 'material' | 'thickness'>;

/** What could not be read. */
export interface ListTrouble {
  readonly row: number;
  /** Letters and header of the column; null where it is the whole row. */
  readonly column: string | null;
  readonly why: string;
  /** What the row has, for the remark that stands in place of its part. */
  readonly cells: readonly string[];
  /** What the part that is left out would have been cut from, as far as the row says it; null where it does not. */
  readonly stuff: ListStuff | null;
}

/** The part of a row, or null where anything that it needs could not be read; what could not is added to `troubles`. */
export function readPart(
  row: Row,
  form: ListForm,
  assumed: Assumed,
  troubles: ListTrouble[],
): ListPart | null {
  if (row.fault !== null) {
    troubles.push({ row: row.number, column: null, why: row.fault, cells: row.cells, stuff: null });
    return null;
  }
  const own: ListTrouble[] = [];
  const cells = new RowCells(row, form, own);
  const material = cells.text('material') ?? assumed.material;
  const sides = cells.sides();
  const thickness = sides?.thickness ?? readThickness(cells, material, form, assumed);
  const count = cells.count();
  const grain = cells.grain();
  const bands = cells.bands(assumed.band);
  const label = cells.text('label');
  const name = cells.text('name') ?? label;
  const note = cells.text('note');
  const group = cells.text('group');
  const stuff = thickness === 'unread' ? null : { material, thickness };
  troubles.push(...own.map((trouble) => ({ ...trouble, stuff })));
  if (sides === null || count === null || grain === null || bands === null) return null;
  if (thickness === 'unread') return null;
  return {
    row: row.number,
    cells: row.cells,
    name,
    material,
    thickness,
    ...withBands(sides, bands.sides, form),
    count: count.value,
    isCountAssumed: count.isAssumed,
    grain: grain === 'some' ? 'along' : grain,
    isGrainAssumed: grain === 'some',
    bands: bands.sides,
    isBandAssumed: bands.isAssumed,
    group,
    note:
      [label === name ? null : cells.labelled(label), note]
        .filter((text) => text !== null)
        .join(': ') || null,
  };
}

function readThickness(
  cells: RowCells,
  material: string | null,
  form: ListForm,
  assumed: Assumed,
): ListPart['thickness'] | 'unread' {
  const cell = cells.length('thickness');
  if (cell === null) return 'unread';
  if (cell !== 'empty') return { ...cell, from: 'list' };
  const text = material === null ? null : thicknessInName(material);
  const inName = { ...form.lengthOf('thickness'), habit: 'point' } as const;
  const read = text === null ? null : readListLength(text.replace(',', '.'), inName);
  if (read !== null && !('why' in read)) return { ...read, from: 'name' };
  return assumed.thickness === null ? null : { ...assumed.thickness, from: 'list' };
}

interface PartSides {
  readonly length: ListLength;
  readonly width: ListLength;
}

/** A parts file has finished sizes: bands are added to those that the list has without. */
function withBands(
  { length, width }: PartSides,
  bands: ListPart['bands'],
  { columns, fileUnit }: ListForm,
): PartSides {
  const grown = (size: ListLength, role: ColumnRole, ends: readonly Side[]): ListLength => {
    const added = ends.reduce((sum, side) => sum + (bands[side]?.length ?? 0), 0);
    if (added === 0 || !columns.get(role)?.isCut) return size;
    const whole = size.length + added;
    return { length: whole, text: lengthText(whole, fileUnit, fileUnit) };
  };
  return {
    length: grown(length, 'length', ['left', 'right']),
    width: grown(width, 'width', ['bottom', 'top']),
  };
}

const LONGEST_TEXTS: Partial<Record<ColumnRole, number>> = { note: 900 };
const LONGEST_TEXT = 180;

/** What a parts file takes for a name or a note: letters that can be seen, at most so many. */
export function plainText(text: string, most = LONGEST_TEXT): string {
  const letters = [...text.normalize('NFC')].filter((letter) => !isUnprintable(letter));
  return letters.slice(0, most).join('').trim();
}

/** The cells of one row by what their columns hold. The class guards that what cannot be read is always listed with its place. */
class RowCells {
  readonly #row: Row;
  readonly #form: ListForm;
  readonly #troubles: ListTrouble[];

  constructor(row: Row, form: ListForm, troubles: ListTrouble[]) {
    this.#row = row;
    this.#form = form;
    this.#troubles = troubles;
  }

  /** Null where there is nothing, and where it is a formula. */
  text(role: ColumnRole): string | null {
    const cell = this.#cell(role);
    if (/^=./.test(cell)) {
      this.#add(role, `${quote(cell)} is a formula: save the list with values`);
      return null;
    }
    const letters = [...cell.normalize('NFC')].filter((letter) => !isUnprintable(letter));
    const plain = letters
      .slice(0, LONGEST_TEXTS[role] ?? LONGEST_TEXT)
      .join('')
      .trim();
    return plain === '' ? null : plain;
  }

  /** A label with the word for it, as a number alone says nothing in a note. */
  labelled(label: string | null): string | null {
    const header = this.#column('label')?.header ?? '';
    return label === null ? null : `${header} ${label}`.trim();
  }

  /** Null after a problem. */
  length(
    role: ColumnRole,
    text = this.#cell(role),
    { range } = this.#form.lengthOf(role),
  ): ListLength | 'empty' | null {
    if (text === '') return 'empty';
    const read = readListLength(text, { ...this.#form.lengthOf(role), range });
    if (!('why' in read)) return read;
    this.#add(role, read.why);
    return null;
  }

  sides(): (PartSides & { readonly thickness: ListPart['thickness'] }) | null {
    const { columns } = this.#form;
    if (columns.has('size') && !(columns.has('length') && columns.has('width')))
      return this.#sidesOfSize();
    const length = this.#needed('length');
    const width = this.#needed('width');
    return length === null || width === null ? null : { length, width, thickness: null };
  }

  count(): { readonly value: number; readonly isAssumed: boolean } | null {
    const cell = this.#cell('count');
    if (cell === '') return { value: 1, isAssumed: this.#form.columns.has('count') };
    const value = this.#taken('count', readCount(cell, this.#form.countHabit));
    return value === null ? null : { value, isAssumed: false };
  }

  grain(): PartGrain | 'some' | null {
    return this.#taken('grain', readGrain(this.#cell('grain')));
  }

  bands(
    usual: ListLength,
  ): { readonly sides: ListPart['bands']; readonly isAssumed: boolean } | null {
    const sides: Partial<Record<Side, ListLength>> = {};
    const all = this.#taken('edges', readEdges(this.#cell('edges')));
    let isAssumed = false;
    let isSound = all !== null;
    for (const side of SIDES) {
      const own = this.#taken(side, readBand(this.#cell(side)));
      const band = own === 'none' && all?.includes(side) ? 'some' : own;
      const thick = band === null ? null : this.#thick(side, band, usual);
      if (thick === null) isSound = false;
      else if (thick !== 'none') sides[side] = thick;
      isAssumed ||= thick === usual;
    }
    return isSound ? { sides, isAssumed } : null;
  }

  #thick(side: Side, band: Band, usual: ListLength): ListLength | 'none' | null {
    if (band === 'none') return 'none';
    if (band === 'some') return usual;
    if (band.thick === '1' && this.#form.onesAreMarks) return usual;
    const read = this.length(side, band.thick);
    return read === 'empty' ? 'none' : read;
  }

  #sidesOfSize(): (PartSides & { readonly thickness: ListPart['thickness'] }) | null {
    const cell = this.#cell('size');
    const texts = cell.split(SIZE_SIGN);
    if (texts.length < 2 || texts.length > 3 || texts.includes('')) {
      const is = cell === '' ? 'it is empty' : `${quote(cell)} is no size`;
      this.#add('size', `${is}; a size is two lengths with an x between them`);
      return null;
    }
    const [length, width] = texts.slice(0, 2).map((text) => this.length('size', text));
    const third = this.length('size', texts[2] ?? '', this.#form.lengthOf('thickness'));
    if (!isLength(length) || !isLength(width) || third === null) return null;
    return { length, width, thickness: isLength(third) ? { ...third, from: 'list' } : null };
  }

  #needed(role: 'length' | 'width'): ListLength | null {
    const read = this.length(role);
    if (read !== 'empty') return read;
    this.#add(role, `no ${role}`);
    return null;
  }

  #taken<Value>(role: ColumnRole, read: { value: Value } | { why: string }): Value | null {
    if ('value' in read) return read.value;
    this.#add(role, read.why);
    return null;
  }

  #cell(role: ColumnRole): string {
    const column = this.#column(role);
    return column === undefined ? '' : (this.#row.cells[column.index] ?? '');
  }

  #column(role: ColumnRole): Column | undefined {
    return this.#form.columns.get(role);
  }

  #add(role: ColumnRole, why: string): void {
    const column = this.#column(role);
    const name = column === undefined ? null : columnName(column);
    this.#troubles.push({
      row: this.#row.number,
      column: name,
      why,
      cells: this.#row.cells,
      stuff: null,
    });
  }
}

function isLength(read: ListLength | 'empty' | null | undefined): read is ListLength {
  return typeof read === 'object' && read !== null;
}
