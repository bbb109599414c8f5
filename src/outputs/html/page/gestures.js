/**
 * What fingers, mouse, wheel and keys do to a drawing in its frame.
 *
 * @typedef {{ x: number, y: number }} Pixel
 */

const ZOOM_STEP = 1.5;
/** Share of what is shown that an arrow key moves it by. */
const KEY_MOVE = 0.15;
/** A finger that moves less, in pixels, has tapped. */
const LEAST_DRAG = 8;

/**
 * One finger or the mouse drags, two fingers pinch. A drag ends in no tap on a piece.
 *
 * @param {HTMLElement} frame
 * @param {{ zoomAt: (factor: number, at: Pixel) => void, moveBy: (right: number, down: number) => void }} view
 */
export function listenToPinches(frame, { zoomAt, moveBy }) {
  /** @type {Map<number, Pixel>} */
  const down = new Map();
  let isDrag = false;
  let start = { x: 0, y: 0 };

  frame.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    if (down.size === 0) {
      isDrag = false;
      start = pixelOf(event);
    }
    down.set(event.pointerId, pixelOf(event));
  });
  frame.addEventListener('pointermove', (event) => {
    const last = down.get(event.pointerId);
    if (last === undefined) return;
    const now = pixelOf(event);
    const before = spread(down);
    down.set(event.pointerId, now);
    const after = spread(down);
    isDrag ||= after !== null || Math.hypot(now.x - start.x, now.y - start.y) > LEAST_DRAG;
    if (!isDrag) return;
    // Held from here on, so that it goes on outside the frame.
    frame.setPointerCapture(event.pointerId);
    if (before === null || after === null) {
      moveBy(last.x - now.x, last.y - now.y);
      return;
    }
    moveBy(before.middle.x - after.middle.x, before.middle.y - after.middle.y);
    zoomAt(after.length / Math.max(1, before.length), fromMiddle(frame, after.middle));
  });
  for (const kind of /** @type {const} */ (['pointerup', 'pointercancel']))
    frame.addEventListener(kind, (event) => down.delete(event.pointerId));
  frame.addEventListener(
    'click',
    (event) => {
      if (isDrag) event.stopPropagation();
      isDrag = false;
    },
    true,
  );
}

/**
 * Drawing out further than the whole is left to the page, so that it scrolls.
 *
 * @param {HTMLElement} frame
 * @param {{ zoomAt: (factor: number, at: Pixel) => void, isZoomed: () => boolean }} view
 */
export function listenToWheel(frame, { zoomAt, isZoomed }) {
  frame.addEventListener(
    'wheel',
    (event) => {
      if (event.deltaY > 0 && !isZoomed()) return;
      event.preventDefault();
      const lines =
        event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? event.deltaY / 100 : event.deltaY / 3;
      const factor = ZOOM_STEP ** -Math.min(2, Math.max(-2, lines));
      zoomAt(factor, fromMiddle(frame, pixelOf(event)));
    },
    { passive: false },
  );
}

/**
 * @param {HTMLElement} frame
 * @param {{ zoom: (factor: number) => void, moveBy: (right: number, down: number) => void, fit: () => void, isZoomed: () => boolean }} view
 */
export function listenToKeys(frame, { zoom, moveBy, fit, isZoomed }) {
  /** @type {Readonly<Record<string, () => void>>} */
  const always = {
    '+': () => zoom(ZOOM_STEP),
    '=': () => zoom(ZOOM_STEP),
    '-': () => zoom(1 / ZOOM_STEP),
    0: fit,
  };
  const move = (/** @type {number} */ right, /** @type {number} */ down) => () =>
    moveBy(right * KEY_MOVE * frame.clientWidth, down * KEY_MOVE * frame.clientHeight);
  /** @type {Readonly<Record<string, () => void>>} */
  const nearer = {
    ArrowLeft: move(-1, 0),
    ArrowRight: move(1, 0),
    ArrowUp: move(0, -1),
    ArrowDown: move(0, 1),
  };
  frame.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act = always[event.key] ?? (isZoomed() ? nearer[event.key] : undefined);
    if (act === undefined) return;
    event.preventDefault();
    act();
  });
}

/** @returns {Pixel} */
function pixelOf(/** @type {MouseEvent} */ { clientX, clientY }) {
  return { x: clientX, y: clientY };
}

/** Counted from the middle of the frame. */
function fromMiddle(/** @type {HTMLElement} */ frame, /** @type {Pixel} */ at) {
  const { left, top } = frame.getBoundingClientRect();
  return { x: at.x - left - frame.clientWidth / 2, y: at.y - top - frame.clientHeight / 2 };
}

/** How far two fingers are apart, and what is midway; null where there are not two. */
function spread(/** @type {ReadonlyMap<number, Pixel>} */ down) {
  const [a, b] = [...down.values()];
  if (a === undefined || b === undefined) return null;
  return {
    length: Math.hypot(a.x - b.x, a.y - b.y),
    middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
  };
}
