import type { FileUnit, Job } from '../model/job.ts';
import type { Lumber } from '../model/lumber.ts';
import type { Machine } from '../model/machine.ts';
import type { Material } from '../model/stock.ts';
import { readCosts } from './costs.ts';
import { type Currency, readCurrency } from './currencies.ts';
import type { Drawings } from './drawings.ts';
import { readLabels } from './labels.ts';
import { readLayers } from './layers.ts';
import { readLimits } from './limits.ts';
import { readMachine } from './machine.ts';
import { readMaterials } from './materials.ts';
import { readOffcuts } from './offcuts.ts';
import { readDrawingUnit } from './outlines.ts';
import { usualKerf } from './panel-saw.ts';
import { type PartsRead, readParts } from './parts.ts';
import { numberPieces } from './pieces.ts';
import type { Report } from './report.ts';
import { checkIdleKeys, checkSawnParts, checkStack } from './saw-check.ts';
import { readTable } from './table.ts';
import { child, type Field, isFlawed, itemsOf, keysOf, textOf } from './tree.ts';
import { plainName, type Reading, readName } from './values.ts';

/** What a file of sound form means; null after a problem that leaves no job, while others are told in the report as well. */
export function readJob(root: Field, drawings: Drawings, report: Report): Job | null {
  const unitField = child(root, 'unit');
  // Without its unit no length of the file means anything.
  if (unitField === null || isFlawed(unitField)) return null;
  const unit: FileUnit = textOf(unitField) === 'mm' ? 'mm' : 'in';
  const reading: Reading = { unit, report };
  const { currency, assumed } = readCurrency(root, reading);
  const settings = readSettings(root, currency, reading);
  const stock = readStock(root, currency, reading);
  const { materials, lumber } = stock;
  const machine = readMachine(child(root, 'machine'), thickestOf(materials, lumber), reading);
  const parts = readAllParts(root, { ...stock, drawings, machine }, reading);
  if (settings === null || machine === null) return null;
  const pieces = numberPieces(parts.entries);
  const boardsAssumed = isKerfAssumed(root, machine, parts)
    ? [`${usualKerf(reading)} for boards`]
    : [];
  if (machine.kind === 'panel-saw') {
    checkSawnParts(pieces.parts, machine, reading);
    checkStack(root, pieces.parts, materials, machine, reading);
    checkIdleKeys(root, reading);
  }
  return {
    ...settings,
    unit,
    currency,
    machine: { ...machine, assumed: [...machine.assumed, ...boardsAssumed, ...assumed] },
    materials,
    ...pieces,
    lengthParts: parts.lengthParts,
    lumber: lumber.map((each) => ({ ...each, parts: parts.lumberParts.get(each.id) ?? [] })),
    drawings: drawings.sources(),
  };
}

/** What needs neither machine nor stock. */
function readSettings(root: Field, currency: Currency, reading: Reading) {
  const nameField = child(root, 'job');
  const name = nameField === null ? 'Untitled job' : readName(nameField, reading);
  const table = readTable(child(root, 'table'), reading);
  const limits = readLimits(child(root, 'limits'), currency, reading);
  const offcuts = readOffcuts(child(root, 'offcuts'), reading);
  const layers = readLayers(child(root, 'layers'), reading);
  const labels = readLabels(child(root, 'labels'), reading);
  const parts = child(root, 'parts');
  const rates = readCosts(child(root, 'costs'), { ...reading, currency, parts });
  const rackField = child(root, 'rack');
  const rack = rackField === null ? 'none' : readName(rackField, reading);
  if (name === null || table === null || limits === null || offcuts === null) return null;
  if (layers === null || labels === null || rates === null || rack === null) return null;
  return {
    name,
    table,
    limits,
    offcuts,
    layers,
    labels: labels ?? null,
    rates: rates ?? null,
    rack: rackField === null ? null : { name: rack, place: rackField.place },
  };
}

interface Stock {
  readonly materials: readonly Material[];
  readonly lumber: readonly Lumber[];
}

function readStock(root: Field, currency: Currency, reading: Reading): Stock {
  const field = child(root, 'materials');
  if (field === null) return { materials: [], lumber: [] };
  const grained = grainedMaterials(child(root, 'parts'));
  return readMaterials(field, { ...reading, currency, grained });
}

function readAllParts(
  root: Field,
  {
    materials,
    lumber,
    drawings,
    machine,
  }: Stock & { readonly drawings: Drawings; readonly machine: Machine | null },
  reading: Reading,
): PartsRead {
  const field = child(root, 'parts');
  if (field === null) return { entries: [], lengthParts: [], lumberParts: new Map() };
  return readParts(field, {
    ...reading,
    drawings,
    drawingUnit: readDrawingUnit(root),
    materials: materialsByKey(child(root, 'materials'), materials),
    lumber,
    spacing: machine?.spacing ?? null,
  });
}

/** Whether boards are cut beside a router whose file says nothing of the saw for them. */
function isKerfAssumed(root: Field, machine: Machine, { lengthParts }: PartsRead): boolean {
  const isSaid = child(child(root, 'machine'), 'kerf') !== null;
  return machine.kind === 'router' && lengthParts.length > 0 && !isSaid;
}

/** Of the materials that the machine cuts, those in sheets; of any where there are none such; null where there is none at all. */
function thickestOf(materials: readonly Material[], lumber: readonly Lumber[]): number | null {
  const inSheets = materials.filter(({ sheets }) => sheets.length > 0);
  const cut = inSheets.length > 0 ? inSheets : [...materials, ...lumber];
  return cut.length === 0 ? null : Math.max(...cut.map(({ thickness }) => thickness));
}

/** Keys of the materials that any part with a grain names. */
function grainedMaterials(parts: Field | null): ReadonlySet<string> {
  const grained = (parts === null ? [] : itemsOf(parts)).filter((part) => {
    const grain = child(part, 'grain');
    return grain !== null && ['along', 'across'].includes(textOf(grain));
  });
  const ids = grained.flatMap((part) => {
    const material = child(part, 'material');
    return material === null ? [] : [plainName(textOf(material))];
  });
  return new Set(ids);
}

/** Null in the map stands for a material that is there but could not be read: parts may name it. */
function materialsByKey(
  field: Field | null,
  materials: readonly Material[],
): ReadonlyMap<string, Material | null> | null {
  if (field === null || isFlawed(field)) return null;
  const keys = keysOf(field).map(plainName);
  return new Map<string, Material | null>([
    ...keys.map((key) => [key, null] as const),
    ...materials.map((material) => [material.id, material] as const),
  ]);
}
