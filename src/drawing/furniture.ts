import { counted, formatShare, lengthNumber } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import type { Sides } from '../model/part.ts';
import type { SheetStock } from '../model/stock.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import { type Arrangement, MARGINS } from './arrangement.ts';
import { circle, type Item, line, rectangle } from './display-list.ts';
import { type Frame, frameAt, grainArrow, lettering } from './marks.ts';
import { asCutText } from './saw-texts.ts';
import type { SheetView } from './sheet-view.ts';
import { LETTERS } from './styles.ts';
import { plainText, textWidth } from './text.ts';

const TICK = 1.1;
const DIMENSION_OFFSET = 4.4;
const BAR_LENGTH = 46;
export const SCALE_BAR_HEIGHT = 2.6;

/** What stands at the top of a page. */
export interface Heading {
  readonly title: string;
  /** To the right of the title. */
  readonly side: string;
  readonly facts: readonly string[];
  /** To the right of the facts. */
  readonly result: string;
}

/** Two lines and a rule across the top. The frame's origin is the upper left corner. */
export function drawHeading(
  { title, side, facts, result }: Heading,
  width: number,
  frame: Frame,
): Item[] {
  const sideWidth = textWidth(side, LETTERS.title);
  const resultWidth = textWidth(result, LETTERS.subtitle);
  const large = { style: 'text', size: LETTERS.title } as const;
  const small = { style: 'text-soft', size: LETTERS.subtitle } as const;
  const titleHow = { ...large, anchor: 'start', maxWidth: width - sideWidth - 6 } as const;
  const factsHow = { ...small, anchor: 'start', maxWidth: width - resultWidth - 4 } as const;
  const shown = facts.filter((fact) => fact !== '').join(' · ');
  return [
    ...lettering(frame, 0, -2.6, plainText(title), titleHow),
    ...lettering(frame, width, -2.6, side, { ...large, anchor: 'end', maxWidth: sideWidth }),
    ...lettering(frame, 0, -7.8, shown, factsHow),
    ...lettering(frame, width, -7.8, result, { ...small, anchor: 'end', maxWidth: resultWidth }),
    line('rule-strong', frame.at(0, -10.6), frame.at(width, -10.6)),
  ];
}

/** What the title says behind the material where the sheet comes off the rack. */
export function offcutName({ rack }: SheetStock): string {
  return rack === null ? '' : `, offcut ${rack}`;
}

/** Which sheet, of what, and how well used. */
export function drawTitle(view: SheetView, width: number, frame: Frame): Item[] {
  const { material, stock, job } = view;
  const size = [stock.length, stock.width, material.thickness]
    .map((length) => lengthNumber(length, job.unit))
    .join(' × ');
  const heading: Heading = {
    title: `${material.name}${offcutName(stock)}`,
    side: `Sheet ${view.number} of ${view.of}`,
    facts: [
      plainText(job.name),
      `${size} ${job.unit}`,
      trimText(stock.trim, job.unit),
      stock.grainAxis === null ? 'no grain' : '',
      counted(view.pieces.length, 'piece'),
      lengthsIn(job.unit),
      view.sawing === null ? '' : (asCutText(view.pieces.map(({ part }) => part)) ?? ''),
    ],
    result: view.costs === null ? '' : `yield ${formatShare(view.costs.yieldShare)}`,
  };
  return drawHeading(heading, width, frame);
}

export function lengthsIn(unit: FileUnit): string {
  return `lengths in ${unit === 'mm' ? 'millimetres' : 'inches'}`;
}

/** Overall length and width of the sheet, its zero, and its grain. The frame's origin is the sheet's lower left corner. */
export function drawSheetDimensions(view: SheetView, plan: Arrangement, frame: Frame): Item[] {
  const { stock, job } = view;
  const { sheetLength, sheetWidth } = plan;
  const corner = frame.at(-DIMENSION_OFFSET, 0);
  return [
    ...overall(frame, sheetLength, lengthNumber(stock.length, job.unit), -1),
    ...overall(frameAt(corner, frame.unit, 90), sheetWidth, lengthNumber(stock.width, job.unit), 1),
    circle('order', frame.at(0, 0), 0.6 * frame.unit),
    ...lettering(frame, -1.8, -1.9, '0', {
      style: 'text-soft',
      size: LETTERS.table,
      anchor: 'middle',
      maxWidth: 4,
    }),
    ...sheetGrain(view, plan, frame),
  ];
}

