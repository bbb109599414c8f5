import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { holdfast } from '../helpers/command.ts';
import { runTool } from './tools.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', '..', 'examples');
const folder = mkdtempSync(join(tmpdir(), 'holdfast-outside-'));
cpSync(EXAMPLES, folder, { recursive: true });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(readdirSync(EXAMPLES).filter((name) => name.endsWith('.yaml')))(
  'the SVG files of examples/%s',
  (file) => {
    it('are taken by a renderer in true size: a dot for each millimetre', async () => {
      const { code } = await holdfast(folder, ['plan', file, '--out', `${file}-out`]);
      expect(code).toBe(0);
      const drawings = readdirSync(join(folder, `${file}-out`)).filter((name) => /svg$/.test(name));
      expect(drawings.length).toBeGreaterThan(0);
      for (const name of drawings) {
        const path = join(folder, `${file}-out`, name);
        const picture = `${path}.png`;
        const dots = ['--dpi-x', '25.4', '--dpi-y', '25.4'];
        expect(runTool('rsvg-convert', [...dots, '-o', picture, path], 'librsvg2-bin')).toBe('');
        const png = readFileSync(picture);
        const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(
          readFileSync(path, 'utf8'),
        )!;
        // The size stands in the head of a PNG, from its 16th byte.
        expect(Math.abs(png.readUInt32BE(16) - Number(width))).toBeLessThan(1);
        expect(Math.abs(png.readUInt32BE(20) - Number(height))).toBeLessThan(1);
      }
    });
  },
);
