// Draws the cutting list of the boards: a bar for each pattern, all to one scale along the boards, with the steps of its cutting under it.
// Idea: a pattern is a block of a heading, a bar and lines of text; blocks go onto pages one under the other.
// Source: our own.
// Cost: linear in the pieces of the patterns.
// Degenerate cases: no boards give no page; a pattern of more steps than half a page holds ends with a hint at the list.
import { formatShare, keptNumber, lengthNumber, stopNumber } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import { boardKerf } from '../model/machine.ts';
import type { Plan } from '../model/plan.ts';
import type { Stretch } from '../model/stock.ts';
import { MARGINS, PAGE } from './arrangement.ts';
import { type BoardPattern, boardPatterns } from './board-patterns.ts';
import { type BoardStep, boardSteps } from './board-steps.ts';
import {
  boardCount,
  boardNumbers,
  leftoversText,
  placeRule,
  stepText,
  stopPieces,
} from './board-texts.ts';
import { type Drawing, group, type Item, type Layer, rectangle } from './display-list.ts';
import { drawHeading, lengthsIn } from './furniture.ts';
import { drawLegend, LEGEND_PITCH, type LegendEntry, legendRows } from './legend.ts';
import { type Frame, frameAt, lettering } from './marks.ts';
import { LETTERS, type StyleName } from './styles.ts';
import { plainText, textWidth, wrapText } from './text.ts';

const WIDTH = PAGE.width - 2 * MARGINS.edge;
const ROOM = PAGE.height - 2 * MARGINS.edge - MARGINS.title;
const HEAD = 5.4;
const BAR = 8;
const MARK_LINE = 3.2;
const LINE = 3.9;
const GAP = 6;
/** Legend and rule above the first board. */
const KEY = LEGEND_PITCH + LINE + 3;
const MOST_LINES = 24;
/** More steps than this follow one another in the lines instead of having one each. */
const MOST_STEPS = 8;

/** A pattern with its texts, and how high it stands. */
interface Block {
  readonly pattern: BoardPattern;
  readonly steps: readonly BoardStep[];
  readonly lines: readonly string[];
  readonly height: number;
}

/** Pages with all patterns of the job, in millimetres of paper. */
export function drawBoards(plan: Plan): readonly Drawing[] {
  const patterns = boardPatterns(plan);
  const longest = Math.max(0, ...patterns.map(({ stock }) => stock.length));
  const pages: Block[][] = [];
  let left = 0;
  for (const pattern of patterns) {
    const block = blockOf(plan, pattern);
    if (left < block.height || pages.length === 0) {
      pages.push([]);
      left = ROOM - KEY;
    }
    pages.at(-1)!.push(block);
    left -= block.height;
  }
  return pages.map((blocks, i) =>
    drawPage(plan, blocks, { number: i + 1, of: pages.length, longest }),
  );
}

function blockOf({ job }: Plan, pattern: BoardPattern): Block {
  const steps = boardSteps(pattern, boardKerf(job.machine));
  const texts = steps.map((step, i) => `${i + 1}. ${plainText(lineOf(job.unit, step))}`);
  const joined = texts.length > MOST_STEPS ? [texts.join(' · ')] : texts;
  const all = joined.flatMap((text) => wrapText(text, LETTERS.size, WIDTH));
  const lines = all.length <= MOST_LINES ? all : [...all.slice(0, MOST_LINES), '… see the list'];
  const marks = pattern.stock.defects.length === 0 ? 0 : MARK_LINE;
  return { pattern, steps, lines, height: HEAD + BAR + marks + 1 + lines.length * LINE + GAP };
}

/** Lengths have no unit, as the head of the page says it. */
function lineOf(unit: FileUnit, step: BoardStep): string {
  if (step.kind !== 'stop') {
    return stepText(step, {
      exact: (length) => stopNumber(length, unit),
      kept: (length) => keptNumber(length, unit),
    });
  }
  const { stop } = step;
  const times = stop.timesPerBoard === 1 ? '' : `, ${stop.timesPerBoard} a board`;
  return `stop ${stopNumber(stop.length, unit)}${times}: ${stopPieces(stop)}`;
}

