import type { Action, Holding } from '../model/holding.ts';
import {
  circle,
  closedRun,
  type DrawnPoint,
  type Item,
  line,
  polygon,
  type TextItem,
} from './display-list.ts';
import { SIGNS, type StyleName } from './styles.ts';
import { fitText, textWidth } from './text.ts';

/** Share of the em that a capital letter or a digit stands high; letters are centred by it. */
const CAPITAL_HEIGHT = 0.72;

/** Where and how a small mark is drawn: `at` maps its own paper millimetres to the drawing. */
export interface Frame {
  readonly at: (x: number, y: number) => DrawnPoint;
  /** Millimetres of the drawing for one of the frame. */
  readonly unit: number;
  readonly turn: 0 | 90;
}

/** A frame around `origin`, its x axis to the right, or upwards where turned. */
export function frameAt(origin: DrawnPoint, unit: number, turn: 0 | 90 = 0): Frame {
  return {
    at: (x, y) =>
      turn === 0
        ? { x: origin.x + x * unit, y: origin.y + y * unit }
        : { x: origin.x - y * unit, y: origin.y + x * unit },
    unit,
    turn,
  };
}

export interface Lettering {
  readonly style: StyleName;
  readonly size: number;
  readonly anchor: TextItem['anchor'];
  /** Widest it may be, in paper millimetres of the frame. */
  readonly maxWidth: number;
}

/** Text centred on the height `y` of the frame; shrunk or cut short to its greatest width. */
export function lettering(
  frame: Frame,
  x: number,
  y: number,
  text: string,
  how: Lettering,
): Item[] {
  const fitted = fitText(text, how.size, how.size * 0.8, how.maxWidth);
  if (fitted === null) return [];
  const { unit, turn } = frame;
  return [
    {
      kind: 'text',
      style: how.style,
      at: frame.at(x, y - (CAPITAL_HEIGHT / 2) * fitted.size),
      text: fitted.text,
      size: fitted.size * unit,
      anchor: how.anchor,
      turn,
      maxWidth: how.maxWidth * unit,
    },
  ];
}

export const ORDER_HEIGHT = 3.7;

export function orderWidth(order: string): number {
  return Math.max(ORDER_HEIGHT, textWidth(order, 2.2) + 1.5);
}

/** The place in the cutting order: a number in a round-ended box, dashed for waste. */
export function orderBadge(
  frame: Frame,
  centre: DrawnPoint,
  order: string,
  kind: Holding['kind'],
): Item[] {
  const style = kind === 'piece' ? 'order' : 'order-waste';
  const half = orderWidth(order) / 2 - ORDER_HEIGHT / 2;
  const r = ORDER_HEIGHT / 2;
  const at = (x: number, y: number) => frame.at(centre.x + x, centre.y + y);
  const bend = { radius: r * frame.unit, left: true };
  const body: Item =
    half === 0
      ? circle(style, at(0, 0), r * frame.unit)
      : {
          kind: 'path',
          style,
          runs: [
            {
              start: at(-half, -r),
              closed: true,
              sides: [
                { ...at(half, -r), bend: null },
                { ...at(half + r, 0), bend },
                { ...at(half, r), bend },
                { ...at(-half, r), bend: null },
                { ...at(-half - r, 0), bend },
                { ...at(-half, -r), bend },
              ],
            },
          ],
        };
  const how = { style: 'text', size: 2.2, anchor: 'middle', maxWidth: 2 * (half + r) } as const;
  return [body, ...lettering(frame, centre.x, centre.y, order, how)];
}

export const SIGN_SIZE = 3.4;

/** What to do about a piece: its letter, light on a dark square. */
export function actionSign(frame: Frame, centre: DrawnPoint, action: Action): Item[] {
  if (action === 'none') return [];
  const { badge, letter } = SIGNS[action];
  const h = SIGN_SIZE / 2;
  const how = {
    style: 'text-reversed',
    size: 2.5,
    anchor: 'middle',
    maxWidth: SIGN_SIZE,
  } as const;
  return [square(badge, frame, centre, h), ...lettering(frame, centre.x, centre.y, letter, how)];
}

/** What a warning triangle warns of: that the thing may still move, or that nothing holds it. */
export type Alert = 'test' | 'stop';

export function alertOf({ verdictAfter }: Pick<Holding, 'verdictAfter'>): Alert | null {
  if (verdictAfter === 'stays') return null;
  return verdictAfter === 'moves' ? 'stop' : 'test';
}

/** A warning triangle, dark where nothing holds the thing. */
export function alertSign(frame: Frame, centre: DrawnPoint, alert: Alert): Item[] {
  const how = { style: ALERTS[alert].letter, size: 2.1, anchor: 'middle', maxWidth: 3 } as const;
  return [
    alertTriangle(frame, centre, alert),
    ...lettering(frame, centre.x, centre.y - 0.55, '!', how),
  ];
}

/** The same without its letter, where that would be too small to read. */
export function alertTriangle(frame: Frame, { x, y }: DrawnPoint, alert: Alert): Item {
  const corners = [frame.at(x - 1.9, y - 1.6), frame.at(x + 1.9, y - 1.6), frame.at(x, y + 1.7)];
  return polygon(ALERTS[alert].ground, corners);
}

const ALERTS = {
  test: { ground: 'sign-alert', letter: 'text' },
  stop: { ground: 'sign-stop', letter: 'text-reversed' },
} as const satisfies Readonly<Record<Alert, Readonly<Record<'ground' | 'letter', StyleName>>>>;

/** Letter of a matched set and the place in it, in a thin frame. */
export function setTag(frame: Frame, centre: DrawnPoint, tag: string): Item[] {
  const w = setTagWidth(tag) / 2;
  const at = (x: number, y: number) => frame.at(centre.x + x, centre.y + y);
  const how = { style: 'text-set', size: 2.2, anchor: 'middle', maxWidth: 2 * w } as const;
  return [
    {
      kind: 'path',
      style: 'tag',
      runs: [closedRun([at(-w, -1.6), at(w, -1.6), at(w, 1.6), at(-w, 1.6)])],
    },
    ...lettering(frame, centre.x, centre.y, tag, how),
  ];
}

export function setTagWidth(tag: string): number {
  return textWidth(tag, 2.2) + 1.4;
}

/** A line with a head at both ends, since grain has no forward. */
export function grainArrow(
  frame: Frame,
  centre: DrawnPoint,
  length: number,
  along: 'x' | 'y',
): Item[] {
  const h = length / 2;
  const at = (x: number, y: number) =>
    along === 'x' ? frame.at(centre.x + x, centre.y + y) : frame.at(centre.x + y, centre.y + x);
  const head = Math.min(1.3, length * 0.35);
  return [
    line('grain', at(-h + head / 2, 0), at(h - head / 2, 0)),
    polygon('grain-head', [at(-h, 0), at(-h + head, -0.5), at(-h + head, 0.5)]),
    polygon('grain-head', [at(h, 0), at(h - head, -0.5), at(h - head, 0.5)]),
  ];
}

function square(style: StyleName, frame: Frame, { x, y }: DrawnPoint, h: number): Item {
  return polygon(style, [
    frame.at(x - h, y - h),
    frame.at(x + h, y - h),
    frame.at(x + h, y + h),
    frame.at(x - h, y + h),
  ]);
}
