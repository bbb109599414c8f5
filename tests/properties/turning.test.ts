import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/area.ts';
import { flattenShape, PACKING_CHORD_ERROR } from '../../src/geometry/flatten.ts';
import type { Region, Shape } from '../../src/geometry/shape.ts';
import { type Load, worstTurn } from '../../src/holding/margins.ts';
import { NO_SKIN } from '../../src/holding/skin.ts';
import { toMm } from '../../src/model/units.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { isInRing } from '../helpers/in-ring.ts';
import { lShape, polygon, rect } from '../helpers/shapes.ts';
import { borderedBody } from '../holding/jobs.ts';
import { ODD_SHAPES } from './odd-shapes.ts';

const SHAPES: readonly { readonly what: string; readonly make: (random: Random) => Shape }[] = [
  ...ODD_SHAPES,
  { what: 'a rectangle', make: (random) => rect(50 + 400 * random(), 30 + 100 * random()) },
  {
    what: 'a triangle',
    make: (random) => polygon([0, 0], [100 + 200 * random(), 0], [300 * random(), 60]),
  },
  { what: 'an L', make: (random) => lShape(150 + 200 * random(), 120 + 200 * random(), 40) },
];

/** The sharp cutter's push at full chip, and one more along the cut than across it. */
const PUSHES = [
  { deg: 0, acrossN: 100, alongN: 30 },
  { deg: 40, acrossN: 60, alongN: 80 },
];
const LOAD: Load = { resultantN: 105, pushes: PUSHES, liftN: 0, heightMm: 9 };

describe('the margin against turning', () => {
  it.each(SHAPES)(
    'of $what is that of a plain search over points to turn about, corners and pushes',
    ({ make }) => {
      const random = seededRandom(8);
      // Nine kinds of outline make more than two hundred.
      for (let trial = 0; trial < 23; trial++) {
        const region: Region = flattenShape(make(random), 'curve', PACKING_CHORD_ERROR);
        const found = worstTurn(
          borderedBody(region, 0),
          { frictionN: 100, skin: NO_SKIN },
          LOAD,
        ).margin;
        // The plain search adds up 1,500 points in place of an integral.
        expect(Math.abs(found / plainMargin(region, 100) - 1)).toBeLessThan(0.025);
      }
    },
  );
});

interface Vector {
  readonly x: number;
  readonly y: number;
}

/** The least over all corners, pushes and points of a grid that is made finer round its best point, in mm and N. */
function plainMargin(region: Region, frictionN: number): number {
  const points = gridPoints(region);
  const middle = {
    x: points.reduce((sum, { x }) => sum + x, 0) / points.length,
    y: points.reduce((sum, { y }) => sum + y, 0) / points.length,
  };
  const meanTo = (at: Vector): number =>
    points.reduce((sum, { x, y }) => sum + Math.hypot(x - at.x, y - at.y), 0) / points.length;
  const pushes = pushesAtCorners(region);
  let least = frictionN / Math.max(...pushes.map(({ force }) => Math.hypot(force.x, force.y)));
  let centre = middle;
  for (let reach = 8 * meanTo(middle); reach > 0.01 * meanTo(middle); reach /= 3) {
    const around = centre;
    for (let i = -4; i <= 4; i++)
      for (let k = -4; k <= 4; k++) {
        const at = { x: around.x + (i * reach) / 4, y: around.y + (k * reach) / 4 };
        const moment = pushes.reduce(
          (most, { corner, force }) =>
            Math.max(most, Math.abs((corner.x - at.x) * force.y - (corner.y - at.y) * force.x)),
          0,
        );
        const margin = (frictionN * meanTo(at)) / moment;
        if (margin < least) [least, centre] = [margin, at];
      }
  }
  return least;
}

/** Points in the middles of small squares that lie inside. */
function gridPoints({ outer, holes }: Region): Vector[] {
  const rings = [outer, ...holes].map((ring) =>
    ring.map(({ x, y }) => ({ x: toMm(x), y: toMm(y) })),
  );
  const area = [outer, ...holes].reduce((sum, ring) => sum + ringArea(ring), 0);
  const step = Math.sqrt(toMm(toMm(area)) / 1500);
  const xs = rings[0]!.map(({ x }) => x);
  const ys = rings[0]!.map(({ y }) => y);
  const points: Vector[] = [];
  for (let x = Math.min(...xs) + step / 2; x < Math.max(...xs); x += step)
    for (let y = Math.min(...ys) + step / 2; y < Math.max(...ys); y += step)
      if (rings.filter((ring) => isInRing({ x, y }, ring)).length === 1) points.push({ x, y });
  return points;
}

/** At each corner along both sides that meet there, in all senses. */
function pushesAtCorners({ outer }: Region): { corner: Vector; force: Vector }[] {
  return outer.flatMap((a, i) => {
    const b = outer[(i + 1) % outer.length]!;
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length];
    return [a, b].flatMap((end) =>
      PUSHES.flatMap(({ acrossN, alongN }) =>
        [alongN, -alongN].map((along) => ({
          corner: { x: toMm(end.x), y: toMm(end.y) },
          force: { x: along * ux - acrossN * uy, y: along * uy + acrossN * ux },
        })),
      ),
    );
  });
}
