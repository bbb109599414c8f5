import { describe, expect, it } from 'vitest';
import { type Drawings, jobText, read } from './reading.ts';

/** What is said of the arcs of a part, and nothing else may be. */
function said(keys: string, drawings: Drawings = {}, unit: 'mm' | 'in' = 'mm'): readonly string[] {
  const { job, problems } = read(jobText(keys, unit), drawings);
  expect(job).not.toBeNull();
  for (const { code, severity } of problems)
    expect([code, severity]).toEqual(['arc-radius', 'warning']);
  return problems.map(({ message }) => message);
}

const drawn = (shape: string): Drawings => ({
  'a.svg': `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">\n${shape}\n</svg>`,
});

describe('an arc that cannot be as it is written', () => {
  it.each([
    [
      'M0 0 H100 A10 10 0 0 1 0 100 Z',
      'the arc "A10 10 0 0 1 0 100" has a radius of 10, too small for its ends: it is read with 70.7107',
    ],
    [
      'M0 0 H100 a10 20 0 0 1 -100 100 Z',
      'the arc "a10 20 0 0 1 -100 100" has radii of 10 and 20, too small for its ends: it is read with 55.9017 and 111.803',
    ],
    [
      'M0 0 H100 A49.98 49.98 0 0 1 0 0 Z',
      'the arc "A49.98 49.98 0 0 1 0 0" has a radius of 49.98, too small for its ends: it is read with 50',
    ],
    [
      'M0 0 H100 A0 10 0 0 1 0 100 Z',
      'the arc "A0 10 0 0 1 0 100" has radii of 0 and 10; it is read as a straight line',
    ],
    [
      'M0 0 H100 A-70.72 70.72 0 0 1 0 100 Z',
      'the arc "A-70.72 70.72 0 0 1 0 100" has radii of -70.72 and 70.72; it is read with 70.72',
    ],
    [
      'M0 0 H100 A-9 -9 0 0 1 0 100 Z',
      'the arc "A-9 -9 0 0 1 0 100" has a radius of -9, too small for its ends: it is read with 70.7107',
    ],
    [
      'M0 0 H100 a9 9 0 0 1 0 100 a9 9 0 0 1 -100 0 a0 9 0 0 1 0 -100 Z',
      'the arc "a9 9 0 0 1 0 100" has a radius of 9, too small for its ends: it is read with 50; so for 2 more arcs',
    ],
  ])('is told: %s', (path, message) => {
    expect(said(`path: ${path}`)).toEqual([message]);
  });

  it.each([
    'M0 0 H100 A50 50 0 0 1 0 0 Z',
    'M0 0 H100 A70.711 70.711 0 0 1 0 100 Z',
    'M0 0 H100 A49.991 49.991 0 0 1 0 0 Z',
    'M0 0 H100 A50 20 0 0 1 0 0 Z',
    'M0 0 H100 A20 50 90 0 1 0 0 Z',
    'M0 0 H100 V100 H0 a0 0 0 0 1 0 0 Z',
    'M0 0 H100 A900 900 0 0 1 0 100 Z',
  ])('is any other: %s', (path) => {
    expect(said(`path: ${path}`)).toEqual([]);
  });

  it('is one that is short by more than 0.01 mm, also in inches', () => {
    expect(said('path: M0 0 H10 A4.9997 4.9997 0 0 1 0 0 Z', {}, 'in')).toEqual([]);
    expect(said('path: M0 0 H10 A4.9995 4.9995 0 0 1 0 0 Z', {}, 'in')).toHaveLength(1);
  });

  it('is told of cut-outs and pockets', () => {
    const arc = 'path: M60 60 h20 a9 9 0 0 1 -20 0 Z';
    const keys = `size: 300 x 200, cut-outs: [{ ${arc} }], pockets: [{ ${arc}, at: [200, 20], depth: 6 }]`;
    expect(said(keys)).toHaveLength(2);
  });

  it('is told of drawings, in their own numbers, whatever moves them', () => {
    const path = '<path d="M0 0 H100 A10 10 0 0 1 0 100 Z"/>';
    const words =
      'the arc "A10 10 0 0 1 0 100" has a radius of 10, too small for its ends: it is read with 70.7107';
    const line = (n: number) => `"a.svg": line ${n} of the drawing: ${words}`;
    expect(said('outline: a.svg', drawn(path))).toEqual([line(2)]);
    const moved = `<g transform="rotate(30) scale(0.5 2)">\n${path}\n</g>`;
    expect(said('outline: a.svg', drawn(moved))).toEqual([line(3)]);
    // Half of what it is short by is less than 0.01 mm.
    const small = '<path transform="scale(0.5)" d="M0 0 H100 A49.985 49.985 0 0 1 0 0 Z"/>';
    expect(said('outline: a.svg', drawn(small))).toEqual([]);
    const shapes =
      '<rect width="200" height="90" rx="12" ry="12"/><ellipse cx="50" cy="45" rx="20" ry="10"/>';
    expect(said('outline: a.svg', drawn(shapes))).toEqual([]);
  });

  it('is told of thirty lines of a drawing at most', () => {
    const holes = Array.from(
      { length: 40 },
      (_, i) => `<path d="M${7 * i} 20 h5 a1 1 0 0 1 -5 0 Z"/>`,
    );
    const all = ['<rect x="-10" width="310" height="200"/>', ...holes].join('\n');
    expect(said('outline: a.svg', drawn(all))).toHaveLength(30);
  });
});
