import { describe, expect, it } from 'vitest';
import { HOSTILE_DXF, HOSTILE_SVG } from '../helpers/hostile-drawings.ts';
import { jobText, read } from './reading.ts';

describe.each([
  ['DXF', HOSTILE_DXF],
  ['SVG', HOSTILE_SVG],
] as const)('hostile %s drawings', (_, drawings) => {
  it.each(drawings.map((drawing) => [drawing.name, drawing] as const))('%s', (_name, drawing) => {
    const { file, text, code, message } = drawing;
    const { problems } = read(jobText(`outline: ${file}`), { [file]: text() });
    const codes = new Set(problems.map((problem) => problem.code));
    expect([...codes]).toEqual(code === null ? [] : [code]);
    const [problem] = problems;
    if (problem === undefined) return;
    expect(problem.message).toContain(message);
    expect(problem.hint).not.toBe('');
    expect(problem.message.length).toBeLessThan(200);
  });
});
