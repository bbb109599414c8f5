import { describe, expect, it } from 'vitest';
import { drawn, folderOf, rankedBy } from './draw.ts';
import { applied, type Fault, faultsOf, keyOf } from './faults.ts';
import { digestOf, importGraph, reaching } from './import-graph.ts';
import { OPERATORS } from './operators.ts';
import { changeOf, fateOf } from './report.ts';
import { parseRequest } from './request.ts';
import { testOrder } from './test-order.ts';

/** A line, the way of making a fault, and all that becomes of the line by it. */
const MADE: readonly [string, string, readonly string[]][] = [
  ['a < b;', 'comparison made strict or loose', ['a <= b;']],
  ['a >= b;', 'comparison made strict or loose', ['a > b;']],
  ['a < b;', 'comparison reversed', ['a >= b;']],
  ['a !== b;', 'comparison reversed', ['a === b;']],
  ['(a + b) - c;', 'plus for minus', ['(a - b) - c;', '(a + b) + c;']],
  ['a / b;', 'times for divided', ['a * b;']],
  ['a && b;', 'and for or', ['a || b;']],
  ['a ?? b;', 'and for or', []],
  ['a -= 1;', 'assignment turned', ['a += 1;']],
  ['a[0] = 2n;', 'constant off by one', ['a[1] = 2n;', 'a[0] = 3n;']],
  ['a = 1.7;', 'constant off by one', ['a = 2.7;']],
  ['a = true;', 'truth flipped', ['a = false;']],
  ['if (a) b();', 'condition negated', ['if (!(a)) b();']],
  ['a = b ? c : d;', 'condition negated', ['a = !(b) ? c : d;']],
  ['a = -b * !c;', 'sign dropped', ['a = b * !c;', 'a = -b * c;']],
  ['Math.min(a, b);', 'name exchanged', ['Math.max(a, b);']],
  ['a.some(b);', 'name exchanged', ['a.every(b);']],
  ['f(a,  b, c);', 'arguments exchanged', ['f(b,  a, c);']],
  ['Math.max(a, b);', 'arguments exchanged', []],
  ['f(a, a); f(...a, b);', 'arguments exchanged', []],
  ['a[i] = b.c;', 'index shifted', ['a[i + 1] = b.c;']],
  ['a.filter(b).map(c);', 'choice or order dropped', ['a.map(c);']],
  ['f(a); b = f(a);', 'call dropped', ['; b = f(a);']],
  ['for (;;) { if (a) break; }', 'way out dropped', ['for (;;) { ; }']],
  ['for (;;) { if (a) { b(); break; } }', 'way out dropped', []],
];

const LEFT_ALONE: readonly [string, string][] = [
  ['an import', "import { a } from './a.ts';"],
  ['a type', 'type A = 1 | true; const b: readonly [a: 1] = c;'],
  ['a text', `const a = ['a < b', \`\${c + 1}\`];`],
  ['an assertion', "assert(a < b, 'a reaches b');"],
  ['the step of a loop', 'for (;;i += 2);'],
  ['a measure of a search', 'const MOST_TRIES = 40;'],
];

describe('a fault', () => {
  it.each(MADE)('of %s by "%s"', (text, operator, expected) => {
    const faults = faultsOf('src/packing/a.ts', text).filter((each) => each.operator === operator);
    expect(faults.map((fault) => applied(fault, text))).toEqual(expected);
  });

  it('is shown here in every way there is', () => {
    const shown = new Set(MADE.map(([, operator]) => operator));
    expect(OPERATORS.map(({ name }) => name).filter((name) => !shown.has(name))).toEqual([]);
  });

  it.each(LEFT_ALONE)('is not put into %s', (_, text) => {
    expect(faultsOf('src/packing/a.ts', text)).toEqual([]);
  });

  it('is put into the constants of bounds and of other folders', () => {
    for (const file of ['src/packing/bounds/a.ts', 'src/holding/constants.ts'])
      expect(faultsOf(file, 'const MOST_TRIES = 40;')).toHaveLength(1);
  });

  it('keeps its name where lines move, and has one of its own where the line is not the only one', () => {
    const keys = (text: string) => faultsOf('src/packing/a.ts', text).map(keyOf);
    const [first, second] = keys('a < b;\na < b;');
    expect(keys('\n\na < b;')).toContain(first);
    expect(keys('a < b;\na < b;')).toHaveLength(4);
    expect(second).not.toBe(first);
  });

  it('is told in one line of a table', () => {
    const [fault] = faultsOf('src/packing/a.ts', 'x = a ||\n  b;');
    expect(changeOf(fault!)).toBe('and for or: `\\|\\|` → `&&` in `x = a \\|\\|`');
    expect(fateOf(fault!, null)).toBe('SURVIVED');
  });
});

const FAULTS: readonly Fault[] = ['a', 'b', 'c', 'd', 'e'].flatMap((name) =>
  faultsOf(`src/packing/${name}.ts`, 'a < b; c + d; f(1, e);'),
);

