import { boxOf } from '../../src/geometry/box.ts';
import type { Shape } from '../../src/geometry/shape.ts';
import type { Random } from '../../src/packing/random.ts';
import { arch, cutOut, disc, hollow, polygon } from '../helpers/shapes.ts';

/** Shapes that are hard on an offset: sharp and deep corners, thin limbs, cut-outs, arcs. All sizes are in mm. */
export const ODD_SHAPES: readonly {
  readonly what: string;
  readonly make: (random: Random) => Shape;
}[] = [
  { what: 'a star', make: star },
  { what: 'a comb', make: comb },
  { what: 'a ring', make: ring },
  { what: 'a thin outline', make: thin },
  { what: 'an arch', make: (random) => arch(within(random, 80, 240), within(random, 70, 90), 40) },
  { what: 'a hollow rail', make: (random) => hollow(within(random, 90, 240), 60, 20, 25) },
];

function star(random: Random): Shape {
  const points = 4 + Math.floor(5 * random());
  const corners = Array.from({ length: 2 * points }, (_, i) => {
    const reach = i % 2 === 0 ? within(random, 60, 100) : within(random, 15, 55);
    const angle = (Math.PI * i) / points;
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });
  const { minX, minY } = boxOf(corners);
  return polygon(...corners.map(({ x, y }) => [x - minX, y - minY] as const));
}

function comb(random: Random): Shape {
  const teeth = 2 + Math.floor(4 * random());
  const [tooth, gap, back] = [within(random, 8, 25), within(random, 6, 30), within(random, 10, 30)];
  const top = back + within(random, 20, 80);
  const corners: [number, number][] = [[0, 0]];
  const width = teeth * tooth + (teeth - 1) * gap;
  corners.push([width, 0]);
  for (let k = teeth - 1; k >= 0; k--) {
    const left = k * (tooth + gap);
    corners.push([left + tooth, top], [left, top]);
    if (k > 0) corners.push([left, back], [left - gap, back]);
  }
  return polygon(...corners);
}

function ring(random: Random): Shape {
  const outer = within(random, 150, 220);
  const inner = within(random, 60, outer - 30);
  return cutOut(disc(outer), disc(inner), (outer - inner) / 2, (outer - inner) / 2);
}

function thin(random: Random): Shape {
  const [length, slant] = [within(random, 150, 300), within(random, 0, 60)];
  return polygon([0, 0], [length, slant], [length, slant + 4], [0, 4]);
}

function within(random: Random, least: number, most: number): number {
  return least + (most - least) * random();
}
