import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/area.ts';
import { flattenContour } from '../../src/geometry/flatten.ts';
import type { Contour } from '../../src/geometry/shape.ts';
import type { Part } from '../../src/model/part.ts';
import { codesOf, jobOf, jobText, MM, partOf, problemsOf, read } from './reading.ts';

const INCH = 203_200;

function cornersMm(contour: Contour): readonly (readonly number[])[] {
  return contour.map(({ x, y }) => [x / MM, y / MM]);
}

function holesMm(part: Part): readonly (readonly number[])[] {
  return part.holes.map(({ x, y }) => [x / MM, y / MM]);
}

function area(contour: Contour): number {
  return ringArea(flattenContour(contour, 'curve', 8)) / (MM * MM);
}

describe('outlines', () => {
  it('deducts edge bands and measures holes from the finished corner', () => {
    const part = partOf(
      'size: 300 x 200, edges: { left: 2, right: 1, bottom: 3 }, holes: [{ at: [50, 40], diameter: 8 }]',
    );
    expect([part.width, part.height]).toEqual([297 * MM, 197 * MM]);
    expect([part.finishedWidth, part.finishedHeight]).toEqual([300 * MM, 200 * MM]);
    expect(part.edgeBands).toEqual({ left: 2 * MM, right: MM, bottom: 3 * MM, top: 0 });
    expect(holesMm(part)).toEqual([[48, 37]]);
    expect(part.rectangular).toBe(true);
  });

  it('adds oversize on every side', () => {
    const part = partOf(
      'size: 300 x 200, oversize: 5, cut-outs: [{ at: [50, 40], size: 20 x 10 }]',
    );
    expect([part.width, part.height, part.finishedWidth]).toEqual([310 * MM, 210 * MM, 300 * MM]);
    expect(cornersMm(part.shape.inner[0] as Contour)).toContainEqual([55, 45]);
    const disc = partOf('shape: disc, diameter: 100, oversize: 2');
    expect([disc.width, disc.finishedWidth]).toEqual([104 * MM, 100 * MM]);
    const rounded = partOf('shape: rounded, size: 300 x 200, radius: 20, oversize: 2');
    expect(area(rounded.shape.outer)).toBeCloseTo(304 * 204 - (4 - Math.PI) * 22 ** 2, 0);
  });

  it('rounds corners, up to round ends', () => {
    for (const radius of [1, 20, 99.9, 100]) {
      const part = partOf(`shape: rounded, size: 300 x 200, radius: ${radius}`);
      expect([part.width, part.height]).toEqual([300 * MM, 200 * MM]);
      expect(area(part.shape.outer)).toBeCloseTo(60_000 - (4 - Math.PI) * radius ** 2, 0);
      expect(part.rectangular).toBe(false);
    }
    expect(partOf('shape: rounded, size: 300 x 200, radius: 0').rectangular).toBe(true);
    expect(partOf('shape: rounded, size: 200 x 200, radius: 100').shape.outer).toHaveLength(4);
  });

  it('moves points to the origin, and their holes and cut-outs with them', () => {
    const text = jobText(
      'points: [[100, 50], [100, 250], [400, 250], [400, 50]], holes: [{ at: [130, 60], diameter: 5 }], cut-outs: [{ points: [[200, 100], [300, 100], [250, 200]] }]',
    );
    const part = read(text).job?.parts[0] as Part;
    expect(holesMm(part)).toEqual([[30, 10]]);
    expect(cornersMm(part.shape.inner[0] as Contour)).toContainEqual([150, 150]);
    // Given clockwise, and only its box: both are seen.
    expect(area(part.shape.outer)).toBe(60_000);
    expect(area(part.shape.inner[0] as Contour)).toBe(-5000);
    expect(part.rectangular).toBe(true);
  });

  it.each([
    ['points: [[0, 0], [200, 0], [50, 90]], holes: [{ at: [60, 20], diameter: 5 }]', []],
    ['points: [[-9, 0], [200, 0], [50, 90]], count: 2', []],
    [
      'points: [[-9, 0], [200, 0], [50, 90]], holes: [{ at: [60, 20], diameter: 5 }]',
      ['points-origin'],
    ],
    [
      'points: [[0, 1], [200, 1], [50, 90]], pockets: [{ at: [60, 20], size: 5 x 5, depth: 3 }]',
      ['points-origin'],
    ],
    ['points: [[9, 9], [200, 9], [50, 90]], cut-outs: [{ path: M60 60 h5 v5 Z }]', []],
    [
      'points: [[9, 9], [200, 9], [50, 90]], cut-outs: [{ path: M0 0 h5 v5 Z, at: [60, 20] }]',
      ['points-origin'],
    ],
    ['path: M9 9 h90 v90 h-90 Z, holes: [{ at: [60, 20], diameter: 5 }]', []],
  ])('tells where holes count from other than the corner: %s', (keys, codes) => {
    expect(codesOf(jobText(keys))).toEqual(codes);
  });

  it.each([
    ['points: [[50, 50], [250, 50], [250, 150], [50, 150]]', 'in the coordinates of the points'],
    ['path: M50 50 h200 v100 h-200 Z', 'from the lower-left corner of the finished part'],
  ])('says of a hole outside of %s where it counts from', (outline, words) => {
    const { problems } = read(jobText(`${outline}, holes: [{ at: [-9, 9], diameter: 5 }]`));
    const outside = problems.find(({ code }) => code === 'hole-outside');
    expect(outside?.message).toContain('(-9, 9 mm)');
    expect(outside?.hint).toBe(`holes are placed by their centre, ${words}`);
  });

  it('turns path text over once, so that it looks as drawn', () => {
    const part = partOf('path: M0 0 H300 L0 200 Z, holes: [{ at: [20, 100], diameter: 5 }]');
    // The right angle is drawn at the top left.
    expect(cornersMm(part.shape.outer)).toEqual(
      expect.arrayContaining([
        [0, 200],
        [300, 200],
        [0, 0],
      ]),
    );
    expect(holesMm(part)).toEqual([[20, 100]]);
  });

  it('places a cut-out path in the drawing of its outline, at a corner, or below the top left corner', () => {
    const corner = (keys: string) => {
      const [inner] = partOf(keys).shape.inner;
      return cornersMm(inner as Contour).toSorted(
        (a, b) => (a[1] as number) - (b[1] as number) || (a[0] as number) - (b[0] as number),
      )[0];
    };
    const square = 'h20v20h-20z';
    expect(
      corner(`path: M1000 500 h300v200h-300z, cut-outs: [{ path: M1010 510 ${square} }]`),
    ).toEqual([10, 170]);
    expect(corner(`size: 300 x 200, cut-outs: [{ path: M10 10 ${square} }]`)).toEqual([10, 170]);
    expect(corner(`size: 300 x 200, cut-outs: [{ at: [40, 30], path: M10 10 ${square} }]`)).toEqual(
      [40, 30],
    );
  });

  it('takes the path in the unit of the file', () => {
    const part = partOf('path: M0 0 H12 V8.5 H0 Z', 'in');
    expect([part.width, part.height]).toEqual([12 * INCH, 8.5 * INCH]);
    expect(part.rectangular).toBe(true);
  });

  it('reads cut-outs of every kind', () => {
    const part = partOf(
      'size: 400 x 200, cut-outs: [{ at: [10, 10], size: 50 x 40, radius: 5 }, { at: [150, 100], diameter: 60 }, { at: [250, 20], path: M0 0 h20v20h-20z }, { points: [[300, 50], [350, 50], [300, 90]] }]',
    );
    expect(part.shape.inner.map((inner) => Math.round(area(inner)))).toEqual([
      -Math.round(2000 - (4 - Math.PI) * 25),
      -Math.round(Math.PI * 900),
      -400,
      -1000,
    ]);
    const round = cornersMm(part.shape.inner[1] as Contour);
    expect(round).toContainEqual([120, 100]);
    expect(round).toContainEqual([180, 100]);
  });

  it('keeps arcs of exact box within the box', () => {
    for (const diameter of ['60', '2-1/2in', '3/64in', '99.999875']) {
      const part = partOf(`shape: disc, diameter: ${diameter}`);
      expect(part.width).toBe(part.height);
      expect(part.shape.outer).toHaveLength(2);
    }
  });
});

