/**
 * Moves and zooms a drawing in its frame by changing what of it is shown.
 *
 * @typedef {{ x: number, y: number, width: number, height: number }} Box
 *
 * @typedef {object} Viewer
 * @property {() => void} fit
 * @property {(factor: number) => void} zoom
 * @property {(box: Box) => void} reveal Brings the box into view, no nearer than the drawing is.
 */

const MOST_ZOOM = 24;
const ZOOM_STEP = 1.5;
/** Share of what is shown that an arrow key moves it by. */
const KEY_MOVE = 0.15;
/** A finger that moves less, in pixels, has tapped. */
const LEAST_DRAG = 8;

/**
 * @param {HTMLElement} frame
 * @returns {Viewer}
 */
export function openViewer(frame) {
  const svg = /** @type {SVGSVGElement} */ (frame.querySelector('svg'));
  const { x, y, width, height } = svg.viewBox.baseVal;
  const whole = { x, y, width, height };
  const all = svg.getAttribute('viewBox') ?? '';
  frame.style.aspectRatio = `${width} / ${height}`;
  let zoomed = 1;
  let middle = { x: x + width / 2, y: y + height / 2 };
  let isDue = false;
  let isPrinting = false;

  /** Units of the drawing for one pixel. */
  const scale = () =>
    Math.max(whole.width / frame.clientWidth, whole.height / frame.clientHeight) / zoomed;

  const draw = () => {
    isDue = false;
    if (isPrinting || frame.clientWidth === 0 || frame.clientHeight === 0) return;
    const half = { x: (frame.clientWidth * scale()) / 2, y: (frame.clientHeight * scale()) / 2 };
    middle = {
      x: held(middle.x, half.x, whole.x, whole.width),
      y: held(middle.y, half.y, whole.y, whole.height),
    };
    const corner = `${middle.x - half.x} ${middle.y - half.y}`;
    svg.setAttribute('viewBox', `${corner} ${2 * half.x} ${2 * half.y}`);
    frame.classList.toggle('hf-zoomed', zoomed > 1);
  };
  const redraw = () => {
    if (!isDue) requestAnimationFrame(draw);
    isDue = true;
  };

  /** Zooms so that what is under the pixel, counted from the middle of the frame, stays there. */
  const zoomAt = (/** @type {number} */ factor, /** @type {Pixel} */ at) => {
    const before = scale();
    zoomed = Math.min(MOST_ZOOM, Math.max(1, zoomed * factor));
    const gain = before - scale();
    middle = { x: middle.x + at.x * gain, y: middle.y + at.y * gain };
    redraw();
  };
  const moveBy = (/** @type {number} */ right, /** @type {number} */ down) => {
    middle = { x: middle.x + right * scale(), y: middle.y + down * scale() };
    redraw();
  };
  const fit = () => {
    zoomed = 1;
    redraw();
  };
  const zoom = (/** @type {number} */ factor) => zoomAt(factor, { x: 0, y: 0 });

  listenToPointers(frame, { zoomAt, moveBy, isZoomed: () => zoomed > 1 });
  listenToKeys(frame, { zoom, moveBy, fit, isZoomed: () => zoomed > 1 });
  new ResizeObserver(redraw).observe(frame);
  // Paper shows the whole drawing, however near the screen was.
  addEventListener('beforeprint', () => {
    isPrinting = true;
    svg.setAttribute('viewBox', all);
  });
  addEventListener('afterprint', () => {
    isPrinting = false;
    redraw();
  });

  return {
    fit,
    zoom,
    reveal: (box) => {
      const half = { x: (frame.clientWidth * scale()) / 2, y: (frame.clientHeight * scale()) / 2 };
      const isSeen =
        Math.abs(box.x + box.width / 2 - middle.x) + box.width / 2 <= half.x &&
        Math.abs(box.y + box.height / 2 - middle.y) + box.height / 2 <= half.y;
      if (isSeen) return;
      middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      redraw();
    },
  };
}

/** @typedef {{ x: number, y: number }} Pixel */

/** The middle of the view, held so that no more than the whole is shown; in the middle where that is less than the view. */
function held(
  /** @type {number} */ at,
  /** @type {number} */ half,
  /** @type {number} */ from,
  /** @type {number} */ length,
) {
  if (2 * half >= length) return from + length / 2;
  return Math.min(from + length - half, Math.max(from + half, at));
}

/**
 * One finger or the mouse drags, two fingers pinch, the wheel zooms. Drawing out further than the whole is left to the page, so that it scrolls.
 *
 * @param {HTMLElement} frame
 * @param {{ zoomAt: (factor: number, at: Pixel) => void, moveBy: (right: number, down: number) => void, isZoomed: () => boolean }} view
 */
function listenToPointers(frame, { zoomAt, moveBy, isZoomed }) {
  /** @type {Map<number, Pixel>} */
  const down = new Map();
  let isDrag = false;
  let start = { x: 0, y: 0 };

  const inFrame = (/** @type {Pixel} */ at) => {
    const { left, top } = frame.getBoundingClientRect();
    return { x: at.x - left - frame.clientWidth / 2, y: at.y - top - frame.clientHeight / 2 };
  };
  const spread = () => {
    const [a, b] = [...down.values()];
    if (a === undefined || b === undefined) return null;
    return {
      length: Math.hypot(a.x - b.x, a.y - b.y),
      middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
    };
  };

  frame.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    if (down.size === 0) {
      isDrag = false;
      start = { x: event.clientX, y: event.clientY };
    }
    down.set(event.pointerId, { x: event.clientX, y: event.clientY });
  });
  frame.addEventListener('pointermove', (event) => {
    const last = down.get(event.pointerId);
    if (last === undefined) return;
    const now = { x: event.clientX, y: event.clientY };
    const before = spread();
    down.set(event.pointerId, now);
    const after = spread();
    if (!isDrag) {
      isDrag = after !== null || Math.hypot(now.x - start.x, now.y - start.y) > LEAST_DRAG;
      if (!isDrag) return;
    }
    // Held from here on, so that it goes on outside the frame and ends in no tap on a piece.
    frame.setPointerCapture(event.pointerId);
    if (before === null || after === null) {
      moveBy(last.x - now.x, last.y - now.y);
      return;
    }
    moveBy(before.middle.x - after.middle.x, before.middle.y - after.middle.y);
    zoomAt(after.length / Math.max(1, before.length), inFrame(after.middle));
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
  frame.addEventListener(
    'wheel',
    (event) => {
      if (event.deltaY > 0 && !isZoomed()) return;
      event.preventDefault();
      const lines =
        event.deltaMode === WheelEvent.DOM_DELTA_PIXEL ? event.deltaY / 100 : event.deltaY / 3;
      zoomAt(
        ZOOM_STEP ** -Math.min(2, Math.max(-2, lines)),
        inFrame({ x: event.clientX, y: event.clientY }),
      );
    },
    { passive: false },
  );
}

/**
 * @param {HTMLElement} frame
 * @param {{ zoom: (factor: number) => void, moveBy: (right: number, down: number) => void, fit: () => void, isZoomed: () => boolean }} view
 */
function listenToKeys(frame, { zoom, moveBy, fit, isZoomed }) {
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
