// Gives text, code and figure of a sticker their rooms.
// Idea: the rooms follow from the size of the label alone, so that all of a grid look alike. A wide label has its code in the upper right corner and
//   the figure below it or between text and code, whichever makes the figure larger; a narrow one has both below the text.
// Source: our own.
// Cost: constant.
// Degenerate cases: on a small label there is no room for a figure, then none for a code.
import type { CodeRoom } from './sticker-code.ts';
import type { Room } from './sticker-figure.ts';

/** Where things lie on a label, from its lower left corner. */
export interface StickerRooms {
  readonly text: Room;
  readonly figure: Room | null;
  readonly code: CodeRoom | null;
}

/** The quiet zone may come nearer to the edge of the label than anything that is printed. */
const QUIET_EDGE = 0.6;
const GAP = 1.6;
/** The small one makes room for a figure that would have none beside the usual one. */
const CODE = { least: 10.5, small: 16.2, usual: 19.2, most: 26 };
const LEAST_FIGURE = 7;
/** Less room, and text comes before code and figure. */
const LEAST_TEXT = { width: 17, height: 13, besideFigure: 26 };
/** A label is wide from this ratio on. */
const WIDE = 1.2;

export function stickerRooms(width: number, height: number): StickerRooms {
  const inset = Math.max(1, Math.min(2.2, 0.06 * Math.min(width, height)));
  return width >= WIDE * height
    ? wideRooms(width, height, inset)
    : narrowRooms(width, height, inset);
}

function wideRooms(width: number, height: number, inset: number): StickerRooms {
  const whole = { left: inset, bottom: inset, height: height - 2 * inset };
  const sides = [CODE.usual, CODE.small].flatMap((usual) => {
    const most = [height - 2 * QUIET_EDGE, width - inset - LEAST_TEXT.width];
    const side = codeSide(Math.max(usual, 0.42 * height), ...most);
    return side === null ? [] : [{ side, figure: wideFigure(width, height, inset, side) }];
  });
  const best = sides.find((each) => each.figure !== null) ?? sides[0];
  if (best === undefined)
    return { text: { ...whole, width: width - 2 * inset }, figure: null, code: null };
  const { side, figure } = best;
  const code = { corner: { x: width - QUIET_EDGE, y: height - QUIET_EDGE }, side };
  const end = Math.min(width - QUIET_EDGE - side, figure === null ? width : figure.left - GAP);
  return { text: { ...whole, width: end - inset }, figure, code };
}

/** The larger of a figure below the code and one between text and code. */
function wideFigure(width: number, height: number, inset: number, side: number): Room | null {
  const column = Math.max(side, Math.min(0.33 * width, 0.8 * height)) - inset + QUIET_EDGE;
  const below: Room = {
    left: width - inset - column,
    bottom: inset,
    width: column,
    height: height - QUIET_EDGE - side - inset,
  };
  const across = Math.min(height - 2 * inset, 0.22 * width);
  const between: Room = {
    left: width - QUIET_EDGE - side - GAP - across,
    bottom: inset,
    width: across,
    height: height - 2 * inset,
  };
  const least = (room: Room) => Math.min(room.width, room.height);
  const isRoomy = between.left - GAP - inset >= LEAST_TEXT.besideFigure;
  const best = isRoomy && least(between) > least(below) ? between : below;
  return least(best) < LEAST_FIGURE ? null : best;
}

/** Text above, below it the figure on the left and the code on the right, or one over the other. */
function narrowRooms(width: number, height: number, inset: number): StickerRooms {
  const inner = width - 2 * inset;
  const spare = height - inset - GAP - LEAST_TEXT.height;
  const side = codeSide(Math.max(CODE.usual, 0.45 * width), width - 2 * QUIET_EDGE, spare);
  const code =
    side === null ? null : { corner: { x: width - QUIET_EDGE, y: QUIET_EDGE + side }, side };
  const figure = narrowFigure({ inset, inner, spare }, side, height);
  const top = Math.max(
    inset,
    side === null ? 0 : QUIET_EDGE + side + GAP / 2,
    figure === null ? 0 : figure.bottom + figure.height + GAP,
  );
  const text = { left: inset, bottom: top, width: inner, height: height - inset - top };
  return { text, figure, code };
}

function narrowFigure(
  { inset, inner, spare }: { inset: number; inner: number; spare: number },
  side: number | null,
  height: number,
): Room | null {
  const beside = inner - (side === null ? 0 : side - inset + QUIET_EDGE + GAP / 2);
  const most = Math.min(spare, 0.45 * height);
  if (beside >= 0.3 * inner) {
    const high = Math.min(most, Math.max(side ?? 0, beside));
    const room = { left: inset, bottom: inset, width: beside, height: high };
    return Math.min(beside, high) < LEAST_FIGURE ? null : room;
  }
  const bottom = QUIET_EDGE + (side ?? 0) + GAP / 2;
  const high = Math.min(most, inner, spare - bottom);
  return high < LEAST_FIGURE ? null : { left: inset, bottom, width: inner, height: high };
}

/** As large as is usual, or as there is room for; null where that is too small for any code. */
function codeSide(wanted: number, ...rooms: readonly number[]): number | null {
  const side = Math.min(wanted, CODE.most, ...rooms);
  return side < CODE.least ? null : side;
}
