import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/model/plan.ts';
import type { PageData } from '../../src/outputs/html/page-data.ts';
import { benchPlan } from '../helpers/board-plan.ts';
import { expectGolden } from '../helpers/golden.ts';
import { buildPlan, material, stock } from '../helpers/plan-builder.ts';
import { samplePlan, smallPlan } from '../helpers/sample-plan.ts';
import { chestPlan, cratePlan } from '../helpers/sawn-plan.ts';
import { wholePage } from '../helpers/whole-page.ts';

const PLANS: readonly (readonly [string, Plan])[] = [
  ['the small plan', smallPlan()],
  ['the sample', samplePlan()],
  ['a chest at the saw', chestPlan()],
  ['crates at the saw', cratePlan()],
  ['boards', benchPlan()],
];

describe('the plan page', () => {
  it('is as it was for a small plan, style and scripts left out', () => {
    const page = wholePage(smallPlan(), null);
    const body = page.slice(page.indexOf('<body>'), page.indexOf('<script'));
    expectGolden('small-page.html', `${body}\n`);
  });

  it.each(PLANS)('%s: lets a browser run its own style and script and nothing else', (_, plan) => {
    const page = wholePage(plan, null);
    const [, policy = ''] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)!;
    const [, style = ''] = /<style>([\s\S]*?)<\/style>/.exec(page)!;
    const [, script = ''] = /<script type="module">([\s\S]*?)<\/script>/.exec(page)!;
    expect(policy.replaceAll('&#39;', "'").split('; ')).toEqual([
      "default-src 'none'",
      `script-src 'sha256-${sha256(script)}'`,
      `style-src 'sha256-${sha256(style)}'`,
      "base-uri 'none'",
      "form-action 'none'",
    ]);
    expect(page.match(/<style/g)).toHaveLength(1);
    expect(page.match(/<script/g)).toHaveLength(2);
    for (const tag of tagsOf(page)) expect(tag).not.toMatch(/\s(style|on\w+|src|srcset)=/);
    expect(style).not.toMatch(/@import|url\(/);
  });

  it.each(PLANS)('%s: names no address but that of the drawing language', (_, plan) => {
    const page = wholePage(plan, null).replaceAll('http://www.w3.org/2000/svg', '');
    expect(page).not.toMatch(/\bhttps?:|\/\/[a-z]+\.[a-z]+/i);
  });

  it.each(PLANS)('%s: has every name of its elements once', (_, plan) => {
    const ids = [...wholePage(plan, null).matchAll(/<[a-z][^>]*\sid="([^"]*)"/g)].map(
      ([, id]) => id,
    );
    expect(ids.length).toBeGreaterThan(5);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('has a script of one piece: no import, no name twice', () => {
    const [, script = ''] = /<script type="module">([\s\S]*?)<\/script>/.exec(
      wholePage(smallPlan(), null),
    )!;
    expect(script).not.toMatch(/^\s*(import|export)\b/m);
    const names = [...script.matchAll(/^(?:async )?(?:function|const|let) (\w+)/gm)].map(
      ([, name]) => name,
    );
    expect(names).toContain('openViewer');
    expect(new Set(names).size).toBe(names.length);
  });

  it('gives the same bytes again, and a date only where one is given', () => {
    const page = wholePage(samplePlan(), null);
    expect(wholePage(samplePlan(), null)).toBe(page);
    expect(page).not.toMatch(/\b20\d\d-\d\d-\d\d\b/);
    const dated = wholePage(samplePlan(), new Date('2026-03-31T00:00:00Z'));
    expect(dated).toContain('Cutting plan · 2026-03-31');
    expect(dataOf(dated).key).toBe(dataOf(page).key);
  });

  it('keeps ticks for another price, not for another layout', () => {
    const plan = smallPlan();
    const { key } = dataOf(wholePage(plan, null));
    const dearer = { ...plan, costs: { ...plan.costs, totalCents: 99 } };
    expect(dataOf(wholePage(dearer, null)).key).toBe(key);
    const moved = plan.layouts.map((layout) => ({
      ...layout,
      sheets: layout.sheets.map((sheet) => ({
        ...sheet,
        placements: sheet.placements.map((each) => ({ ...each, x: each.x + 8 })),
      })),
    }));
    expect(dataOf(wholePage({ ...plan, layouts: moved }, null)).key).not.toBe(key);
  });
});

describe('a name in the plan page', () => {
  it.each([
    '</script><img src=x onerror=alert(1)>',
    '<!--<script>',
    '"><svg onload=alert(1)>',
    "' onfocus='alert(1)",
    '&lt;b&gt; &amp; ]]>',
    '\u2028\u2029',
    `\${alert(1)}`,
    'x\ud800y',
  ])('%s is text wherever it stands', (name) => {
    const page = wholePage(named(name), null);
    expect(page.match(/<script/gi)).toHaveLength(2);
    expect(page.match(/<\/script/gi)).toHaveLength(2);
    expect(page).not.toMatch(/<img|<!--/i);
    for (const tag of tagsOf(page)) expect(tag).not.toMatch(/^<[^"]*("[^"]*"[^"]*)*\son\w+=/);
    const { pieces } = dataOf(page);
    expect(pieces).toHaveLength(1);
    const shown = name.replace(/[\u2028\u2029]/g, '').replace('\ud800', ' ');
    expect(pieces[0]!.title).toBe(shown);
    expect(pieces[0]!.facts).toContainEqual(['Note', shown]);
  });
});

describe('what the plan page says', () => {
  const page = wholePage(samplePlan(), null);
  const { pieces, lines } = dataOf(page);

  it('lists each sheet in the order of its cuts, a box for each piece and none for waste', () => {
    const [first = ''] = page.split('id="part-2"');
    const orders = [...first.matchAll(/<span class="hf-order">(\d+)<\/span>/g)].map(([, n]) =>
      Number(n),
    );
    expect(orders).toEqual(Array.from({ length: 20 }, (_, i) => i + 1));
    expect(page.match(/data-tick="p\d+" data-weight="1"/g)).toHaveLength(28);
    expect(page.match(/<li class="hf-row hf-loose">/g)).toHaveLength(2);
  });

  it('says of a piece its size, order, remedy, holes, bands and set', () => {
    const side = pieces.find(({ title }) => title === 'Side 1/2')!;
    expect(side.size).toBe('720 × 560 mm');
    expect(side.facts).toContainEqual(['Piece', '1 of 2']);
    expect(side.facts).toContainEqual(['Order', 'number 18 of 20 to come free']);
    expect(side.facts).toContainEqual(['Holes', '18 of 5 mm, 12 mm deep; 1 of 35 mm, through']);
    expect(side.facts).toContainEqual(['Edge bands', 'bottom 1 mm']);
    const door = pieces.find(({ title }) => title === 'Door 2/3')!;
    expect(door.facts.find(([name]) => name === 'Matched set')![1]).toMatch(/^A2: place 2 of 3 in/);
    const bracket = pieces.find(({ title }) => title === 'Bracket 1/2')!;
    expect(bracket.todo[0]).toMatch(/^Leave tabs where they are marked/);
    expect(bracket.facts.find(([name]) => name === 'Tabs')![1]).toBe(
      '3 of 8 × 3 mm (width × height) at (1700, 98) (1840, 98) (1770, 248)',
    );
  });

  it('has verdict and reckoning of each piece, each line of them once', () => {
    for (const { verdict, reckoning } of pieces) {
      expect(verdict!.margin).toMatch(/^margin \d+\.\d\d, at the low end \d+\.\d\d$/);
      const quantities = reckoning.map((index) => lines[index]![0]);
      expect(quantities).toContain('Margin');
      expect(quantities).toContain('Verdict');
    }
    expect(new Set(lines.map((line) => line.join('\n'))).size).toBe(lines.length);
  });

  it('says what is proved, what is left over, and each caution', () => {
    expect(page).toContain('no layout can use fewer (proved)');
    expect(page.match(/Make a test cut in waste/g)).toHaveLength(1);
    const plan = samplePlan();
    const [layout, ...others] = plan.layouts;
    const short = {
      ...layout!,
      status: 'impossible' as const,
      unplaced: [{ piece: 0, why: 'no-stock' as const }],
    };
    expect(wholePage({ ...plan, layouts: [short, ...others] }, null)).toContain(
      'Side 1: the sheets on hand are used up.',
    );
  });

  it('has the cuts of a saw once for alike sheets, a box a book, which gives the pieces of its sheets', () => {
    for (const plan of [chestPlan(), cratePlan()]) {
      const sawn = wholePage(plan, null);
      const all = [...sawn.matchAll(/data-gives="([^"]*)"/g)].flatMap(([, ids]) =>
        ids!.split(' ').filter(Boolean),
      );
      const placed = dataOf(sawn).pieces.map(({ id }) => `p${id}`);
      expect(all.toSorted()).toEqual(placed.toSorted());
      expect(dataOf(sawn).pieces.every(({ verdict }) => verdict === null)).toBe(true);
      expect(sawn).not.toMatch(/vacuum|spoilboard/i);
    }
  });

  it('counts the pieces of boards by the settings of the stop', () => {
    const bench = wholePage(benchPlan(), null);
    const weights = [...bench.matchAll(/data-weight="(\d+)"/g)].map(([, n]) => Number(n));
    expect(weights.reduce((sum, n) => sum + n, 0)).toBe(17);
    expect(bench).toContain('Stop at 720 mm, 2 times a board');
  });

  it('speaks inches in a file in inches', () => {
    const plan = smallPlan();
    const inches = wholePage({ ...plan, job: { ...plan.job, unit: 'in' } }, null);
    expect(dataOf(inches).pieces[0]!.size).toMatch(/^[\d./-]+" × [\d./-]+"$/);
    const facts = dataOf(inches).pieces.flatMap((piece) => piece.facts.map(([, value]) => value));
    const [, beside] = inches.slice(0, inches.indexOf('<aside')).split('<div class="hf-side">');
    expect([...facts, beside].join('\n').match(/.*\d mm\b.*/g)).toBeNull();
  });
});

function sha256(text: string): string {
  return createHash('sha256').update(text).digest('base64');
}

function dataOf(page: string): PageData {
  return JSON.parse(/<script type="application\/json" id="data">([^<]*)<\/script>/.exec(page)![1]!);
}

/** Every tag as it stands, without the texts of style and scripts. */
function tagsOf(page: string): readonly string[] {
  const quiet = page.replace(/(<(?:style|script)[^>]*>)[\s\S]*?(<\/(?:style|script)>)/g, '$1$2');
  return [...quiet.matchAll(/<[a-z](?:[^>"]|"[^"]*")*>/gi)].map(([tag]) => tag);
}

/** One sheet whose job, material and part carry the name, the part as its note too. */
function named(name: string): Plan {
  const sheet = stock(600, 400);
  const plan = buildPlan({
    name,
    materials: [material(0, name, [sheet])],
    parts: [{ name, width: 300, height: 200 }],
    sheets: [{ stock: sheet, material: 0, pieces: [{ part: 0, at: [10, 10] }], offcuts: [] }],
  });
  const parts = plan.job.parts.map((part) => ({ ...part, note: name, group: name }));
  return { ...plan, job: { ...plan.job, parts } };
}
