import { ringArea } from '../../geometry/area.ts';
import type { Box } from '../../geometry/box.ts';
import { orientation, type Point } from '../../geometry/point.ts';
import type { Ring } from '../../geometry/shape.ts';
import type { Form } from './forms.ts';

/** Circles inside a form, the largest first: x, y and radius of each. */
export type Circles = Float64Array;

const CIRCLE = 3;

/** No more circles than this, none when so much of the area is covered, and none smaller than this share of the first one. */
const MOST_CIRCLES = 8;
const ENOUGH_COVERED = 0.88;
const LEAST_RADIUS = 0.02;

/** Lines of points each way among which a circle's centre is looked for first, and how finely it is then moved, as shares of the longer side. */
const LINES = 24;
const FINEST_MOVE = 1 / 2000;

/** Units of work that a point of the grid costs for each side and circle. */
const POINT_WORK = 2;

/** The ways in which a centre is moved. */
const MOVES = [1, 0, -1, 0, 0, 1, 0, -1, 1, 1, 1, -1, -1, 1, -1, -1];

/**
 * Circles that fill a form without overlap: a coarse picture of it that says how deep two forms overlap.
 *
 * Idea: again and again the point furthest from the border and from all circles so far becomes the next centre: the best of a grid of points, moved
 * by ever smaller steps while that helps.
 * Source: Garcia-Castellanos & Lombardo 2007, "Poles of inaccessibility: a calculation algorithm for the remotest places on Earth", Scottish
 * Geographical Journal 123(3); several of them for one outline as in Gardeyn, Vanden Berghe & Wauters 2025, "An open-source heuristic to
 * reboot 2D nesting research".
 * Cost: points of the grid times sides, once for each form; `spend` is told of it.
 * Degenerate cases: parts that overlap instead of touching have borders inside the form, and so smaller circles, which is no harm: circles never
 * decide whether forms overlap.
 */
export function inscribedCircles({ parts, reach }: Form, spend: (work: number) => void): Circles {
  const borders = bordersOf(parts);
  const points = pointsIn(parts, borders, reach);
  spend(POINT_WORK * (borders.length + MOST_CIRCLES) * LINES * LINES);
  const area = parts.reduce((sum, ring) => sum + ringArea(ring), 0);
  const circles: number[] = [];
  let covered = 0;
  while (circles.length < CIRCLE * MOST_CIRCLES && covered < ENOUGH_COVERED * area) {
    const start = furthestOf(points, circles);
    if (start === null) break;
    const circle = movedInward(start, { parts, borders, circles, reach });
    if (circle.radius < LEAST_RADIUS * (circles[2] ?? 0)) break;
    circles.push(circle.x, circle.y, circle.radius);
    covered += Math.PI * circle.radius * circle.radius;
  }
  return Float64Array.from(circles);
}

/**
 * How deep the circles of two forms overlap, (x, y) being the first one's origin seen from the second one's: a sum over all pairs of circles of the
 * depth times the smaller radius, an area. It never vanishes: below a depth of `tail` a pair counts by a tail that falls off with the distance.
 * The sum is given up, and then not less than `bound`, once it reaches that.
 * Source: the overlap proxy of Gardeyn, Vanden Berghe & Wauters 2025 (see above).
 */
export function circlesOverlap(
  first: Circles,
  second: Circles,
  x: number,
  y: number,
  tail: number,
  bound: number,
): number {
  let sum = 0;
  for (let i = 0; i < first.length; i += CIRCLE) {
    const centreX = (first[i] as number) + x;
    const centreY = (first[i + 1] as number) + y;
    const radius = first[i + 2] as number;
    for (let j = 0; j < second.length; j += CIRCLE) {
      const dx = centreX - (second[j] as number);
      const dy = centreY - (second[j + 1] as number);
      const other = second[j + 2] as number;
      const depth = radius + other - Math.sqrt(dx * dx + dy * dy);
      const counted = depth > tail ? depth : (tail * tail) / (2 * tail - depth);
      sum += counted * Math.min(radius, other);
    }
    if (sum >= bound) break;
  }
  return sum;
}

interface Circle extends Point {
  readonly radius: number;
}

