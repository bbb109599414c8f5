/** A small chart of the vacuum along the cutting order: what the gauge should show, and where to stop. */
import type { SheetHolding } from '../model/holding.ts';
import type { FileUnit } from '../model/job.ts';
import { inHg } from '../model/readings.ts';
import type { Item, PathItem } from './display-list.ts';
import { line } from './display-list.ts';
import { type Frame, type Lettering, lettering } from './marks.ts';
import { LETTERS, type StyleName } from './styles.ts';

export type Vacuum = Pick<SheetHolding, 'vacuumStartKpa' | 'vacuumAlongKpa' | 'lostAfter'>;

/** In millimetres of paper. */
export const CHART = { width: 40, height: 29 } as const;

/** Share of the planned vacuum below which the machine is to be stopped. */
const ALARM = 0.8;

/** Sides of the plot, from the upper left corner of the chart; the figures at its end stand beside it. */
const PLOT = { right: 32, top: -10.5, bottom: -25 } as const;

/** Between the two figures at the end, where the lines come nearer. */
const LEAST_GAP = 2.6;

/** The upper left corner of the chart is (0, 0) of the frame. Nothing where nothing is cut. */
export function drawVacuumChart(
  { vacuumStartKpa, vacuumAlongKpa, lostAfter }: Vacuum,
  unit: FileUnit,
  frame: Frame,
): Item[] {
  const kpas = [vacuumStartKpa, ...vacuumAlongKpa];
  const last = vacuumAlongKpa.at(-1);
  if (last === undefined) return [];
  // Where the vacuum breaks down there is no level to stop below any more: the dashed line ends with the cut before.
  const watched = lostAfter === null ? kpas : kpas.slice(0, lostAfter);
  const alarmAtLast = ALARM * (watched.at(-1) ?? 0);
  const [most, least] = [vacuumStartKpa, Math.min(last, alarmAtLast)];
  const base = PLOT.bottom + 1.2;
  const heightOf = (kpa: number): number =>
    base + ((kpa - least) / (most - least || 1)) * (PLOT.top - base);
  const pitch = PLOT.right / kpas.length;
  const steps = (style: StyleName, levels: readonly number[]) =>
    levels.length === 0 ? [] : [stepLine(frame, style, levels.map(heightOf), pitch)];
  const lastY =
    lostAfter === null
      ? Math.max(heightOf(last), heightOf(alarmAtLast) + LEAST_GAP)
      : heightOf(last);
  const alarmY =
    lostAfter === null
      ? heightOf(alarmAtLast)
      : Math.max(heightOf(alarmAtLast), heightOf(last) + LEAST_GAP);
  const write = (x: number, y: number, text: string, how: Pick<Lettering, 'style' | 'anchor'>) =>
    lettering(frame, x, y, text, { ...how, size: LETTERS.table, maxWidth: CHART.width });
  const figure = (kpa: number): string => (unit === 'in' ? inHg(kpa) : kpa).toFixed(2);
  const ink = { style: 'text', anchor: 'start' } as const;
  const soft = { style: 'text-soft', anchor: 'start' } as const;
  return [
    ...write(0, -1.5, `vacuum at the gauge, ${unit === 'in' ? 'inHg' : 'kPa'}`, ink),
    ...write(0, -4.9, stopText(lostAfter), lostAfter === null ? soft : ink),
    ...write(0, PLOT.top + 1.9, figure(most), ink),
    ...write(CHART.width, lastY, figure(last), { ...ink, anchor: 'end' }),
    ...(watched.length === 0
      ? []
      : write(CHART.width, alarmY, figure(alarmAtLast), { ...soft, anchor: 'end' })),
    line('dimension', frame.at(0, PLOT.bottom), frame.at(PLOT.right, PLOT.bottom)),
    ...steps('vacuum', kpas),
    ...steps(
      'vacuum-alarm',
      watched.map((kpa) => ALARM * kpa),
    ),
    ...write(0, PLOT.bottom - 1.9, 'start', soft),
    ...write(PLOT.right, PLOT.bottom - 1.9, `cut ${vacuumAlongKpa.length}`, {
      ...soft,
      anchor: 'end',
    }),
  ];
}

function stopText(lostAfter: number | null): string {
  if (lostAfter === null) return 'dashed: 80 %, stop below';
  return lostAfter === 0
    ? 'holds nothing: do not cut'
    : `stop after cut ${lostAfter}: it holds no more`;
}

/** A level for each height, side by side from the left of the plot. */
function stepLine(
  frame: Frame,
  style: StyleName,
  heights: readonly number[],
  pitch: number,
): PathItem {
  const corners = heights.flatMap((y, i) => [frame.at(i * pitch, y), frame.at((i + 1) * pitch, y)]);
  const sides = corners.slice(1).map((corner) => ({ ...corner, bend: null }));
  return { kind: 'path', style, runs: [{ start: corners[0]!, sides, closed: false }] };
}
