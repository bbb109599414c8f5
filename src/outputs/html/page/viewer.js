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

  /** Half of what the frame shows. */
  const halfView = () => ({
    x: (frame.clientWidth * scale()) / 2,
    y: (frame.clientHeight * scale()) / 2,
  });
  const draw = () => {
    isDue = false;
    if (isPrinting || frame.clientWidth === 0 || frame.clientHeight === 0) return;
    const half = halfView();
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

  const isZoomed = () => zoomed > 1;
  listenToPinches(frame, { zoomAt, moveBy });
  listenToWheel(frame, { zoomAt, isZoomed });
  listenToKeys(frame, { zoom, moveBy, fit, isZoomed });
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
      const half = halfView();
      const isSeen =
        Math.abs(box.x + box.width / 2 - middle.x) + box.width / 2 <= half.x &&
        Math.abs(box.y + box.height / 2 - middle.y) + box.height / 2 <= half.y;
      if (isSeen) return;
      middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      redraw();
    },
  };
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
