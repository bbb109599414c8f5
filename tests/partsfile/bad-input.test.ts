import { describe, expect, it } from 'vitest';
import { BYTES_PER_MB, USUAL_LIMITS } from '../../src/model/resource-limits.ts';
import { formatProblem } from '../../src/partsfile/problem.ts';
import { codesOf, jobOf, jobText, problemsOf, read } from './reading.ts';

const MAX_FILE_BYTES = USUAL_LIMITS.file * BYTES_PER_MB;

const BOX = jobText('size: 300 x 200');

/** Text of letters drawn by a small generator, the same each time. */
function noise(length: number, from: number, letters: number): string {
  let state = 12_345;
  let text = '';
  while (text.length < length) {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
    text += String.fromCharCode(from + ((state >> 16) % letters));
    if (text.length % 80 === 79) text += '\n';
  }
  return text;
}

function named(name: string): string {
  return BOX.replace('name: Box', `name: ${name}`);
}

describe('bad input', () => {
  it.each<readonly [string, string, readonly string[]]>([
    ['an empty file', '', ['1:1 empty-file']],
    ['blanks and line ends', ' \n\r\n\n', ['1:1 empty-file']],
    ['a byte-order mark alone', '\ufeff', ['1:1 empty-file']],
    ['a remark alone', '# later\n', ['1:1 empty-file']],
    ['a list', '- 1\n- 2\n', ['1:1 wrong-type']],
    ['a text', 'hello\n', ['1:1 wrong-type']],
    ['bytes that are no UTF-8', 'job: caf\ufffd\n', ['1:9 not-text']],
    ['a null', `job: a\u0000b\n`, ['1:7 not-text']],
    ['a tab', `${BOX}machine:\n\tkind: router\n`, ['6:1 tab-indent']],
    ['a key twice', `${BOX}unit: mm\n`, ['5:1 duplicate-key']],
    ['a key with a second meaning for the language', `${BOX}__proto__: 1\n`, ['5:1 yaml-feature']],
    ['a merge key', `${BOX}<<: { job: x }\n`, ['5:1 yaml-feature']],
    ['a list as a key', `${BOX}? [a]\n: 1\n`, ['5:3 yaml-feature']],
    ['an anchor that contains itself', `${BOX}machine: &m { cutter: *m }\n`, ['5:13 too-deep']],
    ['an anchor that is not there', `${BOX}machine: *m\n`, ['5:10 yaml-syntax']],
    ['no unit', BOX.replace('unit: mm\n', ''), ['1:1 missing-key']],
    ['another unit', BOX.replace('unit: mm', 'unit: furlong'), ['1:7 unknown-word']],
    ['no parts', 'unit: mm\nmaterials: {}\nparts: []\n', ['3:8 wrong-type']],
    ['a count of 1e9', jobText('size: 300 x 200, count: 1e9'), ['4:57 wrong-type']],
    ['a count of a billion', jobText('size: 300 x 200, count: 1000000000'), ['4:57 out-of-range']],
    ['no number', jobText('size: [.nan, 200]'), ['4:40 bad-length']],
    ['a number without end', jobText('size: [.inf, 200]'), ['4:40 bad-length']],
    ['less than nothing', jobText('size: [-300, 200]'), ['4:40 out-of-range']],
    ['less than the grid', jobText('size: [0.00001, 200]'), ['4:40 out-of-range']],
    ['100 km', jobText('size: 100 km x 200 mm'), ['4:39 out-of-range']],
    [
      'a decimal comma that makes three numbers of two',
      jobText('size: [300,5, 200]'),
      ['4:39 wrong-type'],
    ],
    [
      'a decimal comma that ends a value',
      jobText('size: 300,5 x 200, count: 2'),
      ['4:39 decimal-comma'],
    ],
  ])('%s', (_, text, problems) => {
    expect(problemsOf(text)).toEqual(problems);
    expect(read(text).job).toBeNull();
  });

  it.each([
    ['shape: disc, diameter: 0', 'mm', 'diameter is "0"; it must be more than 0 mm'],
    ['shape: disc, diameter: 0', 'in', 'diameter is "0"; it must be more than 0 in'],
    ['size: 300 x 0', 'mm', 'size is "300 x 0"; it must be more than 0 mm'],
    [
      'size: 90 x 90, cut-outs: [{ at: [9, 9], diameter: 0 }]',
      'mm',
      'diameter is "0"; it must be more than 0 mm',
    ],
    [
      'size: 90 x 90, holes: [{ at: [9, 9], diameter: 0 }]',
      'mm',
      'diameter is "0"; it must be at least 0.1 mm',
    ],
    ['size: 90 x 90, oversize: -1', 'mm', 'oversize is "-1"; it must be 0 or more'],
  ] as const)('%s in %s: %s', (keys, unit, message) => {
    expect(read(jobText(keys, unit)).problems.map((problem) => problem.message)).toEqual([message]);
  });

  it.each<readonly [string, string, readonly string[]]>([
    ['with markup', '"<b onclick=go()>&amp;</b>"', []],
    ['of other alphabets', 'Łódź βέλος ящик 箱', []],
    ['of 200 letters', 'é'.repeat(200), []],
    ['of 201 letters', 'é'.repeat(201), ['bad-name']],
    ['of 500 letters', 'x'.repeat(500), ['bad-name']],
    ['of blanks', '"  "', ['bad-name']],
    ['with a bell', '"Bo\\x07x"', ['bad-name']],
    ['of two lines', '"Bo\\nx"', ['bad-name']],
    ['that turns the writing round', '"Bo\\u202ex"', ['bad-name']],
    ['with half a character', '"Bo\\ud800x"', ['bad-name']],
    ['that is a number', '007', []],
    ['that is a yes', 'yes', []],
  ])('a name %s', (_, name, codes) => {
    expect(codesOf(named(name))).toEqual(codes);
  });

  it('keeps names as written, in composed letters', () => {
    expect(jobOf(named('007')).parts[0]?.name).toBe('007');
    expect(jobOf(named('yes')).parts[0]?.name).toBe('yes');
    expect(jobOf(named('Tu\u0308r')).parts[0]?.name).toBe('T\u00fcr');
  });

  it('shows no control character of the file in what it prints', () => {
    const { problems } = read(named('"a\\e[31mb\\u202ec"'));
    const printed = problems.map((problem) => formatProblem('a\u001bb.yaml', problem)).join('');
    expect(printed).toContain('a\\u{1b}b.yaml:4:13: error bad-name: "a\\u{1b}[31mb\\u{202e}c" has');
    expect(printed).toMatch(/^[\x20-\x7e\n]*$/);
  });

  it('finds all problems of a file in one run, in the order of the file', () => {
    const text = `unit: mm
materials: { ply: { family: plywod, thickness: 18, sheets: [{ size: 2440 x 0 }] } }
parts:
  - { name: A, material: pyl, size: 300 x 200, cuont: 2 }
  - { name: A, material: ply, size: 3O0 x 200, grain: up }
  - { name: C, material: ply, path: M0 0 H10, holes: [{ at: [1, 2], diameter: -1 }] }
machine: { feed: -5, spacing: 1 }
limits: { yield: 120 % }
`;
    expect(problemsOf(text)).toEqual([
      '2:29 unknown-word',
      '2:69 out-of-range',
      '4:26 unknown-material',
      '4:48 unknown-key',
      '5:13 duplicate-name',
      '5:37 bad-length',
      '5:55 unknown-word',
      '6:37 open-outline',
      '7:18 out-of-range',
      '7:31 spacing-too-small',
      '8:18 out-of-range',
    ]);
  });
});

