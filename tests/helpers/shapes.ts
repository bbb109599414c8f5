import {
  type Contour,
  circle,
  rectangle,
  reverseContour,
  type Shape,
} from '../../src/geometry/shape.ts';
import { fromMm } from '../../src/model/units.ts';

/** Shapes of parts, in mm; the lower-left corner of the box of each is the origin. */
export function rect(width: number, height: number): Shape {
  return solid(rectangle(0, 0, fromMm(width), fromMm(height)));
}

export function disc(diameter: number): Shape {
  const radius = fromMm(diameter / 2);
  return solid(circle({ x: radius, y: radius }, radius));
}

/** Straight sides through the points, counter-clockwise. */
export function polygon(...points: readonly (readonly [number, number])[]): Shape {
  return solid(points.map(([x, y]) => ({ x: fromMm(x), y: fromMm(y), via: null })));
}

/** A foot along the bottom and a leg up the left side, each `limb` wide. */
export function lShape(width: number, height: number, limb: number): Shape {
  return polygon([0, 0], [width, 0], [width, limb], [limb, limb], [limb, height], [0, height]);
}

/** A rectangle whose four corners are quarter circles. */
export function rounded(width: number, height: number, radius: number): Shape {
  const [w, h, r] = [fromMm(width), fromMm(height), fromMm(radius)];
  // Rounded towards the chord, so that the arc does not reach over the sides it touches.
  const near = r - Math.floor(r * Math.SQRT1_2);
  return solid([
    { x: r, y: 0, via: null },
    { x: w - r, y: 0, via: { x: w - near, y: near } },
    { x: w, y: r, via: null },
    { x: w, y: h - r, via: { x: w - near, y: h - near } },
    { x: w - r, y: h, via: null },
    { x: r, y: h, via: { x: near, y: h - near } },
    { x: 0, y: h - r, via: null },
    { x: 0, y: r, via: { x: near, y: near } },
  ]);
}

/** A rectangle whose top is an arc that rises by `rise` in the middle; `height` includes it. */
export function arch(width: number, height: number, rise: number): Shape {
  const [w, h, shoulder] = [fromMm(width), fromMm(height), fromMm(height) - fromMm(rise)];
  return solid([
    { x: 0, y: 0, via: null },
    { x: w, y: 0, via: null },
    { x: w, y: shoulder, via: { x: Math.round(w / 2), y: h } },
    { x: 0, y: shoulder, via: null },
  ]);
}

/** A rectangle whose bottom is hollowed by an arc, `rise` deep in the middle, between feet at both ends. */
export function hollow(width: number, height: number, foot: number, rise: number): Shape {
  const [w, h, f] = [fromMm(width), fromMm(height), fromMm(foot)];
  return solid([
    { x: 0, y: 0, via: null },
    { x: f, y: 0, via: { x: Math.round(w / 2), y: fromMm(rise) } },
    { x: w - f, y: 0, via: null },
    { x: w, y: 0, via: null },
    { x: w, y: h, via: null },
    { x: 0, y: h, via: null },
  ]);
}

/** A rectangle with a rectangular cut-out that leaves `limb` on every side. */
export function frame(width: number, height: number, limb: number): Shape {
  return cutOut(rect(width, height), rect(width - 2 * limb, height - 2 * limb), limb, limb);
}

/** The shape less another one, whose origin is put at (x, y). */
export function cutOut(shape: Shape, hole: Shape, x: number, y: number): Shape {
  return { outer: shape.outer, inner: [...shape.inner, moved(reverseContour(hole.outer), x, y)] };
}

function solid(outer: Contour): Shape {
  return { outer, inner: [] };
}

function moved(contour: Contour, x: number, y: number): Contour {
  const [dx, dy] = [fromMm(x), fromMm(y)];
  const move = (p: { readonly x: number; readonly y: number }) => ({ x: p.x + dx, y: p.y + dy });
  return contour.map((v) => ({ ...move(v), via: v.via && move(v.via) }));
}
