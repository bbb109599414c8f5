import type { Drawing, Item, Run, TextItem } from '../../drawing/display-list.ts';
import { type Hatch, STYLES, type Style } from '../../drawing/styles.ts';
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

/** The drawing on a page of its own, as large as a scale in halves lets it, with the scale in the foot. */
export function paintDrawing(canvas: Canvas, drawing: Drawing, page: PageSize): void {
  const room = {
    width: page.width - 2 * PAGE_MARGIN,
    height: page.height - 2 * PAGE_MARGIN - FOOT_HEIGHT,
  };
  const exact = Math.max(drawing.width / room.width, drawing.height / room.height);
  const scale = drawing.toScale ? Math.max(1, Math.ceil(exact * 2 - 1e-9) / 2) : exact;
  addPage(canvas, page, drawing.toScale ? `scale 1 : ${scale}` : '');
  paintLayers(canvas, {
    drawing,
    scale,
    left: (page.width - drawing.width / scale) / 2,
    top: PAGE_MARGIN,
  });
}

/** The drawing at its place on the page that is open. */
export function paintLayers(canvas: Canvas, place: Placing): void {
  for (const layer of place.drawing.layers) {
    // Paper has its own ground; printing it would only cost ink.
    if (layer.name === 'background') continue;
    for (const { items } of layer.groups) {
      for (const item of items) paintItem(canvas, item, place);
    }
  }
}

/** How the drawing lies on the page: `scale` of its millimetres for one of the page's, upper left corner. */
export interface Placing {
  readonly drawing: Drawing;
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

/** Points whose box holds the item; an arc reaches out of its ends by less than its radius. */
function hatchedPoints(item: Exclude<Item, TextItem>): readonly { x: number; y: number }[] {
  switch (item.kind) {
    case 'line':
      return [item.from, item.to];
    case 'circle':
      return around(item.centre, item.radius);
    case 'path':
      return item.runs.flatMap(({ start, sides }) => [
        start,
        ...sides.flatMap((side) => (side.bend === null ? [side] : around(side, side.bend.radius))),
      ]);
  }
}

function around({ x, y }: { x: number; y: number }, r: number): { x: number; y: number }[] {
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
