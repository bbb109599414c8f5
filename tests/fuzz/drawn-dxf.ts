import {
  arc,
  block,
  type Corner,
  circle,
  dxf,
  type Entity,
  ellipse,
  fromBelow,
  type Group,
  insert,
  lightPolyline,
  line,
  oldPolyline,
  sidesOf,
  spline,
} from '../partsfile/dxf-text.ts';
import type { Draw } from './draw.ts';
import { oddWord } from './odd-words.ts';

/** The text of a DXF drawing, now and then with a value that is odd. */
export function drawnDxf(draw: Draw): string {
  const outline = draw.chance(0.85) ? [outlineOf(draw)] : [];
  // Half of them have drilled holes only, which go with most outlines.
  const more = draw.chance(0.5)
    ? draw.list(0, 2, (i) => circle([40 + 60 * i, 50], draw.pick([2.5, 4, 8])))
    : draw.list(1, draw.chance(0.05) ? 40 : 3, () => entityOf(draw)).flat();
  const entities = [...outline.flat(), ...more];
  const text = dxf(entities, {
    units: draw.pick([...Array(12).fill(4), 1, 5, 0, 6, 2, 13, 99, null]),
    blocks: draw.list(0, 2, (i) =>
      block(
        `B${i}`,
        draw.chance(0.5) ? [0, 0] : cornerOf(draw),
        draw.list(1, 2, () => entityOf(draw)).flat(),
      ),
    ),
    layers: draw.list(
      0,
      2,
      (i) => [`L${i}`, draw.pick([0, 1, 4, 5]), draw.pick([7, -7, 1])] as const,
    ),
  });
  return draw.chance(0.3) ? withOddGroup(text, draw) : text;
}

const LAYERS = ['0', '0', '0', 'L0', 'L1', 'CUT', '', 'constructor'];

function cornerOf(draw: Draw): Corner {
  const number = () =>
    draw.weighed([
      [6, () => draw.between(0, 250)],
      [3, () => draw.below(25_000) / 100],
      [1, () => draw.pick([0, -5, 0.001, 1e-9, 4194.304, 8388.608, 1e7])],
    ])();
  return draw.chance(0.2)
    ? [number(), number(), draw.pick([0.5, -0.5, 1, -1, 0.001, 40])]
    : [number(), number()];
}

function outlineOf(draw: Draw): Entity[] {
  const corners: Corner[] = [
    [0, 0, draw.pick([0, 0, 0.3, 1])],
    [300, 0],
    [300, 200, draw.pick([0, 0, -0.2])],
    [0, 200],
  ];
  return draw.weighed([
    [3, () => [lightPolyline(corners, true)]],
    [2, () => [oldPolyline(corners, true)]],
    [2, () => sidesOf(corners)],
    [1, () => [circle([150, 100], 120)]],
  ])();
}

function entityOf(draw: Draw): Entity[] {
  const layer = draw.pick(LAYERS);
  const corner = () => cornerOf(draw);
  const size = () => draw.pick([1, 3, 5, 8, 20, 45, 0, -2, 0.01, 4000]);
  const angle = () => draw.pick([0, 30, 90, 180, 270, 360, -45, 720.5]);
  const made = draw.weighed<() => Entity[]>([
    [3, () => [line(corner(), corner(), layer)]],
    [3, () => [circle(corner(), size(), layer)]],
    [2, () => [arc(corner(), size(), angle(), angle(), layer)]],
    [2, () => [lightPolyline(draw.list(0, 6, corner), draw.chance(0.7), layer)]],
    [1, () => [oldPolyline(draw.list(0, 6, corner), draw.chance(0.7), layer)]],
    [
      1,
      () => [
        ellipse(
          corner(),
          corner(),
          draw.pick([0.5, 1, 0, 2, -0.3]),
          draw.pick([0, 1]),
          draw.pick([2 * Math.PI, 3, 0]),
          layer,
        ),
      ],
    ],
    [3, () => [splineOf(draw)]],
    [
      2,
      () => [
        insert(
          draw.pick(['B0', 'B1', 'B2', '*Model_Space', '__proto__']),
          corner(),
          insertion(draw),
          layer,
        ),
      ],
    ],
    [
      1,
      () =>
        sidesOf(
          [
            [20, 20],
            [60, 20],
            [60, 60, 0.4],
            [20, 60],
          ],
          layer,
        ),
    ],
    [
      1,
      () => [
        [
          [
            0,
            draw.pick([
              'TEXT',
              'HATCH',
              '3DFACE',
              'POINT',
              'SOLID',
              'MTEXT',
              'DIMENSION',
              'constructor',
              'VERTEX',
              'SEQEND',
              'ENDBLK',
              'XLINE',
            ]),
          ],
          [8, layer],
          [10, 1],
          [20, 1],
        ],
      ],
    ],
  ])();
  return draw.chance(0.1) ? made.map(fromBelow) : made;
}

function splineOf(draw: Draw): Entity {
  const degree = draw.pick([1, 2, 3, 3, 5, 0, 99]);
  const controls = draw.list(2, 8, () => cornerOf(draw));
  const inner = Math.max(0, controls.length - degree - 1);
  const knots = [
    ...Array(Math.min(degree, 10) + 1).fill(0),
    ...Array.from({ length: inner }, (_, i) => i + 1),
    ...Array(Math.min(degree, 10) + 1).fill(inner + 1),
  ];
  const weights = draw.chance(0.3) ? controls.map(() => draw.pick([1, 0.7, 2, 0, -1])) : [];
  return spline({ degree, knots: draw.chance(0.1) ? knots.slice(1) : knots, controls, weights });
}

function insertion(draw: Draw) {
  const scale = () => draw.pick([1, 1, -1, 2, 0.5, 0, 1e6]);
  return {
    ...(draw.chance(0.4) ? { scale: [scale(), scale()] as const } : {}),
    ...(draw.chance(0.4) ? { turn: draw.pick([0, 45, 90, -30]) } : {}),
    ...(draw.chance(0.2) ? { columns: [draw.pick([1, 2, 3, 0, -1, 30_000]), 20] as const } : {}),
    ...(draw.chance(0.2) ? { rows: [draw.pick([1, 2, 3, 0, 30_000]), 20] as const } : {}),
  };
}

const GROUPS: readonly Group[] = [
  [0, 'EOF'],
  [0, 'ENDSEC'],
  [0, 'SECTION'],
  [0, 'TABLE'],
  [0, 'ENDTAB'],
  [2, 'ENTITIES'],
  [9, '$INSUNITS'],
  [9, '__proto__'],
  [67, 1],
  [66, 1],
  [70, 65_535],
  [71, 0],
  [999, 'a remark'],
  [1001, 'APP'],
  [10, 'x'],
  [40, 1e300],
  [90, 1_000_000_000],
  [230, -1],
  [102, '{A'],
];

/** Codes and values stand in pairs; another pair, one less, or an odd code or value. */
function withOddGroup(text: string, draw: Draw): string {
  const lines = text.split('\n');
  const at = 2 * draw.below(lines.length >> 1);
  const [code, value] = draw.pick(GROUPS);
  const changed = draw.weighed<() => string[]>([
    [3, () => lines.toSpliced(at, 0, String(code), String(value))],
    [2, () => lines.toSpliced(at, 2)],
    [2, () => lines.toSpliced(at + 1, 1, oddWord(draw))],
    [
      1,
      () =>
        lines.toSpliced(at, 1, draw.pick(['-1', '1071', '99999', 'x', '', ' 10', '10 ', '1e1'])),
    ],
    [1, () => lines.toSpliced(at, 1)],
  ])();
  return changed.join('\n');
}