interface Inside {
  readonly parts: readonly Ring[];
  readonly borders: readonly Side[];
  readonly circles: readonly number[];
  readonly reach: Box;
}

type Side = readonly [Point, Point];

/** The stretches of the sides of the parts that no side of another part lies along from behind. */
function bordersOf(parts: readonly Ring[]): Side[] {
  const sides = parts.flatMap(sidesOf);
  return sides.flatMap((side) => {
    const covered = sides.flatMap((other) => stretchAlong(side, other));
    covered.sort((one, other) => one[0] - other[0]);
    const free: Side[] = [];
    let from = 0;
    for (const [start, end] of [...covered, [1, 1] as const]) {
      if (start > from) free.push([pointAt(side, from), pointAt(side, start)]);
      from = Math.max(from, end);
    }
    return free;
  });
}

/** Where on a side, from 0 to 1, another one runs along it the other way; as a list of one stretch or none. */
function stretchAlong([a, b]: Side, [c, d]: Side): (readonly [number, number])[] {
  if (orientation(a, b, c) !== 0 || orientation(a, b, d) !== 0) return [];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const shareOf = (p: Point) => ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy);
  const [start, end] = [Math.max(0, shareOf(d)), Math.min(1, shareOf(c))];
  return start < end ? [[start, end]] : [];
}

function pointAt([a, b]: Side, share: number): Point {
  return { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
}

function sidesOf(ring: Ring): Side[] {
  return ring.map((point, i) => [point, ring[(i + 1) % ring.length] as Point]);
}

function isIn(parts: readonly Ring[], { x, y }: Point): boolean {
  return parts.some((ring) =>
    sidesOf(ring).every(([a, b]) => (b.x - a.x) * (y - a.y) >= (b.y - a.y) * (x - a.x)),
  );
}

/** The points of a grid that lie inside, each with its distance to the border. */
function pointsIn(
  parts: readonly Ring[],
  borders: readonly Side[],
  { minX, minY, maxX, maxY }: Box,
): Circle[] {
  const points: Circle[] = [];
  for (let i = 0; i < LINES; i++)
    for (let j = 0; j < LINES; j++) {
      const x = minX + ((i + 0.5) / LINES) * (maxX - minX);
      const y = minY + ((j + 0.5) / LINES) * (maxY - minY);
      if (isIn(parts, { x, y })) points.push({ x, y, radius: toBorder(borders, x, y) });
    }
  return points;
}

function toBorder(borders: readonly Side[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [a, b] of borders) {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const along = ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy);
    const share = Math.max(0, Math.min(1, along));
    const [awayX, awayY] = [x - a.x - share * dx, y - a.y - share * dy];
    least = Math.min(least, awayX * awayX + awayY * awayY);
  }
  return Math.sqrt(least);
}

function furthestOf(points: readonly Circle[], circles: readonly number[]): Circle | null {
  let best: Circle | null = null;
  for (const { x, y, radius } of points) {
    const free = Math.min(radius, toCircles(circles, x, y));
    if (free > (best?.radius ?? 0)) best = { x, y, radius: free };
  }
  return best;
}

function toCircles(circles: readonly number[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < circles.length; i += CIRCLE) {
    const [dx, dy] = [x - (circles[i] as number), y - (circles[i + 1] as number)];
    least = Math.min(least, Math.sqrt(dx * dx + dy * dy) - (circles[i + 2] as number));
  }
  return least;
}

function movedInward(start: Circle, { parts, borders, circles, reach }: Inside): Circle {
  const side = Math.max(reach.maxX - reach.minX, reach.maxY - reach.minY);
  let best = start;
  for (let step = side / LINES; step > side * FINEST_MOVE; ) {
    let moved = false;
    for (let m = 0; m < MOVES.length; m += 2) {
      const x = best.x + step * (MOVES[m] as number);
      const y = best.y + step * (MOVES[m + 1] as number);
      if (!isIn(parts, { x, y })) continue;
      const radius = Math.min(toBorder(borders, x, y), toCircles(circles, x, y));
      if (radius <= best.radius) continue;
      best = { x, y, radius };
      moved = true;
    }
    if (!moved) step /= 2;
  }
  return best;
}
