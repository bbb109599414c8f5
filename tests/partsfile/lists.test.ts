import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import { SIDES } from '../../src/model/part.ts';
import { toMm } from '../../src/model/units.ts';
import {
  importList,
  type ListImport,
  type ListOptions,
} from '../../src/partsfile/lists/import-list.ts';
import { decimalHabits, plainNumber } from '../../src/partsfile/lists/list-numbers.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';

const NOTHING: ListOptions = {
  columns: null,
  separator: null,
  unit: null,
  material: null,
  thickness: null,
  sheet: null,
  band: null,
};

const bytesOf = (text: string) => new TextEncoder().encode(text);

function imported(list: string | Uint8Array, options: Partial<ListOptions> = {}) {
  const bytes = typeof list === 'string' ? bytesOf(list) : list;
  return importList(bytes, 'list.csv', { ...NOTHING, ...options });
}

function accepted(list: string | Uint8Array, options: Partial<ListOptions> = {}): ListImport {
  const result = imported(list, options);
  if (!('text' in result)) throw new Error(result.faults.join('; '));
  return result;
}

function jobOf({ text }: ListImport): Job {
  const { job, problems } = readPartsFile(text, () => ({
    ok: false,
    reason: 'missing',
    detail: '',
  }));
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return job!;
}

/** `Side: 720 x 560, 2, birch 18, along, 1 left` of every part, in millimetres. */
function partsOf(result: ListImport): readonly string[] {
  const job = jobOf(result);
  return job.parts.map((part) => {
    const material = job.materials[part.material]!;
    const bands = SIDES.filter((side) => part.edgeBands[side] > 0).map(
      (side) => `${toMm(part.edgeBands[side])} ${side}`,
    );
    return [
      `${part.name}: ${toMm(part.finishedWidth)} x ${toMm(part.finishedHeight)}`,
      `${part.count}`,
      `${material.id} ${toMm(material.thickness)}`,
      ...(part.grain === 'any' ? [] : [part.grain]),
      ...bands,
      ...(part.group === null ? [] : [`in ${part.group}`]),
      ...(part.note === null ? [] : [`(${part.note})`]),
    ].join(', ');
  });
}

const troublesOf = (list: string | Uint8Array, options: Partial<ListOptions> = {}) =>
  imported(list, options).troubles.map(
    ({ row, column, why }) => `row ${row}${column === null ? '' : `, ${column}`}: ${why}`,
  );

interface Case {
  readonly name: string;
  readonly list: string;
  readonly options?: Partial<ListOptions>;
  readonly parts: readonly string[];
}

