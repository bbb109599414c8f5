import { describe, expect, it } from 'vitest';
import type { Row, Task } from './benchmark.ts';
import { indexRows, lowerRow, parseLines, settledBy } from './results.ts';
import { drawnOf, selectedOf } from './selection.ts';

const TASK: Task = { instance: '4_60_1', variant: 'still', seed: 1, effort: 'normal' };

function row(change: Partial<Row> = {}): Row {
  return { ...TASK, commit: 'abc', proved: false, faults: 0, figures: {}, ...change };
}

describe('going on where a run stopped', () => {
  it.each([
    { name: 'its own row', rows: [row()], settles: true },
    { name: 'another commit', rows: [row({ commit: 'abc+1' })], settles: false },
    { name: 'another seed', rows: [row({ seed: 2 })], settles: false },
    { name: 'another variant', rows: [row({ variant: 'turned' })], settles: false },
    { name: 'another instance', rows: [row({ instance: '4_60_10' })], settles: false },
    {
      name: 'proved at a lower effort',
      rows: [row({ effort: 'quick', proved: true })],
      settles: true,
    },
    { name: 'not proved at a lower effort', rows: [row({ effort: 'quick' })], settles: false },
    {
      name: 'proved at a higher effort',
      rows: [row({ effort: 'long', proved: true })],
      settles: false,
    },
    {
      name: 'proved at a lower effort of another commit',
      rows: [row({ effort: 'quick', proved: true, commit: 'def' })],
      settles: false,
    },
  ])('with $name: $settles', ({ rows, settles }) => {
    expect(settledBy(indexRows(rows, 'abc'), TASK)).toEqual(settles ? rows[0] : null);
  });

  it('takes the newer of two rows, and its own before a lower one', () => {
    const rows = [row({ faults: 1 }), row({ faults: 2 }), row({ effort: 'quick', proved: true })];
    expect(settledBy(indexRows(rows, 'abc'), TASK)).toBe(rows[1]);
  });

  it('looks down from the next lower effort, and finds none below an amount of work', () => {
    const rows = indexRows([row({ effort: 'quick' }), row()], 'abc');
    expect(lowerRow(rows, { ...TASK, effort: 'long' })?.effort).toBe('normal');
    expect(lowerRow(rows, { ...TASK, effort: 'quick' })).toBeNull();
    expect(lowerRow(rows, { ...TASK, effort: '1e8' })).toBeNull();
  });

  it('reads rows around a line that was cut off', () => {
    const line = JSON.stringify(row());
    expect(parseLines(`\n${line}\n${line.slice(0, 40)}\n${line}`)).toEqual([row(), row()]);
  });
});

describe('selectedOf', () => {
  it.each([
    { only: [], every: 1, found: ['1_20_1', '1_20_10', '10_20_1', '2_20_1'] },
    { only: ['1'], every: 1, found: ['1_20_1', '1_20_10'] },
    { only: ['2_20', '1_20_1'], every: 1, found: ['1_20_1', '2_20_1'] },
    { only: [], every: 2, found: ['1_20_1', '10_20_1'] },
    { only: ['1_2'], every: 1, found: [] },
  ])('takes $only, one in $every', ({ only, every, found }) => {
    const names = ['1_20_1', '1_20_10', '10_20_1', '2_20_1'];
    expect(selectedOf(names, { only, every })).toEqual(found);
  });
});

describe('drawnOf', () => {
  const tasks = ['still', 'turned'].flatMap((variant) =>
    Array.from({ length: 20 }, (_, k): Task => ({ ...TASK, variant, instance: `1_20_${k}` })),
  );
  const proved = tasks.slice(0, 10).map((task) => row({ ...task, effort: 'quick', proved: true }));
  const rows = indexRows(proved, 'abc');

  it('takes so many of each variant, in their order, none that is proved', () => {
    const drawn = drawnOf(tasks, rows, 6);
    expect(drawn.map(({ variant }) => variant)).toEqual([
      ...Array.from({ length: 6 }, () => 'still'),
      ...Array.from({ length: 6 }, () => 'turned'),
    ]);
    expect(drawn).toEqual(tasks.filter((task) => drawn.includes(task)));
    expect(drawn.some((task) => tasks.indexOf(task) < 10)).toBe(false);
  });

  it('draws the same after rows of its own effort, and other ones by another seed', () => {
    const more = indexRows([...proved, ...tasks.map((task) => row(task))], 'abc');
    expect(drawnOf(tasks, more, 6)).toEqual(drawnOf(tasks, rows, 6));
    const reseeded = drawnOf(
      tasks.map((task) => ({ ...task, seed: 2 })),
      rows,
      6,
    );
    expect(reseeded.map(({ instance }) => instance)).not.toEqual(
      drawnOf(tasks, rows, 6).map(({ instance }) => instance),
    );
  });

  it('takes all where there are too few', () => {
    expect(drawnOf(tasks.slice(0, 20), rows, 50)).toEqual(tasks.slice(10, 20));
  });
});
