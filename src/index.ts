// The public names of Holdfast. The command line uses these and nothing else.
import { createRequire } from 'node:module';
import { brokenLimits, unheldLimits } from './costing/limits.ts';
import { drawBoards } from './drawing/board-drawing.ts';
import type { Drawing } from './drawing/display-list.ts';
import { machineDrawing } from './drawing/machine-drawing.ts';
import { placedPieces } from './drawing/placed-pieces.ts';
import { drawSheet, drawSheetAlone, drawSheetPages } from './drawing/sheet-drawing.ts';
import { drawStickers } from './drawing/sticker-pages.ts';
import { drawTemplate } from './drawing/template-drawing.ts';
import { mostTiles, tileDrawing } from './drawing/tiles.ts';
import { driftsBetween } from './drift/drifts.ts';
import { readComparedRecord } from './drift/read-record.ts';
import { assert } from './geometry/assert.ts';
import { explainPiece, explainSheet } from './holding/explain.ts';
import type { Drift } from './model/drift.ts';
import type { ReckoningLine } from './model/holding.ts';
import { isRouterJob, type Job, type RouterJob } from './model/job.ts';
import { knownGrid, type LabelGrid } from './model/label-grid.ts';
import type { Part } from './model/part.ts';
import { type NumberedSheet, numberedSheets, type Plan } from './model/plan.ts';
import type { Recheck } from './model/recheck.ts';
import { toMm } from './model/units.ts';
import { toDxf } from './outputs/dxf/dxf.ts';
import { toHtml } from './outputs/html/html.ts';
import { toLabelsPdf } from './outputs/pdf/labels.ts';
import {
  drawingRoom,
  type Paper,
  type PdfOptions,
  paperSize,
  toPdf,
  toTemplatesPdf,
} from './outputs/pdf/pdf.ts';
import * as check from './outputs/report/check.ts';
import { explanation } from './outputs/report/explanation.ts';
import type { Line } from './outputs/report/line.ts';
import { toMarkdown } from './outputs/report/markdown.ts';
import { toPlanJson } from './outputs/report/plan-json.ts';
import { toPriceJson } from './outputs/report/price-records.ts';
import { toSarif } from './outputs/report/sarif.ts';
import * as summary from './outputs/report/summary.ts';
import { yieldCsv } from './outputs/report/yield-csv.ts';
import { toSvg } from './outputs/svg/svg.ts';
import { planOfLayouts } from './plan.ts';
import { recheckPlan } from './recheck.ts';
import type { PlanFile } from './record/schema.ts';

export { brokenLimits } from './costing/limits.ts';
export { type GaugeResult, gaugeTable } from './gauge.ts';
export { AssertionError } from './geometry/assert.ts';
export { counted, formatMoney, formatSize } from './model/format.ts';
export type { Holding } from './model/holding.ts';
export type { Job } from './model/job.ts';
export { labelsPerPage } from './model/label-grid.ts';
export { unplacedCount } from './model/layout.ts';
export type { Part } from './model/part.ts';
export { EFFORTS, type Effort, numberedSheets, type Plan, type StopCause } from './model/plan.ts';
export type { Deed, Rack } from './model/rack.ts';
export {
  BYTES_PER_MB,
  LIMIT_NAMES,
  type LimitName,
  RESOURCE_LIMITS,
  type ResourceLimits,
  USUAL_LIMITS,
} from './model/resource-limits.ts';
export { labelsSentence } from './outputs/labels-sentence.ts';
export { PAPER_NAMES, type Paper } from './outputs/pdf/pdf.ts';
export { rackTaken } from './outputs/rack-taken.ts';
export { type Checked, checkRecord, isPassed, unplannedLines } from './outputs/report/check.ts';
export type { NamedPlan } from './outputs/report/compare.ts';
export { compareCsv, compareRecord } from './outputs/report/compare-data.ts';
export { compareLines } from './outputs/report/compare-lines.ts';
export { gaugeLines } from './outputs/report/gauge.ts';
export { GAUGE_HELP } from './outputs/report/gauge-help.ts';
export { IMPORT_HELP } from './outputs/report/import-help.ts';
export { type Line, type Tone, wrap } from './outputs/report/line.ts';
export { OFFCUTS_HELP } from './outputs/report/offcuts-help.ts';
export { PRICE_HELP, priceLines } from './outputs/report/price.ts';
export { toPriceCsv as priceCsv } from './outputs/report/price-records.ts';
export { rackCsv, rackLines, rackRecord } from './outputs/report/rack-list.ts';
export { careLines } from './outputs/report/summary.ts';
export { faultLines, verifyLines, verifyRecord } from './outputs/report/verify.ts';
export type { Progress } from './packing/task.ts';
export { fileKind } from './partsfile/file-kind.ts';
export { type Excess, limitFault, megabytes, raiseHint } from './partsfile/limit-fault.ts';
export {
  importList,
  type ListImport,
  type ListOptions,
  type ListTrouble,
} from './partsfile/lists/import-list.ts';
export { listTooLarge } from './partsfile/lists/list-bytes.ts';
export { SEPARATORS, type Separator } from './partsfile/lists/list-rows.ts';
export { LIST_UNITS, type ListUnit } from './partsfile/lists/list-units.ts';
export { nearest } from './partsfile/nearest.ts';
export { formatProblem, type Problem, type ToldProblem } from './partsfile/problem.ts';
export {
  type DrawingRead,
  fileExcess,
  readPartsFile,
  type Variant,
} from './partsfile/read-parts-file.ts';
export { partsFileSchema } from './partsfile/schema.ts';
export { starterFile } from './partsfile/starter.ts';
export { AS_IT_IS } from './partsfile/variants.ts';
export { visible } from './partsfile/visible.ts';
export { type PlanResult, planJob } from './plan.ts';
export { emptyRack, type Line as OffcutLine } from './rack/change-rack.ts';
export {
  addLine,
  addPlan,
  type CutPlan,
  type Outcome,
  takeBackIds,
  takeBackPlan,
  useIds,
  usePlan,
} from './rack/keep-rack.ts';
export { withRack } from './rack/onto-job.ts';
export { readPlanRecord } from './rack/plan-record.ts';
export { readRack } from './rack/read-rack.ts';
export { readRecord } from './record/read-record.ts';
export { startCrew } from './workers.ts';

