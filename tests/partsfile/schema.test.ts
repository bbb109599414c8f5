import { describe, expect, it } from 'vitest';
import { MISSING_HINTS, SECTION_NAMES } from '../../src/partsfile/key-words.ts';
import { readingsFileSchema } from '../../src/partsfile/readings-schema.ts';
import { partsFileSchema } from '../../src/partsfile/schema.ts';
import { keysOfSection, sectionsWithKey } from '../../src/partsfile/schema-keys.ts';
import { rackFileSchema } from '../../src/rack/schema.ts';
import { codesOf, jobText, read } from './reading.ts';

interface Schema {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema | readonly Schema[];
  readonly anyOf?: readonly Schema[];
}

/** The ways to all keys that have no description. */
function undescribed(schema: Schema, way: string): readonly string[] {
  const inner = Object.entries(schema.properties ?? {}).flatMap(([key, value]) => [
    ...(value.description === undefined ? [`${way}.${key}`] : []),
    ...undescribed(value, `${way}.${key}`),
  ]);
  const items = Array.isArray(schema.items) ? [] : [schema.items as Schema | undefined];
  const others = [...items, ...(schema.anyOf ?? []), schema.additionalProperties];
  return [
    ...inner,
    ...others.flatMap((other) => (typeof other === 'object' ? undescribed(other, `${way}.*`) : [])),
  ];
}

describe('the schema', () => {
  const schema = partsFileSchema() as Schema & Readonly<Record<string, unknown>>;

  it('is a draft 7 schema that allows no other keys', () => {
    expect(schema.$schema).toBe('http://json-schema.org/draft-07/schema#');
    expect(schema.additionalProperties).toBe(false);
    expect(schema.required).toEqual(['unit', 'materials', 'parts']);
  });

  it('describes every key', () => {
    expect(undescribed(schema, '')).toEqual([]);
    expect(undescribed(readingsFileSchema() as Schema, '')).toEqual([]);
    expect(undescribed(rackFileSchema() as Schema, '')).toEqual([]);
  });

  it('knows the keys of every section that messages name', () => {
    const forms = [partsFileSchema, readingsFileSchema, rackFileSchema];
    for (const section of Object.keys(SECTION_NAMES))
      expect(
        forms.flatMap((form) => keysOfSection(section, form)),
        section,
      ).not.toEqual([]);
    expect(sectionsWithKey('trim')).toEqual([
      'materials.*.sheets.*',
      'materials.*.boards.*',
      'layers',
    ]);
    for (const key of Object.keys(MISSING_HINTS))
      expect(
        forms.flatMap((form) => sectionsWithKey(key, form)),
        key,
      ).not.toEqual([]);
  });
});

describe('the form of a file', () => {
  const BOX = jobText('size: 300 x 200');
  const hint = (text: string) => read(text).problems.map((problem) => problem.hint);

  it.each<readonly [string, string, string]>([
    // The nearest key, a usual synonym, another section, all that is possible.
    ['part', 'cuont: 2', 'did you mean count?'],
    ['part', 'cut_outs: []', 'did you mean cut-outs?'],
    ['part', 'Grain: along', 'did you mean grain?'],
    ['part', 'qty: 2', 'did you mean count?'],
    ['part', 'thickness: 18', 'thickness belongs to spoilboard or a material'],
    ['part', 'trim: 10', 'trim belongs to a sheet'],
    ['part', 'zebra: 1', 'possible: name, material, size, length, outline'],
    ['file', 'machines: {}', 'did you mean machine?'],
    ['file', 'cutter: {}', 'cutter belongs to machine'],
    ['file', 'machine: { cutter: { dia: 6 } }', 'did you mean diameter?'],
    // A value of another kind, of the kind that fits best.
    ['part', 'count: "4"', 'take away the quotation marks'],
    ['part', 'count: 2.5', 'write a whole number'],
    ['part', 'count:', 'write a whole number, or leave the key out'],
    ['part', 'edges: 2', 'write a length for each side, such as { left: 10, bottom: 10 }'],
    ['part', 'edges: { lft: 2 }', 'did you mean left?'],
    ['part', 'holes: { at: [5, 5], diameter: 5 }', 'write a list of holes'],
    ['part', 'holes: [{ at: 5, diameter: 5 }]', 'write a point of two lengths'],
    ['part', 'nest-inside: perhaps', 'write yes or no'],
    ['part', 'grain: length', 'did you mean along?'],
    ['part', 'grain: [along]', 'possible: along, across, any'],
    ['file', 'machine: { kind: cnc }', 'did you mean router?'],
    ['file', 'limits: 6', 'write limits, such as { sheets: 6'],
  ])('%s with %s: %s', (where, keys, words) => {
    const text = where === 'part' ? jobText(`size: 300 x 200, ${keys}`) : `${BOX}${keys}\n`;
    const hints = hint(text);
    expect(hints).toHaveLength(1);
    expect(hints[0]).toContain(words);
  });

  it('says once that a mistyped key is wrong, not that the right one is missing too', () => {
    expect(codesOf(BOX.replace('thickness', 'thicknes'))).toEqual(['unknown-key']);
    expect(codesOf(BOX.replace('materials:', 'material:'))).toEqual(['unknown-key']);
    expect(codesOf(BOX.replace('unit:', 'units:'))).toEqual(['unknown-key']);
  });

  it('takes yes, no, true and false, however they are capitalised', () => {
    for (const [word, nestInside] of [
      ['yes', true],
      ['Yes', true],
      ['true', true],
      ['"yes"', true],
      ['no', false],
      ['NO', false],
      ['false', false],
    ] as const) {
      const { job } = read(jobText(`size: 300 x 200, nest-inside: ${word}`));
      expect(job?.parts[0]?.nestInside).toBe(nestInside);
    }
  });

  it('lets anchors repeat what is the same', () => {
    const holes = '[{ at: [50, 50], diameter: 5 }]';
    const text = `${jobText(`size: 300 x 200, holes: &holes ${holes}`)}  - { name: Lid, material: ply, size: 300 x 200, holes: *holes }\n`;
    const { job } = read(text);
    expect(job?.parts[1]?.holes).toEqual(job?.parts[0]?.holes);
  });
});
