import { describe, expect, it } from 'vitest';
import { jobText, MM, partOf, problemsOf, read } from './reading.ts';

const pocketsOf = (list: string, keys = 'size: 400 x 300') =>
  partOf(`${keys}, pockets: [${list}]`).pockets;

describe('pockets', () => {
  it('are none where the part lists none', () => {
    expect(partOf('size: 400 x 300').pockets).toEqual([]);
  });

  it('are read like cut-outs, with a depth, counter-clockwise', () => {
    const [groove, round, drawn] = pocketsOf(
      '{ at: [0, 200], size: 400 x 18, depth: 6 }, { at: [60, 60], diameter: 35, depth: 12.5 }, { points: [[200, 20], [200, 90], [280, 20]], depth: 1/4in }',
    );
    expect(groove?.depth).toBe(6 * MM);
    expect(groove?.contour.map(({ x, y }) => [x / MM, y / MM])).toEqual([
      [0, 200],
      [400, 200],
      [400, 218],
      [0, 218],
    ]);
    expect(round?.contour).toHaveLength(2);
    expect(round?.depth).toBe(12.5 * MM);
    expect(drawn?.depth).toBe(6.35 * MM);
    expect(drawn?.contour.map(({ x, y }) => [x / MM, y / MM])).toEqual([
      [200, 20],
      [280, 20],
      [200, 90],
    ]);
  });

  it('move with the part as it is cut, with its edge bands and oversize', () => {
    const [pocket] = pocketsOf(
      '{ at: [50, 40], size: 60 x 20, depth: 6 }',
      'size: 400 x 300, edges: { left: 2, bottom: 1 }',
    );
    expect(pocket?.contour[0]).toMatchObject({ x: 48 * MM, y: 39 * MM });
  });

  it('end at the blank where they run into an edge band, and nowhere else', () => {
    const banded = 'size: 400 x 300, edges: { left: 2, right: 1, top: 1 }';
    const [groove, rebate] = pocketsOf(
      '{ at: [0, 200], size: 400 x 18, depth: 6 }, { at: [20, 290], size: 50 x 10, depth: 6 }',
      banded,
    );
    const cornersOf = (pocket: typeof groove) =>
      pocket?.contour.map(({ x, y }) => [x / MM, y / MM]);
    expect(cornersOf(groove)).toEqual([
      [0, 200],
      [397, 200],
      [397, 218],
      [0, 218],
    ]);
    expect(cornersOf(rebate)).toEqual([
      [18, 290],
      [68, 290],
      [68, 299],
      [18, 299],
    ]);
    const beyond = ['at: [-1, 200], size: 50 x 18', 'at: [380, 200], size: 21 x 18'];
    for (const place of [...beyond, 'at: [20, -1], size: 50 x 18']) {
      const { problems } = read(jobText(`${banded}, pockets: [{ ${place}, depth: 6 }]`));
      expect(problems.map(({ code }) => code)).toEqual(['cut-out-outside']);
    }
  });

  it('may cross one another and cut-outs', () => {
    expect(
      pocketsOf(
        '{ at: [0, 200], size: 400 x 18, depth: 6 }, { at: [0, 0], size: 10 x 300, depth: 9 }, { at: [90, 40], size: 120 x 120, depth: 4 }',
        'size: 400 x 300, cut-outs: [{ at: [100, 50], size: 100 x 100 }]',
      ),
    ).toHaveLength(3);
  });

  it('may touch the edge all round, and hold holes', () => {
    expect(
      pocketsOf(
        '{ at: [0, 0], size: 400 x 300, depth: 2 }',
        'size: 400 x 300, holes: [{ at: [200, 150], diameter: 8 }]',
      ),
    ).toHaveLength(1);
  });

  it.each<readonly [string, string]>([
    ['{ at: [0, 0], size: 60 x 20 }', 'missing-key'],
    ['{ at: [0, 0], depth: 6 }', 'no-outline'],
    ['{ at: [0, 0], size: 60 x 20, diameter: 8, depth: 6 }', 'two-outlines'],
    ['{ size: 60 x 20, depth: 6 }', 'missing-key'],
    ['{ at: [0, 0], size: 60 x 20, depth: through }', 'bad-length'],
    ['{ at: [0, 0], size: 60 x 20, depth: 18 }', 'hole-too-deep'],
    ['{ at: [0, 0], size: 60 x 20, depth: 0 }', 'out-of-range'],
    ['{ at: [350, 0], size: 60 x 20, depth: 6 }', 'cut-out-outside'],
    ['{ points: [[0, 0], [60, 60], [60, 0], [0, 60]], depth: 6 }', 'self-crossing'],
    ['{ points: [[0, 0], [60, 0], [30, 0]], depth: 6 }', 'no-area'],
    ['{ at: [0, 0], size: 60 x 20, depth: 6, deep: yes }', 'unknown-key'],
  ])('refuses %s', (list, code) => {
    const { problems } = read(jobText(`size: 400 x 300, pockets: [${list}]`));
    expect(problems.map((problem) => problem.code)).toEqual([code]);
  });

  it.each([
    ['across its edge', '{ at: [90, 40], size: 120 x 60, depth: 4 }', ['overlap']],
    ['all over it', '{ at: [90, 40], size: 120 x 120, depth: 4 }', ['overlap']],
    ['clear of it', '{ at: [10, 10], size: 60 x 20, depth: 4 }', []],
  ])('refuses one that reaches into a cut-out with pieces inside: %s', (_, pocket, codes) => {
    const part =
      'size: 400 x 300, cut-outs: [{ at: [100, 50], size: 100 x 100 }], nest-inside: yes';
    const { problems } = read(jobText(`${part}, pockets: [${pocket}]`));
    expect(problems.map(({ code }) => code)).toEqual(codes);
  });

  it('refuses one in a cut-out, one over a notch, and a part that may be mirrored', () => {
    const codes = (keys: string) => problemsOf(jobText(keys)).map((text) => text.split(' ')[1]);
    const pocket = 'pockets: [{ at: [20, 20], size: 100 x 100, depth: 6 }]';
    expect(
      codes(`size: 400 x 300, cut-outs: [{ at: [20, 10], size: 110 x 140 }], ${pocket}`),
    ).toEqual(['overlap']);
    expect(
      codes(
        `points: [[0, 0], [60, 0], [60, 60], [80, 60], [80, 0], [200, 0], [200, 200], [0, 200]], ${pocket}`,
      ),
    ).toEqual(['cut-out-outside']);
    expect(codes(`size: 400 x 300, face: either, ${pocket}`)).toEqual(['misplaced-key']);
    expect(codes(`matched: [[400, 300], [400, 300]], ${pocket}`)).toEqual(['misplaced-key']);
  });
});
