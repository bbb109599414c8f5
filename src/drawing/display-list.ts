import type { StyleName } from './styles.ts';

/** A place in a drawing, in millimetres, x to the right and y upwards. */
export interface DrawnPoint {
  readonly x: number;
  readonly y: number;
}

/** A circular arc of less than half a turn; `left` bends to the left as it runs, that is counter-clockwise. */
export interface Bend {
  readonly radius: number;
  readonly left: boolean;
}

/** One side of a run: to (x, y), straight or along an arc. */
export interface Side extends DrawnPoint {
  readonly bend: Bend | null;
}

/** A run of lines and arcs; a closed one ends where it starts. */
export interface Run {
  readonly start: DrawnPoint;
  readonly sides: readonly Side[];
  readonly closed: boolean;
}

/** Runs drawn as one body: where one lies inside another it is a hole (even-odd rule). */
export interface PathItem {
  readonly kind: 'path';
  readonly style: StyleName;
  readonly runs: readonly Run[];
}

export interface CircleItem {
  readonly kind: 'circle';
  readonly style: StyleName;
  readonly centre: DrawnPoint;
  readonly radius: number;
}

export interface LineItem {
  readonly kind: 'line';
  readonly style: StyleName;
  readonly from: DrawnPoint;
  readonly to: DrawnPoint;
}

export type Anchor = 'start' | 'middle' | 'end';

/**
 * One line of letters. `at` lies on the base line, at the end or middle that `anchor` says; `turn` is in degrees counter-clockwise;
 * `size` is the height of the em. The text already fits `maxWidth` in the widest of the usual fonts; a writer whose own font is wider narrows it.
 */
export interface TextItem {
  readonly kind: 'text';
  readonly style: StyleName;
  readonly at: DrawnPoint;
  readonly text: string;
  readonly size: number;
  readonly anchor: Anchor;
  readonly turn: number;
  readonly maxWidth: number;
}

export type Item = PathItem | CircleItem | LineItem | TextItem;

/** Items that belong together, such as all of one piece. */
export interface Group {
  readonly id: string | null;
  readonly title: string | null;
  readonly items: readonly Item[];
}

export type LayerName =
  | 'background'
  | 'sheet'
  | 'offcuts'
  | 'waste'
  | 'keep-outs'
  | 'sets'
  | 'pieces'
  | 'set-links'
  | 'tabs'
  | 'numbers'
  | 'cuts'
  | 'dimensions'
  | 'legend'
  | 'table'
  | 'chart'
  | 'title'
  | 'stickers';

export interface Layer {
  readonly name: LayerName;
  readonly groups: readonly Group[];
}

/** A picture free of any device: layers from the bottom up, lengths in millimetres of the real thing. */
export interface Drawing {
  /** Unique among the drawings of a plan; letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  /** The lower-left corner of the picture; the lower-left corner of the sheet is (0, 0). */
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
  /** Millimetres of the drawing for one of the paper that its letters and line weights were chosen for. */
  readonly paperScale: number;
  /** Whether a scale means anything: not for a page that only lists. */
  readonly toScale: boolean;
  readonly layers: readonly Layer[];
}

export function line(style: StyleName, from: DrawnPoint, to: DrawnPoint): LineItem {
  return { kind: 'line', style, from, to };
}

export function circle(style: StyleName, centre: DrawnPoint, radius: number): CircleItem {
  return { kind: 'circle', style, centre, radius };
}

/** A closed polygon. */
export function polygon(style: StyleName, points: readonly DrawnPoint[]): PathItem {
  return { kind: 'path', style, runs: [closedRun(points)] };
}

/** The rectangle between two opposite corners. */
export function rectangle(style: StyleName, low: DrawnPoint, high: DrawnPoint): PathItem {
  return polygon(style, [low, { x: high.x, y: low.y }, high, { x: low.x, y: high.y }]);
}

export function closedRun(points: readonly DrawnPoint[]): Run {
  const [start = { x: 0, y: 0 }, ...rest] = points;
  return {
    start,
    sides: rest.map(({ x, y }) => ({ x, y, bend: null })),
    closed: true,
  };
}

export function group(items: readonly Item[]): Group {
  return { id: null, title: null, items };
}
