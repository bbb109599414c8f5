import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast } from '../helpers/command.ts';

/** What a name could be taken for by whatever reads an output. */
const HOSTILE: readonly (readonly [what: string, name: string])[] = [
  ['markup', '</text><script>alert(1)</script>'],
  ['an attribute', '"\'><img src=x onerror=alert(1)>'],
  ['the end of a style', '</style></title></textarea><svg onload=alert(1)>'],
  ['the end of a section', ']]><!-- --><!--'],
  ['an entity', '&lt;b&gt; &#0; &nbsp;'],
  ['a formula', '=HYPERLINK("http://x.example","y")'],
  ['a sum', '+1+cmd|x'],
  ['a difference', '-2+3'],
  ['a function', '@SUM(A1:A9)'],
  ['a wide formula', '\uff1d1+1'],
  ['a path upwards', '../../etc/passwd'],
  ['a path upwards with backslashes', '..\\..\\windows'],
  ['a drive', 'C:\\new'],
  ['a share', '\\\\server\\share'],
  ['a device', 'CON'],
  ['a device with an ending', 'nul.txt'],
  ['a port', 'COM1'],
  ['a dot at the end', 'Side.'],
  ['signs that no file has', 'a<b>c:d"e|f?g*h'],
  ['the same in capitals', 'con'],
  ['a link', '[a](javascript:alert(1)) ![b](x)'],
  ['a table', '| a | b |'],
  ['a heading', '# Heading `code` *b* _i_'],
  ['a DXF sign', '%%c%%u\\U+0041^J\\P{\\fArial;x}'],
  ['a PDF text', ') Tj /URI (x) (\\) endobj'],
  ['a placeholder', '{{x}} $x %s %n'],
  ['YAML', 'x: [y, {z: 1}] # no'],
  ['letters beyond the plane', 'Plate \u{1f600} \u{20000}'],
  ['another direction', '\u05d0\u05d1\u05d2 shelf \u0627\u0628'],
  ['a decomposed letter', 'Cafe\u0301'],
  ['all the length there is', `${'x'.repeat(190)}<b>"=1"`],
];

/** What no name may have. */
const REFUSED: readonly (readonly [what: string, name: string])[] = [
  ['a colour of the terminal', 'Side\u001b[31mred'],
  ['a title of the terminal', 'Side\u001b]0;title\u0007'],
  ['a control of eight bits', 'Side\u009b2J'],
  ['a bell', 'Side\u0007'],
  ['nothing at all', 'Side\u0000'],
  ['a tab', 'Side\tTop'],
  ['a line end', 'Side\nTop'],
  ['a carriage return', 'Side\rTop'],
  ['writing turned round', 'Side\u202efdp.exe'],
  ['an isolate', 'Side\u2067x'],
  ['an Arabic letter mark', 'Side\u061c'],
  ['a blank of no width', 'Side\u200b'],
  ['a word joiner', 'Si\u2060de'],
  ['a soft hyphen', 'Si\u00adde'],
  ['a tag', 'Side\u{e0041}'],
  ['a line separator', 'Side\u2028Top'],
  ['half of a letter', 'Side\ud800'],
];

const text = (name: string) => JSON.stringify(name);

function jobOf(job: string, names: readonly string[]): string {
  const parts = names.map(
    (name, i) =>
      `  - { name: ${text(name)}, material: ply, size: ${200 + i} x 120, group: ${text(`g ${name}`.slice(0, 200))}, note: ${text(name)} }\n`,
  );
  return `job: ${text(job)}
unit: mm
materials:
  ply: { name: ${text(names[0]!)}, family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220, price: 50 }] }
parts:
${parts.join('')}`;
}

const PLAIN = HOSTILE.map((_, i) => `Part ${i}`);
const NAMES = HOSTILE.map(([, name]) => name);

interface Made {
  readonly out: string;
  readonly files: ReadonlyMap<string, string>;
}

interface All {
  /** The two jobs are alike but for what they are called. */
  readonly plain: Made;
  readonly hostile: Made;
  readonly sarif: Awaited<ReturnType<typeof holdfast>>;
  readonly price: Awaited<ReturnType<typeof holdfast>>;
}