const CASES: readonly Case[] = [
  {
    name: 'English, comma, inch fractions',
    list: 'Part Name,Length,Width,Thickness,Qty,Material,Grain,Assembly\n"Side, left","30-1/4",12 3/4,3/4,2,Birch plywood,yes,Base\nShelf,"29 1/2""",11.5,3/4,3,Birch plywood,cross,Base\n',
    parts: [
      'Side, left: 768.35 x 323.85, 2, birch-plywood-3-4 19.05, along, in Base',
      'Shelf: 749.3 x 292.1, 3, birch-plywood-3-4 19.05, across, in Base',
    ],
  },
  {
    name: 'German, semicolon, decimal comma, points in thousands',
    list: 'Bezeichnung;Länge (mm);Breite (mm);Dicke;Stück;Werkstoff;Faserrichtung;Bemerkung\r\nSeite;1.250,5;560;18;2;Sperrholz;längs;"zweite; Wahl"\r\nBoden;764,25;300,0;18;3,0 Stk;Sperrholz;quer;\r\n',
    parts: [
      'Seite: 1250.5 x 560, 2, sperrholz-18 18, along, (zweite; Wahl)',
      'Boden: 764.25 x 300, 3, sperrholz-18 18, across',
    ],
  },
  {
    name: 'French, L and l',
    list: 'Désignation;L;l;Ép.;Qté;Matière;Fil;Meuble\nCôté;720;560;19;2;Contreplaqué peuplier;longueur;Caisson\n',
    parts: ['Côté: 720 x 560, 2, contreplaque-peuplier-19 19, along, in Caisson'],
  },
  {
    name: 'Spanish, tab',
    list: 'Pieza\tLargo\tAncho\tEspesor\tCantidad\tTablero\tVeta\nLateral\t720\t560\t16\t2\tAglomerado\ttransversal\n',
    parts: ['Lateral: 720 x 560, 2, aglomerado-16 16, across'],
  },
  {
    name: 'Italian',
    list: 'Pezzo;Lunghezza;Larghezza;Spessore;Q.tà;Materiale;Venatura\nFianco;720;560;18;2;Multistrato;lungo\n',
    parts: ['Fianco: 720 x 560, 2, multistrato-18 18, along'],
  },
  {
    name: 'Dutch, a bar between the cells',
    list: 'Onderdeel|Lengte|Breedte|Dikte|Aantal|Plaatmateriaal|Nerfrichting\nZijkant|720|560|18|2|Berken multiplex|lengte\n',
    parts: ['Zijkant: 720 x 560, 2, berken-multiplex-18 18, along'],
  },
  {
    name: 'Polish',
    list: 'Nazwa;Długość [mm];Szerokość [mm];Grubość;Ilość;Materiał;Słój\nBok;720;560;18;2;Płyta wiórowa;wzdłuż\n',
    parts: ['Bok: 720 x 560, 2, plyta-wiorowa-18 18, along'],
  },
  {
    name: 'Portuguese',
    list: 'Peça;Comprimento;Largura;Espessura;Quantidade;Material;Veio\nLateral;720;560;15;2;Contraplacado;não\n',
    parts: ['Lateral: 720 x 560, 2, contraplacado-15 15'],
  },
  {
    name: 'centimetres in the header, millimetres for the thickness',
    list: 'Part,Length (cm),Width [cm],Thickness (mm)\nSide,72.05,56,18\n',
    parts: ['Side: 720.5 x 560, 1, panel-18 18'],
  },
  {
    name: 'centimetres in the header, thicknesses that no panel has in them',
    list: 'Part,Length (cm),Width (cm),Thickness\nSide,72.05,56,18\nBack,70,54,5.5\n',
    parts: ['Side: 720.5 x 560, 1, panel-18 18', 'Back: 700 x 540, 1, panel-5-5 5.5'],
  },
  {
    name: 'inches in the header, thicknesses that no panel has in them',
    list: 'Part,Length (in),Width (in),Thickness\nSide,30,12,18\n',
    parts: ['Side: 762 x 304.8, 1, panel-18mm 18'],
  },
  {
    name: 'centimetres in the header and in the thickness',
    list: 'Part,Length (cm),Width (cm),Thickness\nSide,72.05,56,1.8\n',
    parts: ['Side: 720.5 x 560, 1, panel-18 18'],
  },
  {
    name: 'three decimals throughout, as drawing programs write',
    list: 'Part,Length,Width,Thickness,Qty\nSide,720.000,300.000,18.000,2.000\nTop,1764.000,85.500,18.000,1.000\n',
    parts: ['Side: 720 x 300, 2, panel-18 18', 'Top: 1764 x 85.5, 1, panel-18 18'],
  },
  {
    name: 'thousands by blanks and apostrophes, units with the value',
    list: 'Part;Length;Width\nA;1 250;560mm\nB;1\'250,5;72 cm\nC;30";3/4in\n',
    parts: [
      'A: 1250 x 560, 1, panel-18 18',
      'B: 1250.5 x 720, 1, panel-18 18',
      'C: 762 x 19.05, 1, panel-18 18',
    ],
  },
  {
    name: 'one column for the size',
    list: 'Name,Size,Qty\nSide,720 x 560 x 18,2\nBack,700×500×6,1\n',
    parts: ['Side: 720 x 560, 2, panel-18 18', 'Back: 700 x 500, 1, panel-6 6'],
  },
  {
    name: 'a line that names the separator, heights and widths, the header again, sums',
    list: 'sep=;\nCut list\n\nTeil;Höhe;Breite;Anzahl\nTür;700;396;2\n;;;\nTeil;Höhe;Breite;Anzahl\nFront;140;396;1\nGesamt;;;3\n',
    parts: ['Tür: 700 x 396, 2, panel-18 18', 'Front: 140 x 396, 1, panel-18 18'],
  },
  {
    name: 'a column for each edge, with thicknesses',
    list: 'Teil;Länge;Breite;Kante L1;Kante L2;Kante B1;Kante B2\nBoden;720;300;2;0,4;-;x\n',
    parts: ['Boden: 720 x 300, 1, panel-18 18, 1 right, 2 bottom, 0.4 top'],
  },
  {
    name: 'edges in one column, by counts, numbers and words',
    list: 'Part,Length,Width,Edges\nA,720,300,2L1W\nB,720,301,L2 W2\nC,720,302,all\nD,720,303,"front, left"\nE,720,304,\n',
    parts: [
      'A: 720 x 300, 1, panel-18 18, 1 left, 1 bottom, 1 top',
      'B: 720 x 301, 1, panel-18 18, 1 right, 1 top',
      'C: 720 x 302, 1, panel-18 18, 1 left, 1 right, 1 bottom, 1 top',
      'D: 720 x 303, 1, panel-18 18, 1 left, 1 bottom',
      'E: 720 x 304, 1, panel-18 18',
    ],
  },
  {
    name: 'sawn sizes, to which the bands are added',
    list: 'Teil;Zuschnittlänge;Zuschnittbreite;Kanten\nBoden;718;299;2B 1L\n',
    parts: ['Boden: 720 x 300, 1, panel-18 18, 1 left, 1 right, 1 bottom'],
  },
  {
    name: 'finished sizes beside sawn ones',
    list: 'Teil;Rohlänge;Rohbreite;Fertiglänge;Fertigbreite\nBoden;730;310;720;300\n',
    parts: ['Boden: 720 x 300, 1, panel-18 18'],
  },
  {
    name: 'no header, columns by letter and number',
    list: 'Side;720;560;2\nTop;900;400;1\n',
    options: { columns: 'name=A,length=2,width=C,count=4', thickness: '12', material: 'MDF' },
    parts: ['Side: 720 x 560, 2, mdf-12 12', 'Top: 900 x 400, 1, mdf-12 12'],
  },
  {
    name: 'parts that are called as columns are',
    list: 'Top;900;400;L;Board\nLength;700;300;W;Panel\n',
    options: { columns: 'name=A,length=B,width=C,grain=D' },
    parts: ['Top: 900 x 400, 1, panel-18 18, along', 'Length: 700 x 300, 1, panel-18 18, across'],
  },
  {
    name: 'columns by headers of their own',
    list: 'Was;X-Maß;Y-Maß;Wieviel\nSide;720;560;2\n',
    options: { columns: 'name=was,length=X-Maß,width=y-maß,count=Wieviel' },
    parts: ['Side: 720 x 560, 2, panel-18 18'],
  },
  {
    name: 'the thickness in the name of the material',
    list: 'Part,Length,Width,Material\nA,720,560,18mm Birch ply\nB,720,560,MDF 19\nC,720,560,Oak veneered board 12.5 mm\n',
    parts: [
      'A: 720 x 560, 1, 18mm-birch-ply 18',
      'B: 720 x 560, 1, mdf-19 19',
      'C: 720 x 560, 1, oak-veneered-board-12-5 12.5',
    ],
  },
  {
    name: 'names that are empty, alike, or alike in all',
    list: 'Part,Length,Width,Count\nShelf,700,300,2\nShelf,700,250,1\n,600,200,1\nShelf,700,300,3\n',
    parts: [
      'Shelf: 700 x 300, 5, panel-18 18',
      'Shelf (2): 700 x 250, 1, panel-18 18',
      'Part 4: 600 x 200, 1, panel-18 18',
    ],
  },
  {
    name: 'parts that are larger than any common sheet',
    list: 'Part,Length,Width,Grain\nWorktop,4100,600,along\nTall,500,2400,across\n',
    parts: [
      'Worktop: 4100 x 600, 1, panel-18 18, along',
      'Tall: 500 x 2400, 1, panel-18 18, across',
    ],
  },
];

