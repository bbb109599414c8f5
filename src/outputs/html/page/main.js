import { startFinder } from './finder.js';
import { make, openPanel } from './panel.js';
import {
  boxOfPiece,
  findPieces,
  makeButtons,
  makeReachable,
  markChosen,
  markCut,
} from './pieces.js';
import { openTicks } from './ticks.js';
import { openViewer } from './viewer.js';

/** @typedef {import('./pieces.js').Piece} Piece */
/** @typedef {import('./viewer.js').Viewer} Viewer */

/** @type {import('../page-data.ts').PageData} */
const plan = JSON.parse(byId('data').textContent ?? '');
const pieces = findPieces(plan.pieces);
const parts = /** @type {HTMLElement[]} */ ([...document.querySelectorAll('.hf-part')]);
const boxes = /** @type {HTMLInputElement[]} */ ([...document.querySelectorAll('[data-tick]')]);
const goes = /** @type {HTMLButtonElement[]} */ ([...document.querySelectorAll('[data-go]')]);
/** @type {Map<string, Viewer>} */
const viewers = new Map();
let shownPart = parts[0]?.dataset['sheet'] ?? '';
/** @type {HTMLElement | SVGElement | null} */
let opener = null;

const ticks = openTicks(plan.key, showTicks);
const panel = openPanel(byId('panel'), plan.lines, {
  isCut: ({ data }) => ticks.has(`p${data.id}`),
  progress: () => byId('count').textContent ?? '',
  setCut: ({ data }, on) => ticks.set([`p${data.id}`], on),
  next: openNext,
  close: closePiece,
});

for (const frame of document.querySelectorAll('.hf-frame'))
  setUpFrame(/** @type {HTMLElement} */ (frame));
makeButtons(pieces, openPiece);
for (const piece of pieces) piece.button.addEventListener('click', () => openPiece(piece));
for (const box of boxes) box.addEventListener('change', () => ticks.set(givenBy(box), box.checked));
for (const go of goes)
  go.addEventListener('click', () => {
    showPart(go.dataset['go'] ?? '');
    // From a link in the text the reading goes on at the sheet; in the row of sheets the finger stays where it is.
    if (go.closest('nav') === null) document.getElementById(`head-${shownPart}`)?.focus();
  });
if (goes.length > 0) start();

function start() {
  const find = /** @type {HTMLInputElement} */ (byId('find'));
  const look = startFinder(pieces, find, byId('found'), {
    shown: () => shownPart,
    show: showPart,
    open: openPiece,
  });
  find.value = '';
  byId('next').addEventListener('click', openNext);
  byId('bar').hidden = false;
  byId('nav').hidden = goes.filter((go) => go.closest('nav') !== null).length < 2;
  byId('next').hidden = pieces.length === 0;
  find.disabled = pieces.length === 0;
  byId('plan').append(clearButton());
  printWhole();
  document.documentElement.classList.add('hf-live');
  showPart(shownPart);
  showTicks();
  look();
}

/** Buttons in the frame, and its drawing as one stop for the keyboard. */
function setUpFrame(/** @type {HTMLElement} */ frame) {
  const figure = /** @type {HTMLElement} */ (frame.closest('figure'));
  const label = figure.getAttribute('aria-label') ?? '';
  const key = /** @type {HTMLElement} */ (frame.closest('.hf-part')).dataset['sheet'] ?? '';
  const viewer = openViewer(frame);
  viewers.set(key, viewer);
  frame.tabIndex = 0;
  frame.setAttribute('role', 'group');
  frame.setAttribute(
    'aria-label',
    `${label}: arrow keys move it once it is zoomed, plus and minus zoom, 0 shows the whole`,
  );
  // All that is drawn is said by the targets over it and by the list.
  for (const layer of frame.querySelectorAll('svg > g')) layer.setAttribute('aria-hidden', 'true');
  const tool = (
    /** @type {string} */ sign,
    /** @type {string} */ name,
    /** @type {() => void} */ act,
  ) => {
    const button = make('button', { type: 'button', 'aria-label': `${name}: ${label}` }, sign);
    button.addEventListener('click', act);
    return button;
  };
  figure.append(
    make(
      'div',
      { class: 'hf-tools' },
      tool('+', 'Zoom in', () => viewer.zoom(2)),
      tool('−', 'Zoom out', () => viewer.zoom(0.5)),
      tool('Fit', 'Fit the whole', viewer.fit),
    ),
  );
}

function showPart(/** @type {string} */ key) {
  shownPart = key;
  for (const part of parts) part.classList.toggle('hf-off', part.dataset['sheet'] !== key);
  for (const go of goes)
    if (go.closest('nav') !== null) {
      if (go.dataset['go'] === key) go.setAttribute('aria-current', 'true');
      else go.removeAttribute('aria-current');
    }
}

