// Pages with the sequence of the cuts of alike sheets, in letters that are read standing at the saw.
// Idea: each row is as high as its longest cell; rows go onto pages one under the other, under the rules of how to read them.
// Source: our own.
// Cost: linear in the cuts.
// Degenerate cases: a sheet without cuts has no page; a word longer than its column is cut short.
import type { Job } from '../model/job.ts';
import { MARGINS, PAGE } from './arrangement.ts';
import { type Drawing, group, type Item, type Layer, line, rectangle } from './display-list.ts';
import { drawHeading, lengthsIn } from './furniture.ts';
import { alertSign, type Frame, frameAt, lettering } from './marks.ts';
import type { SawGroup } from './saw-groups.ts';
import {
  careSentences,
  groupTitle,
  sequenceHeads,
  sequenceRows,
  sequenceRules,
} from './saw-texts.ts';
import type { SheetView } from './sheet-view.ts';
import { LETTERS } from './styles.ts';
import { plainText, wrapText } from './text.ts';

const WIDTH = PAGE.width - 2 * MARGINS.edge;
const ROOM = PAGE.height - 2 * MARGINS.edge - MARGINS.title;
/** Widths of the columns, that of `sequenceHeads`; they add up to `WIDTH`. */
const COLUMNS = [11, 27, 30, 30, 17, 66, 66, 30] as const;
const FENCE_COLUMN = 3;
const CARE_COLUMN = 7;
const BODY = 3.3;
const FENCE = 4.4;
const LINE = 4.3;
const ROW_GAP = 2;
const HEAD = 6;
const RULE_LINE = 3.6;
const CELL_GAP = 2;

/** One cut, its cells in lines. */
interface Row {
  readonly cells: readonly (readonly string[])[];
  readonly needsCare: boolean;
  readonly height: number;
}

export function sequencePages({ job, number, sawing }: SheetView): readonly Drawing[] {
  if (sawing === null || sawing.numbers[0] !== number) return [];
  const rules = [...sequenceRules(job), ...careSentences(sawing.steps)].flatMap((rule) =>
    wrapText(rule, LETTERS.subtitle, WIDTH),
  );
  const most = ROOM - HEAD - rules.length * RULE_LINE - ROW_GAP;
  const pages: Row[][] = [];
  let left = 0;
  for (const row of rowsOf(job, sawing)) {
    if (left < row.height) {
      pages.push([]);
      left = most;
    }
    pages.at(-1)!.push(row);
    left -= row.height;
  }
  return pages.map((rows, i) =>
    drawPage(job, sawing, { rows, rules, number: i + 1, of: pages.length }),
  );
}

function rowsOf(job: Job, { steps }: SawGroup): readonly Row[] {
  return sequenceRows(job, steps).map((texts) => {
    const cells = texts.map((text, i) =>
      wrapText(plainText(text), i === FENCE_COLUMN ? FENCE : BODY, COLUMNS[i]! - CELL_GAP),
    );
    const lines = Math.max(...cells.map(({ length }) => length));
    return { cells, needsCare: texts[CARE_COLUMN] !== '', height: lines * LINE + ROW_GAP };
  });
}

interface Page {
  readonly rows: readonly Row[];
  readonly rules: readonly string[];
  readonly number: number;
  readonly of: number;
}

function drawPage(job: Job, saw: SawGroup, page: Page): Drawing {
  const paper = frameAt({ x: 0, y: 0 }, 1);
  const corner = frameAt(paper.at(MARGINS.edge, PAGE.height - MARGINS.edge), 1);
  const below = frameAt(corner.at(0, -MARGINS.title), 1);
  const whole = rectangle('background', paper.at(0, 0), paper.at(PAGE.width, PAGE.height));
  const title = groupTitle(saw);
  const heading = {
    title: `Sequence at the saw: ${saw.material.name}`,
    side: title.split(':')[0]!,
    facts: [
      plainText(job.name),
      saw.numbers.length === 1 ? '' : title.slice(title.indexOf(':') + 2),
      saw.steps.length === 1 ? '1 cut' : `${saw.steps.length} cuts`,
      lengthsIn(job.unit),
    ],
    result: page.of === 1 ? '' : `part ${page.number} of ${page.of}`,
  };
  return {
    id: `sheet-${saw.numbers[0]}-sequence-${page.number}`,
    title: `${title}, sequence at the saw, part ${page.number} of ${page.of}`,
    left: 0,
    bottom: 0,
    width: PAGE.width,
    height: PAGE.height,
    paperScale: 1,
    toScale: false,
    layers: [
      layer('background', [whole]),
      layer('table', drawTable(job, page, below)),
      layer('title', drawHeading(heading, WIDTH, corner)),
    ],
  };
}

function layer(name: Layer['name'], items: readonly Item[]): Layer {
  return { name, groups: [group(items)] };
}

function drawTable({ unit }: Job, { rows, rules }: Page, frame: Frame): Item[] {
  const items: Item[] = rules.flatMap((text, i) =>
    cell(frame, 0, -(i + 0.5) * RULE_LINE, text, LETTERS.subtitle, 'text-soft', WIDTH),
  );
  let y = -rules.length * RULE_LINE;
  sequenceHeads(unit).forEach((head, i) => {
    items.push(...cell(frame, stop(i), y - HEAD / 2, head, 2.8, 'text-soft', COLUMNS[i]!));
  });
  y -= HEAD;
  items.push(line('rule-strong', frame.at(0, y), frame.at(WIDTH, y)));
  for (const row of rows) {
    items.push(...drawRow(row, frame, y));
    y -= row.height;
    items.push(line('rule', frame.at(0, y), frame.at(WIDTH, y)));
  }
  return items;
}

function drawRow({ cells, needsCare }: Row, frame: Frame, top: number): Item[] {
  const first = top - ROW_GAP / 2 - LINE / 2;
  const letters = cells.flatMap((lines, i) =>
    lines.flatMap((text, at) => {
      const size = i === FENCE_COLUMN ? FENCE : BODY;
      const x = stop(i) + (i === CARE_COLUMN ? 4.6 : 0);
      return cell(frame, x, first - at * LINE, text, size, 'text', COLUMNS[i]!);
    }),
  );
  return needsCare
    ? [...alertSign(frame, { x: stop(CARE_COLUMN) + 2, y: first }, 'test'), ...letters]
    : letters;
}

function cell(
  frame: Frame,
  x: number,
  y: number,
  text: string,
  size: number,
  style: 'text' | 'text-soft',
  maxWidth: number,
): Item[] {
  return lettering(frame, x, y, text, { style, size, anchor: 'start', maxWidth });
}

/** Where a column begins. */
function stop(column: number): number {
  return COLUMNS.slice(0, column).reduce((sum, width) => sum + width, 0);
}
