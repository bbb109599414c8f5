// Composes what is written on a piece and finds the place for it.
// Idea: a label is a few rows of marks. Forms of it are tried from the fullest to a bare number; each is laid, upright or turned, into the free
//   rectangle where it keeps most of its size, nearest the middle. Of the forms that say all the largest is taken, else the first lesser
//   one that stays legible.
// Source: our own.
// Cost: forms times free rectangles, some thousands of comparisons a piece.
// Degenerate cases: on a piece too small for any form the bare number is drawn at the smallest size, and may stick out.
import type { Box } from '../geometry/box.ts';
import type { DrawnPoint, Item } from './display-list.ts';
import {
  type Form,
  type LabelFacts,
  LEGIBLE,
  labelForms,
  type Mark,
  numberForm,
} from './label-forms.ts';
import {
  actionSign,
  alertSign,
  alertTriangle,
  type Frame,
  frameAt,
  grainArrow,
  lettering,
  ORDER_HEIGHT,
  orderBadge,
  orderWidth,
  SIGN_SIZE,
  setTag,
  setTagWidth,
} from './marks.ts';
import { LETTERS } from './styles.ts';
import { textWidth } from './text.ts';

export interface LabelSite {
  /** Free places, in millimetres of the drawing. */
  readonly rectangles: readonly Box[];
  /** Where the label should be, if it can. */
  readonly centre: DrawnPoint;
  readonly unit: number;
  /** Whether a bare number is as large as a narrow place lets it be, or always small. */
  readonly fills: boolean;
}

export interface Label {
  /** Whether the fullest form stands in full size, upright and near the wanted centre. */
  readonly comfortable: boolean;
  /** Whether it is the number alone, which may stick out: then it has to lie above all else. */
  readonly bare: boolean;
  /** What the label covers, in millimetres of the drawing. */
  readonly box: Box;
  readonly items: readonly Item[];
}

export function placeLabel(facts: LabelFacts, site: LabelSite): Label {
  const { full, lesser } = labelForms(facts);
  const whole = bestOfFull(full, facts, site);
  if (whole !== null) {
    const comfortable = whole.form === full[0] && whole.place.merit > COMFORT;
    return { ...drawForm(whole.form, facts, site, whole.place), comfortable };
  }
  for (const { form, least, most } of lesser) {
    const place = bestPlace(form, facts, site);
    if (place === null || place.scale < least) continue;
    return drawForm(form, facts, site, { ...place, scale: Math.min(most, place.scale) });
  }
  return bareNumber(facts, site);
}

/**
 * In the roomiest free place. On strips side by side the numbers would lie on one another, so they are shifted along them by
 * their place in the order.
 */
function bareNumber(facts: LabelFacts, site: LabelSite): Label {
  const form = numberForm(facts);
  const least = LETTERS.smallest / LETTERS.table;
  const narrow = (box: Box): number => Math.min(box.maxX - box.minX, box.maxY - box.minY);
  const free = site.rectangles.toSorted((a, b) => narrow(b) - narrow(a))[0];
  if (free === undefined) {
    const label = drawForm(form, facts, site, {
      centre: site.centre,
      scale: least,
      turn: 0,
      merit: 0,
    });
    return { ...label, bare: true };
  }
  const fitting = narrow(free) / site.unit / (LETTERS.table + NUMBER_GAP);
  const scale = site.fills ? Math.max(least, Math.min(MOST_BARE, fitting)) : least;
  const [across, up] = [free.maxX - free.minX, free.maxY - free.minY];
  const turn = up > TURNED * across ? 90 : 0;
  const width = formSize(form, facts, turn).width * scale * site.unit;
  const room = Math.max(0, Math.max(across, up) - 2 * width) / 2;
  const shift = ((Number(facts.order) % SHIFTS) / (SHIFTS - 1) - 0.5) * SHIFTS * 1.2 * width;
  const along = Math.max(-room, Math.min(room, Number.isNaN(shift) ? 0 : shift));
  const centre = {
    x: (free.minX + free.maxX) / 2 + (turn === 0 ? along : 0),
    y: (free.minY + free.maxY) / 2 + (turn === 90 ? along : 0),
  };
  return { ...drawForm(form, facts, site, { centre, scale, turn, merit: 0 }), bare: true };
}