/** A bar of a round length in two tones. The frame's origin is the upper right corner of bar and figures. */
export function drawScaleBar(unit: number, fileUnit: FileUnit, frame: Frame): Item[] {
  const length = roundLength(BAR_LENGTH * unit * UNITS_PER_MM, fileUnit);
  const far = `${lengthNumber(length, fileUnit)} ${fileUnit}`;
  const right = -textWidth(far, LETTERS.table) - 1;
  const quarter = length / UNITS_PER_MM / unit / 4;
  const left = right - 4 * quarter;
  const quarters = [0, 1, 2, 3].map((i) =>
    rectangle(
      i % 2 === 0 ? 'bar-dark' : 'bar-light',
      frame.at(left + i * quarter, -1.6),
      frame.at(left + (i + 1) * quarter, -0.6),
    ),
  );
  const how = { style: 'text-soft', size: LETTERS.table, maxWidth: 30 } as const;
  return [
    ...quarters,
    ...lettering(frame, left - 1, -1.1, '0', { ...how, anchor: 'end' }),
    ...lettering(frame, right + 1, -1.1, far, { ...how, anchor: 'start' }),
  ];
}

/** A dimension line along the x axis of the frame from 0, its text on the outer side. */
export function overall(frame: Frame, length: number, text: string, side: 1 | -1): Item[] {
  const y = side === -1 ? -DIMENSION_OFFSET : 0;
  const inner = side === -1 ? -1 : -DIMENSION_OFFSET + 1;
  const tick = (x: number) =>
    line('dimension', frame.at(x - TICK / 2, y - TICK / 2), frame.at(x + TICK / 2, y + TICK / 2));
  const reach = (x: number) => line('dimension', frame.at(x, inner), frame.at(x, y + side * 0.8));
  const width = textWidth(text, LETTERS.dimension);
  const gap = width / 2 + 1.2;
  return [
    line('dimension', frame.at(0, y), frame.at(length / 2 - gap, y)),
    line('dimension', frame.at(length / 2 + gap, y), frame.at(length, y)),
    tick(0),
    tick(length),
    reach(0),
    reach(length),
    ...lettering(frame, length / 2, y, text, {
      style: 'text',
      size: LETTERS.dimension,
      anchor: 'middle',
      maxWidth: width * 1.001,
    }),
  ];
}

/** Above the right end of the sheet. */
function sheetGrain({ stock }: SheetView, plan: Arrangement, frame: Frame): Item[] {
  const { grainAxis } = stock;
  if (grainAxis === null) return [];
  const y = plan.sheetWidth + MARGINS.aboveSheet / 2;
  const length = grainAxis === 'x' ? 22 : MARGINS.aboveSheet - 1.6;
  const middle = { x: plan.sheetLength - (grainAxis === 'x' ? length / 2 : 1), y };
  const textX = plan.sheetLength - (grainAxis === 'x' ? length : 2) - 1.6;
  return [
    ...grainArrow(frame, middle, length, grainAxis),
    ...lettering(frame, textX, y, 'grain of the sheet', {
      style: 'text-soft',
      size: LETTERS.table,
      anchor: 'end',
      maxWidth: 40,
    }),
  ];
}

function trimText(trim: Sides, unit: FileUnit): string {
  const { left, right, bottom, top } = trim;
  const number = (length: number) => lengthNumber(length, unit);
  if (left === right && left === bottom && left === top) {
    return left === 0 ? '' : `trim ${number(left)}`;
  }
  return `trim ${number(left)} left, ${number(right)} right, ${number(bottom)} bottom, ${number(top)} top`;
}

/** The longest round length not above `longest`: 1, 2 or 5 times a power of ten millimetres; quarters, feet and yards for inches. */
function roundLength(longest: number, fileUnit: FileUnit): number {
  const steps =
    fileUnit === 'mm'
      ? [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000].map((mm) => mm * UNITS_PER_MM)
      : [0.25, 0.5, 1, 2, 4, 6, 12, 24, 36, 48, 72].map((inches) => inches * UNITS_PER_INCH);
  return steps.findLast((step) => step <= longest) ?? UNITS_PER_MM;
}
