import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/area.ts';
import { flattenContour } from '../../src/geometry/flatten.ts';
import { boxOfShape } from '../../src/geometry/pose.ts';
import type { Contour, Shape } from '../../src/geometry/shape.ts';
import { readSvg, type SvgRead } from '../../src/partsfile/svg-drawing.ts';

const MM = 8000;
const PAGE = 'width="300mm" height="200mm" viewBox="0 0 300 200"';

function svg(inside: string, page = PAGE): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" ${page}>${inside}</svg>`;
}

function shapeOf(text: string, id: string | null = null): Shape {
  const { shape } = readSvg(text, id, 'mm');
  if (!shape.ok) throw new Error(`${shape.fault.code}: ${shape.fault.message}`);
  return shape.shape;
}

/** Box in mm, as x and y ranges; y upwards from the top of the page, so below it is negative. */
function boxMm(shape: Shape): readonly number[] {
  const { minX, minY, maxX, maxY } = boxOfShape(shape);
  return [minX, maxX, minY, maxY].map((n) => n / MM);
}

function areaMm2(contour: Contour): number {
  return ringArea(flattenContour(contour, 'curve', 8)) / (MM * MM);
}

interface Drawn {
  readonly name: string;
  readonly text: string;
  readonly box: readonly number[];
  readonly area: number;
  readonly cutOuts?: readonly number[];
  /** Lines and arcs of the outline. */
  readonly sides: number;
}

const RECT = '<rect x="10" y="20" width="100" height="50"';

const DRAWN: readonly Drawn[] = [
  { name: 'a rectangle', text: svg(`${RECT}/>`), box: [10, 110, -70, -20], area: 5000, sides: 4 },
  {
    name: 'a rectangle with round corners',
    text: svg(`${RECT} rx="10"/>`),
    box: [10, 110, -70, -20],
    area: 5000 - (4 - Math.PI) * 100,
    sides: 8,
  },
  {
    name: 'round ends, whose straight sides have no length',
    text: svg(`${RECT} rx="25"/>`),
    box: [10, 110, -70, -20],
    area: 5000 - (4 - Math.PI) * 625,
    sides: 6,
  },
  {
    name: 'a rectangle with elliptical corners',
    text: svg(`${RECT} rx="10" ry="5"/>`),
    box: [10, 110, -70, -20],
    area: 5000 - (4 - Math.PI) * 50,
    sides: 36,
  },
  {
    name: 'a circle in a rectangle as a cut-out',
    text: svg('<circle cx="50" cy="25" r="10"/><rect width="100" height="50"/>'),
    box: [0, 100, -50, 0],
    area: 5000,
    cutOuts: [-Math.PI * 100],
    sides: 4,
  },
  {
    name: 'a path of two loops as outline and cut-out, whichever way they run',
    text: svg('<path d="M0 0h100v50h-100z M20 20h10v10h-10z M40 20v10h10v-10z"/>'),
    box: [0, 100, -50, 0],
    area: 5000,
    cutOuts: [-100, -100],
    sides: 4,
  },
  {
    name: 'a circle',
    text: svg('<circle cx="50" cy="60" r="30"/>'),
    box: [20, 80, -90, -30],
    area: Math.PI * 900,
    sides: 2,
  },
  {
    name: 'an ellipse',
    text: svg('<ellipse cx="50" cy="25" rx="30" ry="10"/>'),
    box: [20, 80, -35, -15],
    area: Math.PI * 300,
    sides: 56,
  },
  {
    name: 'a circle that a transform makes an ellipse',
    text: svg('<circle r="10" transform="translate(50 25) scale(3 1)"/>'),
    box: [20, 80, -35, -15],
    area: Math.PI * 300,
    sides: 56,
  },
  {
    name: 'a circle turned and mirrored, which stays one',
    text: svg(
      '<g transform="rotate(30)"><circle cx="50" cy="0" r="10" transform="scale(-1 1)"/></g>',
    ),
    box: [-53.3013, -33.3013, 15, 35],
    area: Math.PI * 100,
    sides: 2,
  },
  {
    name: 'a polygon, its lower corner at the left as drawn',
    text: svg('<polygon points="0,0 100,0 0,50"/>'),
    box: [0, 100, -50, 0],
    area: 2500,
    sides: 3,
  },
  {
    name: 'a polyline, closed as it is filled',
    text: svg('<polyline points="0 0 100 0 0 50"/>'),
    box: [0, 100, -50, 0],
    area: 2500,
    sides: 3,
  },
  {
    name: 'arcs with packed flags',
    text: svg('<path d="M0 0h60a20 20 0 0140 40H0z"/>'),
    box: [0, 108.2843, -40, 8.2843],
    area: 3200 + Math.PI * 400,
    sides: 4,
  },
  {
    name: 'inches',
    text: svg('<rect width="96" height="48"/>', 'width="1in" height="0.5in" viewBox="0 0 96 48"'),
    box: [0, 25.4, -12.7, 0],
    area: 322.58,
    sides: 4,
  },
  {
    name: 'a width alone',
    text: svg('<rect width="10" height="5"/>', 'width="20cm" viewBox="0 0 100 100"'),
    box: [0, 20, -10, 0],
    area: 200,
    sides: 4,
  },
  {
    name: 'the smaller scale where width and height differ',
    text: svg(
      '<rect width="10" height="10"/>',
      'width="200mm" height="100mm" viewBox="0 0 100 100"',
    ),
    box: [0, 10, -10, 0],
    area: 100,
    sides: 4,
  },
  {
    name: 'both scales where the drawing says so',
    text: svg(
      '<rect width="10" height="10"/>',
      'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="none"',
    ),
    box: [0, 20, -10, 0],
    area: 200,
    sides: 4,
  },
  {
    name: 'what a drawing program writes around it',
    text: `<?xml version="1.0"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n${svg(
      '<metadata><x:y xmlns:x="z">1</x:y></metadata><x:view xmlns:x="z"><x:grid/></x:view>' +
        '<defs><rect width="500" height="500"/></defs><g id="layer"><path d="m 10,10 h 50 v 30 h -50 z"><title>rail</title></path></g>' +
        '<g style="fill:none;display: none"><rect width="900" height="900"/></g>',
    )}`,
    box: [10, 60, -40, -10],
    area: 1500,
    sides: 4,
  },
];

