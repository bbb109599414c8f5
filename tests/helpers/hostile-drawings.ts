import {
  arc,
  block,
  type Corner,
  circle,
  closed,
  dxf,
  type Entity,
  ellipse,
  type Group,
  insert,
  lightPolyline,
  line,
  oldPolyline,
  spline,
} from '../partsfile/dxf-text.ts';

/** A drawing that is wrong, or far too much, and what must be said of it. */
export interface HostileDrawing {
  readonly name: string;
  readonly file: 'a.dxf' | 'a.svg';
  /** Made when it is needed: some are large. */
  readonly text: () => string;
  /** Null where it is read after all. */
  readonly code: string | null;
  readonly message: string;
}

const SQUARE: readonly Corner[] = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];

export const HOSTILE_DXF: readonly HostileDrawing[] = [
  // Numbers.
  ...(['nan', 'xx', '', '1,5', '1e999', '0x10', 'Infinity', '1.2.3', '--4'] as const).map((value) =>
    dxfCase(
      `${JSON.stringify(value)} for a coordinate`,
      () => dxf([closed(SQUARE), line([0, value as unknown as number], [5, 5])]),
      'drawing-broken',
      `${JSON.stringify(value)} is not a number as this LINE needs it`,
    ),
  ),
  dxfCase(
    'a number beyond any sheet',
    () =>
      dxf([
        closed([
          [0, 0],
          [1e30, 0],
          [0, 1e30],
        ]),
      ]),
    'drawing-broken',
    'a number in it is too large',
  ),
  dxfCase(
    'a bulge that leaves no arc',
    () =>
      dxf([
        closed([
          [0, 0, 1e300],
          [10, 0],
          [0, 10],
        ]),
      ]),
    'drawing-broken',
    'a number in it is too large',
  ),
  dxfCase(
    'a circle without radius',
    () => dxf([circle([0, 0], 0)]),
    'drawing-broken',
    'the CIRCLE cannot be read: it has no radius above 0',
  ),
  dxfCase(
    'an arc of negative radius',
    () => dxf([arc([0, 0], -5, 0, 90)]),
    'drawing-broken',
    'the ARC cannot be read: it has no radius above 0',
  ),
  dxfCase(
    'an ellipse without width',
    () => dxf([ellipse([0, 0], [10, 0], 0)]),
    'drawing-broken',
    'the ELLIPSE cannot be read: it has no width',
  ),
  dxfCase(
    'a line with one end',
    () =>
      dxf([
        [
          [0, 'LINE'],
          [8, '0'],
          [10, 0],
          [20, 0],
        ],
      ]),
    'drawing-broken',
    'the LINE cannot be read: an end is missing',
  ),
  dxfCase(
    'an arc that stands upright',
    () => dxf([[...arc([0, 0], 5, 0, 90), [210, 1], [220, 0], [230, 0]]]),
    'drawing-feature',
    'the ARC does not lie flat',
  ),
  dxfCase(
    'a polyline with fewer corners than it says',
    () => dxf([closed(SQUARE)]).replace('90\n4\n', '90\n400000000\n'),
    'drawing-broken',
    'a polyline says 400000000 corners and has 4',
  ),
  // Splines.
  dxfCase(
    'a spline of degree 1000',
    () =>
      dxf([
        spline({
          degree: 1000,
          knots: [0, 1],
          controls: [
            [0, 0],
            [5, 5],
          ],
        }),
      ]),
    'drawing-broken',
    'its degree is 1000; it must be 1 to 10',
  ),
  dxfCase(
    'a spline with too few knots',
    () =>
      dxf([
        spline({
          degree: 2,
          knots: [0, 0, 1, 1],
          controls: [
            [0, 0],
            [5, 5],
            [9, 0],
          ],
        }),
      ]),
    'drawing-broken',
    'it has 4 knots; it must have 6',
  ),
  dxfCase(
    'a spline whose knots fall',
    () =>
      dxf([
        spline({
          degree: 1,
          knots: [0, 0, 2, 1, 1],
          controls: [
            [0, 0],
            [5, 5],
            [9, 0],
          ],
        }),
      ]),
    'drawing-broken',
    'its knots fall',
  ),
  dxfCase(
    'a spline with all knots the same',
    () =>
      dxf([
        spline({
          degree: 1,
          knots: [0, 0, 0, 0, 0],
          controls: [
            [0, 0],
            [5, 5],
            [9, 0],
          ],
        }),
      ]),
    'drawing-broken',
    'one of its knots comes too often',
  ),
  dxfCase(
    'a spline with a weight of 0',
    () =>
      dxf([
        spline({
          degree: 1,
          knots: [0, 0, 1, 1],
          controls: [
            [0, 0],
            [5, 5],
          ],
          weights: [1, 0],
        }),
      ]),
    'drawing-broken',
    'one of its weights is not above 0',
  ),
  dxfCase(
    'a spline with fit points only',
    () =>
      dxf([
        [
          [0, 'SPLINE'],
          [8, '0'],
          [70, 8],
          [71, 3],
          [74, 2],
          [11, 0],
          [21, 0],
          [11, 5],
          [21, 5],
        ],
      ]),
    'drawing-feature',
    'the SPLINE has fit points only',
  ),
  dxfCase(
    'a spline through 9,000 wild places',
    () => dxf([spline(wildSpline(9000))]),
    'too-complex',
    'lines and arcs; the most is 5000',
  ),
  // Gaps, open chains, crossings.
  dxfCase(
    'a gap',
    () =>
      dxf([
        lightPolyline(
          [
            [99.5, 100.2],
            [0, 100],
            [0, 0],
            [100, 0],
            [100, 99.8],
          ],
          false,
        ),
      ]),
    'open-outline',
    'from (99.5, 100.2 mm) to (100, 99.8 mm) there is a gap of 0.6403 mm',
  ),
  dxfCase(
    'a gap that is just too wide',
    () =>
      dxf([
        lightPolyline(
          [
            [0, 0.0102],
            [0, 100],
            [100, 0],
            [0, 0],
          ],
          false,
        ),
      ]),
    'open-outline',
    'from (0, 0 mm) to (0, 0.0102 mm) there is a gap of 0.0102 mm',
  ),
  dxfCase(
    'a gap that is just too wide between two lines',
    () =>
      dxf([
        lightPolyline(
          [
            [0, 0],
            [0, 100],
            [100, 0],
          ],
          false,
        ),
        line([100.0102, 0], [0, 0]),
      ]),
    'open-outline',
    'from (100, 0 mm) to (100.0102, 0 mm) there is a gap of 0.0102 mm',
  ),
  dxfCase(
    'a gap in inches',
    () =>
      dxf(
        [
          lightPolyline(
            [
              [1, 4.25],
              [0, 4],
              [0, 0],
              [1, 4],
            ],
            false,
          ),
        ],
        { units: 1 },
      ),
    'open-outline',
    'from (1, 4 in) to (1, 4.25 in) there is a gap of 0.25 in',
  ),
  dxfCase(
    '2,000 lines that touch nothing',
    () => dxf(Array.from({ length: 2000 }, (_, i) => line([i, 0], [i + 0.5, 7]))),
    'open-outline',
    'it has 4000 loose ends',
  ),
  dxfCase(
    '5,000 lines from one point',
    () => dxf(Array.from({ length: 5000 }, (_, i) => line([0, 0], [100 + i, i]))),
    'branched-outline',
    'more than two lines meet at (0, 0 mm)',
  ),
  dxfCase(
    'a line across the outline',
    () => dxf([...sides(SQUARE), line([0, 0], [100, 100])]),
    'branched-outline',
    'more than two lines meet at (0, 0 mm)',
  ),
  dxfCase(
    'an outline that crosses itself',
    () =>
      dxf([
        closed([
          [0, 0],
          [100, 100],
          [100, 0],
          [0, 100],
        ]),
      ]),
    'self-crossing',
    'crosses or touches itself at (50, 50 mm)',
  ),
  dxfCase(
    'a star of 4,999 points that crosses itself everywhere',
    () => dxf([closed(starCorners(4999))]),
    'self-crossing',
    'crosses or touches itself at',
  ),
  dxfCase(
    'several outlines',
    () => dxf([closed(SQUARE, 'Side'), closed(moved(SQUARE, 200), 'Back')]),
    'several-outlines',
    'several outlines side by side',
  ),
  // Far too much.
  dxfCase(
    '200,000 lines',
    () => dxf(Array.from({ length: 200_000 }, (_, i) => line([i, 0], [i + 1, 0]))),
    'drawing-too-large',
    'MB; the most is 5',
  ),
  dxfCase(
    '200,000 corners of a polyline',
    () => dxf([bareCorners(200_000)]),
    'too-complex',
    'at least 20001 lines, arcs and corners; the most is 20000',
  ),
  dxfCase(
    '60,000 corners of an old polyline',
    () =>
      dxf([
        oldPolyline(
          Array.from({ length: 60_000 }, (_, i) => [i, i % 2]),
          true,
        ),
      ]),
    'too-complex',
    'at least 20001 lines, arcs and corners; the most is 20000',
  ),
  dxfCase(
    '19,000 circles',
    () => dxf(Array.from({ length: 19_000 }, (_, i) => circle([i, 0], 1))),
    'too-complex',
    'lines and arcs; the most is 5000',
  ),
  dxfCase(
    '19,000 flat ellipses',
    () => dxf(Array.from({ length: 19_000 }, (_, i) => ellipse([i, 0], [400, 0], 0.001))),
    'too-complex',
    'lines and arcs; the most is 5000',
  ),
  dxfCase(
    '5,000 lines in any order, which are read',
    () => dxf(scattered(sides(roundCorners(5000)))),
    null,
    '',
  ),
  dxfCase(
    '1,000 layers with as many outlines',
    () => dxf(Array.from({ length: 1000 }, (_, i) => closed(moved(SQUARE, i), `Layer ${i}`))),
    'several-outlines',
    'several outlines side by side',
  ),
  // Blocks.
  dxfCase('blocks inside blocks, 100 levels', () => nested(100), null, ''),
  dxfCase(
    'blocks inside blocks, 101 levels',
    () => nested(101),
    'too-complex',
    'blocks inside blocks go down at least 101 levels; the most is 100',
  ),
  dxfCase(
    'blocks that hold the next twice, 60 levels',
    () =>
      dxf([insert('B0', [0, 0])], {
        blocks: Array.from({ length: 60 }, (_, i) =>
          block(`B${i}`, [0, 0], [insert(`B${i + 1}`, [0, 0]), insert(`B${i + 1}`, [1, 0])]),
        ).concat([block('B60', [0, 0], [])]),
      }),
    'too-complex',
    'lines, arcs and blocks; the most is 50000',
  ),
  dxfCase(
    '32,767 rows and columns',
    () =>
      dxf([insert('Dot', [0, 0], { columns: [32767, 1], rows: [32767, 1] })], {
        blocks: [block('Dot', [0, 0], [circle([0, 0], 1)])],
      }),
    'too-complex',
    'lines, arcs and blocks; the most is 50000',
  ),
  dxfCase(
    'a block that holds itself by way of another',
    () =>
      dxf([insert('A', [0, 0])], {
        blocks: [
          block('A', [0, 0], [insert('b', [0, 0])]),
          block('B', [0, 0], [insert('a', [0, 0])]),
        ],
      }),
    'drawing-broken',
    'the block "A" holds itself',
  ),
  ...['Missing', '__proto__', 'toString'].map((name) =>
    dxfCase(
      `an insert of ${name}`,
      () => dxf([insert(name, [0, 0])]),
      'drawing-broken',
      `there is no block "${name}"`,
    ),
  ),
  dxfCase(
    'an insert of scale 0',
    () => dxf([insert('A', [0, 0], { scale: [0, 1] })], { blocks: [block('A', [0, 0], [])] }),
    'drawing-broken',
    'its scale is 0',
  ),
  dxfCase(
    'a block that is another file',
    () =>
      dxf([insert('A', [0, 0])], { blocks: [block('A', [0, 0], [])] }).replace(
        '70\n0\n10',
        '70\n4\n10',
      ),
    'drawing-feature',
    'the block "A" is another file',
  ),
  // Texts that are no sound DXF.
  dxfCase('nothing', () => '', 'drawing-broken', 'the drawing ends too early'),
  dxfCase('blank lines', () => '\n\n\n', 'drawing-broken', 'the drawing ends too early'),
  dxfCase(
    'no DXF',
    () => 'hello\nthere\n',
    'drawing-broken',
    '"hello" is not the number of a group',
  ),
  dxfCase('SVG', () => '<svg/>', 'drawing-broken', '"<svg/>" is not the number of a group'),
  dxfCase(
    'numbers only',
    () => '1\n2\n'.repeat(50_000),
    'drawing-broken',
    'does not begin with a section',
  ),
  dxfCase(
    'a binary DXF',
    () => 'Any Name Binary DXF\r\n\u001a\u0000',
    'drawing-broken',
    'a binary DXF drawing',
  ),
  dxfCase(
    'the format of a program',
    () => 'AC1027\u0000\u0000\u0001',
    'drawing-broken',
    'in the own format of a drawing program',
  ),
  dxfCase('half of it', () => halved(dxf([closed(SQUARE)])), 'drawing-broken', 'ends too early'),
  dxfCase(
    'an odd number of lines',
    () => `${dxf([closed(SQUARE)]).slice(0, -4)}`,
    'drawing-broken',
    'ends in the middle of a group',
  ),
  dxfCase(
    'a section without end',
    () => dxf([closed(SQUARE)]).replace(/0\nENDSEC\n0\nEOF/, '0\nEOF'),
    'drawing-broken',
    'a section has no end (ENDSEC)',
  ),
  dxfCase(
    'a polyline without end',
    () =>
      dxf([oldPolyline(SQUARE, true).filter(([, value]) => value !== 'SEQEND'), circle([0, 0], 1)]),
    'drawing-broken',
    'a polyline has no end (SEQEND) before this "CIRCLE"',
  ),
  dxfCase(
    'a block without end',
    () => dxf([], { blocks: [block('A', [0, 0], []).filter(([, value]) => value !== 'ENDBLK')] }),
    'drawing-broken',
    'a block has no end (ENDBLK)',
  ),
  dxfCase(
    'places that do not pair',
    () =>
      dxf([
        [
          [0, 'LINE'],
          [10, 0],
          [11, 5],
          [20, 0],
          [21, 5],
        ],
      ]),
    'drawing-broken',
    'the drawing is not sound',
  ),
  dxfCase(
    'a unit that is none',
    () => dxf([closed(SQUARE)], { units: 'mm' as unknown as number }),
    'drawing-broken',
    '"mm" is not the number of a unit',
  ),
  dxfCase(
    'light years',
    () => dxf([closed(SQUARE)], { units: 20 }),
    'no-drawing-unit',
    'names unit 20',
  ),
  dxfCase(
    'no unit',
    () => dxf([closed(SQUARE)], { units: null }),
    'no-drawing-unit',
    'does not say its unit',
  ),
  dxfCase(
    'metres that are said to be millimetres',
    () =>
      dxf([
        closed([
          [0, 0],
          [0.72, 0],
          [0, 0.56],
        ]),
      ]),
    'drawing-unit',
    'the outline is 0.72 × 0.56 mm only',
  ),
  dxfCase(
    'millimetres that are said to be metres',
    () => dxf([closed(moved(SQUARE, 0))], { units: 6 }),
    'outline-too-large',
    'more than 4.194304 m from the origin',
  ),
  dxfCase(
    'millimetres that are said to be inches',
    () =>
      dxf(
        [
          closed([
            [0, 0],
            [160, 0],
            [0, 100],
          ]),
        ],
        { units: 1 },
      ),
    'fits-no-sheet',
    '',
  ),
  dxfCase(
    'texts and dimensions only',
    () =>
      dxf([
        [
          [0, 'TEXT'],
          [1, 'Side'],
        ],
        [[0, 'DIMENSION']],
        [
          [0, 'TEXT'],
          [1, 'Back'],
        ],
      ]),
    'drawing-empty',
    'the drawing shows no outline; the drawing has 2 TEXT, 1 DIMENSION',
  ),
  dxfCase(
    'a solid body beside the outline',
    () =>
      dxf([
        closed(SQUARE),
        [
          [0, 'REGION'],
          [8, '0'],
          [1, 'x'],
        ],
      ]),
    'drawing-ignored',
    'REGION in the drawing are not read',
  ),
];

