import { drawCheckLine, scaleWords } from '../../drawing/check-line.ts';
import type { Drawing, DrawnPoint, Item, Run, TextItem } from '../../drawing/display-list.ts';
import { frameAt } from '../../drawing/marks.ts';
import { type Hatch, STYLES, type Style } from '../../drawing/styles.ts';
import type { TilePage } from '../../drawing/tile-pages.ts';
import { TILE } from '../../drawing/tiles.ts';
import type { FileUnit } from '../../model/job.ts';
import {
  addPage,
  type Canvas,
  FOOT_HEIGHT,
  measureText,
  PAGE_MARGIN,
  type PageSize,
  POINTS_PER_MM,
  paintText,
} from './canvas.ts';

/** The scales that rules of the trade have. */
const RULES = [1, 2, 2.5, 5, 10, 20, 25, 50] as const;
/** How much smaller a sheet may be drawn for the sake of a rule. */
const WORTH_A_RULE = 1.08;
/** The check line lies this far above the words of the foot. */
const ABOVE_FOOT = 3.9;

/** What a page is for a drawing: its size, the scale asked for (null: as large as it fits), and the unit of its lengths. */
export interface DrawingPage {
  readonly page: PageSize;
  readonly scale: number | null;
  readonly unit: FileUnit;
}

/** What is left of a page for a drawing. */
export function roomOf({ width, height }: PageSize): PageSize {
  return { width: width - 2 * PAGE_MARGIN, height: height - 2 * PAGE_MARGIN - FOOT_HEIGHT };
}

/** The drawing on a page of its own, with the scale and a line to check it by in the foot. */
export function paintDrawing(canvas: Canvas, drawing: Drawing, how: DrawingPage): void {
  const { page, unit } = how;
  const room = roomOf(page);
  const exact = Math.max(drawing.width / room.width, drawing.height / room.height);
  const scale = drawing.toScale ? (how.scale ?? fittingScale(exact)) : exact;
  addPage(canvas, page, drawing.toScale ? scaleWords(scale, unit) : '');
  paintLayers(canvas, {
    drawing,
    scale,
    left: (page.width - drawing.width / scale) / 2,
    top: PAGE_MARGIN,
  });
  if (!drawing.toScale) return;
  const at = { x: page.width / 2, y: PAGE_MARGIN + ABOVE_FOOT };
  paintItems(canvas, page, drawCheckLine(unit, frameAt(at, 1)));
}

/** One page of a drawing that goes over several. */
export function paintTile(canvas: Canvas, tile: TilePage): void {
  const { page, drawing, scale, left, top, window } = tile;
  addPage(canvas, page, tile.foot, TILE.margin);
  const { doc } = canvas;
  const points = (mm: number) => mm * POINTS_PER_MM;
  doc.save();
  doc.rect(
    points(left),
    points(top),
    points((window.maxX - window.minX) / scale),
    points((window.maxY - window.minY) / scale),
  );
  doc.clip();
  paintLayers(canvas, {
    drawing: {
      ...drawing,
      left: window.minX,
      bottom: window.minY,
      height: window.maxY - window.minY,
    },
    scale,
    left,
    top,
  });
  doc.restore();
  paintItems(canvas, page, tile.furniture);
}

/** A scale that rules have where it costs little, else one in halves. */
function fittingScale(exact: number): number {
  const halves = Math.max(1, Math.ceil(exact * 2 - 1e-9) / 2);
  return RULES.find((rule) => rule >= halves && rule <= halves * WORTH_A_RULE) ?? halves;
}

/** Items in millimetres of the page, y upwards from its lower edge. */
function paintItems(canvas: Canvas, { width, height }: PageSize, items: readonly Item[]): void {
  const drawing = { left: 0, bottom: 0, width, height, paperScale: 1 };
  for (const item of items) paintItem(canvas, item, { drawing, scale: 1, left: 0, top: 0 });
}

/** The drawing at its place on the page that is open. */
export function paintLayers(canvas: Canvas, place: Placing & { drawing: Drawing }): void {
  for (const layer of place.drawing.layers) {
    // Paper has its own ground; printing it would only cost ink.
    if (layer.name === 'background') continue;
    for (const { items } of layer.groups) {
      for (const item of items) paintItem(canvas, item, place);
    }
  }
}

/** How the drawing lies on the page: `scale` of its millimetres for one of the page's, upper left corner. */
interface Placing {
  readonly drawing: Omit<Drawing, 'id' | 'title' | 'toScale' | 'layers'>;
  readonly scale: number;
  readonly left: number;
  readonly top: number;
}

