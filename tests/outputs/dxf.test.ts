import { describe, expect, it } from 'vitest';
import { sheetDxf } from '../../src/index.ts';
import type { Holding } from '../../src/model/holding.ts';
import type { Job } from '../../src/model/job.ts';
import { LAYER_CLASSES, type MachineLayers, USUAL_LAYERS } from '../../src/model/machine-layers.ts';
import { numberedSheets, type Plan } from '../../src/model/plan.ts';
import { fromMm, toMm } from '../../src/model/units.ts';
import { dxfText } from '../../src/outputs/dxf/dxf-text.ts';
import { areaOf, lengthOf, type ReadEntity, readDxf } from '../helpers/dxf-read.ts';
import { contourAreaMm2 } from '../helpers/exact-area.ts';
import { expectGolden } from '../helpers/golden.ts';
import { mixedPlan } from '../helpers/mixed-plan.ts';
import { offcutPlan, samplePlan, smallPlan } from '../helpers/sample-plan.ts';
import { chestPlan } from '../helpers/sawn-plan.ts';

const OUTLINES = /^(OUTLINE|SKIN|UNHELD)$/;
const OPENINGS = /^(CUTOUT|CUTOUT_SKIN)$/;

const plans: Readonly<Record<string, Plan>> = {
  'the sample': samplePlan(),
  'the small plan': smallPlan(),
  'the offcut': offcutPlan(),
  'a saw': chestPlan(),
  'true shapes': mixedPlan('mm'),
  'true shapes in inches': mixedPlan('in'),
};

function sheetsOf(plan: Plan) {
  const scale = plan.job.unit === 'mm' ? 1 : 25.4;
  return numberedSheets(plan.layouts).map(({ number, sheet, material }) => {
    const parts = sheet.placements.map(
      ({ piece }) => plan.job.parts[plan.job.pieces[piece]!.part]!,
    );
    const dxf = sheetDxf(plan, number);
    return { number, sheet, material, parts, dxf, read: readDxf(dxf), scale };
  });
}

const sorted = (values: readonly number[]) => values.toSorted((a, b) => a - b);
const onLayers = (entities: readonly ReadEntity[], layers: RegExp) =>
  entities.filter(({ layer }) => layers.test(layer));

/** Written to a millionth of a millimetre or inch, corners are off by half of that, areas by that times the way round, some metres. */
function expectAreas(found: readonly number[], expected: readonly number[]) {
  expect(found).toHaveLength(expected.length);
  sorted(found).forEach((area, i) => {
    expect(Math.abs(area - sorted(expected)[i]!)).toBeLessThan(0.1);
  });
}

