import type { Lumber } from '../model/lumber.ts';
import { FAMILIES, type Family, type Material, type SheetStock } from '../model/stock.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { readBoards, readLeastLeftover } from './boards.ts';
import type { Currency } from './currencies.ts';
import { readLumber } from './lumber.ts';
import { type Quantity, readQuantity } from './quantities.ts';
import { readSheet } from './sheets.ts';
import { child, type Field, isFlawed, itemsOf, keySpot, keysOf } from './tree.ts';
import {
  acceptName,
  type LengthRange,
  type Reading,
  readLength,
  readName,
  readWord,
} from './values.ts';

/** What reading a material needs beyond its own lines. */
export interface MaterialReading extends Reading {
  readonly currency: Currency;
  /** Keys of the materials that parts with a grain are cut from. */
  readonly grained: ReadonlySet<string>;
}

/**
 * Usual densities in kg/m3, middle values of common product sheets and of the wood handbooks' tables
 * (plywood for birch, softwood for pine and fir, hardwood for oak, maple and beech).
 */
const DENSITIES: Readonly<Record<Family, number>> = {
  plywood: 680,
  'softwood-plywood': 500,
  mdf: 750,
  particleboard: 655,
  osb: 600,
  hardboard: 950,
  softwood: 450,
  hardwood: 700,
};

/** Half a millimetre of veneer up to the deepest block that a table could carry. */
const THICKNESS: LengthRange = { min: UNITS_PER_MM / 2, max: 300 * UNITS_PER_MM };

const DENSITY: Quantity = {
  units: { 'kg/m3': 1, 'kg/m³': 1, 'lb/ft3': 16.0185, 'lb/ft³': 16.0185 },
  usual: 'kg/m3',
  min: 50,
  max: 2500,
  range: 'it must be between 50 and 2500 kg/m3',
  right: 'a density in kg/m3, such as 680',
};

/** What is laid out, and what is only reckoned. */
export interface MaterialsRead {
  readonly materials: readonly Material[];
  readonly lumber: readonly Lumber[];
}

/** All materials of the file in its order, those with problems left out. */
export function readMaterials(field: Field, reading: MaterialReading): MaterialsRead {
  const materials: Material[] = [];
  const lumber: Lumber[] = [];
  for (const key of keysOf(field)) {
    const item = child(field, key);
    if (item === null || isFlawed(item)) continue;
    const id = acceptName(key, keySpot(field, key), reading.report);
    const read = id === null ? null : readMaterial(item, id, reading);
    if (read === null) continue;
    if ('rough' in read) lumber.push(read);
    else materials.push({ ...read, index: materials.length });
  }
  return { materials, lumber };
}

function readMaterial(
  field: Field,
  id: string,
  reading: MaterialReading,
): Material | Lumber | null {
  const nameField = child(field, 'name');
  const name = nameField === null ? id : readName(nameField, reading);
  const thicknessField = child(field, 'thickness');
  const thickness = thicknessField === null ? null : readLength(thicknessField, reading, THICKNESS);
  const family = readFamily(field, reading);
  const densityField = child(field, 'density');
  const density =
    densityField === null ? DENSITIES[family] : readQuantity(densityField, reading, DENSITY);
  const lumber = child(field, 'lumber');
  if (lumber !== null && !standsAlone(field, reading)) return null;
  const stocks = lumber === null ? readStocks(field, id, reading) : NO_STOCKS;
  if (name === null || thickness === null || density === null || stocks === null) return null;
  const { place } = field;
  if (lumber !== null) return readLumber(lumber, { id, name, thickness, place, family }, reading);
  return {
    index: 0,
    id,
    name,
    family,
    thickness,
    densityKgPerM3: density,
    filmFaced: readWord<'raw' | 'film-faced'>(child(field, 'surface'), 'raw') === 'film-faced',
    ...stocks,
    place,
  };
}

const NO_STOCKS = { sheets: [], boards: [], leastLeftover: 0 } as const;

/** Lumber is reckoned, other stock is laid out: a part could not tell which is meant. */
function standsAlone(material: Field, { report }: MaterialReading): boolean {
  const others = ['sheets', 'boards', 'least-leftover'].filter(
    (key) => child(material, key) !== null,
  );
  for (const key of others) {
    const message = `${key} does not go with lumber, which is reckoned and not laid out`;
    const hint = 'make them two materials';
    report.error(keySpot(material, key), 'misplaced-key', message, hint);
  }
  return others.length === 0;
}

function readFamily(material: Field, { report }: Reading): Family {
  const field = child(material, 'family');
  if (field === null) {
    const message = 'the material names no family; it is taken as plywood';
    const hint = `write family: ${FAMILIES.join(', ')}; weight and cutting force depend on it`;
    report.warning(material, 'assumed-family', message, hint);
    return 'plywood';
  }
  const word = readWord<Family | 'solid'>(field, 'plywood');
  if (word !== 'solid') return word;
  const message = 'solid is read as hardwood, the heavier and harder to cut';
  report.warning(field, 'assumed-family', message, 'write family: hardwood or softwood');
  return 'hardwood';
}

/** Null where any sheet or board has a problem: a material with less stock than the file has would be another one. */
function readStocks(
  material: Field,
  id: string,
  reading: MaterialReading,
): Pick<Material, 'sheets' | 'boards' | 'leastLeftover'> | null {
  const sheets = readSheets(material, id, reading);
  const boards = readBoards(material, reading);
  const leastLeftover = readLeastLeftover(material, reading);
  if (sheets === null || boards === null || leastLeftover === null) return null;
  if (sheets.length > 0 || boards.length > 0) return { sheets, boards, leastLeftover };
  const message = `${id} has no sheets and no boards`;
  const hint =
    'write sheets: [{ size: 2440 x 1220 }] or boards: [{ length: 2400 }], with what you can get; or lumber: { rough: 26 }';
  const field = child(material, 'sheets') ?? child(material, 'boards') ?? material;
  reading.report.error(field, 'no-sheets', message, hint);
  return null;
}

function readSheets(
  material: Field,
  id: string,
  reading: MaterialReading,
): readonly SheetStock[] | null {
  const field = child(material, 'sheets');
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const grained = reading.grained.has(id);
  const sheets = itemsOf(field).map((item, index) =>
    readSheet(item, index, { ...reading, grained }),
  );
  return sheets.every((sheet) => sheet !== null) ? sheets : null;
}
