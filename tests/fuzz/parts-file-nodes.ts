import { readingsFileSchema } from '../../src/partsfile/readings-schema.ts';
import { partsFileSchema } from '../../src/partsfile/schema.ts';
import { rackFileSchema } from '../../src/rack/schema.ts';
import type { Draw } from './draw.ts';
import { type Schema, schemaNode, type Taste } from './schema-nodes.ts';
import { type Node, type NodeMap, yamlText } from './yaml-text.ts';

const PARTS_FILE = partsFileSchema() as Schema;
const RACK = rackFileSchema() as Schema;
const READINGS = readingsFileSchema() as Schema;

/** The text of a parts file by its form. */
export function drawnPartsFile(draw: Draw): string {
  const taste = tasteOf(draw);
  const root = schemaNode(PARTS_FILE, '', draw, { ...taste, odd: 0, keys: 0 }) as NodeMap;
  const more = Object.entries(PARTS_FILE.properties ?? {}).flatMap(
    ([key, schema]): [string, Node][] =>
      key in root || !draw.chance(taste.keys) ? [] : [[key, schemaNode(schema, key, draw, taste)]],
  );
  const materials = withStock(
    schemaNode(PARTS_FILE.properties!['materials']!, 'materials', draw, taste),
    draw,
    taste,
  );
  const parts = draw.list(1, 4, (i) => partNode(i, draw, taste));
  return yamlText({ ...root, materials, parts, ...Object.fromEntries(more) }, draw);
}

export function drawnRack(draw: Draw): string {
  return yamlText(
    schemaNode(RACK, '', draw, { ...tasteOf(draw), value: rackValue }) as NodeMap,
    draw,
  );
}

export function drawnReadings(draw: Draw): string {
  const taste = tasteOf(draw);
  const readings = draw.list(1, 5, () => readingNode(draw, taste));
  const table = draw.chance(0.7)
    ? { table: schemaNode(READINGS.properties!['table']!, 'table', draw, taste) }
    : {};
  return yamlText({ unit: draw.pick(['mm', 'mm', 'in']), ...table, readings }, draw);
}

/** Some files are without a flaw, some have one here and there, few are full of them. */
function tasteOf(draw: Draw): Taste {
  return {
    keys: draw.pick([0, 0.1, 0.3]),
    odd: draw.weighed([
      [4, 0],
      [4, 0.01],
      [2, 0.05],
      [1, 0.3],
    ]),
    value: usualValue,
  };
}

/** Stock has a family and a size, which a form alone does not say. */
function withStock(materials: Node, draw: Draw, taste: Taste): Node {
  if (typeof materials === 'string') return materials;
  const sheet = (node: Node): Node => {
    if (typeof node === 'string' || Array.isArray(node) || draw.chance(taste.odd)) return node;
    const { size: _, points: __, ...rest } = node as NodeMap;
    return { ...rest, size: lengthPair(draw, 1200, 2500) };
  };
  return Object.fromEntries(
    Object.entries(materials).map(([key, node]): [string, Node] => {
      if (typeof node === 'string' || Array.isArray(node) || draw.chance(taste.odd))
        return [key, node];
      const { sheets = [{}], family = 'plywood', lumber, boards, ...rest } = node as NodeMap;
      if (lumber !== undefined && draw.chance(0.3)) return [key, { ...rest, family, lumber }];
      return [
        key,
        {
          ...rest,
          ...(boards === undefined ? {} : { boards }),
          family,
          sheets: Array.isArray(sheets) ? sheets.map(sheet) : sheets,
        },
      ];
    }),
  );
}

const OUTLINE_KEYS = [
  ...['size', 'length', 'outline', 'drawing-unit', 'path', 'points', 'shape', 'diameter', 'radius'],
  ...['matched', 'run', 'oversize'],
];

