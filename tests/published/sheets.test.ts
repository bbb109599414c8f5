import { describe, expect, it } from 'vitest';
import { toMm } from '../../src/model/units.ts';
import { pack } from '../../src/packing/pack.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';

/** Lengths that are exact by the definition of the inch (25.4 mm). */
const LENGTHS = [
  { text: "4'", mm: 1219.2 },
  { text: "8'", mm: 2438.4 },
];

/** How many fit a sheet in rows of one orientation: floor((L - 2 trim + kerf) / (l + kerf)), derived; the third is a trap often met. */
const COUNTS = [
  { sheet: '2440 x 1220', part: '600 x 400', unit: 'mm', trim: '10', kerf: '3.2', rows: 4 * 2 },
  { sheet: '2440 x 1220', part: '600 x 400', unit: 'mm', trim: '0', kerf: '3.2', rows: 4 * 3 },
  { sheet: '96 x 24', part: '24 x 24', unit: 'in', trim: '0', kerf: '1/8', rows: 3 },
];

describe('sheets by known figures', () => {
  it.each(LENGTHS)('reads $text exactly', ({ text, mm }) => {
    const job = jobOf({ sheet: `${text} x ${text}`, part: '4 x 4', unit: 'in', kerf: '1/8' });
    expect(toMm(job.materials[0]!.sheets[0]!.length)).toBeCloseTo(mm, 5);
  });

  it('reads a thickness of 23/32 in as 18.25625 mm', () => {
    const job = jobOf({ sheet: '96 x 48', part: '4 x 4', unit: 'in', kerf: '1/8' });
    expect(toMm(job.materials[0]!.thickness)).toBe(18.25625);
  });

  it.each(COUNTS)(
    'fits $rows of $part on $sheet, and not one more in rows',
    ({ rows, ...given }) => {
      expect(sheetsFor({ ...given, count: rows })).toBe(1);
      expect(sheetsFor({ ...given, count: rows + 1 })).toBe(2);
    },
  );

  it('deducts an edge band of 2 mm on four sides: 600 x 400 is cut at 596 x 396 (common practice, no pre-mill)', () => {
    const job = jobOf({
      sheet: '2440 x 1220',
      part: '600 x 400',
      unit: 'mm',
      kerf: '3',
      more: ', edges: { left: 2, right: 2, bottom: 2, top: 2 }',
    });
    const [part] = job.parts;
    expect([toMm(part!.width), toMm(part!.height)]).toEqual([596, 396]);
    expect([toMm(part!.finishedWidth), toMm(part!.finishedHeight)]).toEqual([600, 400]);
  });
});

interface Given {
  readonly sheet: string;
  readonly part: string;
  readonly unit: string;
  readonly kerf: string;
  readonly trim?: string;
  readonly count?: number;
  readonly more?: string;
}

function sheetsFor(given: Given): number {
  let asked = 0;
  const options = {
    effort: 'quick',
    seed: 1,
    shouldStop: () => ++asked > 5,
    onProgress: () => {},
  } as const;
  return pack(jobOf(given), 0, options).layout.sheets.length;
}

/** A job of one part that may not turn, cut with a kerf. */
function jobOf({ sheet, part, unit, kerf, trim = '0', count = 1, more = '' }: Given) {
  const text = `job: Count
unit: ${unit}
machine: { cutter: { diameter: ${kerf} }, spacing: ${kerf} }
materials:
  ply: { family: plywood, thickness: 23/32in, sheets: [{ size: ${JSON.stringify(sheet)}, trim: ${trim}, grain: none }] }
parts:
  - { name: Part, material: ply, size: ${part}, count: ${count}, turns: none${more} }
`;
  const { job, problems } = readPartsFile(text, () => ({
    ok: false,
    reason: 'missing',
    detail: '',
  }));
  expect(problems).toEqual([]);
  return job!;
}