describe('a list becomes a parts file', () => {
  it.each(CASES)('$name', ({ list, options, parts }) => {
    const result = accepted(list, options);
    expect(partsOf(result)).toEqual(parts);
    expect(result.troubles).toEqual([]);
  });

  it('keeps inches as they are written', () => {
    const { text } = accepted('Part,Length,Width\nA,30-1/4,12 3/4"\nB,12.7,18mm\n');
    expect(text).toContain('unit: in');
    expect(text).toContain('size: 30-1/4 x 12-3/4 }');
    expect(text).toContain('size: 12.7in x 18mm }');
  });

  it.each([
    ['UTF-8 with a mark', new Uint8Array([0xef, 0xbb, 0xbf])],
    ['UTF-16, little end first', new Uint8Array([0xff, 0xfe])],
    ['UTF-16, big end first', new Uint8Array([0xfe, 0xff])],
    ['Windows-1252', new Uint8Array([])],
  ])('reads %s, with any line ends', (encoding, mark) => {
    for (const end of ['\n', '\r\n', '\r']) {
      const letters = [...`Stück;Länge;Breite;Teil${end}2;720;560;Tür${end}`];
      const codes = letters.map((letter) => letter.charCodeAt(0));
      const wide = codes.flatMap((c) => (mark[0] === 0xff ? [c & 255, c >> 8] : [c >> 8, c & 255]));
      const narrow = encoding.startsWith('UTF-8') ? [...bytesOf(letters.join(''))] : codes;
      const body = encoding.startsWith('UTF-16') ? wide : narrow;
      const result = accepted(new Uint8Array([...mark, ...body]));
      expect(partsOf(result)).toEqual(['Tür: 720 x 560, 2, panel-18 18']);
      expect(result.checks.some((check) => check.includes('Windows-1252'))).toBe(
        encoding === 'Windows-1252',
      );
    }
  });

  it('names what it assumed, in the file as well', () => {
    const { checks, text } = accepted('Part,Length,Width\nA,72,56\n');
    for (const word of ['--unit', '--material', '--thickness', '--sheet', 'grain', 'one of each'])
      expect(checks.some((check) => check.includes(word))).toBe(true);
    for (const check of checks) expect(text).toContain(`# - ${check}`);
    expect(text).toContain('thickness: 18 # CHECK');
    expect(text).toContain('unit: mm # CHECK');
  });

  it.each([
    ['Birch plywood', 'plywood'],
    ['Kiefer Sperrholz', 'softwood-plywood'],
    ['Eiche furniertes MDF', 'mdf'],
    ['Spanplatte weiß beschichtet', 'particleboard'],
    ['Panneau de chêne massif', 'hardwood'],
    ['Oak veneered', null],
    ['Multistrato', null],
  ])('takes %s as %s', (name, family) => {
    const { text } = accepted(`Part,Length,Width,Material\nA,720,560,${name} 18\n`);
    expect(/^ {4}family: ([\w-]+)/m.exec(text)?.[1] ?? null).toBe(family);
  });

  it('says that a mark for the grain is taken as along', () => {
    const checksOf = (grain: string) =>
      accepted(`Part,Length,Width,Grain\nA,720,560,${grain}\n`).checks.filter((check) =>
        check.includes('grain'),
      );
    expect(checksOf('yes')).toEqual([
      'A mark or a yes for the grain is taken as along the length.',
    ]);
    expect(checksOf('along')).toEqual([]);
  });

  it('finds a square sheet that is named, and says that its grain is assumed', () => {
    const result = accepted('Part,Length,Width,Grain\nA,720,560,x\n', { sheet: '1525x1525' });
    expect(result.text).toContain('{ size: 1525 x 1525, grain: first } # CHECK: grain');
    jobOf(result);
  });
});