/** A part has one outline, which a form alone does not say. */
function partNode(index: number, draw: Draw, taste: Taste): Node {
  const schema = ((PARTS_FILE.properties!['parts'] as Schema).items as Schema) ?? {};
  const node = schemaNode(schema, 'part', draw, taste);
  if (typeof node === 'string' || Array.isArray(node) || draw.chance(taste.odd)) return node;
  const entries = Object.entries(node);
  const rest = Object.fromEntries(entries.filter(([key]) => !OUTLINE_KEYS.includes(key)));
  const kept = Object.fromEntries(entries.filter(([key]) => OUTLINE_KEYS.includes(key)));
  const own = draw.weighed<() => NodeMap>([
    [8, () => ({ size: lengthPair(draw, 150, 700) })],
    [2, () => ({ path: draw.pick(PATHS) })],
    [1, () => ({ points: draw.pick(POINTS) })],
    [1, () => ({ shape: 'disc', diameter: String(draw.between(20, 400)) })],
    [
      1,
      () => ({
        shape: 'rounded',
        size: lengthPair(draw, 150, 500),
        radius: String(draw.between(1, 70)),
      }),
    ],
    [1, () => ({ matched: [lengthPair(draw, 200, 200), lengthPair(draw, 200, 200)] })],
    [
      2,
      () => ({
        outline: draw.pick([
          'a.svg',
          'a.dxf',
          'a.svg#p',
          'a.dxf#CUT',
          'lost.svg',
          'sub/b.svg',
          '../c.dxf',
        ]),
      }),
    ],
    [1, () => ({ length: String(draw.between(50, 3000)) })],
    [1, () => kept],
  ])();
  const name = draw.chance(0.95) ? { name: `P${index}` } : {};
  return { ...rest, ...name, ...own };
}

function readingNode(draw: Draw, taste: Taste): Node {
  const vacuum = `${draw.between(1, 30)}${draw.pick(['', ' kPa', '.5', ' mbar', ' inHg'])}`;
  const kind = draw.pick(['bare', 'covered', 'kerf', 'hole', 'tilt', 'pull', '']);
  const sheet = { sheet: draw.pick(['2440 x 1220', '1220 x 1220']) };
  const kinds: Readonly<Record<string, NodeMap>> = {
    bare: { vacuum, ...(draw.chance(0.3) ? { throttle: String(draw.between(5, 60)) } : {}) },
    covered: { vacuum, ...sheet },
    kerf: { vacuum, ...sheet, length: `${draw.between(1, 60)} m`, width: '6' },
    hole: { vacuum, diameter: String(draw.between(5, 60)) },
    tilt: { angle: String(draw.between(1, 60)) },
    pull: { square: String(draw.between(50, 400)), vacuum, force: `${draw.between(1, 900)} N` },
  };
  if (kind === '' || draw.chance(taste.odd))
    return schemaNode(
      (READINGS.properties!['readings'] as Schema).items as Schema,
      'reading',
      draw,
      taste,
    );
  return { kind, ...kinds[kind]! };
}

const PATHS = [
  'M0 0 H420 V400 H330 A120 120 0 0 0 90 400 H0 Z',
  'M0 0 H10 V3.1 A12 12 0 0 0 0 6 Z',
  'M0 0 L300 0 300 200 C200 250 100 150 0 200 Z',
  'm10,10 h200 q40 60 0 120 t-100 0 s-50-20-100 0 z',
  'M0 0 H100 V100 H0 Z M20 20 H60 V60 H20 Z',
  'M0 0 L100 100 L100 0 L0 100 Z',
  'M0 0 H100',
];

const POINTS: readonly Node[] = [
  [
    ['0', '0'],
    ['600', '0'],
    ['0', '400'],
  ],
  [
    ['0', '0'],
    ['300', '0'],
    ['300', '100'],
    ['100', '100'],
    ['100', '300'],
    ['0', '300'],
  ],
  [
    ['0', '0'],
    ['100', '100'],
    ['100', '0'],
    ['0', '100'],
  ],
  [
    ['0', '0'],
    ['1', '0'],
  ],
];

function lengthPair(draw: Draw, least: number, most: number): Node {
  const [a, b] = [draw.between(least, most), draw.between(least, most)];
  return draw.pick([`${a} x ${b}`, [String(a), String(b)], `${a}x${b}`, `${a}mm x ${b}.5`]);
}

type Values = Readonly<Record<string, (draw: Draw) => Node>>;

