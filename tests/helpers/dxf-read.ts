import * as parserModule from 'dxf-parser';

export interface ReadCorner {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

export type ReadEntity =
  | {
      readonly kind: 'run';
      readonly layer: string;
      readonly closed: boolean;
      readonly corners: readonly ReadCorner[];
    }
  | {
      readonly kind: 'circle';
      readonly layer: string;
      readonly x: number;
      readonly y: number;
      readonly radius: number;
    }
  | {
      readonly kind: 'line';
      readonly layer: string;
      readonly ends: readonly (readonly [number, number])[];
    }
  | { readonly kind: 'text'; readonly layer: string; readonly text: string };

export interface ReadDxf {
  readonly header: Readonly<Record<string, unknown>>;
  readonly layers: readonly string[];
  readonly entities: readonly ReadEntity[];
}

interface RawEntity {
  readonly type: string;
  readonly layer: string;
  readonly shape?: boolean;
  readonly vertices: readonly { x: number; y: number; bulge?: number }[];
  readonly center: { x: number; y: number };
  readonly radius: number;
  readonly text: string;
}

/** A DXF file as a library sees it. */
export function readDxf(text: string): ReadDxf {
  const dxf = new Parser().parseSync(text) as {
    header: Record<string, unknown>;
    tables: { layer: { layers: Record<string, unknown> } };
    entities: readonly RawEntity[];
  };
  return {
    header: dxf.header,
    layers: Object.keys(dxf.tables.layer.layers),
    entities: dxf.entities.map(readEntity),
  };
}

/** The library comes in one wrapping more or less, by how it is loaded. */
const Parser = (() => {
  const { default: outer } = parserModule as unknown as { default: { default?: unknown } };
  return (outer.default ?? outer) as new () => { parseSync(text: string): unknown };
})();

function readEntity(raw: RawEntity): ReadEntity {
  const { layer } = raw;
  switch (raw.type) {
    case 'POLYLINE':
      return {
        kind: 'run',
        layer,
        closed: raw.shape === true,
        corners: raw.vertices.map(({ x, y, bulge }) => ({ x, y, bulge: bulge ?? 0 })),
      };
    case 'CIRCLE':
      return { kind: 'circle', layer, ...raw.center, radius: raw.radius };
    case 'LINE':
      return { kind: 'line', layer, ends: raw.vertices.map(({ x, y }) => [x, y] as const) };
    case 'TEXT':
      return { kind: 'text', layer, text: raw.text };
    default:
      throw new Error(`a ${raw.type} was not written`);
  }
}

/**
 * Signed area of a closed run or a circle, exactly: the polygon of its corners, and for each arc the segment over its chord,
 * r²/2 (sweep − sin sweep), school geometry.
 */
export function areaOf(entity: ReadEntity): number {
  if (entity.kind === 'circle') return Math.PI * entity.radius ** 2;
  if (entity.kind !== 'run') return 0;
  return sidesOf(entity).reduce((sum, { from, to }) => {
    const triangle = (from.x * to.y - to.x * from.y) / 2;
    if (from.bulge === 0) return sum + triangle;
    const sweep = 4 * Math.atan(from.bulge);
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    const radius = chord / (2 * Math.sin(sweep / 2));
    return sum + triangle + (radius ** 2 / 2) * (sweep - Math.sin(sweep));
  }, 0);
}

export function lengthOf(entity: ReadEntity): number {
  if (entity.kind === 'circle') return 2 * Math.PI * entity.radius;
  if (entity.kind !== 'run') return 0;
  return sidesOf(entity).reduce((sum, { from, to }) => {
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    const half = Math.abs(2 * Math.atan(from.bulge));
    return sum + (half === 0 ? chord : (chord * half) / Math.sin(half));
  }, 0);
}

function sidesOf({ corners, closed }: Extract<ReadEntity, { kind: 'run' }>) {
  const ends = corners.map((from, i) => ({ from, to: corners[(i + 1) % corners.length]! }));
  return closed ? ends : ends.slice(0, -1);
}
