import { numbersOf, userLength } from './svg-units.ts';

type Attributes = Readonly<Record<string, string>>;

/** The elements that draw an outline. */
export const SHAPE_NAMES = [
  'path',
  'rect',
  'circle',
  'ellipse',
  'polygon',
  'polyline',
  'line',
] as const;
export type ShapeName = (typeof SHAPE_NAMES)[number];

/**
 * The path text of an SVG shape in its own coordinates; an empty text where it draws nothing, null where an attribute
 * cannot be read.
 */
export function pathOfShape(name: ShapeName, attributes: Attributes): string | null {
  switch (name) {
    case 'path':
      return attributes.d ?? '';
    case 'rect':
      return rectPath(attributes);
    case 'circle':
      return ellipsePath(attributes, attributes.r ?? '0', attributes.r ?? '0');
    case 'ellipse':
      return ellipsePath(attributes, attributes.rx ?? '0', attributes.ry ?? '0');
    case 'polygon':
    case 'polyline':
      // A polyline is filled like a polygon: its last corner joins the first.
      return pointsPath(attributes.points ?? '');
    case 'line':
      return linePath(attributes);
  }
}

function rectPath(attributes: Attributes): string | null {
  const [x, y, width, height] = ['x', 'y', 'width', 'height'].map((key) =>
    userLength(attributes[key] ?? '0'),
  );
  const given = { rx: attributes.rx ?? 'auto', ry: attributes.ry ?? 'auto' };
  const rxText = given.rx === 'auto' ? given.ry : given.rx;
  const ryText = given.ry === 'auto' ? given.rx : given.ry;
  const rx = userLength(rxText === 'auto' ? '0' : rxText);
  const ry = userLength(ryText === 'auto' ? '0' : ryText);
  if (!allNumbers([x, y, width, height, rx, ry])) return null;
  const [left, top, w, h] = [x, y, width, height] as [number, number, number, number];
  const a = Math.min(rx ?? 0, w / 2);
  const b = Math.min(ry ?? 0, h / 2);
  if (w <= 0 || h <= 0) return '';
  if (a <= 0 || b <= 0) return `M${left} ${top}h${w}v${h}h${-w}z`;
  const corner = (dx: number, dy: number) => `a${a} ${b} 0 0 1 ${dx} ${dy}`;
  return (
    `M${left + a} ${top}h${w - 2 * a}${corner(a, b)}v${h - 2 * b}${corner(-a, b)}` +
    `h${2 * a - w}${corner(-a, -b)}v${2 * b - h}${corner(a, -b)}z`
  );
}

function ellipsePath(attributes: Attributes, rxText: string, ryText: string): string | null {
  const cx = userLength(attributes.cx ?? '0');
  const cy = userLength(attributes.cy ?? '0');
  const rx = userLength(rxText);
  const ry = userLength(ryText);
  if (cx === null || cy === null || rx === null || ry === null) return null;
  if (rx <= 0 || ry <= 0) return '';
  const half = (dx: number) => `a${rx} ${ry} 0 0 1 ${dx} 0`;
  return `M${cx - rx} ${cy}${half(2 * rx)}${half(-2 * rx)}z`;
}

function pointsPath(text: string): string | null {
  if (text.trim() === '') return '';
  const numbers = numbersOf(text);
  if (numbers === null || numbers.length % 2 !== 0) return null;
  return `M${numbers.join(' ')}z`;
}

function linePath(attributes: Attributes): string | null {
  const ends = ['x1', 'y1', 'x2', 'y2'].map((key) => userLength(attributes[key] ?? '0'));
  return allNumbers(ends) ? `M${ends.join(' ')}` : null;
}

function allNumbers(values: readonly (number | null | undefined)[]): boolean {
  return values.every((value) => typeof value === 'number');
}
