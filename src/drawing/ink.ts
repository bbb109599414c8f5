// Tells whether anything of an item of a drawing lies in a box.
// Idea: lines and arcs as chords within a twentieth of a millimetre of the curve; a chord meets the box if what is left of it between the
//   box's four sides is not empty. Letters count with the box around them, fills with their outline only.
// Source: clipping a line by its parameter, Liang and Barsky 1984, "A new concept and method for line clipping", ACM Transactions on Graphics 3(1).
// Cost: linear in the chords, after a look at the item's own box.
// Degenerate cases: touching the border counts; the box is taken larger by the chord error, so that nothing is missed.
import { type Box, boxOf, growBox } from '../geometry/box.ts';
import type { Contour } from '../geometry/shape.ts';
import type { DrawnPoint, Item, Run, TextItem } from './display-list.ts';
import { contourRun } from './outline.ts';
import { textWidth } from './text.ts';

const CHORD_ERROR = 0.05;

/** Tells of any box whether ink of the item, as far as it is lines or letters, lies in it. */
export function inkTest(item: Item): (box: Box) => boolean {
  if (item.kind === 'text') {
    const own = growBox(textBox(item), CHORD_ERROR);
    return (box) => meets(own, box);
  }
  const lines = polylines(item);
  const around = growBox(boxOf(lines.flat()), CHORD_ERROR);
  return (box) => {
    if (!meets(around, box)) return false;
    const wide = growBox(box, CHORD_ERROR);
    return lines.some((points) =>
      points.some((to, i) => i > 0 && chordMeets(points[i - 1] as DrawnPoint, to, wide)),
    );
  };
}

/** The box around all ink of the items. */
export function inkBox(items: readonly Item[]): Box {
  return boxOf(
    items.flatMap((item) => {
      if (item.kind !== 'text') return polylines(item).flat();
      const { minX, minY, maxX, maxY } = textBox(item);
      return [
        { x: minX, y: minY },
        { x: maxX, y: maxY },
      ];
    }),
  );
}

/** The box around a contour, in millimetres. */
export function contourBox(contour: Contour): Box {
  return boxOf(runPoints(contourRun(contour)));
}

function textBox({ at, text, size, anchor, turn }: TextItem): Box {
  const width = textWidth(text, size);
  const before = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width;
  const [low, high] = [-0.25 * size, 0.9 * size];
  return turn === 0
    ? { minX: at.x - before, maxX: at.x - before + width, minY: at.y + low, maxY: at.y + high }
    : { minX: at.x - high, maxX: at.x - low, minY: at.y - before, maxY: at.y - before + width };
}

function polylines(item: Exclude<Item, TextItem>): readonly (readonly DrawnPoint[])[] {
  switch (item.kind) {
    case 'line':
      return [[item.from, item.to]];
    case 'circle': {
      const { centre, radius } = item;
      const ends = [centre.x + radius, centre.x - radius, centre.x + radius];
      const bend = { radius, left: true };
      const [first, ...rest] = ends.map((x) => ({ x, y: centre.y, bend }));
      const tops = [centre.y + radius, centre.y - radius];
      const sides = rest.flatMap((end, i) => [{ x: centre.x, y: tops[i] as number, bend }, end]);
      return [runPoints({ start: first as DrawnPoint, sides, closed: true })];
    }
    case 'path':
      return item.runs.map(runPoints);
  }
}

/** Points along a run, close enough for their chords to stand for it. */
function runPoints({ start, sides, closed }: Run): readonly DrawnPoint[] {
  const points: DrawnPoint[] = [start];
  for (const side of sides) {
    const from = points.at(-1) as DrawnPoint;
    if (side.bend === null) points.push(side);
    else points.push(...arcPoints(from, side, side.bend.radius, side.bend.left), side);
  }
  return closed ? [...points, start] : points;
}

/** Points between the ends of an arc of less than half a turn. */
function arcPoints(from: DrawnPoint, to: DrawnPoint, radius: number, left: boolean): DrawnPoint[] {
  const chord = { x: to.x - from.x, y: to.y - from.y };
  const half = Math.hypot(chord.x, chord.y) / 2;
  if (half === 0) return [];
  const sine = Math.min(1, half / radius);
  const sweep = 2 * Math.asin(sine);
  const aside = ((left ? 1 : -1) * radius * Math.sqrt(1 - sine * sine)) / (2 * half);
  const centre = {
    x: from.x + chord.x / 2 - chord.y * aside,
    y: from.y + chord.y / 2 + chord.x * aside,
  };
  const first = Math.atan2(from.y - centre.y, from.x - centre.x);
  const most = 2 * Math.acos(Math.max(0, 1 - CHORD_ERROR / radius));
  const count = Math.max(1, Math.ceil(sweep / most));
  return Array.from({ length: count - 1 }, (_, i) => {
    const angle = first + ((left ? 1 : -1) * sweep * (i + 1)) / count;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });
}

function meets(a: Box, b: Box): boolean {
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;
}

function chordMeets(from: DrawnPoint, to: DrawnPoint, box: Box): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const limits = [
    [-dx, from.x - box.minX],
    [dx, box.maxX - from.x],
    [-dy, from.y - box.minY],
    [dy, box.maxY - from.y],
  ] as const;
  let enter = 0;
  let leave = 1;
  for (const [against, room] of limits) {
    if (against === 0 && room < 0) return false;
    if (against < 0) enter = Math.max(enter, room / against);
    if (against > 0) leave = Math.min(leave, room / against);
  }
  return enter <= leave;
}
