import { type Random, seededRandom } from '../../src/packing/random.ts';
import type { PartSketch, StockSketch } from './jobs.ts';

/** Sheets filled by hand, as it were: parts that are known to fit so many sheets of a stock, for bounds that must not claim more. */
export interface Scattered {
  readonly stock: StockSketch;
  readonly spacing: number;
  readonly sheets: number;
  readonly parts: readonly PartSketch[];
}

const SPACINGS = [0, 1, 7, 8, 40, 90];
/** Places tried on a sheet: with few of them, few pieces decide how large the sheet must be. */
const TRIES = [3, 6, 40];

/**
 * Pieces, and rows of equal ones as matched sets, laid at places where they are just one spacing from others in a straight line: beside them, past their corners, and before
 * the gaps of the sets. So corners come nearer than the spacing along either axis. The stock is just as large as the pieces need.
 */
export function scatteredSheets(seed: number): Scattered {
  const random = seededRandom(seed);
  const spacing = oneOf(random, SPACINGS);
  const most = { length: between(random, 120, 400), width: between(random, 120, 400) };
  const laid = Array.from({ length: between(random, 1, 3) }, () => oneSheet(random, most, spacing));
  const length = Math.max(...laid.map((sheet) => sheet.length));
  const width = Math.max(...laid.map((sheet) => sheet.width));
  const square = random() < 0.3 ? Math.max(length, width) : null;
  return {
    stock: { length: square ?? length, width: square ?? width },
    spacing,
    sheets: laid.length,
    parts: laid.flatMap(({ parts }) => parts),
  };
}

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

interface Size {
  readonly length: number;
  readonly width: number;
}

/** The parts of one sheet, and how large it must be. */
function oneSheet(random: Random, most: Size, spacing: number) {
  const laid: Rect[] = [];
  const parts: PartSketch[] = [];
  for (let n = oneOf(random, TRIES); n > 0; n--) {
    const thin = random() < 0.2;
    const w = thin ? 2 : between(random, most.length / 10, most.length / 1.5);
    const h = between(random, most.width / 10, most.width / 1.5);
    const count = !thin && random() < 0.3 ? 2 : 1;
    const last = { x: most.length - w, y: most.width - h, w, h };
    const { x, y } = place(random, laid, last, spacing);
    const pieces = Array.from({ length: count }, (_, k) => ({ x: x + k * (w + spacing), y, w, h }));
    const inside = pieces.every((a) => a.x >= 0 && a.x <= last.x && y >= 0 && y <= last.y);
    if (!inside || pieces.some((a) => laid.some((b) => tooNear(a, b, spacing)))) continue;
    laid.push(...pieces);
    // As drawn, or as drawn before a quarter turn.
    const turned = count === 1 && random() < 0.5;
    parts.push({
      width: turned ? h : w,
      height: turned ? w : h,
      count,
      turns: oneOf(random, [[turned ? 90 : 0], [0, 90]]),
      ...(count > 1 ? { matched: 'x' as const } : {}),
    });
  }
  const length = Math.max(1, ...laid.map(({ x, w }) => x + w));
  const width = Math.max(1, ...laid.map(({ y, h }) => y + h));
  return { parts, length, width };
}

/** Anywhere; or near another piece, or before the middle of the gap at its right; `last` is the place in the far corner, and the size. */
function place(random: Random, laid: readonly Rect[], last: Rect, spacing: number) {
  const other = laid[Math.floor(random() * laid.length)];
  const anywhere = { x: between(random, 0, last.x), y: between(random, 0, last.y) };
  if (other === undefined) return random() < 0.7 ? { x: 0, y: 0 } : anywhere;
  const across = between(random, 0, spacing);
  const up = rootUp(spacing * spacing - across * across);
  const half = Math.floor((spacing - last.w) / 2);
  const mouth = rootUp(spacing * spacing - half * half);
  return oneOf(random, [
    anywhere,
    { x: 0, y: other.y + other.h + spacing },
    { x: other.x + other.w + across, y: other.y + other.h + up },
    { x: other.x + other.w + across, y: other.y - last.h - up },
    { x: other.x - last.w - across, y: other.y + other.h + up },
    { x: other.x + other.w + half, y: other.y + other.h + mouth },
    { x: other.x + other.w + half, y: other.y - last.h - mouth },
  ]);
}

/** By the straight line between the two. */
function tooNear(a: Rect, b: Rect, spacing: number): boolean {
  const dx = Math.max(0, a.x - b.x - b.w, b.x - a.x - a.w);
  const dy = Math.max(0, a.y - b.y - b.h, b.y - a.y - a.h);
  const apart = a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y;
  return !apart || dx * dx + dy * dy < spacing * spacing;
}

function rootUp(square: number): number {
  return Math.ceil(Math.sqrt(Math.max(0, square)));
}

function between(random: Random, least: number, most: number): number {
  return Math.floor(least) + Math.floor(random() * (Math.floor(most) - Math.floor(least) + 1));
}

function oneOf<T>(random: Random, values: readonly T[]): T {
  return values[Math.floor(random() * values.length)] as T;
}
