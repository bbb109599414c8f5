import type { ListOptions } from '../../src/partsfile/lists/import-list.ts';
import { SEPARATORS, type Separator } from '../../src/partsfile/lists/list-rows.ts';
import { LIST_UNITS } from '../../src/partsfile/lists/list-units.ts';
import type { Draw } from './draw.ts';
import { ODD_LETTERS, ODD_NUMBERS, oddWord } from './odd-words.ts';

/** Heads of a column, and what stands below them. */
const COLUMNS: readonly (readonly [
  heads: readonly string[],
  cell: (draw: Draw, i: number) => string,
])[] = [
  [
    ['Name', 'Part Name', 'Bezeichnung', 'Désignation', 'Pieza', 'Nazwa', 'item'],
    (_, i) => `Side ${i % 7}`,
  ],
  [
    ['Length', 'L', 'Länge (mm)', 'Longueur', 'Largo', 'Długość [mm]', 'Length in cm', 'Height'],
    lengthCell,
  ],
  [['Width', 'W', 'Breite', 'l', 'Ancho', 'Szerokość', 'Width (in)', 'Depth'], lengthCell],
  [
    ['Thickness', 'T', 'Dicke', 'Ép.', 'Espesor'],
    (draw) => draw.pick(['18', '19', '16 mm', '', '12', '0,5']),
  ],
  [
    ['Qty', 'Count', 'Stück', 'Qté', 'Cantidad', 'Ilość', 'pcs'],
    (draw) => draw.pick([...'1234567', '10', '2 Stk', '3,0', '', '0', '1.000']),
  ],
  [
    ['Material', 'Werkstoff', 'Matière', 'Tablero', 'Materiał'],
    (draw) =>
      draw.pick([
        'Birch plywood',
        'MDF',
        'Sperrholz',
        'Contreplaqué',
        'plywood 18',
        '',
        '__proto__',
        'constructor',
      ]),
  ],
  [
    ['Grain', 'Faserrichtung', 'Fil', 'Veta'],
    (draw) => draw.pick(['yes', 'no', 'along', 'längs', 'quer', 'L', 'W', '-', '', 'x', '?']),
  ],
  [
    ['Edges', 'Kanten', 'Chants'],
    (draw) => draw.pick(['L1 L2', '2L 1W', 'all', 'none', '0', '', '2L', '1W', 'x']),
  ],
  [['L1', 'Front', 'vorne'], (draw) => draw.pick(['1', 'x', '0', '0.8', ''])],
  [['Left', 'links', 'W1'], (draw) => draw.pick(['1', 'x', '0', '2mm', ''])],
  [['Assembly', 'Baugruppe', 'Meuble'], (draw) => draw.pick(['Base', 'Korpus 1', ''])],
  [
    ['Notes', 'Bemerkung', 'Uwagi'],
    (draw) => draw.pick(['', '', 'second, choice', 'a "b" c', 'line\nbreak', '', '', '=1+1']),
  ],
  [['No', 'Pos', 'Label', 'Ref'], (_, i) => String(i + 1)],
  [
    ['Size', 'Abmessungen', 'Dimensions', 'L x W'],
    (draw) =>
      draw.pick(['720 x 560', '720x560x18', '30-1/4 x 12 3/4', '720*560', '1,5 x 2', '720']),
  ],
  [['Price', 'Area', '', 'toString'], (draw) => draw.pick(['1.5', '', 'x'])],
];

function lengthCell(draw: Draw): string {
  return draw.weighed([
    [60, () => String(draw.between(50, 1500))],
    [1, () => `${draw.between(50, 900)},${draw.below(10)}`],
    [1, () => `${draw.between(1, 40)}-${draw.pick(['1/4', '3/8', '1/2'])}`],
    [1, () => `${draw.between(1, 40)} ${draw.pick(['1/4"', '\' 6"', 'mm', 'in', 'cm', 'Zoll'])}`],
    [1, () => draw.pick(['1.250,5', "1'250", '1 250', '', '-', '12¾'])],
    [1, () => draw.pick(ODD_NUMBERS)],
  ])();
}

