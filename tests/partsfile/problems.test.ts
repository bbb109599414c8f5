import { describe, expect, it } from 'vitest';
import { PROBLEM_CODES, type Problem } from '../../src/partsfile/problem.ts';
import { type DrawingRead, readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { BOARDS_FIXTURES } from './fixtures/boards.ts';
import { DRAWINGS_FIXTURES } from './fixtures/drawings.ts';
import type { ProblemFixture } from './fixtures/fixture.ts';
import { PARTS_FIXTURES } from './fixtures/parts.ts';
import { STOCK_FIXTURES } from './fixtures/stock.ts';
import { TEXT_FIXTURES } from './fixtures/text.ts';
import { VALUES_FIXTURES } from './fixtures/values.ts';

const PROBLEM_FIXTURES = [
  ...TEXT_FIXTURES,
  ...VALUES_FIXTURES,
  ...STOCK_FIXTURES,
  ...BOARDS_FIXTURES,
  ...PARTS_FIXTURES,
  ...DRAWINGS_FIXTURES,
];

const WARNINGS = [
  'arc-radius',
  'assumed-family',
  'points-origin',
  'drawing-pixels',
  'drawing-unit',
  'drawing-ignored',
  'sawn-as-rectangle',
  'no-kerf',
  'stack-too-low',
];

function read({ text, drawings = {} }: ProblemFixture) {
  const none: DrawingRead = { ok: false, reason: 'missing', detail: '' };
  return readPartsFile(text, (path) => drawings[path] ?? none);
}

/** The one that the fixture is for; a bad text has follow-up problems only where the limit on problems is meant. */
function meant(fixture: ProblemFixture, problems: readonly Problem[]): Problem | undefined {
  if (fixture.code !== 'too-many-problems') expect(problems).toHaveLength(1);
  return problems.at(-1);
}

describe('every problem code', () => {
  it.each(PROBLEM_FIXTURES.map((fixture) => [fixture.code, fixture] as const))(
    '%s',
    (code, fixture) => {
      const { job, problems } = read(fixture);
      const problem = meant(fixture, problems);
      expect(problem?.code).toBe(code);
      expect(problem?.message).toContain(fixture.message);
      const { place = null } = problem ?? {};
      expect(place === null ? null : `${place.line}:${place.column}`).toBe(fixture.at);
      expect(problem?.path).toBe(fixture.path);
      if (fixture.hint === null) expect(problem?.hint).toBeNull();
      else expect(problem?.hint).toContain(fixture.hint);
      const warning = WARNINGS.includes(code);
      expect(problem?.severity).toBe(warning ? 'warning' : 'error');
      expect(job === null).toBe(!warning);
    },
  );

  it('has a fixture for each code', () => {
    const shown = new Set(PROBLEM_FIXTURES.map((fixture) => fixture.code));
    expect(PROBLEM_CODES.filter((code) => !shown.has(code))).toEqual([]);
  });
});