interface Page {
  readonly number: number;
  readonly of: number;
  /** Length of the board that is as wide as the page. */
  readonly longest: number;
}

function drawPage(plan: Plan, blocks: readonly Block[], page: Page): Drawing {
  const { job } = plan;
  const paper = frameAt({ x: 0, y: 0 }, 1);
  const top = PAGE.height - MARGINS.edge;
  const key = frameAt(paper.at(MARGINS.edge, top - MARGINS.title), 1);
  let y = top - MARGINS.title - KEY;
  const placed = blocks.map((block) => {
    const frame = frameAt(paper.at(MARGINS.edge, y), 1);
    y -= block.height;
    return { block, frame };
  });
  const whole = rectangle('background', paper.at(0, 0), paper.at(PAGE.width, PAGE.height));
  return {
    id: `boards-${page.number}`,
    title: `Boards, page ${page.number} of ${page.of}: ${plainText(job.name)}`,
    left: 0,
    bottom: 0,
    width: PAGE.width,
    height: PAGE.height,
    paperScale: 1,
    toScale: false,
    layers: [
      layer('background', [whole]),
      layer(
        'sheet',
        placed.flatMap(({ block, frame }) => drawBar(block.pattern, page, frame)),
      ),
      layer(
        'pieces',
        placed.flatMap(({ block, frame }) => drawLengths(block.pattern, page, job.unit, frame)),
      ),
      layer(
        'table',
        placed.flatMap(({ block, frame }) => [
          ...drawMarks(block.pattern, page, job.unit, frame),
          ...drawTexts(plan, block, frame),
        ]),
      ),
      layer('legend', drawKey(blocks, key)),
      layer('title', drawPageTitle(plan, page, frameAt(paper.at(MARGINS.edge, top), 1))),
    ],
  };
}

function layer(name: Layer['name'], items: readonly Item[]): Layer {
  return { name, groups: [group(items)] };
}

function drawPageTitle({ job, costs }: Plan, page: Page, frame: Frame): Item[] {
  const boards = costs.boards.length;
  const heading = {
    title: 'Boards',
    side: page.of === 1 ? '' : `Page ${page.number} of ${page.of}`,
    facts: [
      plainText(job.name),
      boards === 1 ? '1 board' : `${boards} boards`,
      `kerf ${lengthNumber(boardKerf(job.machine), job.unit)}`,
      lengthsIn(job.unit),
      'drawn to scale along the boards only',
    ],
    result: costs.boardYieldShare === null ? '' : `yield ${formatShare(costs.boardYieldShare)}`,
  };
  return drawHeading(heading, WIDTH, frame);
}

/** What the hatches of the page mean, and how places count where there are any. */
function drawKey(blocks: readonly Block[], frame: Frame): Item[] {
  const patterns = blocks.map(({ pattern }) => pattern);
  const has = (isKept: boolean) =>
    patterns.some(({ leftovers }) => leftovers.some((leftover) => leftover.isKept === isKept));
  const isWaste = has(false) || patterns.some(({ stock }) => stock.endTrim > 0);
  const isBad = patterns.some(({ stock }) => stock.defects.length > 0);
  const entries: readonly LegendEntry[] = [
    ...(isWaste ? [{ swatch: 'waste', text: 'end trim, or too short to keep' } as const] : []),
    ...(isBad ? [{ swatch: 'keep-out', text: 'defect' } as const] : []),
    ...(has(true) ? [{ swatch: 'offcut', text: 'keep' } as const] : []),
  ];
  const rule = placeRule(blocks.flatMap(({ steps }) => steps));
  const how = { style: 'text', size: LETTERS.size, anchor: 'start', maxWidth: WIDTH } as const;
  return [
    ...drawLegend(legendRows(entries, WIDTH), frame),
    ...(rule === null ? [] : lettering(frame, 0, -LEGEND_PITCH - LINE / 2, rule, how)),
  ];
}

