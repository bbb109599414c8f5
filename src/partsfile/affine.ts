import type { FinePoint } from './arcs-from-curves.ts';

/** Carries (x, y) to (a x + c y + e, b x + d y + f). */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export function scaling(x: number, y: number): Affine {
  return { a: x, b: 0, c: 0, d: y, e: 0, f: 0 };
}

export function moving(x: number, y: number): Affine {
  return { a: 1, b: 0, c: 0, d: 1, e: x, f: y };
}

/** Counter-clockwise; exact for quarter turns. */
export function turning(degrees: number): Affine {
  const quarter = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ][(((degrees / 90) % 4) + 4) % 4];
  const angle = (degrees * Math.PI) / 180;
  const [cos = 1, sin = 0] = quarter ?? [Math.cos(angle), Math.sin(angle)];
  return { a: cos, b: sin, c: -sin, d: cos, e: 0, f: 0 };
}

/** One after the other, the last one first, as a product of matrices is written. */
export function product(...steps: readonly Affine[]): Affine {
  return steps.reduce((outer, inner) => ({
    a: outer.a * inner.a + outer.c * inner.b,
    b: outer.b * inner.a + outer.d * inner.b,
    c: outer.a * inner.c + outer.c * inner.d,
    d: outer.b * inner.c + outer.d * inner.d,
    e: outer.a * inner.e + outer.c * inner.f + outer.e,
    f: outer.b * inner.e + outer.d * inner.f + outer.f,
  }));
}

export function carry({ a, b, c, d, e, f }: Affine, { x, y }: FinePoint): FinePoint {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

/** Of a direction, which no moving changes. */
export function carryVector({ a, b, c, d }: Affine, { x, y }: FinePoint): FinePoint {
  return { x: a * x + c * y, y: b * x + d * y };
}