const SVG_HEAD =
  '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">';
const RECT = '<rect width="100" height="100"/>';

export const HOSTILE_SVG: readonly HostileDrawing[] = [
  svgCase(
    '200,000 lines',
    () => `<path d="M0 0${'L1 2 3 4'.repeat(100_000)}Z"/>`,
    'too-complex',
    'letters; the most is 300000',
  ),
  svgCase(
    '100,000 rectangles',
    () => '<rect width="9" height="9"/>'.repeat(100_000),
    'too-complex',
    'lines and arcs; the most is 5000',
  ),
  svgCase(
    'groups 101 deep',
    () => `${'<g>'.repeat(101)}${RECT}${'</g>'.repeat(101)}`,
    'too-complex',
    '101 levels; the most is 100',
  ),
  svgCase('not-a-number', () => '<path d="M0 0 LNaN 5 Z"/>', 'bad-path', 'cannot read the path'),
  svgCase(
    'a gap',
    () => '<path d="M0 0H100V100H0V0.5"/>',
    'open-outline',
    'from (0, 0.5 mm) to (0, 0 mm) there is a gap of 0.5 mm',
  ),
  svgCase(
    'an outline that crosses itself',
    () => '<path d="M0 0 L100 100 V0 L0 100 Z"/>',
    'self-crossing',
    'crosses or touches itself at (50, 50 mm)',
  ),
  svgCase(
    'lines in pieces, which are read',
    () => '<path d="M0 0H100V100"/><line x1="0" x2="100" y1="100" y2="100"/><path d="M0 0V100"/>',
    null,
    '',
  ),
  svgCase('a script', () => `<script>1</script>${RECT}`, 'drawing-unsafe', 'script'),
  svgCase(
    'several outlines',
    () => '<rect id="side" width="9" height="9"/><rect id="back" x="20" width="8" height="9"/>',
    'several-outlines',
    'several outlines side by side',
  ),
  {
    ...svgCase('entities that grow', () => '', 'drawing-unsafe', 'entities of its own'),
    text: () =>
      `<!DOCTYPE svg [<!ENTITY a "${'ha'.repeat(10)}"><!ENTITY b "&a;&a;">]>${SVG_HEAD}<text>&b;</text>${RECT}</svg>`,
  },
];

