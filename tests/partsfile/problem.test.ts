import { describe, expect, it } from 'vitest';
import { nearest } from '../../src/partsfile/nearest.ts';
import { formatProblem, type Problem } from '../../src/partsfile/problem.ts';
import { Report } from '../../src/partsfile/report.ts';

const PROBLEM: Problem = {
  severity: 'error',
  code: 'unknown-key',
  place: { line: 4, column: 50 },
  path: 'parts[0].cuont',
  message: 'a part has no key "cuont"',
  hint: 'did you mean count?',
};

describe('a problem', () => {
  it('is printed in one line, with its hint in a second', () => {
    expect(formatProblem('seat.yaml', PROBLEM)).toBe(
      'seat.yaml:4:50: error unknown-key: a part has no key "cuont"\n    did you mean count?',
    );
  });

  it('of the whole file has no line', () => {
    expect(formatProblem('seat.yaml', { ...PROBLEM, place: null, hint: null })).toBe(
      'seat.yaml: error unknown-key: a part has no key "cuont"',
    );
  });
});

describe('a report', () => {
  it('is in the order of the file, says nothing twice and counts errors only', () => {
    const report = new Report();
    const at = (line: number, column: number) => ({ place: { line, column }, path: '' });
    report.warning(at(3, 1), 'assumed-family', 'warning');
    expect(report.hasErrors).toBe(false);
    report.error(at(3, 1), 'bad-size', 'error');
    report.error(at(2, 9), 'bad-size', 'earlier');
    report.error(at(2, 9), 'bad-size', 'earlier');
    report.error({ place: null, path: '' }, 'empty-file', 'whole');
    expect(report.hasErrors).toBe(true);
    expect(report.list().map(({ message }) => message)).toEqual([
      'whole',
      'earlier',
      'error',
      'warning',
    ]);
  });
});

describe('the nearest word', () => {
  it.each<readonly [string, string | null]>([
    ['cuont', 'count'],
    ['cont', 'count'],
    ['countt', 'count'],
    ['COUNT', 'count'],
    ['cut_outs', 'cut-outs'],
    ['holse', 'holes'],
    ['zebra', null],
    ['x'.repeat(10_000), null],
    ['', null],
  ])('to %s is %s', (word, right) => {
    expect(nearest(word, ['count', 'cut-outs', 'holes'])).toBe(right);
  });
});
