import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');
const LOCK_TEXT = readFileSync(join(ROOT, 'package-lock.json'), 'utf8');

interface Locked {
  readonly version: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly hasInstallScript?: boolean;
}
interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly repository?: unknown;
  readonly files: readonly string[];
  readonly engines: object;
  readonly publishConfig: object;
  readonly bin: Readonly<Record<string, string>>;
  readonly exports: { readonly '.': Readonly<Record<string, string>> };
  readonly scripts: Readonly<Record<string, string>>;
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
}

const MANIFEST: Manifest = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
const { '': OWN, ...LOCKED }: Record<string, Locked> & { '': Partial<Manifest> } =
  JSON.parse(LOCK_TEXT).packages;

/** Everything that a package of ours may hold; what fits none of these does not leave the house. */
const SHIPPED = [
  /^(package\.json|LICENSE|README\.md)$/,
  /^bin\/holdfast\.js$/,
  /^dist\/THIRD-PARTY\.md$/,
  /^examples\/(ci\/|readings\/)?[a-z-]+\.(yaml|dxf|svg|sh)$/,
  /^dist\/([a-z-]+\/){0,2}[a-z-]+(\.js|\.d\.ts)$/,
  /^dist\/outputs\/html\/page\/[a-z-]+\.(js|css)$/,
  /^dist\/outputs\/pdf\/font\/(DejaVuSansCondensed\.ttf|LICENSE)$/,
];

const NEEDED = [
  'LICENSE',
  'README.md',
  'bin/holdfast.js',
  'dist/THIRD-PARTY.md',
  'dist/cli/main.js',
  'dist/index.d.ts',
  'dist/index.js',
  'dist/outputs/html/page/main.js',
  'dist/outputs/pdf/font/DejaVuSansCondensed.ttf',
  'dist/outputs/pdf/font/LICENSE',
  'dist/worker-entry.js',
  'examples/reading-nook.yaml',
  'package.json',
];

const MOST_PACKED = 1_600_000;
const MOST_UNPACKED = 5_000_000;

describe('the lock file', () => {
  it('pins every package to one version and one content', () => {
    expect(Object.keys(LOCKED).length).toBeGreaterThan(100);
    for (const [place, { version, integrity }] of Object.entries(LOCKED)) {
      expect([place, version]).toEqual([place, expect.stringMatching(/^\d+\.\d+\.\d+(-[\w.]+)?$/)]);
      expect([place, integrity]).toEqual([place, expect.stringMatching(/^sha512-[\w+/]{86}==$/)]);
    }
  });

  it('is that of the manifest, which names exact versions', () => {
    const { dependencies, devDependencies } = MANIFEST;
    expect({ ...OWN.dependencies, ...OWN.devDependencies }).toEqual({
      ...dependencies,
      ...devDependencies,
    });
    for (const [name, version] of Object.entries({ ...dependencies, ...devDependencies })) {
      expect(version).toMatch(/^\d+\.\d+\.\d+$/);
      expect(LOCKED[`node_modules/${name}`]?.version).toBe(version);
    }
  });

  it('names no host to fetch from', () => {
    expect(Object.values(LOCKED).filter(({ resolved }) => resolved !== undefined)).toEqual([]);
    expect(LOCK_TEXT).not.toMatch(/registry|\.tgz|git\+|file:/);
  });

  it('has no package that runs a script of its own when it is installed', () => {
    const places = Object.keys(LOCKED).filter((place) => LOCKED[place]?.hasInstallScript);
    expect(places).toEqual([]);
  });
});

describe('the manifest', () => {
  it('runs nothing where the package is installed', () => {
    const { preinstall, install, postinstall } = MANIFEST.scripts;
    expect([preinstall, install, postinstall]).toEqual([undefined, undefined, undefined]);
  });

  it('points only at what is there', () => {
    const { bin, exports } = MANIFEST;
    for (const path of [...Object.values(bin), ...Object.values(exports['.'])])
      expect([path, existsSync(join(ROOT, path))]).toEqual([path, true]);
  });

  it('is published with a statement of where it was built', () => {
    expect(MANIFEST.publishConfig).toEqual({ access: 'public', provenance: true });
    expect(MANIFEST.engines).toEqual({ node: '>=20.19' });
  });
});

describe('the package', () => {
  const [packed] = JSON.parse(
    execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
      cwd: ROOT,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      shell: process.platform === 'win32',
    }),
  );
  const paths: string[] = packed.files.map(({ path }: { path: string }) => path);

  it('holds what it is meant to hold and nothing else', () => {
    expect(paths.filter((path) => !SHIPPED.some((pattern) => pattern.test(path)))).toEqual([]);
    expect(NEEDED.filter((path) => !paths.includes(path))).toEqual([]);
  });

  it('has every example', () => {
    const examples = execFileSync('git', ['ls-files', 'examples'], { cwd: ROOT, encoding: 'utf8' });
    const missing = examples.split('\n').filter((path) => path !== '' && !paths.includes(path));
    expect(missing).toEqual([]);
  });

  it('stays small', () => {
    expect(packed.size).toBeLessThan(MOST_PACKED);
    expect(packed.unpackedSize).toBeLessThan(MOST_UNPACKED);
  });

  it('names no folder of the machine that built it', () => {
    const built = paths.filter((path) => /^dist\/.*\.(js|d\.ts)$/.test(path));
    const leaks = built.filter((path) => {
      const text = readFileSync(join(ROOT, path), 'utf8');
      return text.includes(ROOT) || text.includes('sourceMappingURL');
    });
    expect(leaks).toEqual([]);
  });
});