describe('what cannot be read', () => {
  it.each<[string, string, readonly string[], Partial<ListOptions>?]>([
    [
      'sizes',
      'Part,Length,Width\nA,72x,560\nB,,560\nC,0,560\nD,-5,560\nE,99999,560\nF,1e3,560\nG,720,#REF!\nH,720,560\n',
      [
        'row 2, B "Length": "72x" is no length',
        'row 3, B "Length": no length',
        'row 4, B "Length": "0" is not more than 0',
        'row 5, B "Length": "-5" is not more than 0',
        'row 6, B "Length": "99999" is more than 8388.608 mm; is the unit right?',
        'row 7, B "Length": "1e3" is no length',
        'row 8, C "Width": "#REF!" is no length',
      ],
    ],
    [
      'formulas',
      'Part;Length;Width;Count;Note\nA;=1+2;560;1;\nB;720;560;=2;\nC;720;560;1;=A1\n',
      [
        'row 2, B "Length": "=1+2" is a formula: save the list with values',
        'row 3, D "Count": "=2" is a formula: save the list with values',
        'row 4, E "Note": "=A1" is a formula: save the list with values',
      ],
    ],
    [
      'counts, grain and edges',
      'Part;Length;Width;Count;Grain;Edges\nA;720;560;1,5;;\nB;720;560;0;;\nC;720;560;1;diagonal;\nD;720;560;1;;3L\nE;1;1;1;;\nF;720;560;-1;;\n',
      [
        'row 2, D "Count": "1,5" is no whole number',
        'row 3, D "Count": the count is 0, so there is nothing to cut',
        'row 4, E "Grain": "diagonal" says no way of the grain: along, across or any',
        'row 5, F "Edges": "3L" says no sides, such as 2L 1W, or left and top',
        'row 7, D "Count": the count is "-1", less than none',
      ],
    ],
    [
      'numbers of both habits',
      'Part;Length;Width\nA;720,5;560\nB;720.5;560\nC;1.250;560\n',
      ['row 4, B "Length": "1.250" may be thousands or decimals: its column has both forms'],
    ],
    [
      'a quotation mark that is never closed',
      'Part;Length;Width\nA;720;560\n"B;720;560\nC;720;560\n',
      ['row 3: a quotation mark is opened here and never closed, so all below is in it'],
    ],
    [
      'what fits no sheet that was named',
      'Part;Length;Width;Grain\nA;720;2500;x\nB;2500;720;x\n',
      ['row 2: 720 × 2500 mm, grain along, fits no sheet of 2800 × 2070 mm'],
      { sheet: '2800 x 2070' },
    ],
    [
      'a second header with other columns',
      'Part,Length,Width\nA,720,560\nPart,Width,Length\nB,300,900\n',
      [
        'row 3: a header with other columns: it and all below was not read; make it a list of its own',
      ],
    ],
    [
      'what looks like parts above the header',
      'What,How,Wide\nA,720,560\nPart,Length,Width\nB,300,900\n',
      ['row 2: it stands above the header, though it has numbers as a part has'],
    ],
    [
      'bands as wide as the part',
      'Part;Length;Width;Edges\nA;720;2;2L\nB;720;560;\n',
      ['row 2: the edge bands take all of it'],
    ],
  ])('lists %s with row and column, and writes the rest', (_, list, troubles, options) => {
    expect(troublesOf(list, options)).toEqual(troubles);
    const result = accepted(list, options);
    jobOf(result);
    for (const { row } of result.troubles)
      expect(result.text).toMatch(new RegExp(`^  # (LEFT OUT|NOT READ): row ${row}\\b`, 'm'));
  });

  it.each<[string, string | Uint8Array, RegExp, Partial<ListOptions>?]>([
    ['an empty file', '', /empty/],
    ['blank lines', '\n;;\n \n', /empty/],
    ['a header alone', 'Part,Length,Width\n', /no rows below/],
    ['no row that reads', 'Part,Length,Width\nA,x,y\n', /no row could be read/],
    ['no header', 'A,720,560\n', /no column is known as length and width; row 1 has "A", "720"/],
    ['no width', 'Part,Length\nA,720\n', /no column is known as width/],
    ['a workbook', new Uint8Array([0x50, 0x4b, 3, 4, 0, 0]), /workbook/],
    ['bytes that are no text', new Uint8Array([65, 0, 66, 0]), /no text/],
    [
      '50 MB',
      new Uint8Array(50_000_000),
      /it has 50 MB; the most is 20: split it, or raise the limit: --limit list=50/,
    ],
    ['too many rows', 'Length,Width\n'.repeat(100_001), /about 10000\d rows; the most is 100000/],
    [
      'an unknown column',
      'A,720,560\n',
      /no "lenght": did you mean length/,
      { columns: 'lenght=B' },
    ],
    [
      'a header that is not there',
      'Part,Length,Width\nA,1,1',
      /no column "Menge"; the list has "Part"/,
      { columns: 'count=Menge' },
    ],
    ['half an option', 'Part,Length,Width\nA,1,1', /takes what a column is/, { columns: 'count' }],
    [
      'a thickness that is none',
      'Part,Length,Width\nA,1,1',
      /--thickness: "x"/,
      { thickness: 'x' },
    ],
    ['a sheet that is none', 'Part,Length,Width\nA,1,1', /--sheet takes a size/, { sheet: '0x5' }],
  ])('refuses %s', (_, list, why, options) => {
    const result = imported(list, options);
    expect('text' in result).toBe(false);
    if (!('text' in result)) expect(result.faults.join('\n')).toMatch(why);
  });

  it('takes ten thousand rows with something in every column', () => {
    const row = (i: number) =>
      `"Teil: ${i}";${100 + (i % 2000)},5;${50 + (i % 997)};18;1;Birke Multiplex ${i % 7};längs;1;2;0,4;x;Gruppe ${i % 50};"# ${i}, lang";${i}`;
    const head =
      'Name;Länge;Breite;Dicke;Stk;Material;Faser;Links;Rechts;Vorn;Hinten;Baugruppe;Bemerkung;Pos';
    const rows = Array.from({ length: 10_000 }, (_, i) => row(i));
    const result = accepted([head, ...rows].join('\r\n'));
    expect([result.parts, result.troubles]).toEqual([10_000, []]);
  }, 60_000);

  it('stops at what one parts file can hold', () => {
    const rows = Array.from({ length: 12 }, (_, i) => `P${i},${700 + i},300,999`).join('\n');
    const list = `Part,Length,Width,Count\n${rows}`;
    expect(accepted(list).pieces).toBe(9990);
    expect(troublesOf(list)).toEqual([
      'row 12: this row and all below, up to row 13, are too many for one parts file: the list has 11988 pieces; the most is 10000, or 5 MB: split the list, or raise the limit: --limit pieces=12000',
    ]);
  });
});

