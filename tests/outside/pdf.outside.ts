import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { holdfast } from '../helpers/command.ts';
import { runTool } from './tools.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', '..', 'examples');
const DOTS_PER_MM = 10;
const folder = mkdtempSync(join(tmpdir(), 'holdfast-outside-'));
cpSync(EXAMPLES, folder, { recursive: true });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A grey picture of a page, row by row from above. */
interface Picture {
  readonly width: number;
  readonly height: number;
  readonly dots: Buffer;
}

interface Dot {
  readonly x: number;
  readonly y: number;
}

/** Parts whose pages lie in one row, with their length and height; three quarters of it are one upright line at either end. */
describe.each([
  ['reading-nook.yaml', 'a4', 'Canopy rail', 1160, 220, [210, 297]],
  ['reading-nook.yaml', 'letter', 'Bench rail', 1164, 90, [215.9, 279.4]],
  ['boat-shed-cart.yaml', 'letter', 'Drawer front', 28.25 * 25.4, 146, [215.9, 279.4]],
] as const)('the template in %s on %s', (file, paper, part, length, height, size) => {
  const out = `${paper}-${part.replaceAll(' ', '-')}`;
  let pages: readonly Picture[] = [];

  beforeAll(async () => {
    const argv = ['plan', file, '--paper', paper, '--templates', part, '--out', out];
    expect((await holdfast(folder, argv)).code).toBe(0);
    const pdf = join(folder, out, 'templates.pdf');
    const prefix = join(folder, out, 'page');
    const how = ['-r', `${25.4 * DOTS_PER_MM}`, '-gray', '-aa', 'no', '-aaVector', 'no'];
    runTool('pdftoppm', [...how, pdf, prefix], 'poppler-utils');
    pages = readdirSync(join(folder, out))
      .filter((name) => name.endsWith('.pgm'))
      .sort()
      .map((name) => readPicture(join(folder, out, name)));
  }, 120_000);

  it('has pages of the size of the paper', () => {
    expect(pages.length).toBeGreaterThan(2);
    for (const { width, height } of pages) {
      const sides = [width, height].toSorted((a, b) => a - b);
      for (const [i, side] of sides.entries())
        expect(Math.abs(side / DOTS_PER_MM - size[i]!)).toBeLessThan(0.2);
    }
  });

  it('has a line of its true length in every foot', () => {
    const check = file.startsWith('boat') ? 101.6 : 100;
    for (const page of pages) {
      const runs = rowsFrom(page, page.height - 200).map((y) => longestRun(page, y));
      expect(Math.abs(Math.max(...runs) / DOTS_PER_MM - check)).toBeLessThan(0.3);
    }
  });

  it('is as long as the part when its pages are joined cross on cross', () => {
    const crosses = pages.map(crossesOf);
    let shift = 0;
    for (const [i, right] of crosses.slice(1).entries()) {
      const own = crosses[i]!.filter(({ x }) => x > pages[i]!.width / 2);
      const next = right.filter(({ x }) => x < pages[i + 1]!.width / 2);
      expect([own.length, next.length]).toEqual([2, 2]);
      for (const [k, cross] of own.entries())
        expect(Math.abs(cross.y - next[k]!.y)).toBeLessThanOrEqual(2);
      shift += (own[0]!.x + own[1]!.x - next[0]!.x - next[1]!.x) / 2;
    }
    const first = uprightEdges(pages[0]!, 0.75 * height).at(-1)!;
    const last = uprightEdges(pages.at(-1)!, 0.75 * height).at(0)!;
    expect(Math.abs((last + shift - first) / DOTS_PER_MM - length)).toBeLessThan(0.3);
  });
});

/** A portable grey map with one byte a dot, as its manual page describes it. */
function readPicture(path: string): Picture {
  const bytes = readFileSync(path);
  const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(
    bytes.subarray(0, 40).toString('latin1'),
  )!;
  return { width: Number(width), height: Number(height), dots: bytes.subarray(head!.length) };
}

function isDark({ width, dots }: Picture, x: number, y: number): boolean {
  return dots[y * width + x]! < 160;
}

function rowsFrom({ height }: Picture, first: number): readonly number[] {
  return Array.from({ length: height - first }, (_, i) => first + i);
}

function longestRun(page: Picture, y: number): number {
  let [longest, run] = [0, 0];
  for (let x = 0; x < page.width; x++) {
    run = isDark(page, x, y) ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

/** Middles of crosses with arms of 4 to 5.5 mm in a diamond of 2.6 mm, from above. */
function crossesOf(page: Picture): readonly Dot[] {
  const found: Dot[] = [];
  for (let y = 60; y < page.height - 60; y++) {
    for (let x = 60; x < page.width - 60; x++) {
      if (!isDark(page, x, y) || !isCross(page, x, y)) continue;
      if (found.every((other) => Math.abs(other.x - x) + Math.abs(other.y - y) > 20))
        found.push({ x, y });
    }
  }
  return found;
}

function isCross(page: Picture, x: number, y: number): boolean {
  for (let off = 1; off <= 40; off++) {
    if (!isDark(page, x - off, y) || !isDark(page, x + off, y)) return false;
    if (!isDark(page, x, y - off) || !isDark(page, x, y + off)) return false;
  }
  const corners = [-13, 13].flatMap((dx) => [-13, 13].map((dy) => [x + dx, y + dy] as const));
  const hasDiamond = corners.every(([cx, cy]) =>
    [-2, -1, 0, 1, 2].some((off) => isDark(page, cx + off, cy)),
  );
  return hasDiamond && !isDark(page, x - 55, y) && !isDark(page, x + 55, y);
}

/** Where upright lines of this many millimetres stand, from the left; a dimension line has a gap for its figure. */
function uprightEdges(page: Picture, least: number): readonly number[] {
  const edges: number[] = [];
  for (let x = 0; x < page.width; x++) {
    let run = 0;
    for (let y = 0; y < page.height; y++) {
      run = isDark(page, x, y) ? run + 1 : 0;
      if (run === Math.round(least * DOTS_PER_MM) && (edges.length === 0 || x - edges.at(-1)! > 8))
        edges.push(x);
    }
  }
  return edges;
}