/** The board with what is cut from it; the frame's origin is the upper left corner of the block. */
function drawBar(
  { stock, cuts, leftovers }: BoardPattern,
  { longest }: Page,
  frame: Frame,
): Item[] {
  const x = (place: number) => (place / longest) * WIDTH;
  const box = (style: StyleName, { from, to }: Stretch) =>
    rectangle(style, frame.at(x(from), -HEAD - BAR), frame.at(x(to), -HEAD));
  const { length, endTrim } = stock;
  const trims = [
    { from: 0, to: endTrim },
    { from: length - endTrim, to: length },
  ];
  return [
    box('sheet', { from: 0, to: length }),
    ...(endTrim > 0 ? trims.map((trim) => box('waste', trim)) : []),
    ...leftovers.map((leftover) => box(leftover.isKept ? 'offcut' : 'waste', leftover)),
    ...stock.defects.map((defect) => box('keep-out', defect)),
    ...cuts.map(({ at, length: own }) => box('piece', { from: at, to: at + own })),
  ];
}

/** What and where each defect is, under it; one that would cover the mark before it is left to the steps. */
function drawMarks(
  { stock }: BoardPattern,
  { longest }: Page,
  unit: FileUnit,
  frame: Frame,
): Item[] {
  let free = 0;
  return stock.defects
    .toSorted((a, b) => a.from - b.from)
    .flatMap(({ from, to, why }) => {
      const text = plainText(`${why} ${stopNumber(from, unit)} to ${stopNumber(to, unit)}`);
      const width = textWidth(text, LETTERS.table);
      const middle = ((from + to) / 2 / longest) * WIDTH;
      const left = Math.max(0, Math.min(WIDTH - width, middle - width / 2));
      if (left < free) return [];
      free = left + width + 2;
      const how = {
        style: 'text',
        size: LETTERS.table,
        anchor: 'start',
        maxWidth: width * 1.001,
      } as const;
      return lettering(frame, left, -HEAD - BAR - MARK_LINE / 2 - 0.4, text, how);
    });
}

/** The length on each piece and each leftover to keep that is wide enough for it. */
function drawLengths(
  { cuts, leftovers }: BoardPattern,
  { longest }: Page,
  unit: FileUnit,
  frame: Frame,
): Item[] {
  const label = (style: StyleName, text: string, { from, to }: Stretch) =>
    lettering(frame, ((from + to) / 2 / longest) * WIDTH, -HEAD - BAR / 2, text, {
      style,
      size: LETTERS.name,
      anchor: 'middle',
      maxWidth: ((to - from) / longest) * WIDTH - 1,
    });
  return [
    ...cuts.flatMap(({ at, length }) =>
      label('text', stopNumber(length, unit), { from: at, to: at + length }),
    ),
    ...leftovers
      .filter(({ isKept }) => isKept)
      .flatMap((leftover) =>
        label('text-soft', `keep ${keptNumber(leftover.to - leftover.from, unit)}`, leftover),
      ),
  ];
}

function drawTexts({ job }: Plan, { pattern, lines }: Block, frame: Frame): Item[] {
  const { unit } = job;
  const boards = pattern.numbers.length === 1 ? 'Board' : 'Boards';
  const of = `${boardCount(pattern, unit)}, ${plainText(pattern.material.name)}`;
  const title = `${boards} ${boardNumbers(pattern)}: ${of}`;
  const left = leftoversText(pattern.leftovers, unit);
  const leftWidth = textWidth(left, LETTERS.table);
  const marks = pattern.stock.defects.length === 0 ? 0 : MARK_LINE;
  const soft = { style: 'text-soft', size: LETTERS.table } as const;
  const titleHow = {
    style: 'text',
    size: LETTERS.name,
    anchor: 'start',
    maxWidth: WIDTH - leftWidth - 4,
  } as const;
  return [
    ...lettering(frame, 0, -HEAD / 2, title, titleHow),
    ...lettering(frame, WIDTH, -HEAD / 2, left, { ...soft, anchor: 'end', maxWidth: leftWidth }),
    ...lines.flatMap((text, i) =>
      lettering(frame, 0, -HEAD - BAR - marks - 1 - (i + 0.5) * LINE, text, {
        style: 'text',
        size: LETTERS.size,
        anchor: 'start',
        maxWidth: WIDTH,
      }),
    ),
  ];
}
