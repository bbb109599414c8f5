// Writes the drawing of a sheet for a machine as a DXF file of release 12, the oldest that is still read, and by every program of the trade.
// Idea: header, tables and entities as lines of a group code and its value. There are no handles and no dates, so that the same plan gives the same bytes.
// Source: the published DXF reference for the group codes.
// Where we differ: the unit is told by $INSUNITS and $MEASUREMENT, which are younger than release 12; older programs skip them.
// Cost: linear in the drawing.
// Degenerate cases: names of layers that differ in the case of letters only are one layer, as the format has it.
import type { DrawnPoint } from '../../drawing/display-list.ts';
import type { Loop } from '../../drawing/loops.ts';
import type { MachineDrawing, MachineItem } from '../../drawing/machine-drawing.ts';
import type { MachineShape } from '../../drawing/machine-shapes.ts';
import type { FileUnit } from '../../model/job.ts';
import type { LayerClass } from '../../model/machine-layers.ts';
import { dxfText } from './dxf-text.ts';

export function toDxf(drawing: MachineDrawing): string {
  const { unit, items } = drawing;
  const layers = layersOf(items);
  const groups = [
    ...header(drawing),
    ...tables([...layers.values()]),
    ...section('BLOCKS', []),
    ...section(
      'ENTITIES',
      items.flatMap(({ layer, shape }) => entity(shape, layers.get(keyOf(layer))!.name, unit)),
    ),
    group(0, 'EOF'),
  ];
  return groups.join('');
}

const COORDINATE_DIGITS = 6;
/** A bulge has no unit: of an arc as long as a sheet six digits would be off by more than its grid. */
const BULGE_DIGITS = 9;
const SCALE: Readonly<Record<FileUnit, number>> = { mm: 1, in: 1 / 25.4 };
/** As `machine-texts.ts` takes it, for programs that do not know how to put the middle of a text to a place. */
const LETTER_WIDTH = 0.9;

/** By the numbers of the format's colours. */
const COLOURS: Readonly<Record<LayerClass, number>> = {
  sheet: 8,
  trim: 8,
  'keep-out': 1,
  offcut: 3,
  hole: 5,
  pocket: 140,
  'cut-out': 4,
  'cut-out-skin': 6,
  clear: 30,
  outline: 7,
  skin: 6,
  unheld: 1,
  tab: 2,
  clamp: 1,
  'saw-cut': 5,
  order: 3,
  label: 8,
  grain: 8,
};

interface LayerEntry {
  readonly name: string;
  readonly colour: number;
}

/** In the order in which they are first used, the layer that every file has first. */
function layersOf(items: readonly MachineItem[]): ReadonlyMap<string, LayerEntry> {
  const layers = new Map<string, LayerEntry>([['0', { name: '0', colour: 7 }]]);
  for (const { layer, class: own } of items) {
    if (!layers.has(keyOf(layer))) layers.set(keyOf(layer), { name: layer, colour: COLOURS[own] });
  }
  return layers;
}

function keyOf(layer: string): string {
  return layer.toUpperCase();
}

function group(code: number, value: string | number): string {
  return `${code}\r\n${value}\r\n`;
}

function section(name: string, content: readonly string[]): string[] {
  return [group(0, 'SECTION'), group(2, name), ...content, group(0, 'ENDSEC')];
}

function header({ unit, box }: MachineDrawing): string[] {
  const corner = (name: string, x: number, y: number, depth: readonly string[]) => [
    group(9, name),
    group(10, decimal(x * SCALE[unit])),
    group(20, decimal(y * SCALE[unit])),
    ...depth,
  ];
  const flat = [group(30, '0.0')];
  const whole = (name: string, value: number) => [group(9, name), group(70, value)];
  return section('HEADER', [
    group(9, '$ACADVER'),
    group(1, 'AC1009'),
    ...corner('$INSBASE', 0, 0, flat),
    ...corner('$EXTMIN', box.minX, box.minY, flat),
    ...corner('$EXTMAX', box.maxX, box.maxY, flat),
    ...corner('$LIMMIN', box.minX, box.minY, []),
    ...corner('$LIMMAX', box.maxX, box.maxY, []),
    ...whole('$LUNITS', 2),
    ...whole('$LUPREC', unit === 'mm' ? 3 : 4),
    ...whole('$MEASUREMENT', unit === 'mm' ? 1 : 0),
    ...whole('$INSUNITS', unit === 'mm' ? 4 : 1),
  ]);
}

