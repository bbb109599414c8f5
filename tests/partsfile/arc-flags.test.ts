import { expect, it } from 'vitest';
import { toMm } from '../../src/model/units.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { smallJob } from '../helpers/command.ts';

/** A foot of 100 x 50 whose lower side, drawn y-down from right to left, is a shallow arc of radius 130: by SVG 1.1, F.6, sweep 1 runs clockwise on the screen. */
const FOOT = (large: number, sweep: number) => `M0 0 H100 V50 A130 130 0 ${large} ${sweep} 0 50 Z`;
const RISE = 130 - Math.sqrt(130 ** 2 - 50 ** 2);

const CASES: { name: string; path: string; height: number }[] = [
  { name: 'sweep 1 bulges', path: FOOT(0, 1), height: 50 + RISE },
  { name: 'sweep 0 is hollow', path: FOOT(0, 0), height: 50 },
  { name: 'large and sweep 1 takes the long way', path: FOOT(1, 1), height: 50 + 2 * 130 - RISE },
  { name: 'packed flags, sweep 1', path: 'M0 0H100V50A130 130 0 010 50Z', height: 50 + RISE },
  { name: 'packed flags, sweep 0', path: 'M0 0H100V50A130 130 0 000 50Z', height: 50 },
  { name: 'relative, sweep 1', path: 'm0 0h100v50a130 130 0 0 1-100 0z', height: 50 + RISE },
];

it.each(CASES)('arc flags of a path: $name', ({ path, height }) => {
  const text = smallJob(`  - { name: Foot, material: ply, path: "${path}" }\n`);
  expect(heightOfLast(text)).toBeCloseTo(height, 3);
});

it.each(CASES)('arc flags of a drawing, also mirrored: $name', ({ path, height }) => {
  const text = smallJob('  - { name: Foot, material: ply, outline: foot.svg }\n');
  for (const transform of ['', 'scale(-1 1)', 'rotate(180)', 'translate(5 9) scale(-1 1)']) {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path transform="${transform}" d="${path}"/></svg>`;
    expect(heightOfLast(text, svg)).toBeCloseTo(height, 3);
  }
});

function heightOfLast(text: string, svg = ''): number {
  const { job, problems } = readPartsFile(text, () => ({ ok: true, text: svg, sha256: '' }));
  expect(problems).toEqual([]);
  return toMm(job!.parts.at(-1)!.height);
}
