import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { drawnBox } from '../../drawing/outline.ts';
import {
  type LaidPiece,
  piecesInOrder,
  type SheetView,
  viewSheet,
} from '../../drawing/sheet-view.ts';
import { plainText } from '../../drawing/text.ts';
import type { ReckoningLine } from '../../model/holding.ts';
import { numberedSheets, type Plan } from '../../model/plan.ts';
import { boardSection } from './board-section.ts';
import { lumberSection, pageHead } from './head.ts';
import { type Markup, markup, NOTHING, trusted } from './markup.ts';
import type { PageData, PieceData } from './page-data.ts';
import { pieceFacts, sizeText, todoTexts, verdictOf } from './piece-facts.ts';
import { sheetSection } from './sheet-section.ts';

/** What the page shows: the drawings as SVG, and of each piece that is held down how it was reckoned. */
export interface PageContent {
  readonly plan: Plan;
  /** By the number of the sheet, made when its turn comes. */
  readonly sheetSvg: (number: number) => string;
  readonly boardSvgs: readonly string[];
  readonly reckonings: Pick<ReadonlyMap<number, readonly ReckoningLine[]>, 'get'>;
  /** Printed under the title; null for none, so that the same plan gives the same bytes. */
  readonly date: Date | null;
}

/**
 * The plan as one HTML file that needs nothing but itself: style and script stand in it, and its policy lets a browser run these two and load nothing.
 * Without the script it is still the whole plan, to be read and printed. It comes in parts, a sheet at a time, as the page of thousands of pieces fills the memory.
 */
export function* toHtml(content: PageContent): Generator<string> {
  const { plan, date } = content;
  const style = STYLES.map(pageText).join('');
  const script = joinModules(SCRIPTS.map(pageText));
  const policy = [
    "default-src 'none'",
    `script-src 'sha256-${hashOf(script, 'base64')}'`,
    `style-src 'sha256-${hashOf(style, 'base64')}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const numbers = numberedSheets(plan.layouts).map(({ number }) => number);
  const day = date === null ? null : date.toISOString().slice(0, 10);
  yield markup`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="format-detection" content="telephone=no">
<title>${plainText(plan.job.name)}: cutting plan</title>
<style>${trusted(style)}</style>
</head>
<body>
<a class="hf-skip" href="#plan">To the sheets</a>
${pageHead(plan, day)}
<main id="plan" tabindex="-1">
${toolbar(numbers, content.boardSvgs.length > 0)}
`.markup;
  const told = newTold(content);
  for (const number of numbers) {
    const view = viewSheet(plan, number - 1);
    yield sheetSection(plan, view, content.sheetSvg(number)).markup;
    told.add(view);
  }
  yield markup`${boardSection(plan, content.boardSvgs)}${lumberSection(plan)}</main>
<aside class="hf-panel" id="panel" aria-labelledby="panel-title" hidden></aside>
<script type="application/json" id="data">${trusted(safeJson(told.data()))}</script>
<script type="module">${trusted(script)}</script>
</body>
</html>
`.markup;
}

/** Later ones win. */
const STYLES = ['base.css', 'drawing.css', 'lists.css', 'panel.css', 'screens.css', 'print.css'];

/** What each needs stands before it; names are unique through all of them. */
const SCRIPTS = [
  'ticks.js',
  'gestures.js',
  'viewer.js',
  'pieces.js',
  'finder.js',
  'panel.js',
  'main.js',
];

function pageText(name: string): string {
  return readFileSync(new URL(`./page/${name}`, import.meta.url), 'utf8').replaceAll('\r\n', '\n');
}

/** The modules as one, since a page without network can import nothing. */
function joinModules(texts: readonly string[]): string {
  return texts
    .map((text) => text.replace(/^import [^;]*;\n/gm, '').replace(/^export /gm, ''))
    .join('');
}

function hashOf(text: string, form: 'base64' | 'hex'): string {
  return createHash('sha256').update(text).digest(form);
}

/** JSON that cannot end its element or begin a comment. */
function safeJson(data: unknown): string {
  return JSON.stringify(data).replace(/</g, '\\u003c');
}

/** What the script is told of the pieces, gathered a sheet at a time. */
function newTold({ plan, reckonings }: PageContent) {
  const lines = new Map<string, number>();
  const pieces: PieceData[] = [];
  const lineOf = ({ quantity, formula, value }: ReckoningLine): number => {
    const text = JSON.stringify([quantity, formula, value]);
    const known = lines.get(text) ?? lines.size;
    lines.set(text, known);
    return known;
  };
  const pieceOf = (view: SheetView, laid: LaidPiece): PieceData => {
    const id = laid.piece.index;
    return {
      id,
      sheet: view.number,
      title: laid.count === '1/1' ? laid.name : `${laid.name} ${laid.count}`,
      size: sizeText(laid, view.job.unit),
      box: boxInDrawing(laid),
      todo: todoTexts(view, laid),
      verdict: verdictOf(laid),
      facts: pieceFacts(view, laid),
      reckoning: (reckonings.get(id) ?? []).map(lineOf),
    };
  };
  return {
    add: (view: SheetView) => {
      for (const laid of piecesInOrder(view)) pieces.push(pieceOf(view, laid));
    },
    data: (): PageData => ({
      key: keyOf(plan),
      pieces,
      lines: [...lines.keys()].map((text) => JSON.parse(text)),
    }),
  };
}

/** Drawings count in whole millimetres here; y is turned downwards, as in SVG. */
function boxInDrawing({ box }: LaidPiece): PieceData['box'] {
  const { minX, minY, maxX, maxY } = drawnBox(box);
  const [left, top, width, height] = [minX, -maxY, maxX - minX, maxY - minY].map(Math.round);
  return [left!, top! === 0 ? 0 : top!, width!, height!];
}

/** Of what lies where: ticks outlive another price or another date, but not another layout. */
function keyOf({ job, layouts }: Plan): string {
  const parts = job.parts.map(({ name, width, height, count }) => [name, width, height, count]);
  const lengths = job.lengthParts.map(({ name, length, count }) => [name, length, count]);
  return hashOf(JSON.stringify([job.name, parts, lengths, layouts]), 'hex').slice(0, 32);
}

/** What the script needs is hidden until it runs. */
function toolbar(numbers: readonly number[], hasBoards: boolean): Markup {
  const button = (key: number | string, name: string, short: string) =>
    markup`<button type="button" data-go="${key}"><span class="hf-go">${short}</span> <small data-done="${key}"></small><span class="hf-unseen">${name}</span></button>
`;
  const buttons = [
    ...numbers.map((number) => button(number, ` on sheet ${number}`, `Sheet ${number}`)),
    ...(hasBoards ? [button('boards', ' of the boards', 'Boards')] : []),
  ];
  if (buttons.length === 0) return NOTHING;
  return markup`<noscript><p class="hf-alarm">This browser does not run the script of the page: everything can be read and printed, but nothing ticked, searched or zoomed.</p></noscript>
<div class="hf-bar" id="bar" hidden>
<div role="search" class="hf-search"><label for="find">Find a part</label> <input id="find" type="search" placeholder="Name, size, note …" autocomplete="off" spellcheck="false"></div>
<div class="hf-progress"><progress id="meter" aria-labelledby="count"></progress> <output id="count"></output></div>
<button type="button" class="hf-main" id="next">Next piece</button>
</div>
<p class="hf-said" id="found" role="status"></p>
<p class="hf-alarm" id="trouble" role="status" hidden></p>
<nav class="hf-nav" id="nav" aria-label="Sheets" hidden>
${buttons}</nav>
`;
}
