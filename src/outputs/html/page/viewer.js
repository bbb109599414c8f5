import { listenToKeys, listenToPinches, listenToWheel } from './gestures.js';

/** @typedef {import('./gestures.js').Pixel} Pixel */

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

/**
 * @param {HTMLElement} frame
 * @returns {Viewer}
 */
export function openViewer(frame) {
  const svg = /** @type {SVGSVGElement} */ (frame.querySelector('svg'));
  const { x, y, width, height } = svg.viewBox.baseVal;
  const view = newView(frame, { x, y, width, height });
  const paper = showWholeOnPaper(svg, () => redraw());
  frame.style.aspectRatio = `${width} / ${height}`;
  let isDue = false;

  const draw = () => {
    isDue = false;
    if (paper.isPrinting() || frame.clientWidth === 0 || frame.clientHeight === 0) return;
    const shown = view.shown();
    svg.setAttribute('viewBox', `${shown.x} ${shown.y} ${shown.width} ${shown.height}`);
    frame.classList.toggle('hf-zoomed', view.isZoomed());
  };
  const redraw = () => {
    if (!isDue) requestAnimationFrame(draw);
    isDue = true;
  };
  const zoomAt = (/** @type {number} */ factor, /** @type {Pixel} */ at) => {
    view.zoomAt(factor, at);
    redraw();
  };
  const moveBy = (/** @type {number} */ right, /** @type {number} */ down) => {
    view.moveBy(right, down);
    redraw();
  };
  const fit = () => {
    view.fit();
    redraw();
  };
  const zoom = (/** @type {number} */ factor) => zoomAt(factor, { x: 0, y: 0 });

  listenToPinches(frame, { zoomAt, moveBy });
  listenToWheel(frame, { zoomAt, isZoomed: view.isZoomed });
  listenToKeys(frame, { zoom, moveBy, fit, isZoomed: view.isZoomed });
  new ResizeObserver(redraw).observe(frame);

  return {
    fit,
    zoom,
    reveal: (box) => {
      if (view.reveal(box)) redraw();
    },
  };
}

/**
 * How near a drawing is, and which part of it is in the middle. What is shown fills the frame, and no more than the whole.
 *
 * @param {HTMLElement} frame
 * @param {Box} whole
 */
function newView(frame, whole) {
  let zoomed = 1;
  let middle = middleOf(whole);

  /** Units of the drawing for one pixel. */
  const scale = () =>
    Math.max(whole.width / frame.clientWidth, whole.height / frame.clientHeight) / zoomed;
  const half = () => ({
    x: (frame.clientWidth * scale()) / 2,
    y: (frame.clientHeight * scale()) / 2,
  });

  return {
    isZoomed: () => zoomed > 1,
    fit: () => {
      zoomed = 1;
    },
    /** Zooms so that what is under the pixel, counted from the middle of the frame, stays there. */
    zoomAt: (/** @type {number} */ factor, /** @type {Pixel} */ at) => {
      const before = scale();
      zoomed = Math.min(MOST_ZOOM, Math.max(1, zoomed * factor));
      const gain = before - scale();
      middle = { x: middle.x + at.x * gain, y: middle.y + at.y * gain };
    },
    moveBy: (/** @type {number} */ right, /** @type {number} */ down) => {
      middle = { x: middle.x + right * scale(), y: middle.y + down * scale() };
    },
    /** Whether the view had to move for the box. */
    reveal: (/** @type {Box} */ box) => {
      const at = middleOf(box);
      const { x, y } = half();
      const isSeen =
        Math.abs(at.x - middle.x) + box.width / 2 <= x &&
        Math.abs(at.y - middle.y) + box.height / 2 <= y;
      if (!isSeen) middle = at;
      return !isSeen;
    },
    /** @returns {Box} */
    shown: () => {
      const { x, y } = half();
      middle = {
        x: held(middle.x, x, whole.x, whole.width),
        y: held(middle.y, y, whole.y, whole.height),
      };
      return { x: middle.x - x, y: middle.y - y, width: 2 * x, height: 2 * y };
    },
  };
}

/** @returns {Pixel} */
function middleOf(/** @type {Box} */ { x, y, width, height }) {
  return { x: x + width / 2, y: y + height / 2 };
}

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

/** However near the screen was. */
function showWholeOnPaper(/** @type {SVGSVGElement} */ svg, /** @type {() => void} */ afterwards) {
  const whole = svg.getAttribute('viewBox') ?? '';
  let isPrinting = false;
  addEventListener('beforeprint', () => {
    isPrinting = true;
    svg.setAttribute('viewBox', whole);
  });
  addEventListener('afterprint', () => {
    isPrinting = false;
    afterwards();
  });
  return { isPrinting: () => isPrinting };
}