describe.each(Object.keys(plans))('a round trip of %s', (name) => {
  it('brings back each outline with its area', () => {
    for (const { read, parts, scale } of sheetsOf(plans[name]!)) {
      const outlines = onLayers(read.entities, OUTLINES);
      expectAreas(
        outlines.map((each) => areaOf(each) * scale ** 2),
        parts.map(({ shape }) => contourAreaMm2(shape.outer)),
      );
      for (const each of outlines) if (each.kind === 'run') expect(each.closed).toBe(true);
    }
  });

  it('brings back each cut-out with its area, and round things as circles', () => {
    for (const { read, parts, scale } of sheetsOf(plans[name]!)) {
      const openings = onLayers(read.entities, OPENINGS);
      const inner = parts.flatMap(({ shape }) => shape.inner);
      expectAreas(
        openings.map((each) => Math.abs(areaOf(each)) * scale ** 2),
        inner.map(contourAreaMm2),
      );
      const round = [...inner, ...parts.map(({ shape }) => shape.outer)].filter(
        (contour) => contour.length === 2 && contour.every(({ via }) => via !== null),
      );
      const shown = [...openings, ...onLayers(read.entities, OUTLINES)];
      expect(shown.filter(({ kind }) => kind === 'circle')).toHaveLength(round.length);
    }
  });

  it('brings back each hole with its diameter, on a layer that names it and its depth', () => {
    for (const { read, parts, scale } of sheetsOf(plans[name]!)) {
      const holes = parts.flatMap((part) => part.holes);
      const found = onLayers(read.entities, /^HOLE_/);
      expect(found).toHaveLength(holes.length);
      const key = (diameterMm: number, isThrough: boolean) =>
        `${diameterMm.toFixed(3)} ${isThrough}`;
      expect(
        found
          .map((each) =>
            key(
              each.kind === 'circle' ? 2 * each.radius * scale : 0,
              each.layer.endsWith('THROUGH'),
            ),
          )
          .sort(),
      ).toEqual(holes.map(({ diameter, depth }) => key(toMm(diameter), depth === null)).sort());
    }
  });

  it('brings back each pocket with its area, on a layer that names its depth', () => {
    for (const { read, parts, scale } of sheetsOf(plans[name]!)) {
      const pockets = parts.flatMap((part) => part.pockets);
      const found = onLayers(read.entities, /^POCKET_/);
      expectAreas(
        found.map((each) => areaOf(each) * scale ** 2),
        pockets.map(({ contour }) => contourAreaMm2(contour)),
      );
      if (pockets.length === 0) continue;
      expect(new Set(found.map(({ layer }) => layer))).toEqual(
        new Set(scale === 1 ? ['POCKET_6', 'POCKET_12P5'] : ['POCKET_0P2362', 'POCKET_0P4921']),
      );
      // Before the cut-out of the same piece.
      const places = found.map((each) => read.entities.indexOf(each));
      const cutOut = read.entities.findIndex(
        (each) => each.layer === 'CUTOUT' && each.kind === 'run',
      );
      for (const place of places) expect(place).toBeLessThan(cutOut);
    }
  });

  it('keeps every corner to the grid it lies on', () => {
    for (const { read, scale } of sheetsOf(plans[name]!)) {
      const corners = onLayers(read.entities, /^(OUTLINE|CUTOUT|SKIN|SHEET|OFFCUT|POCKET)/).flatMap(
        (each) => (each.kind === 'run' ? each.corners : []),
      );
      for (const { x, y } of corners)
        for (const value of [x, y]) {
          const units = value * scale * 8000;
          expect(Math.abs(units - Math.round(units))).toBeLessThan(0.15);
        }
    }
  });

  it('tells its unit and how far it reaches', () => {
    const plan = plans[name]!;
    for (const { read, sheet, material, scale } of sheetsOf(plan)) {
      const { length, width } = plan.job.materials[material]!.sheets[sheet.stock]!;
      expect(read.header.$INSUNITS).toBe(plan.job.unit === 'mm' ? 4 : 1);
      expect(read.header.$EXTMIN).toMatchObject({ x: 0, y: 0 });
      const high = read.header.$EXTMAX as { x: number; y: number };
      expect(high.x * scale).toBeCloseTo(toMm(length), 4);
      expect(high.y * scale).toBeCloseTo(toMm(width), 4);
    }
  });

  it('is plain: ASCII, CR and LF, no exponent, each layer in the table once', () => {
    for (const { dxf, read } of sheetsOf(plans[name]!)) {
      expect(dxf).toMatch(/^[\x20-\x7e\r\n]*$/);
      expect(dxf.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      const lines = dxf.split('\r\n');
      expect(lines.length % 2).toBe(1);
      lines.forEach((line, i) => {
        if (i % 2 === 0 || !/^(10|20|11|21|40|42|50)$/.test(lines[i - 1]!)) return;
        expect(line).toMatch(/^-?\d+\.\d{1,9}$/);
        expect(line).not.toBe('-0.0');
      });
      const used = new Set(read.entities.map(({ layer }) => layer));
      expect([...used].filter((layer) => !read.layers.includes(layer))).toEqual([]);
      expect(dxf.match(/\r\nLAYER\r\n2\r\n[^\r]+/g)).toHaveLength(read.layers.length);
    }
  });

  it('is the same twice', () => {
    expect(sheetDxf(plans[name]!, 1)).toBe(sheetDxf(plans[name]!, 1));
  });
});

describe('a DXF', () => {
  it('is as it was for a small sheet', () => {
    expectGolden('small-sheet.dxf', sheetDxf(smallPlan(), 1).replaceAll('\r\n', '\n'));
  });

  it('has what is cut in the order of the plan', () => {
    const plan = plans['true shapes']!;
    const { read } = sheetsOf(plan)[0]!;
    const kinds = onLayers(read.entities, /^(POCKET|HOLE|CUTOUT|OUTLINE|SKIN|UNHELD)/).map(
      ({ layer }) => {
        if (/^POCKET/.test(layer)) return 'pocket';
        return /^HOLE/.test(layer) ? 'hole' : /^CUTOUT/.test(layer) ? 'cut-out' : 'outline';
      },
    );
    const steps = plan.holding[0]!.steps.flatMap((step) => (step.kind === 'skin' ? [] : step.kind));
    expect(kinds).toEqual(steps);
  });

  it('numbers pieces and waste as the plan does', () => {
    const { read } = sheetsOf(samplePlan())[0]!;
    const numbers = read.entities.flatMap((each) =>
      each.kind === 'text' && each.layer === 'ORDER' ? Number(each.text) : [],
    );
    expect(sorted(numbers)).toEqual(Array.from({ length: 20 }, (_, i) => i + 1));
  });

  it('has the cuts of a saw as lines with their numbers', () => {
    const plan = chestPlan();
    for (const { read, sheet } of sheetsOf(plan)) {
      const cuts = onLayers(read.entities, /^SAWCUT$/);
      expect(cuts).toHaveLength(sheet.cuts.length);
      cuts.forEach((cut, i) => {
        const { axis, panel } = sheet.cuts[i]!;
        const ends = cut.kind === 'line' ? cut.ends : [];
        const along = axis === 'x' ? [panel.minX, panel.maxX] : [panel.minY, panel.maxY];
        expect(ends.map(([x, y]) => (axis === 'x' ? x : y))).toEqual(along.map(toMm));
      });
      expect(onLayers(read.entities, /^ORDER$/).length).toBe(sheet.cuts.length);
    }
  });

  it('puts pieces that nothing holds on a layer of their own', () => {
    const { entities } = readDxf(
      sheetDxf(
        changeLoose(samplePlan(), (each) => (each.cutOrder === 4 ? { ...each, ...UNHELD } : each)),
        1,
      ),
    );
    expect(onLayers(entities, /^UNHELD$/)).toHaveLength(1);
    expect(onLayers(entities, /^(OUTLINE|SKIN)$/)).toHaveLength(17);
  });

  it('has waste cleared before it comes free, but for waste with a piece inside', () => {
    const plan = changeLoose(plans['true shapes']!, (each) =>
      each.kind === 'piece' ? each : { ...each, ...UNHELD, tabs: [], clamp: null },
    );
    const { loose } = plan.holding[0]!;
    const { entities } = readDxf(sheetDxf(plan, 1));
    const cleared = onLayers(entities, /^CLEAR$/);
    expect(cleared.length).toBeGreaterThan(0);
    expect(cleared).toHaveLength(loose.filter(({ kind }) => kind !== 'piece').length - 1);
    const [window] = onLayers(entities, /^CUTOUT$/).filter(({ kind }) => kind === 'run');
    const before = entities[entities.indexOf(window!) - 1];
    expect(before?.layer).toBe('CLEAR');
    // The slug is smaller than its opening by the cutter all round: 120 by 100, corners of 12.
    const rounded = (w: number, h: number, r: number) => w * h - (4 - Math.PI) * r * r;
    expect(Math.abs(areaOf(window!))).toBeCloseTo(rounded(120, 100, 12), 1);
    expect(Math.abs(Math.abs(areaOf(before!)) - rounded(108, 88, 6))).toBeLessThan(15);
  });

  it('puts an opening whose inside is left on a skin on the layer for that', () => {
    const plan = changeLoose(samplePlan(), (each) =>
      each.kind === 'slug' ? { ...each, action: 'skin', skin: fromMm(0.5), tabs: [] } : each,
    );
    const layers = named({ 'cut-out-skin': 'IN_{skin}_{depth}' });
    const { entities } = readDxf(sheetDxf(withLayers(plan, layers), 1));
    const [skinned] = onLayers(entities, /^IN_0P5_17P5$/);
    expect(areaOf(skinned!)).toBeCloseTo(-160_000, 6);
  });
});

it('leaves on a skin the outlines that the plan says, and no others', () => {
  const skinned = (change: (each: Holding) => Partial<Holding>) => {
    const plan = changeLoose(samplePlan(), (each) => ({ ...each, tabs: [], ...change(each) }));
    return onLayers(sheetsOf(plan)[0]!.read.entities, /^SKIN$/).length;
  };
  const skin = fromMm(0.5);
  const none = { action: 'none', skin: 0 } as const;
  expect(skinned(() => none)).toBe(0);
  // A strip hangs on the cuts beside it, which the plan names as pieces on a skin.
  expect(skinned(({ kind }) => (kind === 'sliver' ? { action: 'skin', skin } : none))).toBe(0);
  const isFirst = ({ kind, cutOrder }: Holding) => kind === 'piece' && cutOrder < 4;
  expect(
    skinned((each) => (isFirst(each) ? { action: 'skin', skin, skinFor: 'waste' } : none)),
  ).toBe(samplePlan().holding[0]!.loose.filter(isFirst).length);
});

describe('names of layers', () => {
  it('are those of the file', () => {
    const names = Object.fromEntries(
      LAYER_CLASSES.map((name) => [name, `X-${name}`.toUpperCase()]),
    );
    const plan = withLayers(samplePlan(), {
      ...USUAL_LAYERS,
      names: names as MachineLayers['names'],
    });
    const { read } = sheetsOf(plan)[0]!;
    expect(read.entities.filter(({ layer }) => !layer.startsWith('X-'))).toEqual([]);
    expect(read.layers).toEqual(
      expect.arrayContaining(['X-OUTLINE', 'X-SKIN', 'X-TAB', 'X-KEEP-OUT', 'X-TRIM', 'X-LABEL']),
    );
  });

  it('have numbers of the thing in them', () => {
    const layers = named({
      hole: 'D{diameter}-Z{depth}',
      skin: 'S{skin}-{depth}-{thickness}',
      tab: 'T{width}x{height}-{cutter}',
    });
    const { layers: all } = readDxf(sheetDxf(withLayers(samplePlan(), layers), 1));
    expect(all).toEqual(
      expect.arrayContaining(['D5-Z12', 'D35-ZTHROUGH', 'S0P5-17P5-18', 'T8x3-6P35']),
    );
  });

  it('may be shared, also in other letters, and left out', () => {
    const layers = named({
      outline: 'Cut',
      'cut-out': 'CUT',
      label: null,
      order: null,
      grain: null,
    });
    const { read, parts } = sheetsOf(withLayers(samplePlan(), layers))[0]!;
    expect(read.entities.filter(({ kind }) => kind === 'text')).toEqual([]);
    const cut = onLayers(read.entities, /^cut$/i);
    expect(new Set(cut.map(({ layer }) => layer)).size).toBe(1);
    const skinned = onLayers(read.entities, /^SKIN$/).length;
    expect(cut.length).toBe(
      parts.length - skinned + parts.flatMap(({ shape }) => shape.inner).length,
    );
  });
});

const CUTTER = 6.35;

/** How far the middle of the cutter runs beside a contour: right of a run, inside a round opening, outside a round piece. Corners are left out. */
function kerfLength(entity: ReadEntity, cutter = CUTTER): number {
  if (entity.kind === 'circle') {
    const side = OPENINGS.test(entity.layer) ? -1 : 1;
    return 2 * Math.PI * (entity.radius + (side * cutter) / 2);
  }
  if (entity.kind !== 'run') return 0;
  const sweep = entity.corners.reduce((sum, { bulge }) => sum + 4 * Math.atan(bulge), 0);
  return lengthOf(entity) + (sweep * cutter) / 2;
}

describe('tabs', () => {
  const TABBED = [
    ['the sample, first sheet', samplePlan(), 1],
    ['the sample, second sheet', samplePlan(), 2],
    ['the small plan', smallPlan(), 1],
  ] as const;

  it.each(TABBED)('as marks: a line for each, over a closed outline, %s', (_, plan, number) => {
    const tabs = plan.holding[number - 1]!.loose.flatMap((each) => each.tabs);
    const { entities } = readDxf(sheetDxf(plan, number));
    const marks = onLayers(entities, /^TAB$/);
    expect(marks).toHaveLength(tabs.length);
    const middles = marks.map((mark) => {
      const [a, b] = mark.kind === 'line' ? mark.ends : [];
      expect(Math.hypot(a![0] - b![0], a![1] - b![1])).toBeCloseTo(2 * 6.35, 4);
      return [(a![0] + b![0]) / 2, (a![1] + b![1]) / 2] as const;
    });
    for (const { at } of tabs) {
      const distances = middles.map(([x, y]) => Math.hypot(x - toMm(at.x), y - toMm(at.y)));
      expect(Math.min(...distances)).toBeLessThan(1e-4);
    }
  });

  it.each(TABBED)(
    'as gaps: what the middle of the cutter runs is short by tab and cutter, %s',
    (_, plan, number) => {
      const layers: MachineLayers = { ...USUAL_LAYERS, tabs: 'gaps' };
      const gapped = readDxf(sheetDxf(withLayers(plan, layers), number)).entities;
      const whole = readDxf(sheetDxf(plan, number)).entities;
      const cut = (entities: readonly ReadEntity[]) =>
        onLayers(entities, /^(OUTLINE|CUTOUT)$/).reduce((sum, each) => sum + kerfLength(each), 0);
      const tabs = plan.holding[number - 1]!.loose.flatMap((each) => each.tabs);
      const missing = tabs.reduce((sum, { width }) => sum + toMm(width) + CUTTER, 0);
      expect(cut(whole) - cut(gapped)).toBeCloseTo(missing, 3);
      expect(onLayers(gapped, /^TAB$/)).toEqual([]);
      const open = gapped.filter((each) => each.kind === 'run' && !each.closed);
      expect(open).toHaveLength(tabs.length);
    },
  );

  it('as a gap in a round opening, where the middle of the cutter runs on a smaller circle', () => {
    const cutter = 6;
    const plan = changeLoose(mixedPlan('mm'), (each) => ({
      ...each,
      tabs:
        each.kind === 'slug' && each.piece === 0
          ? [{ at: each.outline![0]!, width: fromMm(9), height: fromMm(3) }]
          : [],
    }));
    const layers: MachineLayers = { ...USUAL_LAYERS, tabs: 'gaps' };
    const cut = (text: string) =>
      onLayers(readDxf(text).entities, /^CUTOUT$/).reduce(
        (sum, each) => sum + kerfLength(each, cutter),
        0,
      );
    const gapped = sheetDxf(withLayers(plan, layers), 1);
    expect(cut(sheetDxf(plan, 1)) - cut(gapped)).toBeCloseTo(9 + cutter, 3);
    const [open, ...more] = readDxf(gapped).entities.filter(
      (each) => each.kind === 'run' && !each.closed,
    );
    expect(more).toEqual([]);
    // The opening is 330 wide.
    const gap = Math.PI * 330 - lengthOf(open!);
    expect(gap).toBeCloseTo(((9 + cutter) * 165) / (165 - cutter / 2), 3);
  });

  it('as gaps that would leave nothing of an outline are marks', () => {
    const wide = changeLoose(samplePlan(), (each) => ({
      ...each,
      tabs: each.tabs.map((tab) => ({ ...tab, width: fromMm(2000) })),
    }));
    const { entities } = readDxf(sheetDxf(withLayers(wide, { ...USUAL_LAYERS, tabs: 'gaps' }), 1));
    expect(entities.filter((each) => each.kind === 'run' && !each.closed)).toEqual([]);
    const tabs = wide.holding[0]!.loose.flatMap((each) => each.tabs);
    expect(onLayers(entities, /^TAB$/)).toHaveLength(tabs.length);
  });
});

describe('letters', () => {
  it.each([
    ['plain letters', 'Side 2/4', 'Side 2/4'],
    ['letters of other scripts', 'Tür Ж', 'T\\U+00FCr \\U+0416'],
    ['an accent of its own', 'u\u0308', '\\U+00FC'],
    ['signs above U+FFFF', 'a😀b', 'a?b'],
    ['controls and halves of letters', 'a\u0000\nb\ud800', 'a??b?'],
    ['signs that would mean others', '%%c 5% ^J \\U+0041', '% %c 5% ^ J \\U+005CU+0041'],
  ])('takes %s', (_, text, written) => {
    expect(dxfText(text)).toBe(written);
  });

  it('are no more than fit into a line, and none is cut in two', () => {
    expect(dxfText('é'.repeat(200))).toBe('\\U+00E9'.repeat(35));
  });

  it('bring no line end and no group into the file', () => {
    const plan = smallPlan();
    const parts = plan.job.parts.map((part) => ({ ...part, name: 'A\r\n0\r\nEOF\n' }));
    const { entities } = readDxf(sheetDxf({ ...plan, job: { ...plan.job, parts } }, 1));
    expect(onLayers(entities, /^LABEL$/)).toHaveLength(3);
  });
});

function named(names: Partial<MachineLayers['names']>): MachineLayers {
  return { ...USUAL_LAYERS, names: { ...USUAL_LAYERS.names, ...names } };
}

function withLayers(plan: Plan, layers: MachineLayers): Plan {
  const job: Job = { ...plan.job, layers };
  return { ...plan, job };
}

const UNHELD = { action: 'none', verdictAfter: 'moves' } as const;

/** The plan with what comes free on its first sheet changed. */
function changeLoose(plan: Plan, change: (each: Holding) => Holding): Plan {
  const [first, ...others] = plan.holding;
  return { ...plan, holding: [{ ...first!, loose: first!.loose.map(change) }, ...others] };
}
