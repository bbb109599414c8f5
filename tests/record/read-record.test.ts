import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';

/** The least that is a plan. */
const LEAST = {
  format: 'holdfast-plan/1',
  toolVersion: '0.1.0',
  partsFileSha256: '0'.repeat(64),
  drawings: [],
  options: { effort: 'quick', seed: 1, seconds: null },
  stoppedByTime: false,
  materials: [],
  holding: [],
};
const MATERIAL = {
  material: 'ply',
  status: 'limit',
  objective: 'sheets',
  used: 0,
  atLeast: 0,
  provedBy: null,
  unplaced: [],
  sheets: [],
  boards: [],
};

describe('reading a plan’s record', () => {
  it.each([
    ['the least there is', JSON.stringify(LEAST)],
    ['a byte order mark', `\uFEFF${JSON.stringify(LEAST)}`],
    ['Windows line ends', JSON.stringify(LEAST, null, 1).replaceAll('\n', '\r\n')],
    ['keys of a later version', JSON.stringify({ ...LEAST, later: { deep: [1] } })],
    ['deep nesting where nobody looks', nested(JSON.stringify(LEAST), 200_000)],
  ])('takes %s', (_, text) => {
    expect(readRecord(text).faults).toEqual([]);
  });

  it.each<[string, string, string]>([
    ['nothing', '', ''],
    ['blanks', ' \r\n\t', ''],
    ['half of a plan', JSON.stringify(LEAST).slice(0, -10), ''],
    ['YAML', 'job: Shelf\n', ''],
    ['no number', '{ "format": NaN }', ''],
    ['zero bytes', '\0\0\0', ''],
    ['a list', '[]', ''],
    ['null', 'null', ''],
    ['only nesting', `${'['.repeat(200_000)}${']'.repeat(200_000)}`, ''],
    ['another format', JSON.stringify({ ...LEAST, format: 'holdfast-plan/2' }), 'format'],
    ['no hash', JSON.stringify({ ...LEAST, partsFileSha256: 'abc' }), 'partsFileSha256'],
    ['a text for a list', JSON.stringify({ ...LEAST, materials: 'none' }), 'materials'],
    ['a number without end', used('1e999'), 'materials[0].used'],
    ['a number as text', used('"NaN"'), 'materials[0].used'],
    ['no number at all', used('null'), 'materials[0].used'],
  ])('does not take %s', (_, text, path) => {
    const { plan, faults } = readRecord(text);
    expect(plan).toBeNull();
    expect(faults.map((fault) => fault.path)).toEqual([path]);
  });

  it('reads no further than the first twenty wrong entries', () => {
    const sheet = {
      number: 1,
      stock: 'a',
      placements: Array(90_000).fill(1),
      offcuts: [],
      cuts: [],
    };
    const sheets = Array(30).fill(sheet);
    const text = JSON.stringify({ ...LEAST, materials: [{ ...MATERIAL, sheets }] });
    const { faults } = readRecord(text);
    expect(faults.length).toBe(20);
    expect(faults[19]?.path).toBe('materials[0].sheets[0].placements[19]');
  });

  it('takes no list longer than any plan has', () => {
    const text = JSON.stringify({ ...LEAST, materials: Array(100_001).fill(1) });
    expect(readRecord(text).faults.map(({ path }) => path)).toEqual(['materials']);
  });
});

function used(value: string): string {
  const text = JSON.stringify({ ...LEAST, materials: [MATERIAL] });
  return text.replace('"used":0', `"used":${value}`);
}

/** The same with a key that holds lists in lists. */
function nested(text: string, depth: number): string {
  return text.replace(/\}$/, `,"x":${'['.repeat(depth)}${']'.repeat(depth)}}`);
}