const small = (draw: Draw) => String(draw.between(1, 30));

/** Items of lists that are right more often than not; the form alone would leave out half of what they need. */
const USUAL_ITEMS: Values = {
  'holes[]': (draw) =>
    draw.chance(0.6)
      ? {
          at: USUAL['at']!(draw),
          diameter: draw.pick(['5', '8']),
          depth: draw.pick(['through', '6']),
        }
      : {
          row: '3',
          pitch: '20',
          from: ['30', '40'],
          along: draw.pick(['length', 'width']),
          diameter: '5',
        },
  'cut-outs[]': (draw) => ({ at: ['40', '40'], size: lengthPair(draw, 10, 60) }),
  'pockets[]': (draw) => ({
    at: ['40', '40'],
    size: lengthPair(draw, 10, 60),
    depth: draw.pick(['3', '6', '40']),
  }),
  'keep-out[]': (draw) => ({ at: USUAL['at']!(draw), size: lengthPair(draw, 10, 90) }),
  'defects[]': (draw) => ({
    at: String(draw.between(0, 900)),
    length: String(draw.between(1, 90)),
  }),
  'variants[]': (draw) => ({
    name: `V${draw.below(4)}`,
    ...draw.pick<NodeMap>([
      { machine: { kind: 'panel-saw' } },
      { parts: { all: { grain: 'any' } } },
      { parts: { P0: { count: '2' } } },
      { parts: { P9: { count: '2' } } },
      { limits: { sheets: '3' } },
      { materials: { m0: { thickness: '12' } } },
      {},
    ]),
  }),
};

