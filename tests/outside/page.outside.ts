import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { holdfast } from '../helpers/command.ts';
import { lumberText } from '../helpers/lumber-job.ts';
import { findTool } from './tools.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', '..', 'examples');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const WIDE = { width: 1280, height: 800 };
/** What a browser does that keeps nothing for files. */
const NO_STORAGE = `Object.defineProperty(window, 'localStorage', {
  get() { throw new DOMException('denied', 'SecurityError'); },
})`;
const NARROW = { width: 390, height: 844 };

let browser: Browser | undefined;
let folder: string | undefined;

beforeAll(async () => {
  const executablePath = findTool('chromium', 'chromium');
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  browser = await chromium.launch({ executablePath, args });
  folder = mkdtempSync(join(tmpdir(), 'holdfast-page-'));
  cpSync(EXAMPLES, folder, { recursive: true });
  writeFileSync(join(folder, 'lumber.yaml'), lumberText('rough: 26'));
  for (const name of ['reading-nook', 'bookcase-saw', 'lumber']) {
    const { code, err } = await holdfast(folder, ['plan', `${name}.yaml`]);
    expect([code, err]).toEqual([0, '']);
  }
});

afterAll(async () => {
  await browser?.close();
  if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
});

describe.each([['reading-nook'], ['bookcase-saw'], ['lumber']])('the page of %s', (name) => {
  it('opens, prints and works through without a fault or a request but for itself', async () => {
    const { page, faults, requests } = await open(name);
    for (const button of await page.locator('nav button').all()) await button.click();
    for (const button of (await page.locator('.hf-open:visible').all()).slice(0, 3)) {
      await button.click();
      await page.keyboard.press('Escape');
    }
    await page.pdf();
    expect(faults).toEqual([]);
    expect(requests).toEqual([page.url()]);
  });

  it.each([
    ['light', WIDE],
    ['light', NARROW],
    ['dark', WIDE],
    ['dark', NARROW],
  ] as const)(
    'has no serious fault for people with disabilities, %s at %o',
    async (colorScheme, viewport) => {
      const { page } = await open(name, { colorScheme, viewport });
      expect(await seriousFaults(page)).toEqual([]);
      const [next] = await page.locator('#next:visible').all();
      if (next === undefined) return;
      for (const summary of await page.locator('summary').all()) await summary.click();
      await next.click();
      for (const summary of await page.locator('#panel summary').all()) await summary.click();
      expect(await seriousFaults(page)).toEqual([]);
    },
  );

  it.each([WIDE, NARROW])('scrolls in one direction only, at %o', async (viewport) => {
    const { page } = await open(name, { viewport });
    const wide = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
    expect(wide).toBeLessThanOrEqual(0);
  });

  it('has targets of at least 44 pixels for a thumb', async () => {
    const { page } = await open(name, { viewport: NARROW, hasTouch: true });
    for (const target of await page.locator('button, label.hf-tick, input[type=search]').all()) {
      if (!(await target.isVisible())) continue;
      const box = (await target.boundingBox())!;
      expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
    }
  });
});