describe('limits on hostile files', () => {
  const anchors = (levels: number) =>
    ['a0: &a0 [x, x, x, x, x, x, x, x, x]']
      .concat(
        Array.from(
          { length: levels },
          (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(', ')}]`,
        ),
      )
      .join('\n');

  it.each<readonly [string, () => string, readonly string[]]>([
    ['10 MB of noise', () => noise(2 * MAX_FILE_BYTES, 32, 95), ['file-too-large']],
    ['5 MB of brackets', () => '['.repeat(MAX_FILE_BYTES), ['too-deep']],
    ['5 MB of dashes', () => '- '.repeat(MAX_FILE_BYTES / 2), ['too-deep']],
    ['5 MB of nested keys', () => 'a: '.repeat(MAX_FILE_BYTES / 3), ['too-deep']],
    ['an alias bomb', () => anchors(9), ['too-many-aliases']],
    ['5 MB of keys', () => ':\n'.repeat(MAX_FILE_BYTES / 2), ['file-too-large']],
    ['1 MB of quotation marks', () => '"'.repeat(1_000_000), ['yaml-syntax']],
    ['a number of 1 MB', () => jobText(`size: [${'9'.repeat(1_000_000)}, 5]`), ['bad-length']],
    [
      'a count of 1 MB',
      () => jobText(`count: ${'9'.repeat(1_000_000)}, size: 5 x 5`),
      ['wrong-type'],
    ],
    ['a size of 1 MB', () => jobText(`size: ${'9'.repeat(1_000_000)} x 5`), ['bad-size']],
    ['a path of 1 MB', () => jobText(`path: M0 0L${'1 '.repeat(500_000)}`), ['too-complex']],
    ['a name of 4 MB', () => named('x'.repeat(4_000_000)), ['bad-name']],
    [
      '10,001 pieces',
      () =>
        jobText('size: 9 x 9, count: 5001')
          .replace(/( {2}- .*\n)/, '$1$1')
          .replace('Box', 'Lid'),
      ['too-many-pieces'],
    ],
  ])('%s', (_, text, codes) => {
    const { problems } = read(text());
    expect(problems.map(({ code }) => code)).toEqual(codes);
    for (const { message } of problems) expect(message.length).toBeLessThan(200);
  });

  it('gives at most 500 problems, and says how many more there are', () => {
    const keys = Array.from({ length: 3000 }, (_, i) => `key${i}: 1\n`).join('');
    const { problems } = read(BOX + keys);
    expect(problems).toHaveLength(501);
    expect(problems.at(-1)?.message).toContain('2500 more problems');
  });

  it('gives at most 20 problems of syntax', () => {
    const { problems } = read(noise(200_000, 32, 95));
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.length).toBeLessThanOrEqual(20);
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(['yaml-syntax']));
  });

  it('reads a large outline, and refuses a larger one', () => {
    const circle = (corners: number) =>
      Array.from({ length: corners }, (_, i) => {
        const angle = (2 * Math.PI * i) / corners;
        return `[${(500 + 500 * Math.cos(angle)).toFixed(4)}, ${(500 + 500 * Math.sin(angle)).toFixed(4)}]`;
      }).join(', ');
    expect(codesOf(jobText(`points: [${circle(5000)}]`))).toEqual([]);
    expect(codesOf(jobText(`points: [${circle(5001)}]`))).toEqual(['too-complex']);
  });
});

describe('whatever is done to a good file', () => {
  it('the reader answers with problems or a job', () => {
    const good = `${jobText('size: 300 x 200, holes: [{ at: [50, 50], diameter: 5 }], count: 2')}machine: { cutter: { diameter: 6 } }\ntable: { altitude: 300 m }\nlimits: { yield: 70 % }\n`;
    let state = 99;
    const random = (below: number) => {
      state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
      return (state >>> 8) % below;
    };
    const bits = [
      '"',
      "'",
      '[',
      ']',
      '{',
      '}',
      ':',
      ',',
      '-',
      '&a ',
      '*a',
      '\t',
      '\n',
      '#',
      '|',
      '0',
      '.',
      '1e9',
      'x',
      'ü',
      '!',
      '%',
      ' ',
      '~',
    ];
    for (let i = 0; i < 600; i++) {
      let text = good;
      for (let edits = 1 + random(3); 0 < edits; edits--) {
        const at = random(text.length);
        const end = at + random(6);
        text = text.slice(0, at) + (bits[random(bits.length)] ?? '') + text.slice(end);
      }
      const { job, problems } = read(text);
      const errors = problems.filter(({ severity }) => severity === 'error');
      expect(job === null, text).toBe(0 < errors.length);
    }
  });
});