let known: Promise<All> | null = null;

/** Made by the first test that asks. */
function all(): Promise<All> {
  known ??= makeAll();
  return known;
}

async function makeAll(): Promise<All> {
  const plain = await made('Plain', PLAIN);
  const hostile = await made(NAMES[0]!, NAMES);
  const folder = folderOf(NAMES[0]!, [...NAMES.slice(1), NAMES[0]!]);
  const sarif = await holdfast(folder, ['check', 'a.yaml', '--format', 'sarif']);
  const price = await holdfast(folder, ['price', 'a.yaml', '--format', 'csv']);
  return { plain, hostile, sarif, price };
}

function folderOf(job: string, names: readonly string[]): string {
  return folderWith({ 'a.yaml': `${jobOf(job, names)}limits: { sheets: 0 }\n` });
}

async function made(job: string, names: readonly string[]): Promise<Made> {
  const folder = folderOf(job, names);
  const { code, out, err } = await holdfast(folder, ['plan', 'a.yaml', '--out', 'plan']);
  expect([code, err]).toEqual([0, '']);
  const plan = join(folder, 'plan');
  const files = readdirSync(plan).map(
    (name) => [name, readFileSync(join(plan, name), 'latin1')] as const,
  );
  return { out, files: new Map(files) };
}

/** What each kind of element has for attributes. */
function elementsOf(svg: string): readonly string[] {
  const found = new Set<string>();
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    for (const key of Object.keys(attributes)) found.add(`${name} ${key}`);
  });
  parser.on('error', (error) => {
    throw error;
  });
  parser.write(Buffer.from(svg, 'latin1').toString('utf8')).close();
  return [...found].sort();
}

const tagsOf = (html: string) =>
  [...html.matchAll(/<!--|<[/!]?[a-z][a-z0-9-]*/gi)].map(([tag]) => tag.toLowerCase());
const filesOf = ({ files }: Made, ending: string) =>
  [...files].filter(([name]) => name.endsWith(ending));