/** Ground above and below a bare number, and how large it gets at most. */
const NUMBER_GAP = 0.4;
const MOST_BARE = 0.8;
const SHIFTS = 4;
/** A place so many times as high as wide has its number turned. */
const TURNED = 1.5;
/** Share of its full size at which a triangle beside a bare number is drawn. */
const SMALL_ALERT = 0.6;

/** The full form that comes out largest; an earlier one wins over a later one that is hardly larger. */
function bestOfFull(
  full: readonly Form[],
  facts: LabelFacts,
  site: LabelSite,
): { form: Form; place: PlaceOfForm } | null {
  let best: { form: Form; place: PlaceOfForm; merit: number } | null = null;
  for (const [i, form] of full.entries()) {
    const place = bestPlace(form, facts, site);
    if (place === null || place.scale < LEGIBLE) continue;
    const merit = place.merit - i * LATER_FORM;
    if (best === null || merit > best.merit) best = { form, place, merit };
  }
  return best;
}

const ROW_GAP = 0.8;
const MARK_GAP = 0.9;
const ARROW_LENGTH = 5;
const ARROW_WIDTH = 1.2;
const PADDING = 0.9;
/** An upright label is taken before a turned one unless it comes out smaller by more than this. */
const UPRIGHT_MERIT = 0.15;
/** What each later form has to be larger by. */
const LATER_FORM = 0.05;
/** Merit of a label in full size, upright, and within two millimetres of paper of the wanted centre. */
const COMFORT = 0.998;

interface PlaceOfForm {
  readonly centre: DrawnPoint;
  readonly scale: number;
  readonly turn: 0 | 90;
  readonly merit: number;
}

/** Best scale first, then nearest to the wanted centre. */
function bestPlace(form: Form, facts: LabelFacts, site: LabelSite): PlaceOfForm | null {
  const turns: readonly (0 | 90)[] = [0, 90];
  let best: PlaceOfForm | null = null;
  for (const turn of turns) {
    const size = formSize(form, facts, turn);
    const wide = (turn === 0 ? size.width : size.height) + 2 * PADDING;
    const high = (turn === 0 ? size.height : size.width) + 2 * PADDING;
    for (const free of site.rectangles) {
      const room = {
        wide: (free.maxX - free.minX) / site.unit,
        high: (free.maxY - free.minY) / site.unit,
      };
      const scale = Math.min(1, room.wide / wide, room.high / high);
      const half = { x: (wide * scale * site.unit) / 2, y: (high * scale * site.unit) / 2 };
      const centre = {
        x: clamp(site.centre.x, free.minX + half.x, free.maxX - half.x),
        y: clamp(site.centre.y, free.minY + half.y, free.maxY - half.y),
      };
      const off = Math.abs(centre.x - site.centre.x) + Math.abs(centre.y - site.centre.y);
      const merit = scale - (turn === 0 ? 0 : UPRIGHT_MERIT) - off / site.unit / 1000;
      if (best === null || merit > best.merit) best = { centre, scale, turn, merit };
    }
  }
  return best;
}

function clamp(value: number, low: number, high: number): number {
  return low > high ? (low + high) / 2 : Math.max(low, Math.min(high, value));
}

function formSize(form: Form, facts: LabelFacts, turn: 0 | 90): { width: number; height: number } {
  const rows = form.map((row) => rowSize(row, facts, turn));
  return {
    width: Math.max(...rows.map((row) => row.width)),
    height: rows.reduce((sum, row) => sum + row.height, 0) + ROW_GAP * (rows.length - 1),
  };
}

function rowSize(
  row: readonly Mark[],
  facts: LabelFacts,
  turn: 0 | 90,
): { width: number; height: number } {
  const sizes = row.map((mark) => markSize(mark, facts, turn));
  return {
    width: sizes.reduce((sum, size) => sum + size.width, 0) + MARK_GAP * (sizes.length - 1),
    height: Math.max(...sizes.map((size) => size.height)),
  };
}

