import { describe, expect, it } from 'vitest';
import { boxOfShape } from '../../src/geometry/pose.ts';
import type { DrawnBody } from '../../src/partsfile/drawn-shape.ts';
import { openDxf, readDxf } from '../../src/partsfile/dxf-drawing.ts';
import { exactAreaMm2 } from '../helpers/exact-area.ts';
import {
  arc,
  areaOf,
  block,
  type Corner,
  circle,
  closed,
  dxf,
  type Entity,
  ellipse,
  fromBelow,
  insert,
  lightPolyline,
  line,
  oldPolyline,
  reversed,
  sidesOf,
  spline,
} from './dxf-text.ts';

const MM = 8000;

function bodyOf(text: string, name: string | null = null): DrawnBody {
  const opened = openDxf(text);
  if ('code' in opened) throw new Error(`${opened.code}: ${opened.message}`);
  const { shape, warnings } = readDxf(opened, name);
  if (!shape.ok) throw new Error(`${shape.fault.code}: ${shape.fault.message}`);
  expect(warnings).toEqual([]);
  return shape;
}

function boxMm({ shape }: DrawnBody): readonly number[] {
  const { minX, maxX, minY, maxY } = boxOfShape(shape);
  return [minX, maxX, minY, maxY].map((n) => n / MM);
}

/** The order in which a drawing program might write them. */
function shuffled<T>(items: readonly T[]): T[] {
  let state = 5;
  const left = [...items];
  return items.map(() => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return left.splice(state % left.length, 1)[0]!;
  });
}

/** Every second side as a polyline of its own that runs the other way, the rest as lines and arcs. */
function mixed(corners: readonly Corner[]): Entity[] {
  const sides = sidesOf(corners);
  return corners.map((from, i) => {
    const [x, y] = from;
    const [x2, y2] = corners[(i + 1) % corners.length]!;
    if (i % 2 === 0) return sides[i]!;
    return lightPolyline(
      [
        [x2, y2, -(from[2] ?? 0)],
        [x, y],
      ],
      false,
    );
  });
}

const D: readonly Corner[] = [
  [0, 0],
  [60, 0, 1],
  [60, 40],
  [0, 40],
];
const BITTEN: readonly Corner[] = [
  [0, 0],
  [300, 0],
  [300, 120, 0.4],
  [180, 200, -0.7],
  [60, 200],
  [0, 140],
];
const SLOT: readonly Corner[] = [
  [0, 0],
  [100, 0, 1],
  [100, 24],
  [0, 24, 1],
];
const RING_OF_ARCS: readonly Corner[] = [
  [80, 0, 2.5],
  [0, 10, 0.2],
];

describe('one outline, however it is drawn', () => {
  it.each([
    ['a round end', D],
    ['arcs that go in and out', BITTEN],
    ['a slot', SLOT],
    ['an arc of more than half a circle', RING_OF_ARCS],
  ] as const)('%s', (_, corners) => {
    const area = areaOf(corners);
    const ways: Readonly<Record<string, readonly Entity[]>> = {
      light: [closed(corners)],
      old: [oldPolyline(corners, true)],
      backwards: [closed(reversed(corners))],
      sides: sidesOf(corners),
      shuffled: shuffled(sidesOf(corners)),
      reversed: sidesOf(reversed(corners)),
      mixed: shuffled(mixed(corners)),
      open: [lightPolyline([...corners, corners[0]!], false)],
      twice: shuffled([...sidesOf(corners), ...sidesOf(reversed(corners))]),
    };
    for (const [way, entities] of Object.entries(ways)) {
      const { shape, holes } = bodyOf(dxf(entities));
      expect([way, shape.inner, holes]).toEqual([way, [], []]);
      // The grid of 1/8 µm times the length of the outline.
      expect(Math.abs(exactAreaMm2(shape.outer) - area), way).toBeLessThan(0.05);
      const arcs = shape.outer.filter(({ via }) => via !== null).length;
      // Nothing is flattened: an arc stays one, or two where it sweeps more than half a circle.
      expect(arcs, way).toBe(
        corners.reduce((sum, [, , b = 0]) => sum + (b === 0 ? 0 : Math.abs(b) > 1 ? 2 : 1), 0),
      );
    }
  });

  it('is exact where the drawing is', () => {
    expect(boxMm(bodyOf(dxf(sidesOf(D))))).toEqual([0, 80, 0, 40]);
  });
});