function dxfCase(
  name: string,
  text: () => string,
  code: string | null,
  message: string,
): HostileDrawing {
  return { name, file: 'a.dxf', text, code, message };
}

function svgCase(
  name: string,
  inside: () => string,
  code: string | null,
  message: string,
): HostileDrawing {
  return { name, file: 'a.svg', text: () => `${SVG_HEAD}${inside()}</svg>`, code, message };
}

function sides(corners: readonly Corner[]): Entity[] {
  return corners.map((from, i) => line(from, corners[(i + 1) % corners.length]!));
}

function moved(corners: readonly Corner[], by: number): Corner[] {
  return corners.map(([x, y]) => [x + by, y + by / 7]);
}

function roundCorners(count: number): Corner[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return [500 * Math.cos(angle), 500 * Math.sin(angle)];
  });
}

/** Every corner joined to the one nearly across. */
function starCorners(count: number): Corner[] {
  const round = roundCorners(count);
  return round.map((_, i) => round[(i * Math.floor(count / 2)) % count]!);
}

/** In another order, the same each time. */
function scattered<T>(items: readonly T[]): T[] {
  return items.map((_, i) => items[(i * 1237) % items.length]!);
}

function bareCorners(count: number): Entity {
  const corners = Array.from({ length: count }, (_, i): Group[] => [
    [10, i],
    [20, i % 2],
  ]);
  return [[0, 'LWPOLYLINE'], [90, count], [70, 1], ...corners.flat()];
}

function wildSpline(count: number) {
  const inner = count - 3;
  return {
    degree: 3,
    knots: [0, 0, 0, ...Array.from({ length: inner + 1 }, (_, i) => i), inner, inner, inner],
    controls: Array.from(
      { length: count },
      (_, i): Corner => [(i * 7919) % 997, (i * 104729) % 991],
    ),
  };
}

/** The square at the bottom of so many blocks, each inside the one before. */
function nested(levels: number): string {
  const blocks = Array.from({ length: levels }, (_, i) =>
    block(`B${i + 1}`, [0, 0], [i + 1 === levels ? closed(SQUARE) : insert(`B${i + 2}`, [0, 0])]),
  );
  return dxf([insert('B1', [0, 0])], { blocks });
}

function halved(text: string): string {
  return text.split('\n').slice(0, 40).join('\n');
}