function paintItem(canvas: Canvas, item: Item, place: Placing): void {
  if (item.kind === 'text') {
    paintLetters(canvas, item, place);
    return;
  }
  const { doc } = canvas;
  const style: Style = STYLES[item.style];
  const { drawing, scale, left, top } = place;
  const factor = POINTS_PER_MM / scale;
  doc.save();
  doc.transform(
    factor,
    0,
    0,
    -factor,
    left * POINTS_PER_MM - drawing.left * factor,
    top * POINTS_PER_MM + (drawing.bottom + drawing.height) * factor,
  );
  if (style.fill !== null) {
    trace(canvas, item);
    doc.fillColor(style.fill).fill('even-odd');
  }
  if (style.hatch !== null) paintHatch(canvas, item, style.hatch, drawing.paperScale);
  if (style.stroke !== null) {
    trace(canvas, item);
    doc.lineWidth(style.weight * drawing.paperScale).strokeColor(style.stroke);
    if (style.dash !== null) {
      const [dash, space] = style.dash;
      doc.dash(dash * drawing.paperScale, { space: space * drawing.paperScale });
    }
    doc.stroke();
  }
  doc.restore();
}

/** Sets the path of the item, in its own millimetres. */
function trace({ doc }: Canvas, item: Exclude<Item, TextItem>): void {
  switch (item.kind) {
    case 'path':
      doc.path(item.runs.map(pathData).join(' '));
      break;
    case 'circle':
      doc.circle(item.centre.x, item.centre.y, item.radius);
      break;
    case 'line':
      doc.moveTo(item.from.x, item.from.y).lineTo(item.to.x, item.to.y);
      break;
  }
}

/** Path text with y upwards: a bend to the left turns in the positive sense. */
function pathData({ start, sides, closed }: Run): string {
  const steps = sides.map(({ x, y, bend }) =>
    bend === null
      ? `L ${plain(x)} ${plain(y)}`
      : `A ${plain(bend.radius)} ${plain(bend.radius)} 0 0 ${bend.left ? 1 : 0} ${plain(x)} ${plain(y)}`,
  );
  return [`M ${plain(start.x)} ${plain(start.y)}`, ...steps, ...(closed ? ['Z'] : [])].join(' ');
}

function plain(value: number): string {
  return value.toFixed(4);
}

/** Lines across the item's box, cut off at its outline; they hang on the origin, so that neighbours match. */
function paintHatch(
  canvas: Canvas,
  item: Exclude<Item, TextItem>,
  hatch: Hatch,
  paperScale: number,
): void {
  const { doc } = canvas;
  const points = hatchedPoints(item);
  const gap = hatch.gap * paperScale;
  doc.save();
  trace(canvas, item);
  doc.clip('even-odd');
  doc.lineWidth(hatch.weight * paperScale).strokeColor(hatch.colour);
  for (const angle of hatch.crossed ? [hatch.angleDeg, hatch.angleDeg + 90] : [hatch.angleDeg]) {
    const along = { x: Math.cos((angle * Math.PI) / 180), y: Math.sin((angle * Math.PI) / 180) };
    const ahead = points.map(({ x, y }) => x * along.x + y * along.y);
    const aside = points.map(({ x, y }) => y * along.x - x * along.y);
    const [from, to] = [Math.min(...ahead), Math.max(...ahead)];
    const last = Math.max(...aside);
    for (let off = Math.ceil(Math.min(...aside) / gap) * gap; off <= last; off += gap) {
      doc.moveTo(from * along.x - off * along.y, from * along.y + off * along.x);
      doc.lineTo(to * along.x - off * along.y, to * along.y + off * along.x);
    }
  }
  doc.stroke();
  doc.restore();
}

/** Points whose box holds the item; an arc of at most half a turn lies within half its chord of the middle between its ends. */
function hatchedPoints(item: Exclude<Item, TextItem>): readonly DrawnPoint[] {
  switch (item.kind) {
    case 'line':
      return [item.from, item.to];
    case 'circle':
      return around(item.centre, item.radius);
    case 'path':
      return item.runs.flatMap(({ start, sides }) => [
        start,
        ...sides.flatMap((side, i) =>
          side.bend === null ? [side] : aroundChord(sides[i - 1] ?? start, side),
        ),
      ]);
  }
}

function aroundChord(from: DrawnPoint, to: DrawnPoint): DrawnPoint[] {
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  return [from, to, ...around(middle, Math.hypot(to.x - from.x, to.y - from.y) / 2)];
}

function around({ x, y }: DrawnPoint, r: number): DrawnPoint[] {
  return [
    { x: x - r, y: y - r },
    { x: x + r, y: y - r },
    { x: x + r, y: y + r },
    { x: x - r, y: y + r },
  ];
}

function paintLetters(canvas: Canvas, item: TextItem, place: Placing): void {
  const { drawing, scale, left, top } = place;
  const style: Style = STYLES[item.style];
  const size = item.size / scale;
  const width = measureText(canvas, item.text, size);
  const most = item.maxWidth / scale;
  paintText(canvas, item.text, {
    x: left + (item.at.x - drawing.left) / scale,
    y: top + (drawing.bottom + drawing.height - item.at.y) / scale,
    size: width > most ? (size * most) / width : size,
    colour: style.fill ?? '#000000',
    anchor: item.anchor,
    turn: item.turn,
  });
}
