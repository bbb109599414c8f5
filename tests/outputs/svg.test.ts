import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { drawSheet } from '../../src/drawing/sheet-drawing.ts';
import { toSvg } from '../../src/outputs/svg/svg.ts';
import { expectGolden } from '../helpers/golden.ts';
import { buildPlan, material, stock } from '../helpers/plan-builder.ts';
import { offcutPlan, samplePlan, smallPlan } from '../helpers/sample-plan.ts';

const SHEETS = [
  ['the sample, first sheet', drawSheet(samplePlan(), 0)],
  ['the sample, second sheet', drawSheet(samplePlan(), 1)],
  ['the small plan', drawSheet(smallPlan(), 0)],
  ['the offcut', drawSheet(offcutPlan(), 0)],
] as const;

describe('SVG', () => {
  it('is as it was for a small sheet', () => {
    expectGolden('small-sheet.svg', toSvg(drawSheet(smallPlan(), 0)));
  });

  it('is as it was for an offcut of odd shape', () => {
    expectGolden('offcut-sheet.svg', toSvg(drawSheet(offcutPlan(), 0)));
  });

  it.each(SHEETS)(
    '%s: parses strictly, with every reference and identifier in order',
    (_, drawing) => {
      const elements = parse(toSvg(drawing));
      const ids = elements.flatMap(({ attributes }) => attributes.id ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      const references = elements.flatMap(
        ({ attributes }) => /^url\(#(.*)\)$/.exec(attributes.fill ?? '')?.[1] ?? [],
      );
      for (const id of references) expect(ids).toContain(id);
    },
  );

  it.each(SHEETS)('%s: is in true millimetres with the sheet at zero', (_, drawing) => {
    const [svg] = parse(toSvg(drawing));
    const box = (svg?.attributes.viewBox ?? '').split(' ').map(Number);
    expect(svg?.attributes.width).toBe(`${box[2]}mm`);
    expect(svg?.attributes.height).toBe(`${box[3]}mm`);
    expect(box[0]).toBeLessThan(0);
    expect((box[1] ?? 0) + (box[3] ?? 0)).toBeGreaterThan(0);
  });

  it.each(SHEETS)('%s: writes plain numbers of at most four decimals', (_, drawing) => {
    for (const { name, attributes } of parse(toSvg(drawing))) {
      if (name === 'title') continue;
      for (const value of Object.values(attributes)) {
        if (value.startsWith('#')) continue;
        expect(value).not.toMatch(
          /\de[+-]?\d|NaN|Infinity|undefined|\.\d{5}|(^|[ MLA])-0(?![.\d])/,
        );
      }
    }
  });

  it('groups each piece with its title', () => {
    const svg = toSvg(drawSheet(samplePlan(), 0));
    expect(svg.match(/<g id="sheet-1-piece-\d+">\n<title>/g)).toHaveLength(18);
    expect(svg).toContain('<title>Door 2/3, 400 × 600 mm, number 16 to come free</title>');
  });

  it('keeps arcs as arcs, bent as they lie', () => {
    const svg = toSvg(drawSheet(smallPlan(), 0));
    // The arch is half a circle over 240: from (558, 10) counter-clockwise to (318, 10).
    expect(svg).toMatch(/M318 -10 L558 -10 A120 120 0 0 0 \S+ \S+ A120 120 0 0 0/);
  });

  it.each([
    ['markup', '<script>alert("x")</script> & \'co\'', 'alert("x")'],
    ['control characters', 'a\u0000b\u0008c\u001fd', 'a b c d'],
    ['marks that turn the writing', 'abc\u202e\u2066def\u200f', 'abcdef'],
    ['half a character', 'x\ud800y', 'x y'],
    ['what no XML can hold', 'x\ufffe\uffffy', 'x\ufffd\ufffdy'],
    ['five hundred letters', 'W'.repeat(500), 'WWW'],
    ['the end of a section', ']]>', ']]>'],
  ])('takes names with %s', (_, name, kept) => {
    const elements = parse(toSvg(drawSheet(named(name), 0)));
    expect(elements.map((element) => element.name)).not.toContain('script');
    expect(elements.some((element) => element.text.includes(kept))).toBe(true);
  });

  it('gives the same text twice', () => {
    expect(toSvg(drawSheet(samplePlan(), 0))).toBe(toSvg(drawSheet(samplePlan(), 0)));
  });
});

interface ParsedElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  text: string;
}

/** Every element in order, with the text that stands directly in it; throws at the first fault. */
function parse(xml: string): readonly ParsedElement[] {
  const parser = new SaxesParser({ xmlns: false });
  const elements: ParsedElement[] = [];
  const open: ParsedElement[] = [];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const element = { name, attributes: { ...attributes } as Record<string, string>, text: '' };
    elements.push(element);
    open.push(element);
  });
  parser.on('text', (text) => {
    const element = open.at(-1);
    if (element !== undefined) element.text += text;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(xml).close();
  return elements;
}

/** One sheet whose job, material, part, keep-out and set carry the name. */
function named(name: string) {
  const sheet = stock(800, 600, {
    keepOuts: [{ box: { minX: 0, minY: 0, maxX: 400_000, maxY: 400_000 }, why: name }],
  });
  return buildPlan({
    name,
    materials: [material(0, name, [sheet])],
    parts: [{ name, width: 500, height: 300 }],
    sheets: [{ stock: sheet, material: 0, pieces: [{ part: 0, at: [100, 100], set: [0, 1] }] }],
  });
}
