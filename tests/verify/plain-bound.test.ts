import { describe, expect, it } from 'vitest';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { plainBound } from '../../src/verify/plain-bound.ts';

describe('the plainest bound', () => {
  // Inside the trim a sheet has 1,000 x 500 mm, a board 2,000 mm.
  it.each([
    ['what fills a sheet', '{ name: A, material: m, size: 500 x 500, count: 2 }', 1],
    ['a strip more', '{ name: A, material: m, size: 500 x 500.001, count: 2 }', 2],
    [
      'less its opening',
      '{ name: A, material: m, size: 990 x 490, count: 2, cut-outs: [{ at: [50, 50], size: 880 x 200 }] }',
      2,
    ],
    [
      'its opening taken off',
      '{ name: A, material: m, size: 990 x 490, count: 2, cut-outs: [{ at: [45, 45], size: 900 x 400 }] }',
      1,
    ],
    [
      'discs by less than their own area',
      '{ name: A, material: m, shape: disc, diameter: 100, count: 64 }',
      2,
    ],
    ['lengths on a board', '{ name: A, material: m, length: 500, count: 4 }', 1],
    ['lengths that reach into the trim', '{ name: A, material: m, length: 501, count: 4 }', 2],
    ['one length more', '{ name: A, material: m, length: 500, count: 5 }', 2],
  ])('counts %s', (_, part, wanted) => {
    expect(plainBound(jobWith(part), 0)).toBe(wanted);
  });
});

function jobWith(part: string) {
  const { job, problems } = readPartsFile(
    `job: J
unit: mm
materials:
  m:
    thickness: 18
    family: plywood
    sheets: [{ size: 1020 x 520, trim: 10 }]
    boards: [{ length: 2020, trim: 10 }]
parts:
  - ${part}
`,
    () => ({ ok: false, reason: 'missing', detail: '' }),
  );
  if (job === null) throw new Error(problems.map(({ message }) => message).join(', '));
  return job;
}
