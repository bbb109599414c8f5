import type { FileUnit, Job } from '../model/job.ts';
import type { Lumber } from '../model/lumber.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import type { Material } from '../model/stock.ts';
import { readCosts } from './costs.ts';
import { readCurrency } from './currencies.ts';
import { type DrawingRead, Drawings } from './drawings.ts';
import { readLabels } from './labels.ts';
import { readLayers } from './layers.ts';
import { type Excess, megabytes } from './limit-fault.ts';
import { readLimits } from './limits.ts';
import { readMachine } from './machine.ts';
import { readMaterials } from './materials.ts';
import { readOffcuts } from './offcuts.ts';
import { readDrawingUnit } from './outlines.ts';
import { usualKerf } from './panel-saw.ts';
import { type PartsRead, readParts } from './parts.ts';
import { numberPieces } from './pieces.ts';
import type { Problem } from './problem.ts';
import { Report } from './report.ts';
import { checkIdleKeys, checkSawnParts } from './saw-check.ts';
import { checkShape } from './shape-check.ts';
import { readTable } from './table.ts';
import {
  child,
  type Field,
  isFlawed,
  itemsOf,
  keysOf,
  type Mapping,
  rootField,
  type Tree,
  textOf,
} from './tree.ts';
import { plainName, type Reading, readName } from './values.ts';
import { fileWithoutVariants, variantTrees } from './variants.ts';
import { quote } from './visible.ts';
import { readYaml, START_HINT } from './yaml-text.ts';

export type { DrawingRead } from './drawings.ts';

/** The same job with something changed. */
export interface Variant {
  readonly name: string;
  readonly job: Job;
}

/** The job, or null where any problem is an error, also one of a variant; problems in the order of the file. */
export interface PartsFileResult {
  readonly job: Job | null;
  /** In the order of the file; none where any problem is an error. */
  readonly variants: readonly Variant[];
  readonly problems: readonly Problem[];
}

/**
 * Reads a parts file: its text, then its form, then what it means. All problems are found in one run, whatever the text is; it
 * never throws for a bad file. `readDrawing` is asked once for each drawing that the file names, with the name as written.
 */
export function readPartsFile(
  text: string,
  readDrawing: (path: string) => DrawingRead,
  limits: ResourceLimits = USUAL_LIMITS,
): PartsFileResult {
  const report = new Report(limits);
  const tree = readTree(text, report);
  if (tree === null) return { job: null, variants: [], problems: report.list() };
  const file = fileWithoutVariants(tree);
  const readOnce = remembered(readDrawing);
  const root = rootField(checkShape(tree, report));
  const job = isFlawed(root) ? null : readJob(root, new Drawings(readOnce, limits), report);
  const variants =
    file === null ? [] : readVariants(child(root, 'variants'), file, readOnce, report);
  const isSound = !report.hasErrors;
  return { job: isSound ? job : null, variants: isSound ? variants : [], problems: report.list() };
}

/** Each variant as a file of its own. What the file itself is told already is not said again; the rest names the variant. */
function readVariants(
  field: Field | null,
  file: Mapping,
  readDrawing: (path: string) => DrawingRead,
  report: Report,
): readonly Variant[] {
  const keyOf = ({ place, code, message }: Problem) =>
    `${place?.line}:${place?.column}:${code}:${message}`;
  const trees = variantTrees(field, file, report);
  const told = new Set(report.list().map(keyOf));
  return trees.flatMap(({ name, tree }) => {
    const own = new Report(report.limits);
    const root = rootField(checkShape(tree, own));
    const job = isFlawed(root)
      ? null
      : readJob(root, new Drawings(readDrawing, report.limits), own);
    for (const problem of own.list()) {
      if (told.has(keyOf(problem))) continue;
      const { severity, code, message, hint } = problem;
      report[severity](problem, code, `in the variant ${quote(name)}: ${message}`, hint);
    }
    return job === null || own.hasErrors ? [] : [{ name, job }];
  });
}

/** A drawing is asked for once, however many variants name it. */
function remembered(readDrawing: (path: string) => DrawingRead): (path: string) => DrawingRead {
  const reads = new Map<string, DrawingRead>();
  return (path) => {
    const read = reads.get(path) ?? readDrawing(path);
    reads.set(path, read);
    return read;
  };
}

/** What the text says, whatever kind of file it is; null where it has no sound structure. */
export function readTree(text: string, report: Report): Tree | null {
  return isText(text, report) ? readYaml(withoutMark(text), report) : null;
}

