import type { Job } from '../model/job.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import { type DrawingRead, Drawings } from './drawings.ts';
import { readJob } from './job.ts';
import { type Excess, megabytes } from './limit-fault.ts';
import type { Problem } from './problem.ts';
import { Report } from './report.ts';
import { checkShape } from './shape-check.ts';
import { child, type Field, isFlawed, type Mapping, rootField, type Tree } from './tree.ts';
import { fileWithoutVariants, variantTrees } from './variants.ts';
import { NOT_TEXT, quote } from './visible.ts';
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

function withoutMark(text: string): string {
  return text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
}
