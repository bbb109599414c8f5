import library, {
  type DxfParser,
  type IArcEntity,
  type ICircleEntity,
  type IEntity,
  type ILineEntity,
} from 'dxf-parser';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import { describe, expect, it } from 'vitest';
import { openDxf, readDxf } from '../../src/partsfile/dxf-drawing.ts';
import { exactAreaMm2 } from '../helpers/exact-area.ts';
import { arc, type Corner, circle, dxf, type Entity, line, sidesOf } from './dxf-text.ts';

/**
 * The same drawings by another road: the library alone, 2,000 short lines for each curve, and loops and areas as a geometry
 * library finds them.
 */

const factory = new GeometryFactory();
const Parser = library as unknown as new () => DxfParser;
const STEPS = 2000;

type Place = readonly [number, number];

function places(entity: IEntity): Place[] {
  switch (entity.type) {
    case 'LINE':
      return (entity as ILineEntity).vertices.map(({ x, y }): Place => [x, y]);
    case 'ARC': {
      const { center, radius, startAngle, endAngle } = entity as IArcEntity;
      const end = endAngle < startAngle ? endAngle + 2 * Math.PI : endAngle;
      return round([center.x, center.y], radius, startAngle, end);
    }
    case 'CIRCLE': {
      const { center, radius } = entity as ICircleEntity;
      const ring = round([center.x, center.y], radius, 0, 2 * Math.PI);
      return [...ring.slice(0, -1), ring[0]!];
    }
    default:
      throw new Error(`no ${entity.type} here`);
  }
}

function round([x, y]: Place, radius: number, from: number, to: number): Place[] {
  return Array.from({ length: STEPS + 1 }, (_, i): Place => {
    const angle = from + ((to - from) * i) / STEPS;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

/** The area of the largest loop less that of the loops in it. */
function libraryArea(text: string): number {
  const { entities } = new Parser().parseSync(text)!;
  const polygonizer = new Polygonizer();
  for (const entity of entities) {
    // Ends must be the very same for this library: they are rounded to a hundredth of a micrometre.
    const points = places(entity).map(
      ([x, y]) => new Coordinate(Math.round(x * 1e5) / 1e5, Math.round(y * 1e5) / 1e5),
    );
    polygonizer.add(factory.createLineString(points));
  }
  const polygons = polygonizer.getPolygons().toArray();
  // What lies in a hole is a polygon of its own.
  const reach = (k: number) => polygons[k].getEnvelopeInternal().getWidth();
  const widest = polygons.reduce(
    (best: number, _: unknown, k: number) => (reach(k) > reach(best) ? k : best),
    0,
  );
  return polygons[widest].getArea();
}

const ARCHED: readonly Corner[] = [
  [0, 0],
  [900, 0],
  [900, 120, 0.19],
  [0, 120],
];
const BITTEN: readonly Corner[] = [
  [0, 0],
  [300, 0],
  [300, 120, 0.4],
  [180, 200, -0.7],
  [60, 200],
  [0, 140],
];
const INSIDE: readonly Corner[] = [
  [40, 40],
  [90, 40],
  [90, 90],
  [40, 90],
];

describe('what a library and its polygonizer find', () => {
  it.each<readonly [string, readonly Entity[]]>([
    ['an arched rail', sidesOf(ARCHED)],
    [
      'with a window and holes',
      [...sidesOf(ARCHED), ...sidesOf(INSIDE), circle([200, 60], 30), circle([400, 60], 4)],
    ],
    [
      'bites and a slot',
      [
        ...sidesOf(BITTEN),
        line([60, 60], [160, 60]),
        arc([160, 70], 10, 270, 90),
        line([160, 80], [60, 80]),
        arc([60, 70], 10, 90, 270),
      ],
    ],
    ['a disc in a ring', [circle([0, 0], 200), circle([0, 0], 150.5)]],
  ])('%s', (_, entities) => {
    const text = dxf(entities);
    const opened = openDxf(text);
    if ('code' in opened) throw new Error(opened.message);
    const { shape } = readDxf(opened, null);
    if (!shape.ok) throw new Error(shape.fault.message);
    const { shape: body, holes } = shape;
    const drilled = holes.reduce((sum, { diameter }) => sum + Math.PI * (diameter / 16000) ** 2, 0);
    const inner = body.inner.reduce((sum, contour) => sum + exactAreaMm2(contour), 0);
    const area = exactAreaMm2(body.outer) + inner - drilled;
    expect(Math.abs(area / libraryArea(text) - 1)).toBeLessThan(1e-5);
  });
});
