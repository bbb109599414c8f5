/**
 * The pieces as they stand in drawings and lists, and how they look there.
 *
 * @typedef {import('../page-data.ts').PieceData} PieceData
 *
 * @typedef {object} Piece
 * @property {PieceData} data
 * @property {SVGGElement} drawn
 * @property {SVGPathElement} target Lies over the drawn piece, unseen, and is its button.
 * @property {string} name What the target is called: name, size and order.
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
    const name = drawn.querySelector('title')?.textContent ?? data.title;
    return { data, drawn, target: layTarget(drawn, name), name, row, button };
  });
}

/** The outline once more above everything else, so that no line of a neighbour covers its marks. */
function layTarget(/** @type {SVGGElement} */ drawn, /** @type {string} */ name) {
  const target = document.createElementNS(SVG, 'path');
  target.setAttribute('class', 'hf-target');
  target.setAttribute('d', outlineOf(drawn).getAttribute('d') ?? '');
  target.setAttribute('fill-rule', 'evenodd');
  target.setAttribute('role', 'button');
  const title = document.createElementNS(SVG, 'title');
  title.textContent = name;
  target.append(title);
  drawn.ownerSVGElement?.append(target);
  return target;
}

/**
 * One target of a drawing is reached by Tab; n and p go to the next and the one before, as they are cut.
 *
 * @param {readonly Piece[]} pieces
 * @param {(piece: Piece) => void} open
 */
export function makeButtons(pieces, open) {
  pieces.forEach((piece, i) => {
    const { target, data } = piece;
    const isFirst = pieces[i - 1]?.data.sheet !== data.sheet;
    target.setAttribute('tabindex', isFirst ? '0' : '-1');
    target.addEventListener('click', () => open(piece));
    target.addEventListener('focus', () => makeReachable(pieces, piece));
    target.addEventListener('keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const other = pieces[event.key === 'n' ? i + 1 : event.key === 'p' ? i - 1 : -1];
      if (event.key === 'Enter' || event.key === ' ') open(piece);
      else if (other?.data.sheet === data.sheet) other.target.focus();
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
  for (const { target, data } of pieces)
    if (data.sheet === piece.data.sheet)
      target.setAttribute('tabindex', data.id === piece.data.id ? '0' : '-1');
}

/**
 * @param {readonly Piece[]} pieces
 * @param {Piece | null} chosen
 */
export function markChosen(pieces, chosen) {
  for (const { data, target, row } of pieces)
    for (const element of [target, row])
      element.classList.toggle('hf-chosen', data.id === chosen?.data.id);
}

/**
 * @param {readonly Piece[]} pieces
 * @param {ReadonlySet<number> | null} ids Null where nothing is looked for.
 */
export function markFound(pieces, ids) {
  for (const { data, drawn, target, row } of pieces) {
    const isFound = ids === null || ids.has(data.id);
    row.classList.toggle('hf-away', !isFound);
    drawn.classList.toggle('hf-dim', !isFound);
    target.classList.toggle('hf-hit', ids !== null && isFound);
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
export function markCut(piece, isCut) {
  const { drawn, target, name, row } = piece;
  row.classList.toggle('hf-cut', isCut);
  drawn.classList.toggle('hf-cut', isCut);
  target.setAttribute('aria-label', isCut ? `${name}, cut` : name);
  const tick = drawn.querySelector('.hf-check');
  if (!isCut) tick?.remove();
  if (!isCut || tick !== null) return;
  const { x, y, width, height } = boxOfPiece(piece);
  const size = Math.min(width, height) * 0.7;
  const left = x + (width - size) / 2;
  const top = y + (height - size) / 2;
  const check = document.createElementNS(SVG, 'path');
  const start = `M${left + size * 0.12} ${top + size * 0.55}`;
  check.setAttribute('d', `${start} l${size * 0.26} ${size * 0.28} l${size * 0.5} ${-size * 0.62}`);
  check.setAttribute('class', 'hf-check');
  drawn.append(check);
}

/** From the data, as a browser does not measure what it does not show. */
export function boxOfPiece(/** @type {Piece} */ { data }) {
  const [x, y, width, height] = data.box;
  return { x, y, width, height };
}

/** The first thing that is drawn of a piece is its outline. */
function outlineOf(/** @type {SVGGElement} */ drawn) {
  return /** @type {SVGGraphicsElement} */ (drawn.querySelector('path'));
}