/** The text of a cut list. */
export function drawnList(draw: Draw): string {
  const separator = draw.pick([',', ',', ';', ';', '\t', '|']);
  const [first, length, width, ...others] = COLUMNS;
  const columns = [
    ...(draw.chance(0.9) ? [first!] : []),
    ...(draw.chance(0.95) ? [length!, width!] : []),
    ...others.filter(() => draw.chance(0.3)),
  ];
  const order = draw.chance(0.3) ? columns.toSorted(() => draw.below(3) - 1) : columns;
  const odd = draw.pick([0, 0, 0.02, 0.1]);
  const cell = (text: string) => {
    const own = draw.chance(odd) ? oddWord(draw) : text;
    return /[",;|\t\n]/.test(own) && !draw.chance(0.1) ? `"${own.replaceAll('"', '""')}"` : own;
  };
  const head = order.map(([heads]) => cell(draw.pick(heads)));
  const rows = draw.list(0, draw.chance(0.03) ? 60 : 6, (i) =>
    rowOf(
      order.map(([, make]) => cell(make(draw, i))),
      draw,
    ),
  );
  const above = draw.chance(0.1)
    ? [[draw.pick(['Cut list', 'Project: Kitchen', '', 'sep=;'])]]
    : [];
  const lines = [...above, ...(draw.chance(0.9) ? [head] : []), ...rows];
  return (
    lines.map((cells) => cells.join(separator)).join(draw.pick(['\n', '\r\n', '\r'])) +
    draw.pick(['\n', '', '\r\n\r\n'])
  );
}

/** Among the parts stand totals, headings, empty rows, and rows of another length. */
function rowOf(cells: readonly string[], draw: Draw): readonly string[] {
  return draw.weighed<() => readonly string[]>([
    [14, () => cells],
    [1, () => ['Total', ...cells.slice(1).map(() => '')]],
    [1, () => cells.map(() => '')],
    [1, () => [cells[0] ?? '']],
    [1, () => cells.slice(0, draw.below(cells.length + 1))],
    [1, () => [...cells, ...draw.list(1, 3, () => oddWord(draw))]],
  ])();
}

/** As spreadsheets save it, or as a bad disk has it. */
export function bytesOf(text: string, draw: Draw): Uint8Array {
  const bytes = draw.weighed<() => Buffer>([
    [8, () => Buffer.from(text)],
    [1, () => Buffer.from(`\ufeff${text}`)],
    [1, () => Buffer.from(text, 'latin1')],
    [1, () => Buffer.from(`\ufeff${text}`, 'utf16le')],
    [1, () => Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
    [0.2, () => Buffer.from(text, 'utf16le')],
  ])();
  if (bytes.length === 0 || draw.chance(0.85)) return bytes;
  for (let flips = draw.between(1, 6); 0 < flips; flips--)
    bytes[draw.below(bytes.length)]! ^= 1 << draw.below(8);
  return draw.chance(0.2) ? bytes.subarray(draw.below(4)) : bytes;
}

export function listOptions(draw: Draw): ListOptions {
  const maybe = <T>(share: number, make: () => T): T | null => (draw.chance(share) ? make() : null);
  return {
    columns: maybe(0.1, () =>
      draw.pick([
        'length=B,width=C',
        'name=A,length=2,width=3',
        'length=Length,width=Width',
        'length=ZZ',
        'x',
        '=',
        'length=B,length=C',
        'constructor=A',
        'length=constructor',
        oddWord(draw),
      ]),
    ),
    separator: maybe(0.1, () => draw.pick(Object.keys(SEPARATORS) as Separator[])),
    unit: maybe(0.15, () => draw.pick(LIST_UNITS)),
    material: maybe(0.3, () =>
      draw.pick(['Birch plywood', 'mdf', '', ' ', '__proto__', draw.pick(ODD_LETTERS)]),
    ),
    thickness: maybe(0.2, () =>
      draw.pick(['18', '3/4in', '12', '19', '0', 'x', draw.pick(ODD_NUMBERS)]),
    ),
    sheet: maybe(0.2, () =>
      draw.pick([
        '2440x1220',
        '96inx48in',
        '2800x2070',
        '1',
        'x',
        '9999999x1',
        draw.pick(ODD_NUMBERS),
      ]),
    ),
    band: maybe(0.1, () => draw.pick(['1', '0.5mm', '-1', 'x', draw.pick(ODD_NUMBERS)])),
  };
}