describe('outlines that are none', () => {
  it.each<readonly [string, string]>([
    ['path: M0 0 L300 200 H0 L300 0 Z', 'self-crossing'],
    ['path: M0 0 H300 V200 H0 Z M100 50 L150 100 V50 L100 100 Z', 'self-crossing'],
    ['path: M0 0 H300 Z', 'no-area'],
    ['path: M0 0 H300 V200 H150 V-50 H140 V200 H0 Z', 'self-crossing'],
    ['path: M0 0 H100 V100 H0 Z M200 0 H300 V100 H200 Z', 'several-outlines'],
    ['path: M0 0 H300 V200 H0 Z M-50 50 H50 V100 H-50 Z', 'several-outlines'],
    ['path: M0 0 H300 V200 H0 Z M250 50 H350 V100 H250 Z', 'cut-out-outside'],
    ['points: [[0, 0], [300, 0]]', 'no-area'],
    ['points: [[0, 0], [300, 0], [300, 200], [300, 0]]', 'self-crossing'],
    ['points: [[0, 0]]', 'no-area'],
    ['points: []', 'no-area'],
    ['path: ""', 'wrong-type'],
    ['path: " "', 'no-area'],
  ])('%s', (keys, code) => {
    expect(codesOf(jobText(keys))).toEqual([code]);
  });

  it('may have stray points and lines in the drawing', () => {
    const part = partOf('path: M0 0 H300 V200 H0 Z M10 10 Z M20 20 h0 Z M30 30 h9 h-9 Z');
    expect(part.shape.inner).toEqual([]);
  });
});