export const TOOL_VERSION: string = createRequire(import.meta.url)('../package.json').version;

/** The drawing of one sheet, `number` counting from 1 through the job, as an SVG to scale. */
export function sheetSvg(plan: Plan, number: number): string {
  return toSvg(drawSheet(plan, number - 1));
}

/** The same sheet for the program that makes the machine's code, as a DXF of release 12. */
export function sheetDxf(plan: Plan, number: number): string {
  return toDxf(machineDrawing(plan, number - 1));
}

/** The cutting list of the boards as drawings, a page each; none without boards. */
export function boardSvgs(plan: Plan): readonly string[] {
  return drawBoards(plan).map(toSvg);
}

/** The whole plan as a PDF: summary pages, then each sheet to scale, then the boards. */
export function planPdf(plan: Plan, options: PdfOptions): Promise<Uint8Array> {
  const { scale, paper } = options;
  const asked = scale === null ? null : { scale, room: drawingRoom(paper) };
  return toPdf({ plan, drawings: pdfDrawings(plan, asked) }, options);
}

/** One after the other, as those of a thousand sheets fill the memory. */
function* pdfDrawings(plan: Plan, asked: Parameters<typeof drawSheetPages>[2]): Generator<Drawing> {
  for (const { number } of numberedSheets(plan.layouts))
    yield* drawSheetPages(plan, number - 1, asked);
  yield* drawBoards(plan);
}

/** The labels that the file asks for; where it says nothing, those that are usual on the paper of the other outputs. */
export function labelGrid({ labels }: Job, paper: Paper): LabelGrid {
  const usual = knownGrid(paper === 'a4' || paper === 'a3' ? 'a4' : 'letter', null);
  assert(usual !== null, 'every paper has a usual grid');
  return labels ?? usual;
}

/** The labels as a PDF in the order of the cutting, and how many they are; `first` is the first label of the first sheet that is free. */
export async function planLabels(
  plan: Plan,
  {
    paper,
    date,
    first,
    mark,
  }: Omit<PdfOptions, 'scale'> & { readonly first: number; readonly mark: string },
): Promise<PlanLabels> {
  const grid = labelGrid(plan.job, paper);
  const shown = date === null ? null : date.toISOString().slice(0, 10);
  const sum = { count: 0, pages: 0, withoutCode: 0 };
  function* drawings(): Generator<Drawing> {
    for (const page of drawStickers(plan, { grid, first, mark, date: shown })) {
      sum.count += page.labels;
      sum.withoutCode += page.withoutCode;
      sum.pages++;
      yield page.drawing;
    }
  }
  const content = await toLabelsPdf(`${plan.job.name}: labels`, drawings(), date);
  return { content, ...sum, grid };
}

export interface PlanLabels {
  readonly content: Uint8Array;
  readonly count: number;
  readonly pages: number;
  readonly withoutCode: number;
  readonly grid: LabelGrid;
}

/** The most pages that one sheet takes at a scale. */
export function pagesOfSheet(job: Job, scale: number, paper: Paper): number {
  const stocks = job.materials.flatMap(({ sheets }) => sheets);
  const pages = stocks.map(({ length, width }) =>
    mostTiles(toMm(length) / scale, toMm(width) / scale, paperSize(paper), job.unit),
  );
  return Math.max(0, ...pages);
}

/** How many pages the template of a part takes. */
export function pagesOfTemplate(job: Job, part: Part, paper: Paper): number {
  return tileDrawing(drawTemplate(job, part), paperSize(paper), 1, job.unit).tiles.length;
}

