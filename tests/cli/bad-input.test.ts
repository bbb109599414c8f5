import { describe, expect, it } from 'vitest';
import { contentsOf, folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { closed, dxf, lightPolyline } from '../partsfile/dxf-text.ts';

/** What a person may hand in by mistake or on purpose; each ends with exit 2, a place, and nothing written. */
const CASES: { name: string; text: string | Uint8Array; says: RegExp }[] = [
  { name: 'an empty file', text: '', says: /bad\.yaml:1:1: error / },
  { name: 'only a comment', text: '# later\n', says: /bad\.yaml:\d+:\d+: error / },
  { name: 'a list instead of a job', text: '- one\n- two\n', says: /bad\.yaml:1:1: error / },
  { name: '10 MB of noise', text: noise(10_000_000), says: /bad\.yaml.*error .*large/ },
  { name: '100 kB of noise', text: noise(100_000), says: /bad\.yaml:\d+:\d+: error / },
  { name: 'zero bytes', text: new Uint8Array(2000), says: /bad\.yaml:\d+:\d+: error / },
  {
    name: 'a tab as indent',
    text: smallJob().replace('  ply:', '\tply:'),
    says: /bad\.yaml:5:1: error /,
  },
  { name: 'a duplicate key', text: smallJob('job: Again'), says: /bad\.yaml:12:1: error / },
  {
    name: 'an unknown key',
    text: smallJob().replace('grain: along', 'grian: along'),
    says: /bad\.yaml:10:\d+: error [\s\S]*grain/,
  },
  {
    name: 'a count of zero',
    text: smallJob().replace('count: 2', 'count: 0'),
    says: /bad\.yaml:10:\d+: error /,
  },
  {
    name: 'a negative count',
    text: smallJob().replace('count: 2', 'count: -3'),
    says: /bad\.yaml:10:\d+: error /,
  },
  {
    name: 'a count of 1e9',
    text: smallJob().replace('count: 2', 'count: 1000000000'),
    says: /bad\.yaml:10:\d+: error /,
  },
  {
    name: 'not a number',
    text: smallJob().replace('spacing: 8', 'spacing: .nan'),
    says: /bad\.yaml:3:\d+: error /,
  },
  {
    name: 'endless',
    text: smallJob().replace('spacing: 8', 'spacing: .inf'),
    says: /bad\.yaml:3:\d+: error /,
  },
  {
    name: 'a negative length',
    text: smallJob().replace('600 x 300', '-600 x 300'),
    says: /bad\.yaml:10:\d+: error /,
  },
  {
    name: '100 km',
    text: smallJob().replace('600 x 300', '100000000 x 300'),
    says: /bad\.yaml:10:\d+: error /,
  },
  {
    name: 'a decimal comma',
    text: smallJob().replace('600 x 300', '600,5 x 300'),
    says: /bad\.yaml:10:\d+: error [\s\S]*600\.5/,
  },
  {
    name: 'a part larger than every sheet',
    text: smallJob().replace('600 x 300', '1300 x 300'),
    says: /bad\.yaml:10:\d+: error /,
  },
  {
    name: 'a trim larger than the sheet',
    text: smallJob().replace('trim: 10', 'trim: 500'),
    says: /bad\.yaml:8:\d+: error /,
  },
  {
    name: 'an unknown material',
    text: smallJob().replace('material: ply, size: 600', 'material: plyy, size: 600'),
    says: /bad\.yaml:10:\d+: error [\s\S]*ply/,
  },
  {
    name: 'two parts of one name',
    text: smallJob().replace('Block', 'Side'),
    says: /bad\.yaml:11:\d+: error /,
  },
  {
    name: 'a name of 500 letters',
    text: smallJob().replace('Block', 'B'.repeat(500)),
    says: /bad\.yaml:11:\d+: error /,
  },
  {
    name: 'a name with a control character',
    text: smallJob().replace('Block', '"Bl\\x1bock"'),
    says: /bad\.yaml:11:\d+: error /,
  },
  {
    name: 'a self-crossing outline',
    text: withOutline('points: [[0, 0], [100, 100], [100, 0], [0, 100]]'),
    says: /bad\.yaml:12:\d+: error .*cross/,
  },
  {
    name: 'a hole outside the part',
    text: withOutline('size: 100 x 100, holes: [{ at: [150, 50], diameter: 8, depth: through }]'),
    says: /bad\.yaml:12:\d+: error /,
  },
  {
    name: 'a missing drawing',
    text: withOutline('outline: absent.svg'),
    says: /bad\.yaml:12:\d+: error [\s\S]*absent\.svg/,
  },
  {
    name: 'a drawing outside the folder',
    text: withOutline('outline: ../../etc/passwd.svg'),
    says: /bad\.yaml:12:\d+: error /,
  },
  {
    name: 'a drawing with an entity',
    text: withOutline('outline: entity.svg'),
    says: /bad\.yaml:12:\d+: error /,
  },
  {
    name: 'a drawing with a script',
    text: withOutline('outline: script.svg'),
    says: /bad\.yaml:12:\d+: error /,
  },
  {
    name: 'a drawing that refers elsewhere',
    text: withOutline('outline: reference.svg'),
    says: /bad\.yaml:12:\d+: error /,
  },
  {
    name: 'a drawing that is none',
    text: withOutline('outline: plain.svg'),
    says: /bad\.yaml:12:\d+: error /,
  },
  {
    name: 'a DXF drawing with a gap',
    text: withOutline('outline: gap.dxf'),
    says: /bad\.yaml:12:\d+: error open-outline: "gap\.dxf": [\s\S]*from \(0, 0 mm\) to \(0, 5 mm\) there is a gap of 5 mm/,
  },
  {
    name: 'a binary DXF drawing',
    text: withOutline('outline: binary.dxf'),
    says: /bad\.yaml:12:\d+: error drawing-broken: "binary\.dxf": it is a binary DXF/,
  },
  {
    name: 'a DXF drawing of noise',
    text: withOutline('outline: noise.dxf'),
    says: /bad\.yaml:12:\d+: error drawing-broken: "noise\.dxf": line 1 of/,
  },
  {
    name: 'a board without length',
    text: withBoards('{ length: 0 }'),
    says: /bad\.yaml:8:\d+: error out-of-range: length is "0"/,
  },
  {
    name: 'a board whose length has a minus',
    text: withBoards('{ length: -2400 }'),
    says: /bad\.yaml:8:\d+: error out-of-range: length is "-2400"/,
  },
  {
    name: 'a board of a unit that is none',
    text: withBoards('{ length: 24 dm }'),
    says: /bad\.yaml:8:\d+: error bad-length[\s\S]*mm, cm, m, in or ft/,
  },
  {
    name: 'a defect beyond the end of its board, with the line ends of Windows',
    text: withBoards('{ length: 2400, defects: [{ at: 2390, length: 20 }] }').replaceAll(
      '\n',
      '\r\n',
    ),
    says: /bad\.yaml:8:\d+: error defect-outside/,
  },
  {
    name: 'a length that has no boards',
    text: withOutline('length: 720'),
    says: /bad\.yaml:12:\d+: error no-boards/,
  },
  { name: 'a bomb of aliases', text: aliasBomb(), says: /bad\.yaml.*error / },
  { name: 'a bomb of brackets', text: `job: ${'['.repeat(50_000)}`, says: /bad\.yaml.*error / },
  {
    name: 'a key that reaches for the prototype',
    text: smallJob('__proto__: { polluted: yes }'),
    says: /bad\.yaml:12:1: error /,
  },
  {
    name: 'a panel saw with a router bit',
    text: smallJob().replace('{ cutter', '{ kind: panel-saw, cutter'),
    says: /bad\.yaml:3:\d+: error misplaced-key/,
  },
];

const DRAWINGS = {
  'entity.svg':
    '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><svg xmlns="http://www.w3.org/2000/svg"><path d="&b;"/></svg>',
  'script.svg': '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
  'reference.svg':
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"><use xlink:href="http://example.com/a.svg#b"/></svg>',
  'plain.svg': 'this is no drawing',
  'gap.dxf': dxf([
    lightPolyline(
      [
        [0, 0],
        [100, 0],
        [100, 100],
        [0, 5],
      ],
      false,
    ),
  ]),
  'binary.dxf': new Uint8Array([...Buffer.from('Some Name Binary DXF\r\n\u001a\0'), ...noise(500)]),
  'noise.dxf': noise(5000),
};

describe('bad input', () => {
  it.each(CASES)('$name', async ({ text, says }) => {
    const folder = folderWith({ 'bad.yaml': text, ...DRAWINGS });
    const { code, out, err } = await holdfast(folder, ['plan', 'bad.yaml']);
    expect(err).toMatch(says);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).not.toMatch(/\n\s+at |mistake in holdfast/);
    expect(err.length).toBeLessThan(20_000);
    expect(Object.keys(contentsOf(folder)).sort()).toEqual(
      ['bad.yaml', ...Object.keys(DRAWINGS)].sort(),
    );
  });

  it.each(['\uFEFF', ''])(
    'reads Windows line ends, with the byte-order mark "%s"',
    async (mark) => {
      const folder = folderWith({ 'good.yaml': mark + smallJob().replaceAll('\n', '\r\n') });
      const { code, err } = await holdfast(folder, ['check', 'good.yaml']);
      expect(err).toBe('');
      expect(code).toBe(0);
    },
  );

  it('reads a DXF drawing in the alphabet and with the line ends of Windows', async () => {
    const drawing = dxf([
      closed(
        [
          [0, 0],
          [100, 0],
          [0, 80],
        ],
        'Rück',
      ),
      closed(
        [
          [0, 0],
          [9, 0],
          [0, 9],
        ],
        'x',
      ),
    ]);
    const folder = folderWith({
      'good.yaml': withOutline('outline: panel.dxf#rück'),
      'panel.dxf': Buffer.from(drawing.replaceAll('\n', '\r\n'), 'latin1'),
    });
    const { code, err } = await holdfast(folder, ['check', 'good.yaml']);
    expect([code, err]).toEqual([0, '']);
  });

  it('carries a name with markup through to every file without acting on it', async () => {
    const name = `<script>alert("x")</script> & 'co' | =1+1`;
    const folder = folderWith({
      'good.yaml': smallJob().replace('name: Block', `name: ${JSON.stringify(name)}`),
    });
    const { code } = await holdfast(folder, ['plan', 'good.yaml', '--out', 'plan']);
    expect(code).toBe(0);
    const files = contentsOf(`${folder}/plan`);
    expect(files['sheet-01.svg']!.toString()).not.toContain('<script>');
    expect(files['report.md']!.toString()).not.toContain('<script>');
    expect(
      JSON.parse(files['plan.json']!.toString()).materials[0].sheets[0].placements.some(
        (p: { part: string }) => p.part === name,
      ),
    ).toBe(true);
  });
});

/** The small job with boards in line 8. */
function withBoards(board: string): string {
  return smallJob().replace('    sheets:', `    boards: [${board}]\n    sheets:`);
}

function withOutline(words: string): string {
  return smallJob(`  - { name: Odd, material: ply, ${words} }\n`);
}

/** Bytes that look random but are the same every time. */
function noise(length: number): Uint8Array {
  let state = 12_345;
  return Uint8Array.from({ length }, () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return state >>> 16;
  });
}

function aliasBomb(): string {
  const lines = ['a0: &a0 [x, x, x, x, x, x, x, x, x]'];
  for (let i = 1; i < 10; i++)
    lines.push(
      `a${i}: &a${i} [${Array(9)
        .fill(`*a${i - 1}`)
        .join(', ')}]`,
    );
  return `${lines.join('\n')}\n`;
}
