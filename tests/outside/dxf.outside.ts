import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { holdfast } from '../helpers/command.ts';
import { runTool } from './tools.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', '..', 'examples');
const FILES = readdirSync(EXAMPLES).filter((name) => name.endsWith('.yaml'));

/** For each file its errors and repairs, and what it says of itself. */
const AUDIT = `
import json, sys
import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode
for name in sys.argv[1:]:
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    entities = list(doc.modelspace())
    print(json.dumps({
        'errors': [e.message for e in audit.errors],
        'fixes': [e.message for e in audit.fixes],
        'version': doc.dxfversion,
        'unit': doc.header['$INSUNITS'],
        'low': list(doc.header['$EXTMIN'])[:2],
        'high': list(doc.header['$EXTMAX'])[:2],
        'unknownLayers': sorted({e.dxf.layer for e in entities if e.dxf.layer not in doc.layers}),
        'outlines': sum(1 for e in entities if e.dxf.layer in ('OUTLINE', 'SKIN', 'UNHELD')),
        'openRuns': sum(1 for e in entities if e.dxftype() == 'POLYLINE' and not e.is_closed),
        'texts': [decode_dxf_unicode(e.plain_text()) for e in entities if e.dxftype() == 'TEXT'],
    }))
`;

interface Audit {
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly version: string;
  readonly unit: number;
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly unknownLayers: readonly string[];
  readonly outlines: number;
  readonly openRuns: number;
  readonly texts: readonly string[];
}

const folder = mkdtempSync(join(tmpdir(), 'holdfast-outside-'));
beforeAll(() => cpSync(EXAMPLES, folder, { recursive: true }));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function audit(paths: readonly string[]): readonly Audit[] {
  const out = runTool('/usr/bin/python3', ['-c', AUDIT, ...paths], 'python3-ezdxf');
  return out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Audit);
}

async function drawingsOf(file: string, out: string): Promise<readonly string[]> {
  const { code, err } = await holdfast(folder, ['plan', file, '--out', out]);
  expect([code, err]).toEqual([0, '']);
  return readdirSync(join(folder, out))
    .filter((name) => name.endsWith('.dxf'))
    .sort()
    .map((name) => join(folder, out, name));
}

describe.each(FILES)('the DXF files of examples/%s', (file) => {
  it('pass the audit of another program, with nothing to repair', async () => {
    const out = `${basename(file, '.yaml')}-out`;
    const audits = audit(await drawingsOf(file, out));
    const record = JSON.parse(readFileSync(join(folder, out, 'plan.json'), 'utf8'));
    const sheets = record.materials.flatMap((material: { sheets: object[] }) => material.sheets);
    expect(audits).toHaveLength(sheets.length);
    const scale = record.unit === 'mm' ? 1 : 25.4;
    audits.forEach((found, i) => {
      expect(found).toMatchObject({ errors: [], fixes: [], version: 'AC1009', unknownLayers: [] });
      expect(found.unit).toBe(record.unit === 'mm' ? 4 : 1);
      expect(found.low).toEqual([0, 0]);
      expect(found.high[0]! * scale).toBeCloseTo(sheets[i].length, 4);
      expect(found.high[1]! * scale).toBeCloseTo(sheets[i].width, 4);
      expect(found.outlines).toBe(sheets[i].placements.length);
      expect(found.openRuns).toBe(0);
    });
  });
});

/** Letters and signs that the format has a way of its own with; two percent signs are taken apart. */
const NAME = 'Küche %%c ^J Ж';
const READ = 'Küche % %c ^J Ж';

describe('a DXF with its layers named by the file', () => {
  it('passes the audit too, with tabs as gaps and names in other letters', async () => {
    const text = readFileSync(join(folder, 'reading-nook.yaml'), 'utf8');
    const [first] = parse(text).parts as { name: string }[];
    const changed = `${text.replaceAll(first!.name, NAME)}
layers: { outline: CUT, skin: "CUT-{skin}", hole: "D{diameter}-{depth}", tabs: gaps }
`;
    writeFileSync(join(folder, 'named.yaml'), changed);
    const audits = audit(await drawingsOf('named.yaml', 'named-out'));
    for (const found of audits)
      expect(found).toMatchObject({ errors: [], fixes: [], unknownLayers: [] });
    expect(audits.reduce((sum, { openRuns }) => sum + openRuns, 0)).toBeGreaterThan(0);
    const texts = audits.flatMap((each) => each.texts);
    expect(texts.some((each) => each.startsWith(READ))).toBe(true);
  });
});