function markSize(mark: Mark, facts: LabelFacts, turn: 0 | 90): { width: number; height: number } {
  switch (mark.kind) {
    case 'order':
      return { width: orderWidth(facts.order), height: ORDER_HEIGHT };
    case 'sign':
      return { width: SIGN_SIZE, height: SIGN_SIZE };
    case 'alert':
      return { width: 4, height: 3.5 };
    case 'small-alert':
      return { width: 4 * SMALL_ALERT, height: 3.5 * SMALL_ALERT };
    case 'tag':
      return { width: setTagWidth(facts.setTag ?? ''), height: 3.2 };
    case 'arrow':
      return arrowAxis(facts, turn) === 'x'
        ? { width: ARROW_LENGTH, height: ARROW_WIDTH }
        : { width: ARROW_WIDTH, height: ARROW_LENGTH };
    case 'text':
      return { width: textWidth(mark.text, mark.size), height: mark.size };
  }
}

/** The direction of the grain seen from the label. */
function arrowAxis({ grain }: LabelFacts, turn: 0 | 90): 'x' | 'y' {
  return (grain === 'x') === (turn === 0) ? 'x' : 'y';
}

function drawForm(form: Form, facts: LabelFacts, site: LabelSite, place: PlaceOfForm): Label {
  const frame = frameAt(place.centre, site.unit * place.scale, place.turn);
  const size = formSize(form, facts, place.turn);
  const items: Item[] = [];
  let top = size.height / 2;
  for (const row of form) {
    const { width, height } = rowSize(row, facts, place.turn);
    let x = -width / 2;
    for (const mark of row) {
      const markWidth = markSize(mark, facts, place.turn).width;
      const box = { x, width: markWidth, y: top - height / 2 };
      items.push(...drawMark(mark, facts, frame, { ...box, alone: row.length === 1 }));
      x += markWidth + MARK_GAP;
    }
    top -= height + ROW_GAP;
  }
  const low = frame.at(-size.width / 2, -size.height / 2);
  const high = frame.at(size.width / 2, size.height / 2);
  return {
    items,
    comfortable: false,
    bare: false,
    box: {
      minX: Math.min(low.x, high.x),
      maxX: Math.max(low.x, high.x),
      minY: Math.min(low.y, high.y),
      maxY: Math.max(low.y, high.y),
    },
  };
}

/** The stretch of its row that a mark has, `y` in the middle of its height. */
interface MarkPlace {
  readonly x: number;
  readonly width: number;
  readonly y: number;
  readonly alone: boolean;
}

function drawMark(mark: Mark, facts: LabelFacts, frame: Frame, place: MarkPlace): Item[] {
  const centre = { x: place.x + place.width / 2, y: place.y };
  switch (mark.kind) {
    case 'order':
      return orderBadge(frame, centre, facts.order, facts.kind);
    case 'sign':
      return actionSign(frame, centre, facts.action);
    case 'alert':
      return alertSign(frame, centre, facts.alert ?? 'test');
    case 'small-alert': {
      const small = frameAt(frame.at(centre.x, centre.y), frame.unit * SMALL_ALERT, frame.turn);
      return [alertTriangle(small, { x: 0, y: 0 }, facts.alert ?? 'test')];
    }
    case 'tag':
      return setTag(frame, centre, facts.setTag ?? '');
    case 'arrow':
      return grainArrow(frame, centre, ARROW_LENGTH, arrowAxis(facts, frame.turn));
    case 'text': {
      // After other marks it starts where they end: a narrower face then leaves no gap between them.
      const maxWidth = place.width * 1.001;
      const how = { style: mark.style, size: mark.size, maxWidth };
      return place.alone
        ? lettering(frame, centre.x, place.y, mark.text, { ...how, anchor: 'middle' })
        : lettering(frame, place.x, place.y, mark.text, { ...how, anchor: 'start' });
    }
  }
}