interface Drawn {
  readonly name: string;
  readonly text: string;
  readonly pick?: string;
  readonly area: number;
  readonly box: readonly number[];
  /** Of cut-outs, below 0. */
  readonly cutOuts?: readonly number[];
  readonly holes?: readonly (readonly [x: number, y: number, diameter: number])[];
}

const SQUARE: readonly Corner[] = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];
const NOTCHED: readonly Corner[] = [
  [0, 0],
  [20, 0],
  [20, 10],
  [10, 10],
  [10, 20],
  [0, 20],
];
const HALF_DISC = [arc([0, 0], 10, 0, 180), line([-10, 0], [10, 0])];

const BLOCKS = [
  block('Notch', [0, 0], [closed(NOTCHED)]),
  block('Off', [5, 5], [closed(NOTCHED)]),
  block('Half', [0, 0], HALF_DISC),
  block('Inner', [0, 0], [circle([0, 0], 3)]),
  block('Outer', [0, 0], [closed(SQUARE), insert('Inner', [50, 50], { scale: [10, 10] })]),
];
const placed = (...entities: Entity[]) => dxf(entities, { blocks: BLOCKS });

const DRAWN: readonly Drawn[] = [
  {
    name: 'a circle on its own, which is an outline whatever its size',
    text: dxf([circle([5, 5], 5)]),
    area: Math.PI * 25,
    box: [0, 10, 0, 10],
  },
  {
    name: 'y upwards, as drawn',
    text: dxf([closed(NOTCHED)]),
    area: 300,
    box: [0, 20, 0, 20],
  },
  {
    name: 'circles as holes up to 16 mm, as cut-outs above',
    text: dxf([
      closed(SQUARE),
      circle([20, 20], 8),
      circle([50, 50], 8.001),
      circle([80, 80], 2.5),
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
    cutOuts: [-Math.PI * 8.001 ** 2],
    holes: [
      [20, 20, 16],
      [80, 80, 5],
    ],
  },
  {
    name: 'a hole drawn as two half circles, and one as three arcs',
    text: dxf([
      closed(SQUARE),
      closed([
        [20, 30, 1],
        [30, 30, 1],
      ]),
      arc([70.5, 30.25], 3.5, 10, 130),
      arc([70.5, 30.25], 3.5, 250, 10),
      arc([70.5, 30.25], 3.5, 130, 250),
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
    holes: [
      [25, 30, 10],
      [70.5, 30.25, 7],
    ],
  },
  {
    name: 'what is no circle stays a cut-out, however small',
    text: dxf([
      closed(SQUARE),
      closed([
        [20, 20],
        [30, 20, 1],
        [30, 28],
        [20, 28, 1],
      ]),
      ellipse([60, 60], [5, 0], 0.5),
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
    cutOuts: [-(80 + 16 * Math.PI), -12.5 * Math.PI],
  },
  {
    name: 'a whole ellipse, turned',
    text: dxf([ellipse([10, 0], [30, 40], 0.3)]),
    area: Math.PI * 50 * 15,
    box: [10 - Math.hypot(30, 12), 10 + Math.hypot(30, 12), -Math.hypot(40, 9), Math.hypot(40, 9)],
  },
  {
    name: 'half an ellipse, closed by a line',
    text: dxf([ellipse([0, 0], [40, 0], 0.5, 0, Math.PI), line([-40, 0], [40, 0])]),
    area: (Math.PI * 800) / 2,
    box: [-40, 40, 0, 20],
  },
  {
    name: 'half an ellipse that faces down: its angles run the other way',
    text: dxf([fromBelow(ellipse([0, 0], [40, 0], 0.5, 0, Math.PI)), line([-40, 0], [40, 0])]),
    area: (Math.PI * 800) / 2,
    box: [-40, 40, -20, 0],
  },
  {
    name: 'an arc that faces down: x counts the other way',
    text: dxf([
      fromBelow(arc([10, 0], 10, 0, 90)),
      line([-20, 0], [-10, 0]),
      line([-10, 0], [-10, 10]),
    ]),
    area: (Math.PI * 100) / 4,
    box: [-20, -10, 0, 10],
  },
  {
    name: 'a polyline and a circle that face down',
    text: dxf([fromBelow(closed(NOTCHED)), fromBelow(circle([5, 5], 2))]),
    area: 300,
    box: [-20, 0, 0, 20],
    holes: [[-5, 5, 4]],
  },
  {
    name: 'inches',
    text: dxf(
      [
        closed([
          [0, 0],
          [2, 0],
          [2, 1],
          [0, 1],
        ]),
      ],
      { units: 1 },
    ),
    area: 2 * 25.4 * 25.4,
    box: [0, 50.8, 0, 25.4],
  },
  ...(
    [
      [2, 304.8],
      [5, 10],
      [6, 1000],
    ] as const
  ).map(
    ([units, size]): Drawn => ({
      name: `the unit of number ${units}`,
      text: dxf(
        [
          closed([
            [0, 0],
            [0.5, 0],
            [0.5, 1],
            [0, 1],
          ]),
        ],
        { units },
      ),
      area: 0.5 * size * size,
      box: [0, 0.5 * size, 0, size],
    }),
  ),
  {
    name: 'a block turned by 90 and scaled by 2',
    text: placed(insert('Notch', [100, 50], { scale: [2, 2], turn: 90 })),
    area: 1200,
    box: [60, 100, 50, 90],
  },
  {
    name: 'a block whose base point is not its origin',
    text: placed(insert('Off', [0, 0], { turn: 180 })),
    area: 300,
    box: [-15, 5, -15, 5],
  },
  {
    name: 'a mirrored block, whose arc runs the other way',
    text: placed(insert('Half', [0, 0], { scale: [1, -1] })),
    area: 50 * Math.PI,
    box: [-10, 10, -10, 0],
  },
  {
    name: 'a block seen from below, turned by 30',
    text: placed(fromBelow(insert('Notch', [10, 0], { turn: 30 }))),
    area: 300,
    box: [-10 - 20 * Math.cos(Math.PI / 6), 0, 0, 5 + 10 * Math.sqrt(3)],
  },
  {
    name: 'a block with unequal scales, which make an ellipse of its arc',
    text: placed(insert('Half', [0, 0], { scale: [3, 1] })),
    area: 150 * Math.PI,
    box: [-30, 30, 0, 10],
  },
  {
    name: 'a block in a block, turned and scaled unequally',
    text: placed(insert('Outer', [0, 0], { scale: [1, 2], turn: 90 })),
    area: 20000,
    box: [-200, 0, 0, 100],
    cutOuts: [-Math.PI * 30 * 60],
  },
  {
    name: 'rows and columns of a block',
    text: placed(
      closed(SQUARE),
      insert('Inner', [10, 10], { columns: [3, 20], rows: [2, 40], turn: 0 }),
    ),
    area: 10000,
    box: [0, 100, 0, 100],
    holes: [
      [10, 10, 6],
      [30, 10, 6],
      [50, 10, 6],
      [10, 50, 6],
      [30, 50, 6],
      [50, 50, 6],
    ],
  },
  {
    name: 'rows and columns turn with their block, and are not scaled',
    text: placed(
      closed(SQUARE),
      insert('Inner', [50, 50], { columns: [2, 20], turn: 90, scale: [2, 2] }),
    ),
    area: 10000,
    box: [0, 100, 0, 100],
    holes: [
      [50, 50, 12],
      [50, 70, 12],
    ],
  },
  {
    name: 'one layer of several, whatever its letters',
    text: dxf([closed(SQUARE, 'Side'), closed(NOTCHED, 'Back'), circle([50, 50], 4, 'side')]),
    pick: 'SIDE',
    area: 10000,
    box: [0, 100, 0, 100],
    holes: [[50, 50, 8]],
  },
  {
    name: 'what a block has on layer 0 is on the layer of the block',
    text: dxf([insert('Notch', [0, 0], {}, 'Back'), closed(SQUARE, 'Side')], { blocks: BLOCKS }),
    pick: 'Back',
    area: 300,
    box: [0, 20, 0, 20],
  },
  {
    name: 'a block by its name, where no layer has it, used or not',
    text: dxf([closed(SQUARE)], { blocks: BLOCKS }),
    pick: 'notch',
    area: 300,
    box: [0, 20, 0, 20],
  },
  {
    name: 'layers that are off or frozen are left out',
    text: dxf(
      [closed(SQUARE, 'Side'), line([0, 0], [5, 5], 'Help'), line([0, 0], [7, 5], 'Cold')],
      {
        layers: [
          ['Side', 0, 7],
          ['Help', 0, -3],
          ['Cold', 1, 3],
        ],
      },
    ),
    area: 10000,
    box: [0, 100, 0, 100],
  },
  {
    name: 'unless they are named',
    text: dxf([closed(SQUARE, 'Side'), closed(NOTCHED, 'Help')], { layers: [['Help', 0, -3]] }),
    pick: 'Help',
    area: 300,
    box: [0, 20, 0, 20],
  },
  {
    name: 'a layer whose name was written by the numbers of its letters',
    text: dxf([closed(SQUARE, 'R\\U+00FCck'), closed(NOTCHED, 'x')]),
    pick: 'Rück',
    area: 10000,
    box: [0, 100, 0, 100],
  },
  {
    name: 'texts, dimensions, hatches and paper space beside it',
    text: dxf([
      closed(SQUARE),
      [
        [0, 'TEXT'],
        [8, '0'],
        [10, 5],
        [20, 5],
        [40, 3],
        [1, 'Side'],
      ],
      [
        [0, 'DIMENSION'],
        [8, '0'],
        [2, '*D1'],
        [10, 5],
        [20, 5],
      ],
      [
        [0, 'HATCH'],
        [8, '0'],
        [10, 5],
        [20, 5],
        [91, 1],
        [92, 2],
      ],
      [
        [0, 'LINE'],
        [8, '0'],
        [67, 1],
        [10, 5],
        [20, 5],
        [11, 7],
        [21, 5],
      ],
      [
        [0, 'LINE'],
        [8, '0'],
        [60, 1],
        [10, 5],
        [20, 5],
        [11, 7],
        [21, 5],
      ],
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
  },
  {
    name: 'what other programs hang on',
    text: dxf([[...closed(SQUARE), [1001, 'APP'], [1010, 5], [1020, 5], [1040, 3]]]),
    area: 10000,
    box: [0, 100, 0, 100],
  },
  {
    name: 'an old polyline with a curve laid through it, without the corners it was reckoned from',
    text: dxf([
      [
        [0, 'POLYLINE'],
        [66, 1],
        [70, 5],
        ...(
          [
            [0, 0, 8],
            [100, 0, 8],
            [70, 900, 16],
            [100, 100, 8],
            [0, 100, 8],
          ] as const
        ).flatMap(
          ([x, y, flags]) =>
            [
              [0, 'VERTEX'],
              [10, x],
              [20, y],
              [70, flags],
            ] as const,
        ),
        [0, 'SEQEND'],
      ],
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
  },
  {
    name: 'gaps of 0.01 mm',
    text: dxf([
      line([0, 0], [99.99, 0]),
      line([100, 0], [100, 99.995]),
      line([0, 100], [100, 100]),
      line([0, 99.991], [0, 0.009]),
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
  },
  {
    name: 'a line of 4 µm between two others',
    text: dxf([
      line([0, 0], [100, 0]),
      line([100, 0], [100, 0.004]),
      line([100, 0.004], [100, 100]),
      line([100, 100], [0, 100]),
      line([0, 100], [0, 0]),
    ]),
    area: 10000,
    box: [0, 100, 0, 100],
  },
];

describe('drawings', () => {
  it.each(DRAWN.map((drawn) => [drawn.name, drawn] as const))('%s', (_, drawn) => {
    const body = bodyOf(drawn.text, drawn.pick ?? null);
    boxMm(body).forEach((value, i) => {
      expect(Math.abs(value - drawn.box[i]!)).toBeLessThanOrEqual(0.011);
    });
    const near = (area: number, right: number) =>
      expect(Math.abs(area / right - 1)).toBeLessThan(3e-4);
    near(exactAreaMm2(body.shape.outer), drawn.area);
    const cutOuts = drawn.cutOuts ?? [];
    expect(body.shape.inner).toHaveLength(cutOuts.length);
    body.shape.inner.forEach((inner, i) => {
      near(exactAreaMm2(inner), cutOuts[i]!);
    });
    const holes = body.holes.map(({ x, y, diameter }) => [x / MM, y / MM, diameter / MM]);
    expect(holes).toEqual(drawn.holes ?? []);
  });

  it('reads Windows and old line ends, blanks and comments, and says the same', () => {
    const text = dxf([closed(D)]);
    const right = bodyOf(text);
    const padded = text.replace(/^(\d+)$/gm, '  $1 ');
    for (const other of [
      text.replaceAll('\n', '\r\n'),
      text.replaceAll('\n', '\r'),
      padded,
      `999\nhello\n${text}\n\n`,
    ])
      expect(bodyOf(other)).toEqual(right);
  });
});

describe('splines', () => {
  const closing = (from: Corner, to: Corner) => line(to, from);

  it.each([
    [
      // y = x (100 - x) / 50 over 0 to 100: the area is 100³ / 300.
      'a parabola of degree 2',
      {
        degree: 2,
        knots: [0, 0, 0, 1, 1, 1],
        controls: [
          [0, 0],
          [50, 100],
          [100, 0],
        ],
      },
      1e6 / 300,
    ],
    [
      'the same raised to degree 3',
      {
        degree: 3,
        knots: [0, 0, 0, 0, 1, 1, 1, 1],
        controls: [
          [0, 0],
          [100 / 3, 200 / 3],
          [200 / 3, 200 / 3],
          [100, 0],
        ],
      },
      1e6 / 300,
    ],
    [
      // The same with a knot put in at 0.25 by hand (Boehm's rule).
      'the same with another knot',
      {
        degree: 2,
        knots: [0, 0, 0, 0.25, 1, 1, 1],
        controls: [
          [0, 0],
          [12.5, 25],
          [62.5, 75],
          [100, 0],
        ],
      },
      1e6 / 300,
    ],
    [
      'the same without knots repeated at its ends',
      {
        degree: 2,
        knots: [-2, -1, 0, 1, 2, 3],
        controls: [
          [-50, -100],
          [50, 100],
          [150, -100],
        ],
      },
      1e6 / 300,
    ],
    [
      'half a circle, with weights',
      {
        degree: 2,
        knots: [0, 0, 0, 1, 1, 2, 2, 2],
        controls: [
          [50, 0],
          [50, 50],
          [0, 50],
          [-50, 50],
          [-50, 0],
        ],
        weights: [1, Math.SQRT1_2, 1, Math.SQRT1_2, 1],
      },
      (Math.PI * 2500) / 2,
    ],
    [
      'straight sides, degree 1',
      {
        degree: 1,
        knots: [0, 0, 1, 2, 2],
        controls: [
          [0, 0],
          [30, 40],
          [100, 0],
        ],
      },
      2000,
    ],
  ] as const)('%s', (_, text, area) => {
    const pieces = Math.round(text.knots.length - 2 * text.degree - 1);
    const ends = endsOf(text.controls, text.knots[0] === -2);
    const { shape } = bodyOf(dxf([spline(text), closing(...ends)]));
    expect(Math.abs(exactAreaMm2(shape.outer) / area - 1)).toBeLessThan(1e-4);
    expect(shape.outer.length).toBeLessThan(60 * pieces);
  });

  it('is one closed curve where it comes back, and no corner where it is smooth', () => {
    // A uniform cubic spline round eight places of a circle, the first three repeated.
    const places = Array.from({ length: 11 }, (_, i): Corner => {
      const angle = (i * Math.PI) / 4;
      return [200 * Math.cos(angle), 200 * Math.sin(angle)];
    });
    const knots = Array.from({ length: 15 }, (_, i) => i);
    const { shape } = bodyOf(dxf([spline({ degree: 3, knots, controls: places })]));
    expect(shape.inner).toEqual([]);
    // Green's theorem over the pieces, each a cubic, by Simpson's rule on 200 steps.
    expect(exactAreaMm2(shape.outer) / uniformArea(places)).toBeCloseTo(1, 5);
  });

  it('is the same after an insert with unequal scales', () => {
    const text = {
      degree: 2,
      knots: [0, 0, 0, 1, 1, 1],
      controls: [
        [0, 0],
        [50, 100],
        [100, 0],
      ],
    } as const;
    const blocks = [block('Arch', [0, 0], [spline(text), line([0, 0], [100, 0])])];
    const { shape } = bodyOf(
      dxf([insert('Arch', [9, 9], { scale: [2, -0.5], turn: 17 })], { blocks }),
    );
    expect(exactAreaMm2(shape.outer) / (1e6 / 300)).toBeCloseTo(1, 3);
  });
});

function endsOf(controls: readonly Corner[], isOpen: boolean): readonly [Corner, Corner] {
  return isOpen
    ? [
        [0, 0],
        [100, 0],
      ]
    : [controls[0]!, controls.at(-1)!];
}

/** The area round a closed uniform cubic B-spline, from its basis functions. */
function uniformArea(controls: readonly Corner[]): number {
  const at = (i: number, t: number): readonly [number, number] => {
    const basis = [
      (1 - t) ** 3,
      3 * t ** 3 - 6 * t * t + 4,
      -3 * t ** 3 + 3 * t * t + 3 * t + 1,
      t ** 3,
    ];
    const sum = (k: 0 | 1) => basis.reduce((s, b, j) => s + (b / 6) * controls[i + j]![k], 0);
    return [sum(0), sum(1)];
  };
  let twice = 0;
  for (let i = 0; i + 3 < controls.length; i++)
    for (let k = 0; k < 2000; k++) {
      const [x1, y1] = at(i, k / 2000);
      const [x2, y2] = at(i, (k + 1) / 2000);
      twice += x1 * y2 - x2 * y1;
    }
  return twice / 2;
}