function tables(layers: readonly LayerEntry[]): string[] {
  const table = (name: string, entries: readonly (readonly string[])[]) => [
    group(0, 'TABLE'),
    group(2, name),
    group(70, entries.length),
    ...entries.flatMap((entry) => [group(0, name), ...entry]),
    group(0, 'ENDTAB'),
  ];
  const line = [group(2, 'CONTINUOUS'), group(70, 0), group(3, 'Solid line')];
  const letters = [group(40, '0.0'), group(41, '1.0'), group(50, '0.0'), group(71, 0)];
  return section('TABLES', [
    ...table('LTYPE', [[...line, group(72, 65), group(73, 0), group(40, '0.0')]]),
    ...table(
      'LAYER',
      layers.map(({ name, colour }) => [
        group(2, name),
        group(70, 0),
        group(62, colour),
        group(6, 'CONTINUOUS'),
      ]),
    ),
    ...table('STYLE', [
      [
        group(2, 'STANDARD'),
        group(70, 0),
        ...letters,
        group(42, '2.5'),
        group(3, 'txt'),
        group(4, ''),
      ],
    ]),
  ]);
}

function entity(shape: MachineShape, layer: string, unit: FileUnit): string[] {
  const scale = SCALE[unit];
  const at = (code: number, { x, y }: DrawnPoint) => [
    group(code, decimal(x * scale)),
    group(code + 10, decimal(y * scale)),
    group(code + 20, '0.0'),
  ];
  const head = (name: string) => [group(0, name), group(8, layer)];
  switch (shape.kind) {
    case 'run': {
      const corners = cornersOf(shape.sides, shape.closed).flatMap(({ point, bulge }) => [
        ...head('VERTEX'),
        ...at(10, point),
        ...(bulge === 0 ? [] : [group(42, decimal(bulge, BULGE_DIGITS))]),
      ]);
      const open = [group(66, 1), ...at(10, { x: 0, y: 0 }), group(70, shape.closed ? 1 : 0)];
      return [...head('POLYLINE'), ...open, ...corners, ...head('SEQEND')];
    }
    case 'circle':
      return [...head('CIRCLE'), ...at(10, shape.centre), group(40, decimal(shape.radius * scale))];
    case 'line':
      return [...head('LINE'), ...at(10, shape.from), ...at(11, shape.to)];
    case 'text': {
      const { text, height, turn } = shape;
      const [along, up] = [([...text].length * LETTER_WIDTH * height) / 2, height / 2];
      const start =
        turn === 0
          ? { x: shape.at.x - along, y: shape.at.y - up }
          : { x: shape.at.x + up, y: shape.at.y - along };
      return [
        ...head('TEXT'),
        ...at(10, start),
        group(40, decimal(height * scale)),
        group(1, dxfText(text)),
        group(50, decimal(turn)),
        group(72, 1),
        ...at(11, shape.at),
        group(73, 2),
      ];
    }
  }
}

interface Corner {
  readonly point: DrawnPoint;
  /** Of the side that leaves it. */
  readonly bulge: number;
}

function cornersOf(sides: Loop, closed: boolean): readonly Corner[] {
  const starts = sides.map(({ from, bulge }) => ({ point: from, bulge }));
  const last = sides.at(-1);
  return closed || last === undefined ? starts : [...starts, { point: last.to, bulge: 0 }];
}

/** No exponent, no minus before zero, always with a point, as the format has its real numbers. */
function decimal(value: number, digits = COORDINATE_DIGITS): string {
  const text = value.toFixed(digits).replace(/0+$/, '').replace(/\.$/, '.0');
  return text === '-0.0' ? '0.0' : text;
}