describe('holes', () => {
  it('lays rows along the length or the width', () => {
    const part = partOf(
      'size: 300 x 200, holes: [{ row: 3, pitch: 32, from: [20, 30], along: width, diameter: 5, depth: 12 }, { row: 2, pitch: 64, from: [50, 30], along: length, diameter: 5 }]',
    );
    expect(holesMm(part)).toEqual([
      [20, 30],
      [20, 62],
      [20, 94],
      [50, 30],
      [114, 30],
    ]);
    expect(part.holes.map(({ depth }) => depth)).toEqual([12 * MM, 12 * MM, 12 * MM, null, null]);
  });

  it('takes a depth of the whole thickness as through', () => {
    const part = partOf('size: 300 x 200, holes: [{ at: [50, 50], diameter: 5, depth: 18 }]');
    expect(part.holes[0]?.depth).toBeNull();
  });

  it.each<readonly [string, string, readonly string[]]>([
    ['touching its edge', '{ at: [4, 100], diameter: 8 }', []],
    ['over its edge', '{ at: [3.999875, 100], diameter: 8 }', ['hole-outside']],
    ['outside', '{ at: [-20, 100], diameter: 8 }', ['hole-outside']],
    ['touching another', '{ at: [50, 50], diameter: 8 }, { at: [58, 50], diameter: 8 }', []],
    [
      'a counterbore',
      '{ at: [50, 50], diameter: 8 }, { at: [50, 50], diameter: 15, depth: 6 }',
      [],
    ],
    ['twice the same', '{ at: [50, 50], diameter: 8 }, { at: [50, 50], diameter: 8 }', ['overlap']],
    [
      'a row that meets itself',
      '{ row: 3, pitch: 4, from: [50, 50], along: length, diameter: 5 }',
      ['overlap'],
    ],
    ['without along', '{ row: 3, pitch: 32, from: [50, 50], diameter: 5 }', ['missing-key']],
    [
      'a row with at',
      '{ row: 3, pitch: 32, at: [50, 50], along: width, diameter: 5 }',
      ['misplaced-key'],
    ],
    ['neither', '{ diameter: 5 }', ['missing-key']],
    ['depth misspelt', '{ at: [50, 50], diameter: 5, depth: trough }', ['unknown-word']],
  ])('%s', (_, holes, codes) => {
    const text = jobText(`size: 300 x 200, holes: [${holes}]`);
    expect(codesOf(text)).toEqual(codes);
  });

  it('keeps clear of cut-outs', () => {
    const cutOut = 'size: 300 x 200, cut-outs: [{ at: [100, 50], size: 50 x 50 }]';
    expect(problemsOf(jobText(`${cutOut}, holes: [{ at: [96, 75], diameter: 8 }]`))).toEqual([]);
    for (const at of ['[97, 75]', '[120, 75]'])
      expect(codesOf(jobText(`${cutOut}, holes: [{ at: ${at}, diameter: 8 }]`))).toEqual([
        'overlap',
      ]);
  });
});

