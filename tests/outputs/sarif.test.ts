import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DRIFT_KINDS } from '../../src/model/drift.ts';
import { RULES } from '../../src/outputs/report/sarif-rules.ts';
import { PROBLEM_CODES } from '../../src/partsfile/problem.ts';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { resultsOf, type SarifLog, sarifFaults } from '../helpers/sarif.ts';

/** Source: the JSON Schema of SARIF 2.1.0, see `tests/published/sarif/LICENSE`. */
describe('a log of SARIF', () => {
  it('has a rule with help for whatever can be found', () => {
    const kinds = DRIFT_KINDS.map((kind) => `drift-${kind}`);
    for (const id of [...PROBLEM_CODES, ...kinds]) expect([id, RULES[id]]).not.toContain(undefined);
    expect(Object.values(RULES).filter((help) => !/[.?]$/.test(help))).toEqual([]);
  });

  it('has broken limits at their lines', async () => {
    const limits = `limits:
  sheets: 0
  cost: 39.99
  yield: 99 %
  weight: 5 kg
  time: 1 s
  holding: no piece marginal
`;
    const log = await sarif({ 'shelf.yaml': smallJob(limits) }, ['shelf.yaml'], 1);
    expect(resultsOf(log)).toEqual([
      'shelf.yaml:13:3 error limit-sheets',
      'shelf.yaml:15:3 error limit-yield',
      'shelf.yaml:14:3 error limit-cost',
      'shelf.yaml:18:3 error limit-holding',
      'shelf.yaml:17:3 error limit-time',
      'shelf.yaml:16:3 error limit-weight',
    ]);
  });

  it('has the problems of a bad file at their places, names encoded and braces doubled', async () => {
    const bad = smallJob('limits: [0]\n').replace('thickness', 'thicknes');
    const log = await sarif({ 'büro #1 50%.yaml': bad }, ['büro #1 50%.yaml'], 2);
    expect(resultsOf(log)).toEqual([
      'b%C3%BCro%20%231%2050%25.yaml:6:5 error unknown-key',
      'b%C3%BCro%20%231%2050%25.yaml:12:9 error wrong-type',
    ]);
    expect(log).toContain('limits, such as {{ sheets: 6, yield: 70 % }}');
  });

  it('has what could not be checked as a notification and as a result, and a limit without a figure as a warning', async () => {
    const unknown = smallJob('limits: { cost: 40 }\n').replace(', price: 40', '');
    const log = await sarif({ 'a.yaml': unknown }, ['a.yaml', 'gone.yaml'], 74);
    expect(resultsOf(log)).toEqual([
      'a.yaml:12:11 warning limit-not-held',
      'gone.yaml error not-checked',
    ]);
    expect((JSON.parse(log) as SarifLog).runs[0]!.invocations[0]).toMatchObject({
      executionSuccessful: false,
      exitCode: 74,
      toolExecutionNotifications: [
        { message: { text: 'cannot read gone.yaml: there is no such file or folder' } },
      ],
    });
  });

  it('has what has changed at the parts, and what looks like a link as none', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob('limits: { drift: shelf-plan }\n') });
    await holdfast(folder, ['plan', 'shelf.yaml']);
    const changed = smallJob('limits: { drift: shelf-plan }\n').replace('Block', '"[a](b)"');
    writeFileSync(join(folder, 'shelf.yaml'), changed);
    const { out, code } = await holdfast(folder, ['check', 'shelf.yaml', '--format', 'sarif']);
    expect([code, sarifFaults(out)]).toEqual([1, []]);
    expect(resultsOf(out)).toEqual([
      'shelf.yaml:11:7 error drift-part',
      'shelf.yaml:12:11 error drift-part',
    ]);
    expect((JSON.parse(out) as SarifLog).runs[0]!.results[0]!.message.text).toBe(
      'not as in the record: "\\[a](b)" is new, 2 pieces of ply',
    );
  });

  it('is the same again, whatever order the files are named in', async () => {
    const files = { 'a.yaml': smallJob('limits: { sheets: 0 }\n'), 'b.yaml': smallJob('x: 1') };
    const log = await sarif(files, ['*.yaml'], 2);
    expect(await sarif(files, ['b.yaml', 'a.yaml', 'a.yaml'], 2)).toBe(log);
  });

  it('counts names from the current folder', async () => {
    const folder = folderWith();
    mkdirSync(join(folder, 'in'));
    writeFileSync(join(folder, 'a.yaml'), smallJob('x: 1'));
    const { out } = await holdfast(join(folder, 'in'), [
      'check',
      join(folder, 'a.yaml'),
      '--format',
      'sarif',
    ]);
    expect([sarifFaults(out), resultsOf(out)]).toEqual([[], ['../a.yaml:12:1 error unknown-key']]);
  });

  it('would not pass the schema with a word out of place', async () => {
    const log = await sarif({ 'b.yaml': smallJob('x: 1') }, ['b.yaml'], 2);
    for (const [right, wrong] of [
      ['"level": "error"', '"level": "grave"'],
      ['"startLine": 12', '"startLine": 0'],
      ['"columnKind"', '"columns"'],
      ['"uri": "b.yaml"', '"uri": "b c.yaml"'],
      ['"ruleIndex": 0', '"ruleIndex": 1'],
    ] as const)
      expect([wrong, sarifFaults(log.replace(right, wrong)).length]).not.toEqual([wrong, 0]);
  });
});

/** The log of a check, which has to be valid. */
async function sarif(
  files: Readonly<Record<string, string>>,
  names: readonly string[],
  code: number,
): Promise<string> {
  const ran = await holdfast(folderWith(files), ['check', ...names, '--format', 'sarif']);
  expect([ran.code, sarifFaults(ran.out)]).toEqual([code, []]);
  return ran.out;
}
