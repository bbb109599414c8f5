/**
 * The panel that says everything of one piece.
 *
 * @typedef {import('./pieces.js').Piece} Piece
 * @typedef {import('../page-data.ts').PageData} PageData
 *
 * @param {HTMLElement} panel
 * @param {PageData['lines']} lines
 * @param {{ isCut: (piece: Piece) => boolean, progress: () => string, setCut: (piece: Piece, on: boolean) => void, next: () => void, close: () => void }} page
 */
export function openPanel(panel, lines, page) {
  /** @type {Piece | null} */
  let shown = null;
  const cut = make('button', { type: 'button', class: 'hf-main' });
  const progress = make('p', { class: 'hf-under' });
  const update = () => {
    progress.textContent = page.progress();
    if (shown === null) return;
    const isCut = page.isCut(shown);
    cut.textContent = isCut ? '✓ Cut' : 'Mark as cut';
    cut.setAttribute('aria-pressed', `${isCut}`);
  };
  cut.addEventListener('click', () => {
    if (shown !== null) page.setCut(shown, !page.isCut(shown));
  });
  const next = make('button', { type: 'button' }, 'Next piece');
  next.addEventListener('click', () => page.next());
  const close = make('button', { type: 'button', class: 'hf-close', 'aria-label': 'Close' }, '×');
  close.addEventListener('click', () => page.close());
  panel.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') page.close();
  });

  return {
    update,
    shown: () => shown,
    hide: () => {
      shown = null;
      panel.hidden = true;
      document.body.classList.remove('hf-open-panel');
    },
    /** @param {Piece} piece */
    show: (piece) => {
      shown = piece;
      const title = make('h2', { id: 'panel-title', tabindex: '-1' }, piece.data.title);
      panel.replaceChildren(
        make('div', { class: 'hf-panel-head' }, title, close),
        make('div', { class: 'hf-buttons' }, cut, next),
        progress,
        ...pieceParts(piece.data, lines),
      );
      panel.hidden = false;
      panel.scrollTop = 0;
      document.body.classList.add('hf-open-panel');
      update();
      title.focus({ preventScroll: true });
    },
  };
}

/**
 * @param {import('../page-data.ts').PieceData} data
 * @param {PageData['lines']} lines
 */
function pieceParts({ size, todo, verdict, facts, reckoning }, lines) {
  return [
    make('p', { class: 'hf-measure' }, size),
    ...todo.map((text) => make('p', { class: 'hf-todo' }, text)),
    ...verdictParts(verdict),
    make(
      'dl',
      { class: 'hf-facts' },
      ...facts.flatMap(([name, value]) => [make('dt', {}, name), make('dd', {}, value)]),
    ),
    ...reckoningParts(reckoning.map((index) => lines[index] ?? ['', '', ''])),
  ];
}

function verdictParts(/** @type {import('../page-data.ts').PieceData['verdict']} */ verdict) {
  if (verdict === null) return [];
  const { word, margin, after, why } = verdict;
  return [
    make('h3', {}, 'Verdict'),
    make(
      'p',
      { class: 'hf-verdict' },
      make('b', { class: `hf-word hf-${word}` }, word),
      ` ${margin}.`,
    ),
    ...(after === null ? [] : [make('p', {}, `${after}.`)]),
    make('p', {}, why),
  ];
}

function reckoningParts(/** @type {readonly PageData['lines'][number][]} */ lines) {
  if (lines.length === 0) return [];
  const steps = lines.map(([quantity, formula, value]) =>
    make(
      'li',
      {},
      make('b', {}, `${quantity} = ${value}`),
      ...(formula === '' ? [] : [make('span', {}, formula)]),
    ),
  );
  return [
    make(
      'details',
      { class: 'hf-reckoning' },
      make('summary', {}, 'The reckoning, step by step'),
      make('ol', {}, ...steps),
    ),
  ];
}

/**
 * An element with its attributes; texts become text, never markup.
 *
 * @template {keyof HTMLElementTagNameMap} Name
 * @param {Name} name
 * @param {Readonly<Record<string, string>>} attributes
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[Name]}
 */
export function make(name, attributes, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}
