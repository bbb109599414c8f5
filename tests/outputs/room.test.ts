import { describe, expect, it } from 'vitest';
import { planJob, readPartsFile } from '../../src/index.ts';

const hintOf = async (machine: string) => {
  const text = `job: Bench
unit: mm
machine: { kind: panel-saw, kerf: 3${machine} }
materials: { ply: { family: plywood, thickness: 9, sheets: [{ size: 2440 x 1220, trim: 10 }] } }
parts: [{ name: Top, material: ply, size: 2000 x 1000 }]
`;
  const { job } = readPartsFile(text, () => ({ ok: false, reason: 'missing', detail: '' }));
  const options = { effort: 'quick', seed: 1, seconds: null } as const;
  const hooks = { pack: null, stopCause: () => null, onProgress: () => undefined };
  const { problems } = await planJob(job!, options, hooks);
  return problems.map(({ code, hint }) => `${code}: ${hint}`);
};

describe('a piece that a saw has no room for', () => {
  it.each([
    [
      ', longest-rip: 1500, longest-crosscut: 900',
      /^fits-no-sheet: longest-rip is 1500 mm and longest-crosscut is 900 mm, shorter/,
    ],
    ['', null],
  ])('with limits {%s} names them', async (machine, hint) => {
    const hints = await hintOf(machine);
    expect(hints).toEqual(hint === null ? [] : [expect.stringMatching(hint)]);
  });
});
