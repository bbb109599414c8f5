/**
 * The pieces as they stand in drawings and lists, and how they look there.
 *
 * @typedef {import('../page-data.ts').PieceData} PieceData
 *
 * @typedef {object} Piece
 * @property {PieceData} data
 * @property {SVGGElement} drawn
 * @property {HTMLElement} row
 * @property {HTMLButtonElement} button In the list.
 */

const SVG = 'http://www.w3.org/2000/svg';

/**
 * @param {readonly PieceData[]} all
 * @returns {readonly Piece[]}
 */
export function findPieces(all) {
  return all.map((data) => {
    const drawn = document.getElementById(`sheet-${data.sheet}-piece-${data.id}`);
    const row = document.querySelector(`[data-piece="${data.id}"]`);
    const button = row?.querySelector('button');
    if (!(drawn instanceof SVGGElement) || !(row instanceof HTMLElement) || !button)
      throw new Error(`piece ${data.id} is not in the page`);
    return { data, drawn, row, button };
  });
}

/**
 * Makes a button of each drawn piece. One of a drawing is reached by Tab; n and p go to the next and the one before, as they are cut.
 *
 * @param {readonly Piece[]} pieces
 * @param {(piece: Piece) => void} open
 */
export function makeButtons(pieces, open) {
  pieces.forEach((piece, i) => {
    const { drawn, data } = piece;
    const isFirst = pieces[i - 1]?.data.sheet !== data.sheet;
    drawn.setAttribute('tabindex', isFirst ? '0' : '-1');
    drawn.setAttribute('role', 'button');
    drawn.setAttribute('aria-label', drawn.querySelector('title')?.textContent ?? data.title);
    drawn.addEventListener('click', () => open(piece));
    drawn.addEventListener('focus', () => makeReachable(pieces, piece));
    drawn.addEventListener('keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const other = pieces[event.key === 'n' ? i + 1 : event.key === 'p' ? i - 1 : -1];
      if (event.key === 'Enter' || event.key === ' ') open(piece);
      else if (other?.data.sheet === data.sheet) other.drawn.focus();
      else return;
      event.preventDefault();
    });
  });
}

/**
 * @param {readonly Piece[]} pieces
 * @param {Piece} piece
 */
export function makeReachable(pieces, piece) {
  for (const { drawn, data } of pieces)
    if (data.sheet === piece.data.sheet)
      drawn.setAttribute('tabindex', data.id === piece.data.id ? '0' : '-1');
}

/**
 * A line around the piece that lies above all others of the drawing; the one before goes away.
 *
 * @param {Piece | null} piece
 */
export function markChosen(piece) {
  for (const mark of document.querySelectorAll('.hf-ring')) mark.remove();
  for (const row of document.querySelectorAll('.hf-chosen')) row.classList.remove('hf-chosen');
  if (piece === null) return;
  piece.row.classList.add('hf-chosen');
  ring(piece, 'hf-ring');
}

/**
 * @param {readonly Piece[]} pieces
 * @param {ReadonlySet<number> | null} ids Null where nothing is looked for.
 */
export function markFound(pieces, ids) {
  for (const mark of document.querySelectorAll('.hf-hit')) mark.remove();
  for (const piece of pieces) {
    const isFound = ids === null || ids.has(piece.data.id);
    piece.row.classList.toggle('hf-away', !isFound);
    piece.drawn.classList.toggle('hf-dim', !isFound);
    if (ids !== null && isFound) ring(piece, 'hf-hit');
  }
  for (const row of document.querySelectorAll('.hf-loose'))
    row.classList.toggle('hf-away', ids !== null);
}

/**
 * A cut piece is pale and carries a tick, so that it is told without colours.
 *
 * @param {Piece} piece
 * @param {boolean} isCut
 */
export function markCut({ drawn, row }, isCut) {
  row.classList.toggle('hf-cut', isCut);
  drawn.classList.toggle('hf-cut', isCut);
  drawn.setAttribute('aria-pressed', `${isCut}`);
  const tick = drawn.querySelector('.hf-check');
  if (!isCut) tick?.remove();
  if (!isCut || tick !== null) return;
  const { x, y, width, height } = outlineOf(drawn).getBBox();
  const size = Math.min(width, height) * 0.7;
  const left = x + width / 2 - size / 2;
  const top = y + height / 2 - size / 2;
  const check = document.createElementNS(SVG, 'path');
  check.setAttribute(
    'd',
    `M${left + size * 0.12} ${top + size * 0.55} l${size * 0.26} ${size * 0.28} l${size * 0.5} ${-size * 0.62}`,
  );
  check.setAttribute('class', 'hf-check');
  drawn.append(check);
}

/** @param {Piece} piece */
export function boxOfPiece({ drawn }) {
  return outlineOf(drawn).getBBox();
}

/** The first thing that is drawn of a piece is its outline. */
function outlineOf(/** @type {SVGGElement} */ drawn) {
  return /** @type {SVGGraphicsElement} */ (drawn.querySelector('path'));
}

function ring(/** @type {Piece} */ { drawn }, /** @type {string} */ kind) {
  const around = document.createElementNS(SVG, 'path');
  around.setAttribute('d', outlineOf(drawn).getAttribute('d') ?? '');
  around.setAttribute('class', kind);
  drawn.ownerSVGElement?.append(around);
}
