/** Small DXF texts: each function gives the groups of one entity, one code or value a line. */

export type Group = readonly [code: number, value: number | string];
export type Entity = readonly Group[];
/** A corner with the bulge of the side after it. */
export type Corner = readonly [x: number, y: number, bulge?: number];

export interface DxfOptions {
  /** The number of the unit in the header, 4 for mm; null for a header without it. */
  readonly units?: number | null;
  readonly blocks?: readonly Entity[];
  /** Layers of the table: their names, flags (1 frozen) and colour (negative where off). */
  readonly layers?: readonly (readonly [name: string, flags: number, colour: number])[];
}

export function dxf(
  entities: readonly Entity[],
  { units = 4, blocks = [], layers = [] }: DxfOptions = {},
): string {
  const groups: Group[] = [
    ...section(
      'HEADER',
      units === null
        ? []
        : [
            [9, '$INSUNITS'],
            [70, units],
          ],
    ),
    ...section('TABLES', [
      [0, 'TABLE'],
      [2, 'LAYER'],
      [70, layers.length],
      ...layers.flatMap(([name, flags, colour]): Group[] => [
        [0, 'LAYER'],
        [2, name],
        [70, flags],
        [62, colour],
        [6, 'CONTINUOUS'],
      ]),
      [0, 'ENDTAB'],
    ]),
    ...section('BLOCKS', blocks.flat()),
    ...section('ENTITIES', entities.flat()),
    [0, 'EOF'],
  ];
  return groups.map(([code, value]) => `${code}\n${value}\n`).join('');
}

function section(name: string, groups: readonly Group[]): Group[] {
  return [[0, 'SECTION'], [2, name], ...groups, [0, 'ENDSEC']];
}

const DOWN: readonly Group[] = [
  [210, 0],
  [220, 0],
  [230, -1],
];

/** The same entity, seen from below: x is counted the other way. */
export function fromBelow(entity: Entity): Entity {
  return [...entity, ...DOWN];
}

export function line([x1, y1]: Corner, [x2, y2]: Corner, layer = '0'): Entity {
  return [
    [0, 'LINE'],
    [8, layer],
    [10, x1],
    [20, y1],
    [30, 0],
    [11, x2],
    [21, y2],
    [31, 0],
  ];
}

/** Counter-clockwise between two angles in degrees. */
export function arc([x, y]: Corner, radius: number, from: number, to: number, layer = '0'): Entity {
  return [
    [0, 'ARC'],
    [8, layer],
    [10, x],
    [20, y],
    [40, radius],
    [50, from],
    [51, to],
  ];
}

export function circle([x, y]: Corner, radius: number, layer = '0'): Entity {
  return [
    [0, 'CIRCLE'],
    [8, layer],
    [10, x],
    [20, y],
    [40, radius],
  ];
}

export function closed(corners: readonly Corner[], layer = '0'): Entity {
  return lightPolyline(corners, true, layer);
}

export function lightPolyline(corners: readonly Corner[], isClosed: boolean, layer = '0'): Entity {
  return [
    [0, 'LWPOLYLINE'],
    [100, 'AcDbPolyline'],
    [8, layer],
    [90, corners.length],
    [70, isClosed ? 1 : 0],
    [43, 0],
    ...corners.flatMap(([x, y, bulge = 0]): Group[] => [
      [10, x],
      [20, y],
      [42, bulge],
      [91, 0],
    ]),
  ];
}

/** As drawings were written before there were light ones. */
export function oldPolyline(corners: readonly Corner[], isClosed: boolean, layer = '0'): Entity {
  return [
    [0, 'POLYLINE'],
    [8, layer],
    [66, 1],
    [10, 0],
    [20, 0],
    [70, isClosed ? 1 : 0],
    ...corners.flatMap(([x, y, bulge = 0]): Group[] => [
      [0, 'VERTEX'],
      [8, layer],
      [10, x],
      [20, y],
      [42, bulge],
    ]),
    [0, 'SEQEND'],
    [8, layer],
  ];
}

/** `axis` leads from the centre to the end of the long axis; angles in radians on the circle that it is the image of. */
export function ellipse(
  [x, y]: Corner,
  axis: Corner,
  ratio: number,
  from = 0,
  to = 2 * Math.PI,
  layer = '0',
): Entity {
  return [
    [0, 'ELLIPSE'],
    [8, layer],
    [10, x],
    [20, y],
    [11, axis[0]],
    [21, axis[1]],
    [40, ratio],
    [41, from],
    [42, to],
  ];
}