describe('drawings', () => {
  it.each(DRAWN.map((drawn) => [drawn.name, drawn] as const))('%s', (_, drawn) => {
    const shape = shapeOf(drawn.text);
    boxMm(shape).forEach((value, i) => {
      expect(value).toBeCloseTo(drawn.box[i] as number, 2);
    });
    expect(areaMm2(shape.outer)).toBeCloseTo(drawn.area, 0);
    const cutOuts = drawn.cutOuts ?? [];
    expect(shape.inner).toHaveLength(cutOuts.length);
    shape.inner.forEach((inner, i) => {
      expect(areaMm2(inner)).toBeCloseTo(cutOuts[i] as number, 0);
    });
    expect(shape.outer.length).toBeLessThanOrEqual(drawn.sides);
  });

  it('is exact where the drawing is', () => {
    const { minX, minY, maxX, maxY } = boxOfShape(shapeOf(svg(`${RECT} rx="25"/>`)));
    expect([minX, minY, maxX, maxY]).toEqual([10, -70, 110, -20].map((n) => n * MM));
  });

  it('takes one element by its id, with the transforms around it', () => {
    const text = svg(
      '<g transform="translate(100 0)"><g id="left"><rect width="10" height="10"/></g><rect id="right" width="30" height="20"/></g>',
    );
    expect(boxMm(shapeOf(text, 'left'))).toEqual([100, 110, -10, 0]);
    expect(boxMm(shapeOf(text, 'right'))).toEqual([100, 130, -20, 0]);
  });
});

interface Refused {
  readonly name: string;
  readonly text: string;
  readonly code: string;
  readonly message: string;
}

const PLAIN = '<rect width="10" height="10"/>';