/** Parts at their own size, with all that is measured on them, over as many pages as they take. */
export function templatesPdf(
  job: Job,
  parts: readonly Part[],
  options: Omit<PdfOptions, 'scale'>,
): Promise<Uint8Array> {
  return toTemplatesPdf(
    job,
    parts.map((part) => drawTemplate(job, part)),
    options,
  );
}

/** The whole plan as one HTML file for a tablet at the machine, in parts to be written one after the other. */
export function planPage(plan: Plan, date: Date | null): Iterable<string> {
  const { job } = plan;
  const sheets = numberedSheets(plan.layouts);
  return toHtml({
    plan,
    sheetSvg: (number) => toSvg(drawSheetAlone(plan, number - 1)),
    boardSvgs: boardSvgs(plan),
    reckonings: isRouterJob(job) ? reckoningsOf(job, sheets) : new Map(),
    date,
  });
}

/** Made a sheet at a time, as the page asks for them in their order: those of thousands of pieces fill the memory. */
function reckoningsOf(
  job: RouterJob,
  sheets: readonly NumberedSheet[],
): Pick<ReadonlyMap<number, readonly ReckoningLine[]>, 'get'> {
  const sheetOf = new Map(
    sheets.flatMap((each) => each.sheet.placements.map(({ piece }) => [piece, each] as const)),
  );
  let last: NumberedSheet | undefined;
  let lines: ReturnType<typeof explainSheet> = new Map();
  return {
    get: (piece) => {
      const own = sheetOf.get(piece);
      if (own !== undefined && own !== last) lines = explainSheet(job, own);
      last = own;
      return lines.get(piece);
    },
  };
}

/** The text of `plan.json`; `partsFileSha256` is the hash of the parts file's bytes. */
export function planRecord(plan: Plan, partsFileSha256: string): string {
  const placed = placedPieces(plan.job, plan.layouts);
  return toPlanJson(plan, placed, { toolVersion: TOOL_VERSION, partsFileSha256 });
}

/** Checks the record of a plan, whoever wrote it, against the job of the parts file with this hash. */
export function recheck(job: Job, record: PlanFile, partsFileSha256: string): Recheck {
  return recheckPlan(job, record, partsFileSha256, (layouts, { options, ...made }) => {
    const stopped = made.interrupted ? 'interrupt' : made.stoppedByTime ? 'time' : null;
    return planRecord(planOfLayouts(job, layouts, options, stopped), partsFileSha256);
  });
}

/** The price as JSON, `partsFileSha256` as in `planRecord`. */
export function priceRecord(plan: Plan, partsFileSha256: string): string {
  return toPriceJson(plan, { toolVersion: TOOL_VERSION, partsFileSha256 });
}

/** The plan in a screenful. */
export function planSummary(plan: Plan): readonly Line[] {
  return summary.planSummary(plan, brokenLimits(plan));
}

/** The yield report as Markdown. */
export function planReport(plan: Plan, date: Date | null): string {
  return toMarkdown(plan, date, brokenLimits(plan));
}

/** Where everything that is bought goes, as comma-separated text. */
export function planYieldCsv(plan: Plan): string {
  return yieldCsv(plan);
}

/** What `check` looks for in a plan, without a record to hold it against. */
export function findingsOf(plan: Plan): check.Findings {
  return { broken: brokenLimits(plan), unheld: unheldLimits(plan), record: null };
}

/** What is otherwise in a plan than in the record of an earlier one, from the text of its `plan.json`; or what is wrong with that. */
export function planDrifts(
  plan: Plan,
  recordText: string,
): readonly Drift[] | { readonly fault: string } {
  const before = readComparedRecord(recordText);
  if ('fault' in before) return before;
  const now = readComparedRecord(planRecord(plan, ''));
  assert(!('fault' in now), 'a plan gives a record that reads');
  return driftsBetween(now, before, plan.job);
}

/** What `check` prints of a plan: the proofs, then each broken limit and what has changed. */
export function checkLines(
  file: string,
  plan: Plan,
  findings: check.Findings = findingsOf(plan),
): readonly Line[] {
  return check.checkLines(file, plan, findings);
}

/** The checks of several files as one log of SARIF 2.1.0, with the exit code of the command; `uriOf` gives the reference that stands for the name of a file. */
export function checkSarif(
  files: readonly check.Checked[],
  exitCode: number,
  uriOf: (file: string) => string,
): string {
  return toSarif(files, { toolVersion: TOOL_VERSION, exitCode, uriOf });
}

/** The hold-down reckoning of one placed piece, step by step. */
export function explainLines(plan: Plan, piece: number): readonly Line[] {
  const { job, layouts } = plan;
  assert(isRouterJob(job), 'only at a router is anything held by vacuum');
  return explanation(plan, piece, explainPiece(job, layouts, piece));
}