describe('a person at the machine', () => {
  it('zooms, pans by drag, wheel and keys, and sees the whole again', async () => {
    const { page } = await open('reading-nook');
    const view = () =>
      page
        .locator('.hf-frame svg')
        .first()
        .getAttribute('viewBox')
        .then((v) => v!.split(' ').map(Number));
    const whole = await view();
    const frame = page.locator('.hf-frame').first();
    await frame.scrollIntoViewIfNeeded();
    const { x, y, width, height } = (await frame.boundingBox())!;
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.wheel(0, -300);
    await expect.poll(async () => (await view())[2]).toBeLessThan(whole[2]! * 0.7);
    const zoomed = await view();
    await page.mouse.down();
    await page.mouse.move(x + width / 2 - 120, y + height / 2 - 60, { steps: 5 });
    await page.mouse.up();
    await expect.poll(async () => (await view())[0]).toBeGreaterThan(zoomed[0]!);
    const panned = await view();
    expect(panned[1]).toBeGreaterThan(zoomed[1]!);
    expect(panned[2]).toBeCloseTo(zoomed[2]!, 3);
    expect(await page.locator('#panel').isVisible()).toBe(false);
    await frame.focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(async () => (await view())[0]).toBeLessThan(panned[0]!);
    await page.keyboard.press('+');
    await expect.poll(async () => (await view())[2]).toBeLessThan(panned[2]! * 0.7);
    await page.keyboard.press('0');
    await expect.poll(view).toEqual(whole);
    await page
      .getByRole('button', { name: /^Zoom in/ })
      .first()
      .click();
    await expect.poll(async () => (await view())[2]).toBeCloseTo(whole[2]! / 2, 1);
  });

  it('pinches with two fingers', async () => {
    const { page } = await open('reading-nook', { viewport: NARROW, hasTouch: true });
    const frame = page.locator('.hf-frame').first();
    await frame.scrollIntoViewIfNeeded();
    const { x, y, width, height } = (await frame.boundingBox())!;
    const client = await page.context().newCDPSession(page);
    const fingers = (apart: number) => [
      { x: x + width / 2 - apart, y: y + height / 2, id: 1 },
      { x: x + width / 2 + apart, y: y + height / 2, id: 2 },
    ];
    await client.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(20) });
    for (const apart of [30, 45, 60])
      await client.send('Input.dispatchTouchEvent', {
        type: 'touchMove',
        touchPoints: fingers(apart),
      });
    await client.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await expect
      .poll(() => frame.evaluate((element) => element.classList.contains('hf-zoomed')))
      .toBe(true);
  });

  it('finds a part on another sheet, and is told how many there are', async () => {
    const { page } = await open('reading-nook');
    await page.getByLabel('Find a part').fill('peg plate');
    await expect.poll(() => page.locator('#found').textContent()).toBe('4 found: 4 on this sheet.');
    expect(await page.getByRole('heading', { name: 'Sheet 2 of 3' }).isVisible()).toBe(true);
    const rows = await page.locator('.hf-row:visible .hf-what').allTextContents();
    expect(rows.toSorted()).toEqual(
      ['1/4', '2/4', '3/4', '4/4'].map((which) => expect.stringContaining(which)),
    );
    expect(await page.locator('.hf-target.hf-hit').count()).toBe(4);
    await page.getByLabel('Find a part').fill('120x50');
    await expect.poll(() => page.locator('#found').textContent()).toMatch(/^4 found/);
    await page.getByLabel('Find a part').fill('no such thing');
    await expect.poll(() => page.locator('#found').textContent()).toBe('Nothing found.');
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.hf-dim').count()).toBe(0);
  });

  it('taps a piece and reads its size, order, verdict and reckoning', async () => {
    const { page } = await open('reading-nook', { viewport: NARROW, hasTouch: true });
    await page.locator('.hf-target[aria-label^="Bench seat"]').tap();
    const panel = page.locator('#panel');
    expect(await panel.getByRole('heading', { name: 'Bench seat' }).isVisible()).toBe(true);
    const text = await panel.textContent();
    expect(text).toContain('1200 × 420 mm');
    expect(text).toMatch(/number \d+ of \d+ to come free/);
    expect(text).toMatch(/stays margin \d+\.\d\d, at the low end \d+\.\d\d/);
    await panel.getByText('The reckoning, step by step').click();
    expect(await panel.getByText(/^Holding force F = /).isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    expect(await panel.isVisible()).toBe(false);
  });

  it('keeps its ticks over a reload, and loses them only when asked twice', async () => {
    const { page } = await open('reading-nook');
    await page.getByLabel('Drawer side 1/6 is cut').check();
    await page.getByRole('button', { name: 'Next piece' }).first().click();
    await page.locator('#panel').getByRole('button', { name: 'Mark as cut' }).click();
    await expect.poll(() => page.locator('#count').textContent()).toBe('2 of 58 cut');
    await page.reload();
    expect(await page.locator('#count').textContent()).toBe('2 of 58 cut');
    expect(await page.getByLabel('Drawer side 1/6 is cut').isChecked()).toBe(true);
    expect(await page.locator('.hf-check').count()).toBe(2);
    await page.getByRole('button', { name: /^Sheet 2/ }).click();
    await page.getByLabel('Porthole panel 1/1 is cut').check();
    await page.reload();
    await page.getByRole('button', { name: /^Sheet 2/ }).click();
    const tick = (await page.locator('#part-2 .hf-check').boundingBox())!;
    const piece = (await page.locator('[aria-label^="Porthole panel"]').first().boundingBox())!;
    expect(tick.width).toBeGreaterThan(20);
    expect(tick.x + tick.width / 2).toBeCloseTo(piece.x + piece.width / 2, -1);
    await page.getByRole('button', { name: 'Clear all ticks' }).click();
    expect(await page.locator('#count').textContent()).toBe('3 of 58 cut');
    await page.getByRole('button', { name: 'Really clear all ticks' }).click();
    expect(await page.locator('#count').textContent()).toBe('0 of 58 cut');
  });

  it('says so where the browser keeps nothing, and goes on', async () => {
    const { page, faults } = await open('reading-nook', {}, NO_STORAGE);
    await page.getByLabel('Drawer side 1/6 is cut').check();
    expect(await page.locator('#count').textContent()).toBe('1 of 58 cut');
    expect(await page.locator('#trouble').textContent()).toMatch(/keeps nothing for this page/);
    expect(faults).toEqual([]);
  });

  it('needs no mouse', async () => {
    const { page } = await open('reading-nook');
    const rows = await page.locator('.hf-row:visible .hf-what').allTextContents();
    const [first, second, third] = rows.map((row) => /^.+? \d+\/\d+|^\D+/.exec(row.trim())![0]);
    const begins = (name: string | undefined) => new RegExp(`^${name}\\b`);
    const focused = () =>
      page.evaluate<string>(
        "document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent.trim()",
      );
    const tabTo = async (wanted: RegExp) => {
      for (let i = 0; i < 40; i++) {
        await page.keyboard.press('Tab');
        if (wanted.test(await focused())) return;
      }
      throw new Error(`Tab does not come to ${wanted}`);
    };
    await tabTo(/^Drawing of sheet 1/);
    await tabTo(begins(first));
    await page.keyboard.press('n');
    expect(await focused()).toMatch(begins(second));
    await page.keyboard.press('Enter');
    expect(await page.locator('#panel-title').textContent()).toBe(second);
    await tabTo(/^Mark as cut$/);
    await page.keyboard.press('Space');
    expect(await page.locator('#count').textContent()).toBe('1 of 58 cut');
    await tabTo(/^Next piece$/);
    await page.keyboard.press('Enter');
    expect(await page.locator('#panel-title').textContent()).toBe(third);
    await page.keyboard.press('Escape');
    expect(await focused()).toMatch(begins(second));
  });

  it('ticks a cut of the saw, and the pieces it gives are cut; boards count by their pieces', async () => {
    const { page } = await open('bookcase-saw');
    await page.getByLabel('Cut 4 is done').first().check();
    expect(await page.locator('#count').textContent()).toBe('1 of 40 cut');
    expect(await page.getByLabel('Side 1/4 is cut').isChecked()).toBe(true);
    await page.getByLabel('Cut 4 is done').first().uncheck();
    expect(await page.locator('#count').textContent()).toBe('0 of 40 cut');
    await page.getByRole('button', { name: /^Boards/ }).click();
    await page.getByLabel(/^Stop at 1880 mm, once a board/).check();
    expect(await page.locator('#count').textContent()).toBe('4 of 40 cut');
  });

  it('reads and prints the whole plan without a script', async () => {
    const { page } = await open('reading-nook', { javaScriptEnabled: false });
    expect(await page.locator('noscript').textContent()).toMatch(/does not run the script/);
    for (const number of [1, 2, 3])
      expect(await page.getByRole('heading', { name: `Sheet ${number} of 3` }).isVisible()).toBe(
        true,
      );
  });

  it('prints every sheet with its list, however the screen was', async () => {
    const file = readFileSync(pageFile('reading-nook'), 'utf8');
    const [, whole] = /<svg [^>]*viewBox="([^"]*)"/.exec(file)!;
    const { page } = await open('reading-nook');
    await page
      .getByRole('button', { name: /^Zoom in/ })
      .first()
      .click();
    await page.emulateMedia({ media: 'print' });
    for (const number of [1, 2, 3])
      expect(await page.locator(`#part-${number} .hf-list`).isVisible()).toBe(true);
    expect(await page.locator('#bar').isVisible()).toBe(false);
    await page.evaluate("dispatchEvent(new Event('beforeprint'))");
    const drawn = page.locator('#part-1 svg').first();
    expect(await drawn.getAttribute('viewBox')).toBe(whole);
  });
});

interface Opened {
  readonly page: Page;
  /** What the console or the page complained of. */
  readonly faults: readonly string[];
  readonly requests: readonly string[];
}

function pageFile(name: string): string {
  return join(folder!, `${name}-plan`, 'plan.html');
}

/** In a browser profile of its own. */
async function open(
  name: string,
  options: BrowserContextOptions = {},
  before = '',
): Promise<Opened> {
  const context = await browser!.newContext({ viewport: WIDE, ...options });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  const faults: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('request', (request) => requests.push(request.url()));
  await page.addInitScript({ content: before });
  await page.goto(`file://${pageFile(name)}`);
  return { page, faults, requests };
}

/** Faults of the two upper grades, each with where it is. */
async function seriousFaults(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { violations } = await (globalThis as unknown as { axe: Axe }).axe.run();
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  });
}

interface Axe {
  run(): Promise<{
    readonly violations: readonly {
      readonly id: string;
      readonly impact: string;
      readonly nodes: readonly { readonly html: string }[];
    }[];
  }>;
}