describe('names that something could act on', { timeout: 240_000 }, () => {
  it('make no names of files', async () => {
    const { plain, hostile } = await all();
    expect([...hostile.files.keys()].sort()).toEqual([...plain.files.keys()].sort());
    for (const name of hostile.files.keys()) expect(name).toMatch(/^[a-z]+(-\d+)?\.[a-z]+$/);
  });

  it('are no elements and no attributes of an SVG', async () => {
    const { plain, hostile } = await all();
    const drawings = filesOf(hostile, '.svg');
    const known = new Set(filesOf(plain, '.svg').flatMap(([, svg]) => elementsOf(svg)));
    expect(drawings.length).toBeGreaterThan(0);
    for (const [, svg] of drawings)
      expect(elementsOf(svg).filter((each) => !known.has(each))).toEqual([]);
  });

  it('are no elements of the plan page', async () => {
    const { plain, hostile } = await all();
    const [[, page = ''] = []] = filesOf(hostile, '.html');
    const [[, other = ''] = []] = filesOf(plain, '.html');
    const known = new Set(tagsOf(other));
    expect(known.size).toBeGreaterThan(10);
    expect(tagsOf(page).filter((tag) => !known.has(tag))).toEqual([]);
    const scripts = (html: string) => tagsOf(html).filter((tag) => tag === '<script').length;
    expect(scripts(page)).toBe(scripts(other));
    expect(page).not.toMatch(/<[^>]* on[a-z]+ *=/i);
  });

  it('are texts in a DXF, in ASCII and on the layers that there are', async () => {
    const { plain, hostile } = await all();
    const layersOf = (dxf: string) => {
      const lines = dxf.split(/\r?\n/);
      return new Set(lines.filter((_, i) => i % 2 === 1 && lines[i - 1]?.trim() === '8'));
    };
    const known = layersOf(
      filesOf(plain, '.dxf')
        .map(([, dxf]) => dxf)
        .join(''),
    );
    for (const [, dxf] of filesOf(hostile, '.dxf')) {
      expect(dxf).not.toMatch(/[^\n\r -~]/);
      expect([...layersOf(dxf)].filter((layer) => !known.has(layer))).toEqual([]);
      expect(dxf).not.toMatch(/%%[a-z]/i);
    }
  });

  it('are no formulas in CSV', async () => {
    const { hostile, price } = await all();
    for (const csv of [...filesOf(hostile, '.csv').map(([, csv]) => csv), price.out]) {
      const { data } = Papa.parse<string[]>(Buffer.from(csv, 'utf8').toString('utf8'));
      const cells = data.flat();
      expect(cells.length).toBeGreaterThan(10);
      const numbers = /^[-+]?\d+(\.\d+)?$/;
      expect(
        cells.filter((cell) => /^[=+\-@\t\r\uff1d]/.test(cell) && !numbers.test(cell)),
      ).toEqual([]);
    }
  });

  it('are no markup in the report', async () => {
    const { hostile } = await all();
    const report = Buffer.from(hostile.files.get('report.md')!, 'latin1').toString('utf8');
    const bare = report.replace(/\\./g, '');
    expect(bare).not.toMatch(/<[a-z/!]|\]\(|javascript:alert\(1\)\]/i);
  });

  it('do nothing in a PDF', async () => {
    const { hostile } = await all();
    for (const [, pdf] of filesOf(hostile, '.pdf')) {
      expect(pdf.slice(0, 5)).toBe('%PDF-');
      expect(pdf).not.toMatch(
        /\/(JavaScript|JS|URI|Launch|OpenAction|AA|SubmitForm|EmbeddedFile)\b/,
      );
      const objects = (pdf.match(/\bendobj\b/g) ?? []).length;
      expect(objects).toBe((pdf.match(/^\d+ 0 obj$/gm) ?? []).length);
    }
  });

  it('come back from the record as they were', async () => {
    const { hostile } = await all();
    const record = JSON.parse(
      Buffer.from(hostile.files.get('plan.json')!, 'latin1').toString('utf8'),
    );
    const written = JSON.stringify(record);
    for (const name of NAMES) expect(written).toContain(JSON.stringify(name.normalize('NFC')));
  });

  it('are texts in SARIF, its addresses aside', async () => {
    const { sarif } = await all();
    expect(sarif.code).toBe(1);
    const uris = [...sarif.out.matchAll(/"uri": *"([^"]*)"/g)].map(([, uri]) => uri);
    expect(uris.length).toBeGreaterThan(0);
    for (const uri of uris) expect(uri).toMatch(/^(https:\/\/[\w./-]+|a\.yaml)$/);
  });

  it('move nothing on a terminal', async () => {
    const { hostile } = await all();
    expect(hostile.out).not.toMatch(/(?!\n)[\p{Cc}]/u);
  });
});

describe('names that cannot be seen', () => {
  it.each(REFUSED)('are refused: %s', async (_, name) => {
    const folder = folderWith({ 'a.yaml': jobOf('Job', [name, 'Other']) });
    const { code, out, err } = await holdfast(folder, ['check', 'a.yaml']);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/error bad-name: .*cannot be seen|error not-text/);
    expect(err).not.toMatch(/(?!\n)[\p{Cc}\p{Cs}]|(?![\u200c-\u200d])\p{Cf}/u);
  });

  it('are shown by their numbers where a list, a file or an argument has them', async () => {
    const folder = folderWith({
      'li\u001b[2Jst.csv': 'Name,Length,Width,Odd\u001b[31m\nSide\u001b[2J,700,x\n',
    });
    const list = await holdfast(folder, ['import', 'li\u001b[2Jst.csv']);
    const missing = await holdfast(folder, ['plan', 'no\u001b[2J\u202e.yaml']);
    const word = await holdfast(folder, ['pl\u001b[2Jan']);
    for (const { out, err } of [list, missing, word])
      expect(`${out}${err}`).not.toMatch(/(?!\n)\p{Cc}|\u202e/u);
    expect(missing.err).toContain('no\\u{1b}[2J\\u{202e}.yaml');
  });
});