export interface SplineText {
  readonly degree: number;
  readonly knots: readonly number[];
  readonly controls: readonly Corner[];
  readonly weights?: readonly number[];
}

export function spline({ degree, knots, controls, weights = [] }: SplineText, layer = '0'): Entity {
  return [
    [0, 'SPLINE'],
    [8, layer],
    [70, weights.length === 0 ? 8 : 12],
    [71, degree],
    [72, knots.length],
    [73, controls.length],
    [74, 0],
    ...knots.map((knot): Group => [40, knot]),
    ...controls.flatMap(([x, y], i): Group[] => {
      const weight = weights[i];
      return [[10, x], [20, y], [30, 0], ...(weight === undefined ? [] : [[41, weight] as const])];
    }),
  ];
}

export interface InsertText {
  readonly scale?: readonly [number, number];
  readonly turn?: number;
  readonly columns?: readonly [count: number, spacing: number];
  readonly rows?: readonly [count: number, spacing: number];
}

export function insert(
  name: string,
  [x, y]: Corner,
  { scale, turn, columns, rows }: InsertText = {},
  layer = '0',
): Entity {
  return [
    [0, 'INSERT'],
    [8, layer],
    [2, name],
    [10, x],
    [20, y],
    ...(scale === undefined
      ? []
      : ([
          [41, scale[0]],
          [42, scale[1]],
        ] as const)),
    ...(turn === undefined ? [] : ([[50, turn]] as const)),
    ...(columns === undefined
      ? []
      : ([
          [70, columns[0]],
          [44, columns[1]],
        ] as const)),
    ...(rows === undefined
      ? []
      : ([
          [71, rows[0]],
          [45, rows[1]],
        ] as const)),
  ];
}

export function block(name: string, [x, y]: Corner, entities: readonly Entity[]): Entity {
  return [
    [0, 'BLOCK'],
    [8, '0'],
    [2, name],
    [70, 0],
    [10, x],
    [20, y],
    [30, 0],
    [3, name],
    ...entities.flat(),
    [0, 'ENDBLK'],
    [8, '0'],
  ];
}

/** The sides of a closed run of corners, each an entity of its own: lines, and arcs by centre and angles. */
export function sidesOf(corners: readonly Corner[], layer = '0'): Entity[] {
  return corners.map((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    const [, , bulge = 0] = from;
    if (bulge === 0) return line(from, to, layer);
    const { centre, radius, start, end } = bulgeArc(from, to, bulge);
    return arc(centre, radius, start, end, layer);
  });
}

/** The other way round, or every second side only. */
export function reversed(corners: readonly Corner[]): Corner[] {
  return corners.map((_, i) => {
    const k = corners.length - 1 - i;
    const [x, y] = corners[k]!;
    const [, , bulge = 0] = corners[(k + corners.length - 1) % corners.length]!;
    return [x, y, -bulge];
  });
}

/** Centre, radius and the two angles, counter-clockwise, of the arc over a side. */
function bulgeArc([x1, y1]: Corner, [x2, y2]: Corner, bulge: number) {
  const sweep = 4 * Math.atan(bulge);
  const chord = Math.hypot(x2 - x1, y2 - y1);
  const radius = Math.abs(chord / (2 * Math.sin(sweep / 2)));
  const toCentre = chord / 2 / Math.tan(sweep / 2);
  const centre: Corner = [
    (x1 + x2) / 2 - ((y2 - y1) / chord) * toCentre,
    (y1 + y2) / 2 + ((x2 - x1) / chord) * toCentre,
  ];
  const angle = ([x, y]: Corner) => (Math.atan2(y - centre[1], x - centre[0]) * 180) / Math.PI;
  const [a, b] = [angle([x1, y1]), angle([x2, y2])];
  return { centre, radius, start: bulge > 0 ? a : b, end: bulge > 0 ? b : a };
}

/** By the shoelace formula, and half r² (angle less its sine) for each arc. */
export function areaOf(corners: readonly Corner[]): number {
  return corners.reduce((sum, [x1, y1, bulge = 0], i) => {
    const [x2, y2] = corners[(i + 1) % corners.length]!;
    const sweep = 4 * Math.atan(bulge);
    const radius = bulge === 0 ? 0 : Math.hypot(x2 - x1, y2 - y1) / (2 * Math.sin(sweep / 2));
    return sum + (x1 * y2 - x2 * y1) / 2 + (radius * radius * (sweep - Math.sin(sweep))) / 2;
  }, 0);
}
