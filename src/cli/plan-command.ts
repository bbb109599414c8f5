import { basename, dirname, extname, join, relative, resolve } from 'node:path';
import {
  boardSvgs,
  labelsSentence,
  numberedSheets,
  type Plan,
  planPage,
  planPdf,
  planRecord,
  planReport,
  planSummary,
  planYieldCsv,
  type ResourceLimits,
  raiseHint,
  sheetDxf,
  sheetSvg,
  templatesPdf,
  unplacedCount,
  visible,
  wrap,
} from '../index.ts';
import { type AskedPrints, askedPrints } from './asked-prints.ts';
import { givenDate } from './given-date.ts';
import { exitCodeOf, makePlan } from './make-plan.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { firstLabel, labelsOf } from './plan-labels.ts';
import { rackStock } from './rack-stock.ts';
import { readJob } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';
import { expectRoom, type OutputFile, writeFiles } from './write-files.ts';

const TEMPLATES_FILE = 'templates.pdf';
/** Left from an older plan they would be wrong. */
const STALE_FILE = /^(sheet|boards)-\d+\.svg$|^sheet-\d+\.dxf$|^(templates|labels)\.pdf$/;

export async function planCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  const parts = readJob(world, name!);
  const stem = basename(parts.path, extname(parts.path));
  const beside = join(dirname(parts.path), `${stem}-plan`);
  const folder = settings.out === undefined ? beside : resolve(world.cwd, settings.out);
  const prints = askedPrints(parts.job, settings, world.limits);
  const { job, notes } = rackStock(world, name!, parts.job, settings);
  firstLabel(job, settings);
  const date = givenDate(world, settings);
  expectRoom(folder);
  const plan = await makePlan(world, name!, job, settings);
  checkSheets(plan, name!, world.limits);
  const record = planRecord(plan, parts.sha256);
  const labels = await labelsOf(plan, record, settings, date);
  const files = [
    ...(await outputFiles(plan, prints, date)),
    ...(labels === null ? [] : [{ name: 'labels.pdf', content: labels.content }]),
    { name: 'plan.json', content: record },
  ];

  world.guard(() => writeFiles(folder, files, STALE_FILE, () => world.interrupts() > 1));

  const paint = paintFor(world, settings);
  for (const { tone, text } of planSummary(plan)) world.out(`${paint(tone, text)}\n`);
  for (const note of [...notes(plan), ...prints.notes])
    for (const { text } of wrap('plain', note, '  ')) world.out(`${text}\n`);
  const shown = visible(relative(world.cwd, folder)) || '.';
  const written = `Written to ${shown}: plan.json, plan.pdf, plan.html, report.md, yield.csv, ${labels === null ? '' : 'labels.pdf, '}${drawingNames(files)}`;
  world.out('\n');
  for (const { text } of wrap('plain', written, '  ')) world.out(`${text}\n`);
  if (labels !== null)
    for (const { text } of wrap('plain', labelsSentence(labels, job.unit), '  '))
      world.out(`${text}\n`);
  const isShort = plan.layouts.some((layout) => unplacedCount(layout) > 0);
  return exitCodeOf(plan, isShort ? EXIT.failed : EXIT.done);
}

/** Each sheet is drawn several times. */
function checkSheets({ layouts }: Plan, name: string, limits: ResourceLimits): void {
  const found = numberedSheets(layouts).length;
  if (found <= limits.sheets) return;
  throw new CommandFailure(
    EXIT.usage,
    `${name}: the plan has ${found} sheets; the most that is written is ${limits.sheets}: split the job, or ${raiseHint('sheets', found)}`,
  );
}

async function outputFiles(
  plan: Plan,
  { paper, scale, templates }: AskedPrints,
  date: Date | null,
): Promise<OutputFile[]> {
  const sheets = numberedSheets(plan.layouts).flatMap(({ number }) => [
    { name: drawingFile('sheet', number, 'svg'), content: () => sheetSvg(plan, number) },
    { name: drawingFile('sheet', number, 'dxf'), content: () => sheetDxf(plan, number) },
  ]);
  return [
    ...sheets,
    ...boardSvgs(plan).map((content, i) => ({
      name: drawingFile('boards', i + 1, 'svg'),
      content,
    })),
    { name: 'report.md', content: () => planReport(plan, date) },
    { name: 'yield.csv', content: () => planYieldCsv(plan) },
    { name: 'plan.html', content: () => planPage(plan, date) },
    { name: 'plan.pdf', content: await planPdf(plan, { paper, scale, date }) },
    ...(templates.length === 0
      ? []
      : [
          {
            name: TEMPLATES_FILE,
            content: await templatesPdf(plan.job, templates, { paper, date }),
          },
        ]),
  ];
}

function drawingFile(kind: 'sheet' | 'boards', number: number, format: 'svg' | 'dxf'): string {
  return `${kind}-${String(number).padStart(2, '0')}.${format}`;
}

/** The drawings by name: "sheet-01.svg to sheet-03.svg, boards-01.svg, sheet-01.dxf to sheet-03.dxf". */
function drawingNames(files: readonly OutputFile[]): string {
  const kinds = [/^sheet-.*svg$/, /^boards-.*svg$/, /^sheet-.*dxf$/, /^templates/];
  const names = kinds.flatMap((kind) => {
    const own = files.map(({ name }) => name).filter((name) => kind.test(name));
    return own.length < 2 ? own : [`${own[0]} to ${own.at(-1)}`];
  });
  return names.length === 0 ? 'no drawing' : names.join(', ');
}
