// Draws the cuts of a saw over the sheet, each with its number in the order in which they are made.
// Idea: the numbers stand on their own lines. Each takes the place along its line that covers least of letters, other numbers and crossing lines, the
//   place nearest the end where the line begins among equals.
// Source: our own.
// Cost: places along a line times what is in the way, some thousands of comparisons a cut.
// Degenerate cases: a line shorter than its number has it in the middle.
import { type Box, boxesOverlap, growBox } from '../geometry/box.ts';
import { cutWidth } from '../model/machine.ts';
import { toMm } from '../model/units.ts';
import {
  type DrawnPoint,
  type Group,
  type Item,
  line,
  polygon,
  type TextItem,
} from './display-list.ts';
import { frameAt, lettering } from './marks.ts';
import type { SawStep } from './saw-steps.ts';
import type { SheetView } from './sheet-view.ts';
import { textWidth } from './text.ts';

const NUMBER_SIZE = 2;
const NUMBER_HEIGHT = 2.8;
const STEP = 1.5;
/** How much of a narrow strip a number takes, and how small it gets at most. */
const NUMBER_SHARE = 0.95;
const LEAST_SCALE = 0.7;
/** What it costs to stand on a number, across another line, on letters. */
const COVERED = { number: 100, line: 10, letters: 1 } as const;

/** A line for each cut, and above all lines the numbers; `written` are the letters that are there already. */
export function drawCuts(
  { sawing, job }: SheetView,
  written: readonly Group[],
  unit: number,
): readonly Group[] {
  const lines = (sawing?.steps ?? []).map((step) => cutLine(step, cutWidth(job.machine)));
  const letters = written.flatMap(({ items }) => items.flatMap(letterBox));
  const numbers: Box[] = [];
  const badges = lines.map((cut) => {
    const cost = (box: Box) =>
      COVERED.number * numbers.filter((other) => boxesOverlap(other, box)).length +
      COVERED.line * lines.filter((other) => other !== cut && crosses(other, box)).length +
      COVERED.letters * letters.filter((other) => boxesOverlap(other, box)).length;
    const centre = bestPlace(cut, unit, cost);
    numbers.push(numberBox(cut, centre, unit));
    const own = unit * badgeScale(cut, unit);
    return numberBadge(`${cut.step.number}`, cut.step.care.length > 0, centre, own);
  });
  return [
    ...lines.map(({ step, from, to }): Group => {
      const care = step.care.length === 0 ? '' : `, ${step.care.join(', ')}`;
      return {
        id: `cut-${step.number}`,
        title: `cut ${step.number}, ${step.axis}${care}`,
        items: [line('saw-cut', from, to)],
      };
    }),
    { id: null, title: null, items: badges.flat() },
  ];
}

/** The number of a cut in a small box, on yellow where it needs care. */
export function numberBadge(
  text: string,
  needsCare: boolean,
  centre: DrawnPoint,
  unit: number,
): Item[] {
  const frame = frameAt(centre, unit);
  const [w, h] = [numberWidth(text) / 2, NUMBER_HEIGHT / 2];
  const how = { style: 'text', size: NUMBER_SIZE, anchor: 'middle', maxWidth: 2 * w } as const;
  return [
    polygon(needsCare ? 'cut-number-care' : 'cut-number', [
      frame.at(-w, -h),
      frame.at(w, -h),
      frame.at(w, h),
      frame.at(-w, h),
    ]),
    ...lettering(frame, 0, 0, text, how),
  ];
}

export interface CutLine {
  readonly step: SawStep;
  readonly from: DrawnPoint;
  readonly to: DrawnPoint;
}

/** In the middle of the kerf, from edge to edge of the panel. */
export function cutLine(step: SawStep, kerf: number): CutLine {
  const { panel, axis, at } = step.cut;
  const middle = toMm(at + kerf / 2);
  const [x1, y1, x2, y2] = [panel.minX, panel.minY, panel.maxX, panel.maxY].map(toMm);
  return axis === 'x'
    ? { step, from: { x: x1!, y: middle }, to: { x: x2!, y: middle } }
    : { step, from: { x: middle, y: y1! }, to: { x: middle, y: y2! } };
}

function bestPlace(cut: CutLine, unit: number, cost: (box: Box) => number): DrawnPoint {
  const { from, to, step } = cut;
  const isAlong = step.axis === 'along';
  const length = to.x - from.x + (to.y - from.y);
  const reach = ((isAlong ? numberWidth(`${step.number}`) : NUMBER_HEIGHT) / 2 + 1) * unit;
  const at = (way: number) =>
    isAlong ? { x: from.x + way, y: from.y } : { x: from.x, y: from.y + way };
  let best = at(length / 2);
  let least = Number.POSITIVE_INFINITY;
  for (let way = reach; way <= length - reach; way += STEP * unit) {
    const found = cost(numberBox(cut, at(way), unit));
    if (found >= least) continue;
    least = found;
    best = at(way);
  }
  return best;
}

function numberBox(cut: CutLine, { x, y }: DrawnPoint, unit: number): Box {
  const own = unit * badgeScale(cut, unit);
  const w = (numberWidth(`${cut.step.number}`) / 2) * own;
  const h = (NUMBER_HEIGHT / 2) * own;
  return { minX: x - w, minY: y - h, maxX: x + w, maxY: y + h };
}

/** A number is no higher than the strip that its cut parts, or parts off, so that those of strips side by side stay apart. */
function badgeScale({ step }: CutLine, unit: number): number {
  const { axis, cut, guided, off } = step;
  const strips = [guided, off].filter(
    ({ thing: { kind } }) => kind === 'strip' || kind === 'piece',
  );
  const breadths =
    axis === 'across' ? [cut.panel.maxY - cut.panel.minY] : strips.map(({ across }) => across);
  const room = (NUMBER_SHARE * toMm(Math.min(...breadths))) / unit / NUMBER_HEIGHT;
  return Math.max(LEAST_SCALE, Math.min(1, room));
}

function numberWidth(text: string): number {
  return Math.max(NUMBER_HEIGHT, textWidth(text, NUMBER_SIZE) + 1);
}

/** Whether the line goes through the box; one that ends at its border does as well. */
function crosses({ from, to }: CutLine, { minX, minY, maxX, maxY }: Box): boolean {
  return from.x <= maxX && minX <= to.x && from.y <= maxY && minY <= to.y;
}

/** What letters and the round numbers of pieces cover; nothing for other items. */
function letterBox(item: Item): readonly Box[] {
  if (item.kind === 'text') return [boxOfText(item)];
  if (item.kind !== 'circle' || item.style !== 'order') return [];
  const { centre, radius } = item;
  return [growBox({ minX: centre.x, maxX: centre.x, minY: centre.y, maxY: centre.y }, radius)];
}

function boxOfText({ at, text, size, anchor, turn }: TextItem): Box {
  const width = textWidth(text, size);
  const start = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
  const [low, high] = [start, start + width];
  return turn === 0
    ? { minX: at.x + low, maxX: at.x + high, minY: at.y, maxY: at.y + size }
    : { minX: at.x - size, maxX: at.x, minY: at.y + low, maxY: at.y + high };
}