/** Values by their keys that are right more often than not. */
const USUAL: Values = {
  unit: (draw) => draw.pick([...Array(7).fill('mm'), 'in']),
  currency: (draw) => draw.pick(['EUR', 'USD', 'JPY', 'TND', 'eur', 'XX']),
  material: (draw) => draw.pick([...Array(9).fill('m0'), 'm1', 'm2']),
  thickness: (draw) => draw.pick(['18', '6', '12.5', '3/4in', '23/32in']),
  size: (draw) => lengthPair(draw, 60, 1300),
  length: (draw) => String(draw.between(20, 2500)),
  at: (draw) => [String(draw.between(0, 150)), String(draw.between(0, 150))],
  from: (draw) => [String(draw.between(5, 80)), String(draw.between(5, 80))],
  diameter: (draw) => draw.pick(['5', '8', '6.35', '35', '1/4in']),
  depth: (draw) => draw.pick(['through', '6', '10', '2', '3']),
  gap: (draw) => draw.pick(['0.3', '0.05', '1']),
  pitch: (draw) => draw.pick(['32', '5', '60 x 40']),
  row: (draw) => String(draw.between(1, 5)),
  radius: small,
  trim: (draw) => draw.pick<Node>(['10', '0', '3/8in', { left: '10' }, { top: '5', right: '1' }]),
  left: small,
  right: small,
  top: small,
  bottom: small,
  spacing: (draw) => draw.pick(['8', '10', '3', '0']),
  kerf: (draw) => draw.pick(['3.2', '4', '0']),
  speed: (draw) => draw.pick(['18000 rpm', '18000', '24000']),
  feed: (draw) => draw.pick(['9000', '9 m/min', '300 in/min', '7200']),
  'pass-depth': (draw) => draw.pick(['9', '6', '20']),
  'last-pass': (draw) => draw.pick(['1', '0.5']),
  upcut: (draw) => draw.pick(['6', '4']),
  helix: (draw) => draw.pick(['30', '45']),
  count: (draw) => String(draw.between(1, 4)),
  price: (draw) =>
    draw.pick(['92.00', '0', '21.5', '9.50 per bf', '1450 per m3', '0.85 per m', '3.141']),
  machine: (draw) => draw.pick(['65 per h', '40/h']),
  bench: (draw) => draw.pick(['48 per h', '40/hour']),
  yield: (draw) => draw.pick(['70 %', '0.7', '120 %']),
  waste: (draw) => draw.pick(['30 %', '0.1', '5%']),
  margin: (draw) => draw.pick(['20 %', '0.2']),
  tax: (draw) => draw.pick(['19 %', '7%']),
  time: (draw) => draw.pick(['90 min', '3 s', '1.5 h', '40 s per m', '90']),
  setup: (draw) => draw.pick(['20 min', '3 s']),
  loading: (draw) => draw.pick(['2 min', '3 s']),
  hole: (draw) => draw.pick(['3 s', '0 s']),
  'tool-change': (draw) => draw.pick(['10 s', '1 min']),
  'saw-cut': (draw) => draw.pick(['10 s', '1 min']),
  'board-cut': (draw) => draw.pick(['10 s', '1 min']),
  weight: (draw) => draw.pick(['25 kg', '50 lb', '500 g', '25']),
  density: (draw) => draw.pick(['680', '720']),
  altitude: (draw) => draw.pick(['300 m', '900 ft', '300']),
  friction: (draw) => draw.pick<Node>(['0.4', ['0.4', '0.3'], '2']),
  'friction-film-faced': (draw) => draw.pick<Node>(['0.25', ['0.25', '0.2']]),
  permeability: (draw) => draw.pick<Node>(['3e-13', ['3e-13', '6.3e-13'], '1']),
  'along-ratio': (draw) => draw.pick(['1', '3']),
  vacuum: (draw) => draw.pick(['20', '90', '250 mbar', '26 kPa', '8 inHg']),
  flow: (draw) => draw.pick(['250', '300 m3/h', '100 cfm']),
  curve: (draw) =>
    draw.pick<Node>([
      [
        ['520', '0'],
        ['340', '10'],
        ['140', '20'],
        ['0', '26'],
      ],
      [
        ['520', '0'],
        ['0', '26'],
      ],
      [
        ['0', '26'],
        ['520', '0'],
      ],
      [['520', '0']],
    ]),
  loss: (draw) => draw.pick(['2', '5 kPa']),
  bore: (draw) => draw.pick(['50', '2in']),
  leak: (draw) => draw.pick(['5 mm2', '10', '0.1 in2']),
  grooves: (draw) => draw.pick(['8 x 50', '60 x 50']),
  inset: (draw) => draw.pick(['12', '5']),
  labels: (draw) =>
    draw.pick<Node>([
      { paper: 'a4', columns: '3', rows: '8' },
      { roll: '62 x 40' },
      { paper: 'a4', columns: '3', rows: '9' },
    ]),
  paper: (draw) => draw.pick<Node>(['a4', 'letter', '210 x 297', ['100', '200']]),
  'show-edge': (draw) => draw.pick<Node>(['all', ['left', 'top'], 'left']),
  path: (draw) => draw.pick(PATHS),
  points: (draw) => draw.pick(POINTS),
  matched: (draw) => [lengthPair(draw, 100, 300), lengthPair(draw, 100, 300)],
  edges: (draw) => draw.pick<Node>([{ left: '1' }, { bottom: '0.5', top: '1mm' }]),
  stages: (draw) => draw.pick(['2', '3', '4', 'free', '5']),
  name: (draw) => draw.pick(['Birch', '007', '"Löwe, groß"', 'A'.repeat(40), 'yes']),
};

function usualValue(key: string, draw: Draw): Node | null {
  if (Object.hasOwn(USUAL_ITEMS, key)) return draw.chance(0.75) ? USUAL_ITEMS[key]!(draw) : null;
  return Object.hasOwn(USUAL, key) ? USUAL[key]!(draw) : null;
}

function rackValue(key: string, draw: Draw): Node | null {
  if (key === 'id') return draw.pick(['R1', 'R2', 'R3', 'R12', 'r1', 'A-7', '12', 'R 1']);
  if (key === 'material') return draw.pick(['ply', 'mdf', 'birch']);
  if (key === 'grain') return draw.pick(['first', 'second', 'none']);
  if (key === 'price') return draw.pick(['0', '5.50', '12']);
  if (key === 'date') return draw.pick(['2026-03-31', '2026-02-30', '31.3.2026', '2026-3-1']);
  return usualValue(key, draw);
}