describe('decimal signs', () => {
  it.each([
    [['720,5', '1.250'], 'comma', 1250],
    [['720.5', '1,250'], 'point', 1250],
    [['1.250', '2.100'], 'comma', 1250],
    [['1.250', '18.000'], 'point', 1.25],
    [['1.250.000', '1.5'], 'both', null],
    [['0,750', '1,250'], 'comma', 1.25],
    [['12', '1.250'], 'comma', 1250],
  ])('%j are of the habit %s', (values, habit, last) => {
    const [found] = decimalHabits([{ values, most: 8388.608 }]);
    expect(found).toBe(habit);
    const ambiguous = values.find((value) => /^1[.,]250$/.test(value)) ?? values.at(-1)!;
    if (last !== null) expect(Number(plainNumber(ambiguous, found!))).toBe(last);
  });

  it('of a column that shows none are those of the list', () => {
    const columns = [['1.250'], ['300,5']].map((values) => ({ values, most: 8388 }));
    expect(decimalHabits(columns)).toEqual(['comma', 'comma']);
  });

  it('of counts are never thousands, and show nothing of other columns', () => {
    const lengths = { values: ['1.250'], most: 8388 };
    expect(decimalHabits([lengths, { values: ['2.000'], most: 0 }])).toEqual(['comma', 'point']);
    expect(decimalHabits([{ ...lengths, values: ['720.000'] }, lengths])).toEqual([
      'point',
      'point',
    ]);
  });
});

