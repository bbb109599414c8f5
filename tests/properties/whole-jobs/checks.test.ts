import { beforeAll, describe, expect, it } from 'vitest';
import { readPartsFile } from '../../../src/partsfile/read-parts-file.ts';
import { type Planned, planned } from '../../record/planned.ts';
import { pageFaults } from './outputs-check.ts';
import { problemFaults } from './problem-check.ts';
import { recordFaults, type SeenRecord } from './record-check.ts';

// The checks of the random jobs are worth something only if they can fail.

type Mutable<T> = { -readonly [K in keyof T]: Mutable<T[K]> };
type Record = Mutable<SeenRecord>;

const SAWN = 'bookcase-saw.yaml';
const ROUTED = 'reading-nook.yaml';
const plans = new Map<string, Planned>();

beforeAll(async () => {
  for (const name of [SAWN, ROUTED]) plans.set(name, await planned(name));
});

/** What is said of the record of an example after a change. */
function saidOf(name: string, change: (record: Record) => void, stages: number | null = null) {
  const { job, text } = plans.get(name)!;
  const record = JSON.parse(text) as Record;
  change(record);
  const asked = new Map<string, number>();
  for (const { part } of job.pieces) {
    const own = job.parts[part]!.name;
    asked.set(own, (asked.get(own) ?? 0) + 1);
  }
  for (const { name: own, count } of job.lengthParts) asked.set(own, count);
  return recordFaults(record, asked, stages).join('\n');
}

const sheetOf = ({ materials }: Record) => materials[0]!.sheets[0]!;

describe('the check of a record', () => {
  it.each([SAWN, ROUTED])('finds nothing in that of %s', (name) => {
    expect(saidOf(name, () => {})).toBe('');
  });

  it.each<readonly [string, string, (record: Record) => void, string]>([
    ['a piece is gone', ROUTED, (r) => sheetOf(r).placements.pop(), 'and not 1 to'],
    ['a cut is gone', SAWN, (r) => sheetOf(r).cuts.pop(), 'is not cut'],
    ['the first cut is gone', SAWN, (r) => sheetOf(r).cuts.shift(), 'has no panel'],
    ['a cut is beside', SAWN, (r) => (sheetOf(r).cuts.at(-1)!.at += 0.02), 'is not cut'],
    ['the yield is another', ROUTED, (r) => (sheetOf(r).yield += 0.002), 'yields'],
    ['nothing is held', ROUTED, (r) => r.holding.shift(), 'held once'],
    [
      'less is used than can be',
      ROUTED,
      (r) => {
        r.materials[0]!.used = r.materials[0]!.atLeast - 1;
      },
      'and no less than',
    ],
    [
      'a bound is reached and the proof denied',
      ROUTED,
      ({ materials: [first] }) => {
        Object.assign(first!, { used: first!.atLeast, status: 'limit' });
      },
      'is limit',
    ],
    ['nothing is short', ROUTED, (r) => (r.materials[0]!.status = 'impossible'), 'impossible'],
    [
      'the grain is across',
      ROUTED,
      (r) => {
        const own = sheetOf(r).placements.find(({ grainDeg }) => grainDeg !== null)!;
        own.grainDeg = own.grainDeg! + 90;
      },
      'askew',
    ],
  ])('says that %s', (_, name, change, said) => {
    expect(saidOf(name, change)).toContain(said);
  });

  it('counts the stages of a saw', () => {
    expect(saidOf(SAWN, () => {}, 1)).toContain('is in stage 2');
  });
});

describe('the check of problems', () => {
  const text = 'unit: mm\nmaterials: {}\nparts: []\n';
  const { problems } = readPartsFile(text, () => ({ ok: false, reason: 'missing', detail: '' }));
  const [problem] = problems;

  it('lets those of a bad file pass', () => {
    expect(problems.length).toBeGreaterThan(0);
    expect(problemFaults(problems, text)).toEqual([]);
  });

  it.each([
    ['no place', { ...problem!, place: null }, 'has no place'],
    ['a place beyond the text', { ...problem!, place: { line: 9, column: 1 } }, 'is at 9:1'],
    ['no word', { ...problem!, message: 'is NaN mm' }, 'says'],
  ])('says that there is %s', (_, wrong, said) => {
    expect(problemFaults([wrong], text).join()).toContain(said);
  });
});

describe('the check of the page', () => {
  it.each([
    ['<p>a<br>b</p><svg><g/></svg>', ''],
    ['<p><b>a</p></b>', 'the page has </p> for <b>'],
    ['<p>a', 'the page leaves <p> open'],
    ['<p title="a>b">undefined</p>', 'a text says'],
  ])('of %s', (page, said) => {
    expect(pageFaults(page).join()).toContain(said);
    expect(pageFaults(page).length).toBe(said === '' ? 0 : 1);
  });
});
