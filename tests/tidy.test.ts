import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

/** The charter of each folder of src/: what it may import, folders by their name and packages by theirs. */
const CHARTERS: Readonly<Record<string, readonly string[]>> = {
  geometry: ['clipper-lib'],
  model: ['geometry'],
  partsfile: ['model', 'geometry', 'yaml', 'zod', 'saxes', 'svgpath', 'dxf-parser', 'papaparse'],
  packing: ['model', 'geometry', 'maxrects-packer', 'highs'],
  rack: ['record', 'partsfile', 'model', 'geometry', 'yaml', 'zod'],
  record: ['verify', 'model', 'geometry', 'zod'],
  verify: ['model', 'geometry'],
  drift: ['record', 'model', 'zod'],
  holding: ['model', 'geometry'],
  costing: ['model', 'geometry'],
  drawing: ['model', 'geometry', 'uqr'],
  'outputs/svg': ['drawing', 'model', 'outputs'],
  'outputs/dxf': ['drawing', 'model', 'outputs'],
  'outputs/html': ['drawing', 'model', 'outputs', 'node:crypto', 'node:fs'],
  'outputs/pdf': ['drawing', 'model', 'outputs', 'pdfkit', 'node:fs', 'node:url', 'node:stream'],
  'outputs/report': ['drawing', 'model', 'outputs'],
  outputs: ['model'],
  '.': [
    'partsfile',
    'rack',
    'record',
    'packing',
    'verify',
    'holding',
    'costing',
    'drift',
    'drawing',
    'outputs/svg',
    'outputs/dxf',
    'outputs/html',
    'outputs/pdf',
    'outputs/report',
    'outputs',
    'model',
    'geometry',
    'node:module',
    'node:worker_threads',
  ],
  cli: [
    '.',
    'commander',
    'picocolors',
    'tinyglobby',
    'node:buffer',
    'node:fs',
    'node:os',
    'node:path',
    'node:crypto',
    'node:process',
    'node:stream',
    'node:url',
    'node:worker_threads',
  ],
};

/** Calls that make two runs differ or hide trouble, and what to write instead. */
const BANS: readonly { folders: readonly string[]; pattern: RegExp; instead: string }[] = [
  {
    folders: ['geometry', 'model', 'packing', 'verify'],
    pattern:
      /\bMath\.(sin|cos|tan|asin|acos|atan|atan2|hypot|pow|log\w*|exp\w*|cbrt|sinh|cosh|tanh)\b|(?<!\b2 )(?<![*/])\*\*(?![*/])/,
    instead: 'geometry/trigonometry.ts, or a product',
  },
  {
    folders: [
      'geometry',
      'model',
      'partsfile',
      'rack',
      'record',
      'packing',
      'verify',
      'holding',
      'costing',
      'drift',
      'drawing',
      'outputs',
    ],
    pattern:
      /\bMath\.random\b|\bDate\.now\b|\bnew Date\(\)|\bperformance\.|\bprocess\.|\btoLocale|\bIntl\./,
    instead: 'a value that the caller passes in',
  },
  {
    folders: [''],
    pattern: /\b(FIXME|TODO|XXX)\b/,
    instead: 'the work, or a line under "Known gaps"',
  },
];

/** Words that the plane geometry must not know. */
const TRADE_WORDS =
  /\b(sheet|board|grain|kerf|piece|spoilboard|vacuum|offcut|furniture|cutter|router|nesting)s?\b/i;

/** About 300 and 40 are aimed at; these are the most. */
const HARD_FILE_LINES = 350;
const HARD_FUNCTION_LINES = 61;

const sources = filesUnder(join(ROOT, 'src')).filter((file) => file.endsWith('.ts'));
const texts = new Map(
  sources.map((file) => [relative(join(ROOT, 'src'), file), readFileSync(file, 'utf8')]),
);