/** Refuses what no editor of texts has written before any time is spent on it. */
function isText(text: string, report: Report): boolean {
  const spot = { place: { line: 1, column: 1 }, path: '' };
  if (!report.within(spot, fileExcess(text.length))) return false;
  if (text.trim() === '' || text === BYTE_ORDER_MARK) {
    report.error(spot, 'empty-file', 'the file is empty', START_HINT);
    return false;
  }
  const strange = NOT_TEXT.exec(text);
  if (strange === null) return true;
  const before = text.slice(0, strange.index).split('\n');
  const column = (before.at(-1)?.length ?? 0) + 1;
  report.error(
    { place: { line: before.length, column }, path: '' },
    'not-text',
    `the file is not a text: here is the character ${quote(strange[0])}`,
    'a parts file is plain text in UTF-8',
  );
  return false;
}

/** A file of so many bytes, which need not be read to be told. */
export function fileExcess(bytes: number): Excess {
  return {
    ...{ limit: 'file', code: 'file-too-large', found: megabytes(bytes) },
    ...{ subject: 'the file has', instead: 'split it into several files' },
  };
}

const BYTE_ORDER_MARK = '\ufeff';

/** Controls that no editor writes, and the sign that stands for bytes that are no UTF-8. */
const NOT_TEXT = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufffd]/u;

function withoutMark(text: string): string {
  return text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
}

function readJob(root: Field, drawings: Drawings, report: Report): Job | null {
  const unitField = child(root, 'unit');
  // Without its unit no length of the file means anything.
  if (unitField === null || isFlawed(unitField)) return null;
  const unit: FileUnit = textOf(unitField) === 'mm' ? 'mm' : 'in';
  const reading: Reading = { unit, report };
  const nameField = child(root, 'job');
  const name = nameField === null ? 'Untitled job' : readName(nameField, reading);
  const { currency, assumed } = readCurrency(root, reading);
  const materialsField = child(root, 'materials');
  const partsField = child(root, 'parts');
  const grained = grainedMaterials(partsField);
  const { materials, lumber } =
    materialsField === null
      ? { materials: [], lumber: [] }
      : readMaterials(materialsField, { ...reading, currency, grained });
  const machine = readMachine(child(root, 'machine'), thickestOf(materials, lumber), reading);
  const table = readTable(child(root, 'table'), reading);
  const limits = readLimits(child(root, 'limits'), currency, reading);
  const offcuts = readOffcuts(child(root, 'offcuts'), reading);
  const layers = readLayers(child(root, 'layers'), reading);
  const labels = readLabels(child(root, 'labels'), reading);
  const rates = readCosts(child(root, 'costs'), { ...reading, currency, parts: partsField });
  const rackField = child(root, 'rack');
  const rack = rackField === null ? 'none' : readName(rackField, reading);
  const parts: PartsRead =
    partsField === null
      ? { entries: [], lengthParts: [], lumberParts: new Map() }
      : readParts(partsField, {
          ...reading,
          drawings,
          drawingUnit: readDrawingUnit(root),
          materials: materialsByKey(materialsField, materials),
          lumber,
          spacing: machine?.spacing ?? null,
        });
  if (name === null || machine === null || table === null) return null;
  if (limits === null || offcuts === null || rates === null) return null;
  if (layers === null || rack === null || labels === null) return null;
  const pieces = numberPieces(parts.entries);
  const isSawAssumed =
    machine.kind === 'router' &&
    parts.lengthParts.length > 0 &&
    child(child(root, 'machine'), 'kerf') === null;
  const boardsAssumed = isSawAssumed ? [`${usualKerf(reading)} for boards`] : [];
  if (machine.kind === 'panel-saw') {
    checkSawnParts(pieces.parts, machine, reading);
    checkIdleKeys(root, reading);
  }
  return {
    name,
    unit,
    currency,
    machine: { ...machine, assumed: [...machine.assumed, ...boardsAssumed, ...assumed] },
    table,
    materials,
    ...pieces,
    lengthParts: parts.lengthParts,
    lumber: lumber.map((each) => ({ ...each, parts: parts.lumberParts.get(each.id) ?? [] })),
    limits,
    offcuts,
    rates: rates ?? null,
    rack: rackField === null ? null : { name: rack, place: rackField.place },
    drawings: drawings.sources(),
    layers,
    labels: labels ?? null,
  };
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
