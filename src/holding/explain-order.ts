/** How the vacuum falls along the cutting order of a sheet, in a line of bars. */
import type { ReckoningLine, SheetHolding } from '../model/holding.ts';
import { line } from './explain-numbers.ts';

export function vacuumLines({
  vacuumStartKpa,
  vacuumAlongKpa,
  lostAfter,
}: SheetHolding): ReckoningLine[] {
  const last = vacuumAlongKpa.at(-1);
  if (last === undefined) return [];
  const kpas = sampled([vacuumStartKpa, ...vacuumAlongKpa], MOST_BARS);
  const lowest = lostAfter === null ? ALARM * last : last;
  const bars = kpas.map((kpa) => barOf((kpa - lowest) / (vacuumStartKpa - lowest))).join('');
  const cuts = vacuumAlongKpa.length === 1 ? 'the cut' : `each of ${vacuumAlongKpa.length} cuts`;
  return [
    line(
      'Vacuum along the sheet',
      `before the first cut, then after ${cuts} that ${vacuumAlongKpa.length === 1 ? 'frees' : 'free'} something; ${lostAfter === null ? `the lowest bar is 80 % of the last, ${lowest.toFixed(2)} kPa` : lostText(lostAfter)}`,
      `${vacuumStartKpa.toFixed(2)} kPa ${bars} ${last.toFixed(2)} kPa`,
    ),
  ];
}

function lostText(lostAfter: number): string {
  const from = lostAfter === 0 ? 'from the start' : `after cut ${lostAfter}`;
  return `${from} the table no longer holds: stop there`;
}

/** So many fit one line of a terminal. */
const MOST_BARS = 30;

/** Share of the planned vacuum below which the machine is to be stopped. */
const ALARM = 0.8;

const BARS = '▁▂▃▄▅▆▇█';

function barOf(share: number): string {
  const height = Math.round(share * (BARS.length - 1));
  return BARS[Math.min(BARS.length - 1, Math.max(0, height))]!;
}

/** At most `most` of the values, evenly spread, with the first and the last. */
function sampled(values: readonly number[], most: number): readonly number[] {
  if (values.length <= most) return values;
  return Array.from(
    { length: most },
    (_, i) => values[Math.round((i * (values.length - 1)) / (most - 1))]!,
  );
}