describe('cut-outs', () => {
  it.each<readonly [string, string, string]>([
    ['outside', '{ at: [400, 50], diameter: 20 }', 'cut-out-outside'],
    ['round the whole part', '{ at: [-10, -10], size: 400 x 400 }', 'cut-out-outside'],
    ['touching the outline', '{ at: [0, 50], size: 20 x 20 }', 'cut-out-outside'],
    ['crossing itself', '{ points: [[10, 10], [50, 50], [50, 10], [10, 50]] }', 'self-crossing'],
    ['without area', '{ points: [[10, 10], [50, 50]] }', 'no-area'],
    ['without form', '{ at: [10, 10] }', 'no-outline'],
    ['of two forms', '{ at: [10, 10], size: 5 x 5, diameter: 5 }', 'two-outlines'],
    ['without place', '{ size: 5 x 5 }', 'missing-key'],
    ['of two loops', '{ path: M10 10h40v40h-40z M20 20h5v5h-5z }', 'several-outlines'],
    ['with a radius too large', '{ at: [10, 10], size: 20 x 20, radius: 11 }', 'out-of-range'],
    [
      'meeting another',
      '{ at: [10, 10], size: 20 x 20 }, { at: [30, 10], size: 9 x 9 }',
      'overlap',
    ],
    ['inside another', '{ at: [10, 10], size: 20 x 20 }, { at: [15, 15], size: 5 x 5 }', 'overlap'],
  ])('%s', (_, cutOuts, code) => {
    expect(codesOf(jobText(`size: 300 x 200, cut-outs: [${cutOuts}]`))).toEqual([code]);
  });
});

describe('matched sets', () => {
  it('are one part a member, numbered set by set', () => {
    const job = jobOf(jobText('matched: [[200, 100], [300, 100]], count: 2, edges: { left: 1 }'));
    expect(job.parts.map(({ width, count }) => [width / MM, count])).toEqual([
      [199, 2],
      [299, 2],
    ]);
    expect(
      job.pieces.map(({ part, number, set, setOrder }) => [part, number, set, setOrder]),
    ).toEqual([
      [0, 1, 0, 1],
      [1, 2, 0, 2],
      [0, 3, 1, 1],
      [1, 4, 1, 2],
    ]);
    expect(job.sets).toEqual([
      { index: 0, name: 'Box', number: 1, axis: 'x', pieces: [0, 1] },
      { index: 1, name: 'Box', number: 2, axis: 'x', pieces: [2, 3] },
    ]);
  });

  it.each<readonly [string, 'x' | 'y']>([
    ['matched: [[450, 180], [450, 240]]', 'y'],
    ['matched: [[450, 180], [300, 180]]', 'x'],
    ['matched: [450 x 180, 450 x 180]', 'y'],
    ['matched: [[450, 180], [450, 180]], run: first', 'x'],
    ['matched: [[450, 180], [400, 170]], run: second', 'y'],
  ])('%s run along %s', (keys, axis) => {
    expect(jobOf(jobText(keys)).sets[0]?.axis).toBe(axis);
  });

  it('must fit a sheet as one, with the spacing between the pieces', () => {
    const set = (width: number) => jobText(`matched: [[${width}, 100], [1200, 100]], run: first`);
    expect(problemsOf(set(1233.65))).toEqual([]);
    expect(problemsOf(set(1233.651))).toEqual(['4:42 fits-no-sheet']);
  });

  it('of one piece is no set', () => {
    expect(problemsOf(jobText('matched: [[450, 180]]'))).toEqual(['4:42 set-direction']);
  });
});

describe('keys that do not go with the form of a part', () => {
  it.each<readonly [string, readonly string[]]>([
    ['path: M0 0h9v9z, oversize: 3', ['misplaced-key']],
    ['size: 90 x 90, radius: 3', ['misplaced-key']],
    ['size: 90 x 90, run: first', ['misplaced-key']],
    ['matched: [[90, 90], [90, 90]], holes: []', ['misplaced-key']],
    ['shape: disc', ['missing-key']],
    ['shape: rounded, size: 90 x 90', ['missing-key']],
    ['shape: disc, size: 90 x 90', ['two-outlines']],
    ['diameter: 90', ['no-outline']],
  ])('%s', (keys, codes) => {
    expect(codesOf(jobText(keys))).toEqual(codes);
  });
});