describe('any list', () => {
  const NASTY = [
    'yes',
    '1e3',
    '- x',
    '# y',
    'a: b',
    '{x',
    '[1',
    '"q"',
    "it's",
    '*a',
    '&a',
    '!t',
    '~',
    'null',
    '0x1f',
    '%',
    '@',
    '`',
    '|',
    '>',
    '? k',
    '<<',
    '\u0007bell',
    'a\u202eb',
    'line\nend',
    '\ttab',
    '---',
    '...',
    '中文',
    '\ud800',
    ' ',
    'ünï',
  ];
  const cell = fc.oneof(
    fc.constantFrom(...NASTY),
    fc.string({ maxLength: 12, unit: 'binary' }),
    fc.integer({ min: 1, max: 3000 }).map(String),
    fc.constantFrom('720,5', '1.250,5', '12-3/4', '3/4"', '18mm', '=1+2', '', 'x', '2L1W'),
  );
  const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

  it('keeps every name, whatever YAML would make of it', () => {
    const names = NASTY.filter((name) => name.trim() !== '');
    const rows = names.map(
      (name, i) => `${quoted(name)},${700 + i},300,${quoted(name)},${quoted(name)}`,
    );
    const result = accepted(`Part,Length,Width,Material,Note\n${rows.join('\n')}\n`);
    const { parts } = jobOf(result);
    const plain = (name: string) =>
      name
        .replace(/\s+/g, ' ')
        .replace('\u0007', '')
        .replace('\u202e', '')
        .replace('\ud800', '?')
        .trim();
    expect(parts.map(({ name }) => name)).toEqual(names.map(plain));
    expect(parts.map(({ note }) => note)).toEqual(names.map(plain));
  });

  it('never throws, and what comes out reads again', () => {
    const roles = [
      'Name',
      'Length',
      'Width',
      'Thickness',
      'Qty',
      'Material',
      'Grain',
      'Edges',
      'Left',
      'Group',
      'Note',
      'Pos',
    ];
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: roles.length, maxLength: roles.length }), {
          maxLength: 12,
        }),
        fc.constantFrom(',', ';', '\t', '|'),
        fc.boolean(),
        (rows, separator, isSound) => {
          const table = rows.map((row) =>
            isSound ? [row[0]!, '720', '560', ...row.slice(3)] : row,
          );
          const text = [roles, ...table].map((row) => row.map(quoted).join(separator)).join('\n');
          const result = imported(text);
          if ('text' in result) jobOf(result);
        },
      ),
      { numRuns: 200, seed: 7 },
    );
  });

  it('never throws for any bytes at all', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 400 }),
        fc.string({ maxLength: 40 }),
        (bytes, columns) => {
          const head = bytesOf('Length;Width;Name\n720;560;');
          const result = imported(new Uint8Array([...head, ...bytes]));
          if ('text' in result) jobOf(result);
          imported(bytes, { columns });
        },
      ),
      { numRuns: 300, seed: 7 },
    );
  });

  it('gives the sizes of a parts file back that was written as a list', () => {
    // With three decimals a size may be read as thousands, so two are the most here.
    const size = fc.integer({ min: 4, max: 1000 * 4 }).map((quarters) => quarters / 4);
    const part = fc.record({ length: size, width: size, count: fc.integer({ min: 1, max: 9 }) });
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 20 }),
        fc.boolean(),
        (parts, isComma) => {
          const show = (value: number) => String(value).replace('.', isComma ? ',' : '.');
          const rows = parts.map(
            ({ length, width, count }, i) => `P${i};${show(length)};${show(width)};${count}`,
          );
          const result = accepted(`Name;Length (mm);Width (mm);Qty\n${rows.join('\n')}\n`);
          const read = jobOf(result).parts.map(({ finishedWidth, finishedHeight, count }) => ({
            length: toMm(finishedWidth),
            width: toMm(finishedHeight),
            count,
          }));
          expect(read).toEqual(parts);
        },
      ),
      { numRuns: 100, seed: 7 },
    );
  });
});