describe('the house stays as drawn', () => {
  it('has the top level of the design and nothing else', () => {
    const allowed = [
      'DEVELOPERS.md',
      'LICENSE',
      'README.md',
      'bin',
      'examples',
      'package-lock.json',
      'package.json',
      'src',
      'tests',
      'tsconfig.json',
    ];
    const built = ['node_modules', 'dist', 'coverage'];
    const found = readdirSync(ROOT).filter(
      (name) => !name.startsWith('.') && !built.includes(name),
    );
    expect(found.filter((name) => !allowed.includes(name))).toEqual([]);
  });

  it('imports only what the charter of the folder allows', () => {
    const broken: string[] = [];
    for (const [file, text] of texts) {
      const own = folderOf(file);
      for (const target of importsOf(file, text)) {
        if (target !== own && !charterOf(own).includes(target))
          broken.push(`${file} imports ${target}`);
      }
    }
    expect(broken).toEqual([]);
  });

  it('has no import cycle between files', () => {
    expect(findCycle()).toEqual([]);
  });

  it('uses the clipping library in geometry only through two files', () => {
    const users = [...texts]
      .filter(([, text]) => /from 'clipper-lib'/.test(text))
      .map(([file]) => file);
    expect(users.every((file) => file.startsWith('geometry/'))).toBe(true);
    expect(users.length).toBeLessThanOrEqual(2);
  });

  it('uses the library for linear programmes in one file only', () => {
    const users = [...texts].filter(([, text]) => /'highs'/.test(text)).map(([file]) => file);
    expect(users).toEqual(['packing/boards/lp.ts']);
  });

  it('starts threads of the search in one file, and that of the command in one', () => {
    const users = [...texts]
      .filter(([, text]) => /\bWorker\b|\bfork\(|\bspawn\(/.test(text))
      .map(([file]) => file);
    expect(users).toEqual(['cli/main.ts', 'workers.ts']);
  });

  it('calls nothing that is banned', () => {
    const found: string[] = [];
    for (const { folders, pattern, instead } of BANS) {
      for (const [file, text] of texts) {
        if (
          file === 'geometry/trigonometry.ts' ||
          !folders.some((folder) => file.startsWith(folder))
        )
          continue;
        text.split('\n').forEach((line, i) => {
          const match = pattern.exec(line);
          if (match) found.push(`${file}:${i + 1}: ${match[0]} (instead: ${instead})`);
        });
      }
    }
    expect(found).toEqual([]);
  });

  it('keeps the words of the trade out of geometry', () => {
    const found = [...texts]
      .filter(([file]) => file.startsWith('geometry/'))
      .flatMap(([file, text]) => {
        const match = TRADE_WORDS.exec(text);
        return match ? [`${file}: ${match[0]}`] : [];
      });
    expect(found).toEqual([]);
  });

  it('keeps files readable in one sitting', () => {
    const long = [...texts]
      .filter(([, text]) => text.split('\n').length > HARD_FILE_LINES)
      .map(([file]) => file);
    expect(long).toEqual([]);
  });

  it('keeps functions short', () => {
    const scripts = filesUnder(join(ROOT, 'src')).filter((file) => /\.[jt]s$/.test(file));
    const long = scripts.flatMap((file) => {
      const functions = readFileSync(file, 'utf8').match(/^(export )?(async )?function\b.*?^\}/gms);
      return (functions ?? [])
        .filter((text) => text.split('\n').length > HARD_FUNCTION_LINES)
        .map((text) => `${relative(ROOT, file)}: ${text.slice(0, text.indexOf('('))}`);
    });
    expect(long).toEqual([]);
  });

  it('names files in kebab-case and has one index', () => {
    const odd = [...texts.keys()].filter(
      (file) => !/^([a-z0-9]+(-[a-z0-9]+)*\/)*[a-z0-9]+(-[a-z0-9]+)*\.ts$/.test(file),
    );
    expect(odd).toEqual([]);
    expect([...texts.keys()].filter((file) => file.endsWith('index.ts'))).toEqual(['index.ts']);
  });

  it('exports nothing that nobody uses', () => {
    const everything = [...texts.values(), ...testTexts()].join('\n');
    const dead: string[] = [];
    for (const [file, text] of texts) {
      if (file === 'index.ts') continue;
      for (const [, name] of text.matchAll(
        /^export (?:async )?(?:function|const|class|interface|type) (\w+)/gm,
      )) {
        const uses = everything.match(new RegExp(`\\b${name}\\b`, 'g'))?.length ?? 0;
        if (uses < 2) dead.push(`${file}: ${name}`);
      }
    }
    expect(dead).toEqual([]);
  });

  it('skips no test', () => {
    const skipped = testFiles().filter(
      (file) =>
        /\b(it|test|describe)\.(skip|todo|only)\b/.test(readFileSync(file, 'utf8')) &&
        !file.endsWith('tidy.test.ts'),
    );
    expect(skipped).toEqual([]);
  });

  it('keeps host names out of the lock file', () => {
    expect(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')).not.toMatch(
      /"resolved"|https?:\/\/registry/,
    );
  });
});

function filesUnder(folder: string): string[] {
  return readdirSync(folder)
    .sort()
    .flatMap((name) => {
      const path = join(folder, name);
      return statSync(path).isDirectory() ? filesUnder(path) : [path];
    });
}

function testFiles(): string[] {
  return filesUnder(join(ROOT, 'tests')).filter((file) => file.endsWith('.ts'));
}

function testTexts(): string[] {
  return testFiles().map((file) => readFileSync(file, 'utf8'));
}

/** The charter that a path inside src/ falls under: its folder, two levels deep for outputs. */
function folderOf(file: string): string {
  const [first, second, third] = file.split('/');
  if (second === undefined) return '.';
  return first === 'outputs' && third !== undefined ? `${first}/${second}` : first!;
}

function charterOf(folder: string): readonly string[] {
  const charter = CHARTERS[folder];
  if (charter === undefined) throw new Error(`src/${folder} has no charter`);
  return charter;
}

/** Folders and packages that a file imports, its own folder included. */
function importsOf(file: string, text: string): string[] {
  return importedPaths(text).map((path) => {
    if (!path.startsWith('.')) return path;
    return folderOf(join(dirname(file), path));
  });
}

function importedPaths(text: string): string[] {
  return [...text.matchAll(/(?:from |import\(|^import )'([^']+)'/gm)].map((match) => match[1]!);
}

/** One cycle of files that import one another, as a list of their names; empty where there is none. */
function findCycle(): string[] {
  const done = new Set<string>();
  const visit = (file: string, trail: readonly string[]): string[] => {
    if (trail.includes(file)) return [...trail.slice(trail.indexOf(file)), file];
    if (done.has(file)) return [];
    const text = texts.get(file);
    if (text === undefined) return [];
    for (const path of importedPaths(text).filter((target) => target.startsWith('.'))) {
      const cycle = visit(join(dirname(file), path), [...trail, file]);
      if (cycle.length > 0) return cycle;
    }
    done.add(file);
    return [];
  };
  for (const file of texts.keys()) {
    const cycle = visit(file, []);
    if (cycle.length > 0) return cycle;
  }
  return [];
}