function openPiece(/** @type {Piece} */ piece) {
  const active = document.activeElement;
  const isInside = active instanceof Element && byId('panel').contains(active);
  if (!isInside && (active instanceof HTMLElement || active instanceof SVGElement)) opener = active;
  showPart(`${piece.data.sheet}`);
  makeReachable(pieces, piece);
  markChosen(pieces, piece);
  panel.show(piece);
  viewers.get(`${piece.data.sheet}`)?.reveal(boxOfPiece(piece));
  bringIntoSight(piece);
}

/** On a narrow screen the panel lies over the lower half: the drawing has to stand above it. */
function bringIntoSight(/** @type {Piece} */ piece) {
  const frame = piece.drawn.closest('.hf-frame');
  const { top = 0, bottom = 0 } = frame?.getBoundingClientRect() ?? {};
  if (top < 0 || bottom > innerHeight || byId('panel').getBoundingClientRect().left < 1)
    frame?.scrollIntoView({ block: 'start' });
  else piece.row.scrollIntoView({ block: 'nearest' });
}

function closePiece() {
  const piece = panel.shown();
  panel.hide();
  markChosen(pieces, null);
  const back = opener?.isConnected && opener !== document.body ? opener : piece?.button;
  back?.focus();
  opener = null;
}

/** The first that is not cut behind the one that is open, or on the sheet that is shown; from the start again behind the last. */
function openNext() {
  const from = panel.shown();
  const start =
    from === null
      ? pieces.findIndex(({ data }) => `${data.sheet}` === shownPart)
      : pieces.indexOf(from) + 1;
  const at = Math.max(0, start);
  const next = [...pieces.slice(at), ...pieces.slice(0, at)].find(
    ({ data }) => !ticks.has(`p${data.id}`),
  );
  if (next === undefined) byId('found').textContent = 'All pieces are cut.';
  else openPiece(next);
}

/** The names that a box stands for: its own, and those of the pieces that a cut gives. */
function givenBy(/** @type {HTMLInputElement} */ box) {
  const { tick = '', gives = '' } = box.dataset;
  return [tick, ...gives.split(' ').filter(Boolean)];
}

function showTicks() {
  for (const box of boxes) {
    box.checked = ticks.has(box.dataset['tick'] ?? '');
    const line = box.closest('.hf-row, tr');
    line?.classList.toggle('hf-cut', line.querySelector('input:not(:checked)') === null);
  }
  for (const piece of pieces) markCut(piece, ticks.has(`p${piece.data.id}`));
  for (const done of document.querySelectorAll('[data-done]')) {
    const own = parts.find(
      ({ dataset }) => dataset['sheet'] === /** @type {HTMLElement} */ (done).dataset['done'],
    );
    const { cut, all } = countIn(boxes.filter((box) => own?.contains(box)));
    done.textContent = `${cut}/${all}`;
  }
  const { cut, all } = countIn(boxes);
  const meter = /** @type {HTMLProgressElement} */ (byId('meter'));
  meter.max = Math.max(1, all);
  meter.value = cut;
  byId('count').textContent = `${cut} of ${all} cut`;
  byId('trouble').textContent = ticks.trouble() ?? '';
  byId('trouble').hidden = ticks.trouble() === null;
  panel.update();
}

/** In pieces. */
function countIn(/** @type {readonly HTMLInputElement[]} */ own) {
  const sum = (/** @type {readonly HTMLInputElement[]} */ some) =>
    some.reduce((total, box) => total + Number(box.dataset['weight'] ?? 0), 0);
  return { cut: sum(own.filter(({ checked }) => checked)), all: sum(own) };
}

/** What is folded up is open on paper. */
function printWhole() {
  const folded = () => document.querySelectorAll('.hf-about');
  addEventListener('beforeprint', () => {
    for (const each of folded()) each.setAttribute('open', '');
  });
  addEventListener('afterprint', () => {
    for (const each of folded()) each.removeAttribute('open');
  });
}

/** Asks once more, since nothing brings ticks back. */
function clearButton() {
  const button = make('button', { type: 'button', class: 'hf-clear' }, 'Clear all ticks');
  button.addEventListener('click', () => {
    const isSure = button.dataset['sure'] === 'yes';
    if (isSure) ticks.clear();
    button.dataset['sure'] = isSure ? '' : 'yes';
    button.textContent = isSure ? 'Clear all ticks' : 'Really clear all ticks';
  });
  button.addEventListener('blur', () => {
    button.dataset['sure'] = '';
    button.textContent = 'Clear all ticks';
  });
  return button;
}

/** @returns {HTMLElement} */
function byId(/** @type {string} */ id) {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`${id} is not in the page`);
  return element;
}
