import { markFound } from './pieces.js';

/** @typedef {import('./pieces.js').Piece} Piece */

/**
 * Looks for pieces by any of their words; what does not match leaves the lists and pales in the drawings.
 *
 * @param {readonly Piece[]} pieces
 * @param {HTMLInputElement} input
 * @param {HTMLElement} said
 * @param {{ shown: () => string, show: (key: string) => void, open: (piece: Piece) => void }} page
 */
export function startFinder(pieces, input, said, page) {
  const words = pieces.map(({ data, row }) =>
    plain(
      [data.title, data.size, row.textContent, ...data.facts.map(([, value]) => value)].join(' '),
    ),
  );
  const matches = () => {
    const asked = plain(input.value).split(' ').filter(Boolean);
    if (asked.length === 0) return null;
    return pieces.filter((_, i) => asked.every((word) => words[i]?.includes(word)));
  };
  const look = () => {
    const found = matches();
    markFound(pieces, found === null ? null : new Set(found.map(({ data }) => data.id)));
    const isHere = (/** @type {Piece} */ { data }) => `${data.sheet}` === page.shown();
    const [first] = found ?? [];
    if (found !== null && first !== undefined && !found.some(isHere))
      page.show(`${first.data.sheet}`);
    said.textContent = found === null ? '' : foundText(found.length, found.filter(isHere).length);
  };
  input.addEventListener('input', look);
  input.addEventListener('keydown', (event) => {
    if (event.key === 'Enter') {
      const found = matches() ?? [];
      const here = found.find(({ data }) => `${data.sheet}` === page.shown()) ?? found[0];
      if (here !== undefined) page.open(here);
    } else if (event.key === 'Escape' && input.value !== '') {
      input.value = '';
      look();
    } else return;
    event.preventDefault();
  });
  return look;
}

function foundText(/** @type {number} */ all, /** @type {number} */ here) {
  if (all === 0) return 'Nothing found.';
  const others = all - here;
  return `${all} found: ${here} on this sheet${others === 0 ? '' : `, ${others} on others`}.`;
}

/** Small letters without accents, a times sign as an x, so that "720x560" finds "720 × 560". */
function plain(/** @type {string} */ text) {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/\s*[×x*]\s*(?=\d)/g, 'x')
    .replace(/\s+/g, ' ')
    .trim();
}
