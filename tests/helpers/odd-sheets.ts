import fc from 'fast-check';

/** Corners in whole millimetres, counter-clockwise, the box at the origin. */
export type Corners = readonly (readonly [number, number])[];

export interface OddSheet {
  readonly length: number;
  readonly width: number;
  readonly boundary: Corners;
}

/** Simple polygons of 3 to 9 corners that wind once round a middle, some of them with deep notches, sides between 300 and 1200 mm. */
export function oddSheets(): fc.Arbitrary<OddSheet> {
  return fc
    .array(
      fc.record({ along: fc.integer({ min: 1, max: 10 }), out: fc.integer({ min: 3, max: 10 }) }),
      {
        minLength: 3,
        maxLength: 9,
      },
    )
    .chain((rays) =>
      fc.record({
        rays: fc.constant(rays),
        length: fc.integer({ min: 300, max: 1200 }),
        width: fc.integer({ min: 300, max: 1200 }),
      }),
    )
    .map(({ rays, length, width }) => fitted(starOf(rays), length, width))
    .filter(({ boundary }) => windsOnce(boundary));
}

/** Offcuts with one rectangular notch out of a corner. */
export const LEG = sheetOfCorners([
  [0, 0],
  [600, 0],
  [600, 200],
  [200, 200],
  [200, 500],
  [0, 500],
]);

/** The slanted side is a line 3 x + 4 y = 2400. */
export const TRIANGLE = sheetOfCorners([
  [0, 0],
  [800, 0],
  [0, 600],
]);

/** A slot of 3 mm from above, narrower than most spacings. */
export const SLOTTED = sheetOfCorners([
  [0, 0],
  [403, 0],
  [403, 300],
  [203, 300],
  [203, 50],
  [200, 50],
  [200, 300],
  [0, 300],
]);

export function sheetOfCorners(boundary: Corners): OddSheet {
  return {
    length: Math.max(...boundary.map(([x]) => x)),
    width: Math.max(...boundary.map(([, y]) => y)),
    boundary,
  };
}

interface Ray {
  readonly along: number;
  readonly out: number;
}

function starOf(rays: readonly Ray[]): Corners {
  const whole = rays.reduce((sum, { along }) => sum + along, 0);
  let gone = 0;
  return rays.map(({ along, out }) => {
    gone += along;
    const angle = (2 * Math.PI * gone) / whole;
    return [out * Math.cos(angle), out * Math.sin(angle)];
  });
}

function fitted(corners: Corners, length: number, width: number): OddSheet {
  const [lowX, lowY] = [0, 1].map((i) => Math.min(...corners.map((c) => c[i] as number)));
  const [highX, highY] = [0, 1].map((i) => Math.max(...corners.map((c) => c[i] as number)));
  const put = (value: number, low = 0, high = 0, size = 0) =>
    Math.round(((value - low) / (high - low)) * size);
  const boundary = corners.map(
    ([x, y]) => [put(x, lowX, highX, length), put(y, lowY, highY, width)] as const,
  );
  return { length, width, boundary };
}

/** Whether no two sides but neighbours come within half a millimetre, and no corner folds back: by brute force, in plain numbers. */
function windsOnce(corners: Corners): boolean {
  const n = corners.length;
  const cross = (i: number, j: number, k: number) => {
    const [[ax, ay], [bx, by], [cx, cy]] = [i, j, k].map((m) => corners[m % n]!) as [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ];
    return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  };
  for (let i = 0; i < n; i++) {
    if (cross(i, i + 1, i + 2) === 0) return false;
    for (let j = i + 2; j < n; j++) {
      if ((j + 1) % n === i) continue;
      const apart =
        cross(i, i + 1, j) * cross(i, i + 1, j + 1) > 0 ||
        cross(j, j + 1, i) * cross(j, j + 1, i + 1) > 0;
      if (!apart) return false;
    }
  }
  return (
    corners.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = corners[(i + 1) % n]!;
      return sum + x * nextY - nextX * y;
    }, 0) > 0
  );
}
