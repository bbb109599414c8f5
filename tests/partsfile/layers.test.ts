import { describe, expect, it } from 'vitest';
import { LAYER_CLASSES, USUAL_LAYERS } from '../../src/model/machine-layers.ts';
import { jobOf, jobText, read } from './reading.ts';

const withLayers = (keys: string) => `${jobText('size: 300 x 200')}layers: ${keys}\n`;

describe('layers', () => {
  it('are the usual ones where the file says nothing', () => {
    expect(jobOf(jobText('size: 300 x 200')).layers).toEqual(USUAL_LAYERS);
    expect(USUAL_LAYERS.tabs).toBe('marks');
  });

  it('may each be named, as the names of release 12 go, and have numbers', () => {
    const { layers } = jobOf(
      withLayers(
        '{ outline: Cut_outside, hole: "DRILL-{diameter}-{depth}", skin: "S{skin}_{thickness}", tab: "T{width}{height}{cutter}", tabs: gaps, label: none, sheet: 0 }',
      ),
    );
    expect(layers).toEqual({
      tabs: 'gaps',
      names: {
        ...USUAL_LAYERS.names,
        outline: 'Cut_outside',
        hole: 'DRILL-{diameter}-{depth}',
        skin: 'S{skin}_{thickness}',
        tab: 'T{width}{height}{cutter}',
        label: null,
        sheet: '0',
      },
    });
  });

  it.each(LAYER_CLASSES)('%s may share its name with others', (name) => {
    expect(jobOf(withLayers(`{ ${name}: OUTLINE }`)).layers.names[name]).toBe('OUTLINE');
  });

  it.each<readonly [string, string, string]>([
    ['{ outline: "CUT OUT" }', 'bad-layer', 'cannot have " " in it'],
    ['{ outline: 6.35 }', 'bad-layer', 'cannot have "." in it'],
    ['{ outline: KÜCHE }', 'bad-layer', 'cannot have "Ü" in it'],
    ['{ outline: "" }', 'wrong-type', 'outline'],
    [`{ outline: ${'A'.repeat(32)} }`, 'bad-layer', '32 letters; the most is 31'],
    ['{ hole: "DRILL_DOWN_TO_{depth}_WITH_{diameter}" }', 'bad-layer', 'may come to'],
    ['{ outline: "CUT_{diameter}" }', 'bad-layer', 'cannot have "{diameter}" in its name'],
    ['{ hole: "D{diametre}" }', 'bad-layer', 'cannot have "{diametre}" in its name'],
    ['{ hole: "D{diameter" }', 'bad-layer', 'cannot have "{" in it'],
    ['{ outline: none }', 'bad-layer', 'cannot be left out: it holds the outlines'],
    ['{ tabs: bridges }', 'unknown-word', 'tabs cannot be'],
    ['{ tabs: }', 'unknown-word', 'tabs cannot be'],
    ['{ outlines: CUT }', 'unknown-key', 'layers has no key "outlines"'],
    ['{ outline: [A] }', 'wrong-type', 'outline'],
    ['CUT', 'wrong-type', 'layers is'],
  ])('refuses %s', (keys, code, message) => {
    const { job, problems } = read(withLayers(keys));
    expect(job).toBeNull();
    expect(problems.map((problem) => problem.code)).toEqual([code]);
    expect(problems[0]?.message).toContain(message);
    expect(problems[0]?.place?.line).toBe(5);
  });

  it('suggests the number that was meant', () => {
    expect(read(withLayers('{ hole: "D{diametre}" }')).problems[0]?.hint).toContain('diameter');
  });
});
