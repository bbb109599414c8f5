import { SaxesParser } from 'saxes';
import {
  boardSvgs,
  brokenLimits,
  careLines,
  checkLines,
  labelGrid,
  numberedSheets,
  type Plan,
  planLabels,
  planPdf,
  planReport,
  planSummary,
  planYieldCsv,
  priceCsv,
  priceLines,
  priceRecord,
  sheetDxf,
  sheetSvg,
  templatesPdf,
} from '../../../src/index.ts';
import { readDxf } from '../../helpers/dxf-read.ts';
import { wholePage } from '../../helpers/whole-page.ts';
import { NO_WORD } from './problem-check.ts';

/** Which of the slow outputs are written as well. */
export interface Slow {
  readonly pdf: boolean;
  readonly labels: boolean;
  readonly page: boolean;
}

/** Writes the plan in every form; what is markup or DXF is read back. What a writer throws goes through. */
export async function outputFaults(plan: Plan, sha256: string, slow: Slow): Promise<string[]> {
  const sheets = numberedSheets(plan.layouts);
  const svgs = [...sheets.map(({ number }) => sheetSvg(plan, number)), ...boardSvgs(plan)];
  const texts = [
    planReport(plan, null),
    planYieldCsv(plan),
    priceRecord(plan, sha256),
    priceCsv(plan),
    ...[planSummary(plan), priceLines(plan), careLines(plan), checkLines('job.yaml', plan)].map(
      (lines) => lines.map(({ text }) => text).join('\n'),
    ),
    ...brokenLimits(plan).map((broken) => JSON.stringify(broken)),
    ...svgs,
  ];
  const faults = texts.flatMap((text) => noWordFaults(text));
  faults.push(...svgs.flatMap(svgFaults));
  for (const { number, sheet } of sheets)
    faults.push(...dxfFaults(sheetDxf(plan, number), sheet.placements.length));
  if (slow.page) faults.push(...pageFaults(wholePage(plan, null)));
  if (slow.pdf) faults.push(...(await pdfFaults(plan)));
  if (slow.labels) faults.push(...(await labelFaults(plan, sha256)));
  return faults;
}

function noWordFaults(text: string): string[] {
  const found = NO_WORD.exec(text);
  if (found === null) return [];
  return [`a text says: ${text.slice(Math.max(0, found.index - 60), found.index + 30)}`];
}

function svgFaults(svg: string): string[] {
  try {
    new SaxesParser({ xmlns: true }).write(svg).close();
    return [];
  } catch (error) {
    return [`an SVG is no markup: ${error}`];
  }
}

/** The library reads it, and there are as many closed or open runs and circles as pieces at least. */
function dxfFaults(dxf: string, pieces: number): string[] {
  const { entities } = readDxf(dxf);
  const shapes = entities.filter(({ kind }) => kind === 'run' || kind === 'circle');
  return shapes.length >= pieces ? [] : [`a DXF has ${shapes.length} shapes of ${pieces} pieces`];
}

const ALONE = new Set(['meta', 'input', 'br', 'hr', 'link', 'img', '!doctype']);

/** Every element ends where the one that it is in goes on, and the drawings in it are markup by themselves. */
export function pageFaults(page: string): string[] {
  const open: string[] = [];
  const markup = page.replace(/<(script|style)\b[^>]*>[\s\S]*?<\/\1>/g, '');
  const faults = noWordFaults(markup.replace(/<[^>]*>/g, ' '));
  for (const [, slash, name = '', end] of markup.matchAll(
    /<(\/?)([a-z!][\w-]*)(?:"[^"]*"|'[^']*'|[^"'>])*?(\/?)>/gi,
  )) {
    const tag = name.toLowerCase();
    if (slash === '/') {
      const last = open.pop();
      if (last !== tag) return [...faults, `the page has </${tag}> for <${last}>`];
    } else if (end !== '/' && !ALONE.has(tag)) open.push(tag);
  }
  if (open.length > 0) faults.push(`the page leaves <${open.join('> <')}> open`);
  return faults;
}

async function pdfFaults(plan: Plan): Promise<string[]> {
  const options = { paper: 'a4', date: null } as const;
  const parts = plan.job.parts.slice(0, 1);
  const pdfs = [
    await planPdf(plan, { ...options, scale: null }),
    ...(parts.length === 0 ? [] : [await templatesPdf(plan.job, parts, options)]),
  ];
  return pdfs.flatMap(wholePdf);
}

async function labelFaults(plan: Plan, sha256: string): Promise<string[]> {
  const { job } = plan;
  const { content, count } = await planLabels(plan, {
    paper: job.unit === 'mm' ? 'a4' : 'letter',
    date: null,
    first: 1,
    mark: sha256.slice(0, 8),
  });
  const laid = plan.layouts.flatMap(({ sheets, boards }) => [
    ...sheets.flatMap(({ placements }) => placements),
    ...boards.flatMap(({ pieces }) => pieces),
  ]);
  const faults = count < laid.length ? [`${count} labels for ${laid.length} pieces`] : [];
  return labelGrid(job, 'a4') === null ? faults : [...faults, ...wholePdf(content)];
}

function wholePdf(bytes: Uint8Array): string[] {
  const text = Buffer.from(bytes).toString('latin1');
  return text.startsWith('%PDF-') && text.trimEnd().endsWith('%%EOF') ? [] : ['a PDF is cut off'];
}
