// Draws the cutting list of the boards: a bar for each pattern, all to one scale along the boards, with the settings of the stop under it.
// Idea: a pattern is a block of a heading, a bar and lines of text; blocks go onto pages one under the other.
// Source: our own.
// Cost: linear in the pieces of the patterns.
// Degenerate cases: no boards give no page; a pattern of more stop settings than half a page holds ends with a hint at the list.
import { formatShare, keptNumber, lengthNumber, stopNumber } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import { boardKerf } from '../model/machine.ts';
import type { Plan } from '../model/plan.ts';
import type { Stretch } from '../model/stock.ts';
import { MARGINS, PAGE } from './arrangement.ts';
import { type BoardPattern, boardPatterns } from './board-patterns.ts';
import { boardCount, boardNumbers, leftoversText, stopPieces } from './board-texts.ts';
import { type Drawing, group, type Item, type Layer, rectangle } from './display-list.ts';
import { drawHeading, lengthsIn } from './furniture.ts';
import { type Frame, frameAt, lettering } from './marks.ts';
import { LETTERS, type StyleName } from './styles.ts';
import { plainText, textWidth, wrapText } from './text.ts';

const WIDTH = PAGE.width - 2 * MARGINS.edge;
const ROOM = PAGE.height - 2 * MARGINS.edge - MARGINS.title;
const HEAD = 5.4;
const BAR = 8;
const LINE = 3.4;
const GAP = 6;
const MOST_LINES = 24;

/** A pattern with its texts, and how high it stands. */
interface Block {
  readonly pattern: BoardPattern;
  readonly stops: readonly string[];
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
      left = ROOM;
    }
    pages.at(-1)!.push(block);
    left -= block.height;
  }
  return pages.map((blocks, i) =>
    drawPage(plan, blocks, { number: i + 1, of: pages.length, longest }),
  );
}

function blockOf({ job }: Plan, pattern: BoardPattern): Block {
  const text = pattern.stops
    .map((stop) => {
      const times = stop.timesPerBoard === 1 ? '' : `, ${stop.timesPerBoard} a board`;
      return `stop ${stopNumber(stop.length, job.unit)}${times}: ${plainText(stopPieces(stop))}`;
    })
    .join(' · ');
  const lines = wrapText(text, LETTERS.table, WIDTH);
  const stops =
    lines.length <= MOST_LINES ? lines : [...lines.slice(0, MOST_LINES), '… see the list'];
  return { pattern, stops, height: HEAD + BAR + 1 + stops.length * LINE + GAP };
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
  let y = top - MARGINS.title;
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
        placed.flatMap(({ block, frame }) => drawTexts(plan, block, frame)),
      ),
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

function drawTexts({ job }: Plan, { pattern, stops }: Block, frame: Frame): Item[] {
  const { unit } = job;
  const boards = pattern.numbers.length === 1 ? 'Board' : 'Boards';
  const of = `${boardCount(pattern, unit)}, ${plainText(pattern.material.name)}`;
  const title = `${boards} ${boardNumbers(pattern)}: ${of}`;
  const left = leftoversText(pattern.leftovers, unit);
  const leftWidth = textWidth(left, LETTERS.table);
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
    ...stops.flatMap((text, i) =>
      lettering(frame, 0, -HEAD - BAR - 1 - (i + 0.5) * LINE, text, {
        ...soft,
        anchor: 'start',
        maxWidth: WIDTH,
      }),
    ),
  ];
}
