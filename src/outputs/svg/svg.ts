import type {
  CircleItem,
  Drawing,
  Group,
  Item,
  LineItem,
  Run,
  TextItem,
} from '../../drawing/display-list.ts';
import { type Hatch, STYLES, type Style, type StyleName } from '../../drawing/styles.ts';
import { escapeMarkup } from '../escape.ts';

/**
 * The drawing as an SVG file in true millimetres. The lower left corner of the sheet is the origin of its user units; y is turned downwards, as SVG has it.
 * Every look is an attribute, so that several drawings can stand in one page without meddling with one another.
 */
export function toSvg(drawing: Drawing): string {
  const { left, bottom, width, height, id, title } = drawing;
  const viewBox = [left, -(bottom + height), width, height].map(number).join(' ');
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" id="${escapeMarkup(id)}" width="${number(width)}mm" height="${number(height)}mm" viewBox="${viewBox}" font-family="${FONTS}" fill="none">`,
    `<title>${escapeMarkup(title)}</title>`,
    ...hatchPatterns(drawing),
    ...drawing.layers.flatMap((layer) => [
      `<g class="${layer.name}">`,
      ...layer.groups.flatMap((group) => groupLines(group, drawing)),
      '</g>',
    ]),
    '</svg>',
  ];
  return `${lines.join('\n')}\n`;
}

/** Faces about as wide as the text was measured for, then whatever there is. */
const FONTS = "'DejaVu Sans Condensed', Arial, Helvetica, sans-serif";
const DIGITS = 4;

function groupLines({ id, title, items }: Group, drawing: Drawing): readonly string[] {
  const lines = items.flatMap((item) => itemLines(item, drawing));
  if (id === null && title === null) return lines;
  const attribute = id === null ? '' : ` id="${escapeMarkup(`${drawing.id}-${id}`)}"`;
  return [
    `<g${attribute}>`,
    ...(title === null ? [] : [`<title>${escapeMarkup(title)}</title>`]),
    ...lines,
    '</g>',
  ];
}

/** The item; where its style has both a fill and a hatch, the hatched shape follows the filled one. */
function itemLines(item: Item, drawing: Drawing): readonly string[] {
  const style: Style = STYLES[item.style];
  const look = attributes(style, item.style, drawing.paperScale);
  if (item.kind === 'text') return [textElement(item, look)];
  const element = (attribute: string) => {
    switch (item.kind) {
      case 'path':
        return `<path ${attribute} fill-rule="evenodd" d="${item.runs.map(pathData).join(' ')}"/>`;
      case 'circle':
        return circleElement(item, attribute);
      case 'line':
        return lineElement(item, attribute);
    }
  };
  if (style.hatch === null) return [element(look)];
  return [element(look), element(`fill="url(#${hatchId(drawing, item.style)})"`)];
}

function attributes(style: Style, name: StyleName, paperScale: number): string {
  const parts = [`class="${name}"`];
  if (style.fill !== null) parts.push(`fill="${style.fill}"`);
  if (style.stroke !== null) {
    parts.push(`stroke="${style.stroke}" stroke-width="${number(style.weight * paperScale)}"`);
    if (style.dash !== null) {
      const dash = style.dash.map((length) => number(length * paperScale));
      parts.push(`stroke-dasharray="${dash.join(' ')}"`);
    }
  }
  return parts.join(' ');
}

function pathData({ start, sides, closed }: Run): string {
  const steps = sides.map(({ x, y, bend }) => {
    const end = `${number(x)} ${number(-y)}`;
    if (bend === null) return `L${end}`;
    const radius = number(bend.radius);
    return `A${radius} ${radius} 0 0 ${bend.left ? 0 : 1} ${end}`;
  });
  return [`M${number(start.x)} ${number(-start.y)}`, ...steps, ...(closed ? ['Z'] : [])].join(' ');
}

function circleElement({ centre, radius }: CircleItem, look: string): string {
  return `<circle ${look} cx="${number(centre.x)}" cy="${number(-centre.y)}" r="${number(radius)}"/>`;
}

function lineElement({ from, to }: LineItem, look: string): string {
  return `<line ${look} x1="${number(from.x)}" y1="${number(-from.y)}" x2="${number(to.x)}" y2="${number(-to.y)}"/>`;
}

function textElement({ at, text, size, anchor, turn }: TextItem, look: string): string {
  const x = number(at.x);
  const y = number(-at.y);
  const turned = turn === 0 ? '' : ` transform="rotate(${number(-turn)} ${x} ${y})"`;
  const place = `x="${x}" y="${y}" font-size="${number(size)}" text-anchor="${anchor}"${turned}`;
  return `<text ${look} ${place}>${escapeMarkup(text)}</text>`;
}

function hatchPatterns(drawing: Drawing): readonly string[] {
  const used = new Set(
    drawing.layers.flatMap(({ groups }) =>
      groups.flatMap(({ items }) => items.map((item) => item.style)),
    ),
  );
  const patterns = (Object.keys(STYLES) as StyleName[]).flatMap((name) => {
    const style: Style = STYLES[name];
    if (!used.has(name) || style.hatch === null) return [];
    return [patternElement(hatchId(drawing, name), style.hatch, drawing.paperScale)];
  });
  return patterns.length === 0 ? [] : ['<defs>', ...patterns, '</defs>'];
}

function patternElement(id: string, hatch: Hatch, paperScale: number): string {
  const gap = number(hatch.gap * paperScale);
  const middle = number((hatch.gap * paperScale) / 2);
  const across = `M0 ${middle} H${gap}`;
  const lines = hatch.crossed ? `${across} M${middle} 0 V${gap}` : across;
  const tile = `width="${gap}" height="${gap}" patternUnits="userSpaceOnUse"`;
  const turn = `patternTransform="rotate(${number(-hatch.angleDeg)})"`;
  const stroke = `stroke="${hatch.colour}" stroke-width="${number(hatch.weight * paperScale)}"`;
  return `<pattern id="${id}" ${tile} ${turn}><path ${stroke} d="${lines}"/></pattern>`;
}

function hatchId(drawing: Drawing, style: StyleName): string {
  return `${drawing.id}-hatch-${style}`;
}

/** Up to four decimals, no exponent, no minus before zero. */
function number(value: number): string {
  const digits = value.toFixed(DIGITS).replace(/\.?0+$/, '');
  return digits === '-0' ? '0' : digits;
}