describe('a draw', () => {
  it('does not depend on the order, nor on what is not drawn', () => {
    const ranked = rankedBy(1, FAULTS);
    expect(rankedBy(1, FAULTS.toReversed())).toEqual(ranked);
    const others = FAULTS.filter((fault) => fault !== ranked[3]);
    expect(rankedBy(1, others)).toEqual(ranked.toSpliced(3, 1));
    expect(rankedBy(2, FAULTS)).not.toEqual(ranked);
  });

  it('takes one of a file, two of a way at most, and the next for one that is unfit', () => {
    const ranked = rankedBy(1, FAULTS);
    const all = drawn(ranked, 9, () => false).faults;
    expect(all.map(({ file }) => file).toSorted()).toHaveLength(5);
    expect(new Set(all.map(({ file }) => file)).size).toBe(5);
    const counts = all.map((a) => all.filter((b) => a.operator === b.operator).length);
    expect(Math.max(...counts)).toBeLessThanOrEqual(2);
    const { faults, unfit } = drawn(ranked, 2, (fault) => fault === all[0]);
    expect(unfit).toEqual([all[0]]);
    expect(faults).toHaveLength(2);
  });

  it.each([
    ['src/packing/pack.ts', 'src/packing'],
    ['src/packing/bounds/area.ts', 'src/packing/bounds'],
    ['src/partsfile/lists/a.ts', 'src/partsfile'],
    ['src/cli/main.ts', null],
  ])('has %s in its folder', (file, folder) => {
    expect(folderOf(file)).toBe(folder);
  });
});

const TEXTS = new Map([
  ['src/geometry/a.ts', ''],
  ['src/geometry/b.ts', "import { a, type T } from './a.ts';"],
  ['src/model/c.ts', "export * from '../geometry/b.ts';"],
  ['tests/geometry/a.test.ts', "import { a } from '../../src/geometry/a.ts';"],
  ['tests/geometry/b.test.ts', "import { b } from '../../src/geometry/b.ts';"],
  ['tests/model/c.test.ts', "const c = await import('../../src/model/c.ts');"],
  ['tests/model/d.test.ts', "import type { A } from '../../src/geometry/a.ts';"],
  ['tests/model/e.test.ts', "import { type A } from '../../src/geometry/a.ts';"],
]);

describe('the graph of imports', () => {
  const graph = importGraph(TEXTS);

  it('finds what reaches a file, but not for its types only', () => {
    expect([...reaching(graph, 'src/geometry/a.ts')]).toEqual([
      ['src/geometry/a.ts', 0],
      ['src/geometry/b.ts', 1],
      ['tests/geometry/a.test.ts', 1],
      ['src/model/c.ts', 2],
      ['tests/geometry/b.test.ts', 2],
      ['tests/model/c.test.ts', 3],
    ]);
  });

  it('lets the tests of the folder run first, of those the one of its name', () => {
    const more = new Map(TEXTS).set(
      'tests/geometry/a.test.ts',
      "import '../../src/geometry/b.ts';",
    );
    const order = (slow: string) =>
      testOrder(graph, 'src/geometry/a.ts', (test) => (test.includes(slow) ? 9 : 0));
    expect(order('x')).toEqual([
      { test: 'tests/geometry/a.test.ts', isNear: true },
      { test: 'tests/geometry/b.test.ts', isNear: true },
      { test: 'tests/model/c.test.ts', isNear: false },
    ]);
    expect(order('a.test').map(({ test }) => test)[0]).toBe('tests/geometry/a.test.ts');
    const ofB = (slow: string) =>
      testOrder(importGraph(more), 'src/geometry/b.ts', (test) => (test.includes(slow) ? 9 : 0));
    expect(ofB('x').map(({ test }) => test)[0]).toBe('tests/geometry/b.test.ts');
  });

  it('has another digest for a file only where something changes that it imports', () => {
    const changed = new Map(TEXTS).set('src/geometry/b.ts', "import { a } from './a.ts';");
    const isSame = (file: string) =>
      digestOf(graph, TEXTS, file) === digestOf(importGraph(changed), changed, file);
    expect(isSame('tests/geometry/a.test.ts')).toBe(true);
    expect(isSame('tests/model/c.test.ts')).toBe(false);
  });
});

describe('the command line', () => {
  it.each([
    [[], { seed: 1, each: 6, only: [], list: false, near: false, fresh: false }],
    [['--seed', '4', '--only', '3,src/verify'], { seed: 4, only: ['3', 'src/verify'] }],
    [['--each', '10', '--near', '--fresh'], { each: 10, near: true, fresh: true }],
  ])('reads %j', (argv, expected) => {
    expect(parseRequest(argv, () => {})).toMatchObject(expected);
  });

  it.each([
    [['--help'], 0, 'Usage: npm run mutations'],
    [['--seed', '0'], 1, 'whole number'],
    [['--colour'], 1, 'unknown option'],
  ])('says of %j what it is', (argv, code, said) => {
    let text = '';
    const given = parseRequest(argv, (more) => {
      text += more;
    });
    expect(given).toBe(code);
    expect(text).toContain(said);
  });
});