const REFUSED: readonly Refused[] = [
  {
    name: 'entities of its own',
    text: `<!DOCTYPE svg [<!ENTITY a "${'ha'.repeat(10)}"><!ENTITY b "&a;&a;&a;">]>${svg(`<text>&b;</text>${PLAIN}`)}`,
    code: 'drawing-unsafe',
    message: 'entities of its own',
  },
  {
    name: 'an entity that is a file',
    text: `<!DOCTYPE svg SYSTEM "file:///etc/hostname">${svg(`&file;${PLAIN}`)}`,
    code: 'drawing-broken',
    message: 'undefined entity',
  },
  { name: 'a script', text: svg(`<script/>${PLAIN}`), code: 'drawing-unsafe', message: 'script' },
  {
    name: 'a script in an attribute',
    text: svg('<rect width="10" height="10" onclick="go()"/>'),
    code: 'drawing-unsafe',
    message: 'onclick',
  },
  {
    name: 'foreign content',
    text: svg(`<foreignObject/>${PLAIN}`),
    code: 'drawing-unsafe',
    message: 'foreignObject',
  },
  {
    name: 'animation',
    text: svg('<rect width="10" height="10"><animateTransform/></rect>'),
    code: 'drawing-unsafe',
    message: 'animation',
  },
  {
    name: 'a copy from another file',
    text: svg(`${PLAIN}<use href="https://example.org/a.svg#b"/>`),
    code: 'drawing-feature',
    message: 'a copy of another element',
  },
  {
    name: 'a drawing inside the drawing',
    text: svg(svg(PLAIN)),
    code: 'drawing-feature',
    message: 'a drawing inside the drawing',
  },
  {
    name: 'a style that moves an element',
    text: svg('<rect width="10" height="10" style="fill:red; transform: scale(2)"/>'),
    code: 'drawing-feature',
    message: 'a style sheet moves',
  },
  {
    name: 'groups without end',
    text: svg(`${'<g>'.repeat(5000)}${PLAIN}${'</g>'.repeat(5000)}`),
    code: 'too-complex',
    message: '101 levels; the most is 100',
  },
  {
    name: 'more shapes than a part has',
    text: svg('<rect width="10" height="10"/>'.repeat(2000)),
    code: 'too-complex',
    message: 'lines and arcs; the most is 5000',
  },
  {
    name: '200,000 lines',
    text: svg(`<path d="M0 0${'L1 2 3 4'.repeat(100_000)}Z"/>`),
    code: 'too-complex',
    message: 'letters; the most is 300000',
  },
  {
    name: 'points without digits',
    text: svg(`<path d="M0 0 L${'.'.repeat(200_000)}Z"/>`),
    code: 'bad-path',
    message: 'a point stands without digits',
  },
  {
    name: '50,000 curves',
    text: svg(`<path d="M0 0${'C300 0 0 200 300 200C0 200 300 0 0 0'.repeat(25_000)}Z"/>`),
    code: 'too-complex',
    message: 'letters; the most is 300000',
  },
  { name: 'nothing', text: '', code: 'drawing-broken', message: 'root element' },
  { name: 'no XML', text: 'M0 0 H10', code: 'drawing-broken', message: 'outside of root' },
  { name: 'another kind', text: '<html/>', code: 'drawing-broken', message: 'not an SVG drawing' },
  {
    name: 'a transform that is none',
    text: svg('<rect width="10" height="10" transform="grow(2)"/>'),
    code: 'drawing-broken',
    message: 'the transform "grow(2)"',
  },
  {
    name: 'a transform with a number too few',
    text: svg('<rect width="10" height="10" transform="matrix(1 0 0 1 5)"/>'),
    code: 'drawing-broken',
    message: 'the transform "matrix(1 0 0 1 5)"',
  },
  {
    name: 'a transform with a number that is none',
    text: svg('<g transform="scale(2) rotate(45deg)"><rect width="10" height="10"/></g>'),
    code: 'drawing-broken',
    message: 'the transform "scale(2) rotate(45deg)"',
  },
  {
    name: 'a number that is none',
    text: svg('<rect width="1o" height="10"/>'),
    code: 'drawing-broken',
    message: 'the numbers of a rect',
  },
  {
    name: 'points that do not pair',
    text: svg('<polygon points="0 0 10 0 10"/>'),
    code: 'drawing-broken',
    message: 'the numbers of a polygon',
  },
  {
    name: 'not-a-number in a path',
    text: svg('<path d="M0 0 LNaN 5 Z"/>'),
    code: 'bad-path',
    message: 'cannot read the path',
  },
  {
    name: 'a number without end',
    text: svg('<path d="M0 0 H1e300 V5 Z"/>'),
    code: 'bad-path',
    message: 'too large',
  },
  {
    name: 'a page without size',
    text: svg(PLAIN, 'width="10mm" height="10mm" viewBox="0 0 0 0"'),
    code: 'drawing-broken',
    message: 'do not go together',
  },
  {
    name: 'a page to the left of itself',
    text: svg(PLAIN, 'width="-10mm" height="10mm" viewBox="0 0 10 10"'),
    code: 'drawing-broken',
    message: 'do not go together',
  },
  {
    name: 'an open line',
    text: svg(`${PLAIN}<line x1="2" y1="2" x2="8" y2="2"/>`),
    code: 'open-outline',
    message: 'from (2, 2 mm) to (8, 2 mm) there is a gap of 6 mm',
  },
  {
    name: 'an outline far from the origin',
    text: svg('<rect x="5000" width="10" height="10"/>'),
    code: 'outline-too-large',
    message: '4194.304 mm from the origin',
  },
];

describe('drawings that are refused', () => {
  it.each(REFUSED.map((refused) => [refused.name, refused] as const))('%s', (_, refused) => {
    const { shape }: SvgRead = readSvg(refused.text, null, 'mm');
    expect(shape.ok).toBe(false);
    if (shape.ok) return;
    expect(shape.fault.code).toBe(refused.code);
    expect(shape.fault.message).toContain(refused.message);
    expect(shape.fault.hint).not.toBeNull();
    expect(shape.fault.message.length).toBeLessThan(200);
  });

  it('says what it left aside, and each thing once', () => {
    const text = svg(
      `${PLAIN}<text>a</text><text>b</text><image href="https://example.org/a.png"/><style>@import "x"</style>`,
    );
    const { shape, warnings } = readSvg(`<?xml-stylesheet href="x.css"?>${text}`, null, 'mm');
    expect(shape.ok).toBe(true);
    expect(warnings.map(({ message }) => message.split(' ')[0])).toEqual([
      'stylesheets',
      '"text"',
      '"image"',
    ]);
  });

  it('warns where the length of the unit is not said', () => {
    for (const page of ['', 'width="300" height="200" viewBox="0 0 300 200"', 'width="300mm"']) {
      const { shape, warnings } = readSvg(svg('<rect width="96" height="48"/>', page), null, 'mm');
      expect(warnings.map(({ code }) => code)).toEqual(['drawing-pixels']);
      expect(shape.ok && boxMm(shape.shape)).toEqual([0, 25.4, -12.7, 0]);
    }
  });
});
