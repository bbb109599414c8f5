/** What would make a piece stay, or how low the vacuum may fall under one that does; and what its margin hangs on most. */
import type { Influence, ReckoningLine } from '../model/holding.ts';
import type { FileUnit, RouterJob } from '../model/job.ts';
import type { NumberedSheet } from '../model/plan.ts';
import { fromPa } from './conversions.ts';
import { line } from './explain-numbers.ts';
import { type LowestVacuum, lowestVacuum, type WhatIf, whatIfs } from './what-if.ts';

export function whatIfLines(
  job: RouterJob,
  numbered: NumberedSheet,
  { piece, cutOrder }: { readonly piece: number; readonly cutOrder: number },
): ReckoningLine[] {
  const lowest = lowestVacuum(job, numbered, piece);
  if (lowest !== null) return [lowestLine(lowest, job.unit)];
  const found = whatIfs(job, numbered, piece);
  if (found.length === 0)
    return [line('What if', 'passes, feed, cutter, table, pump', 'none helps')];
  if (found.some(({ verdict }) => verdict === 'stays'))
    return found.map((each) => whatIfLine(each, cutOrder));
  const most = found.reduce((a, b) => (b.margin > a.margin ? b : a));
  return [
    {
      ...whatIfLine(most, cutOrder),
      formula: 'the most that one change can do: it is not enough, nor are any two',
    },
  ];
}

/** The first three of a list that is ordered by strength. */
export function influenceLines(influences: readonly Influence[]): ReckoningLine[] {
  return influences.slice(0, 3).map(({ input, from, to, marginFrom, marginTo }) => {
    const formula = `in place of ${from} (margin ${marginFrom.toFixed(2)}); one of the inputs that move it most`;
    return line(`Margin with ${input} ${to}`, formula, marginTo.toFixed(2));
  });
}

function whatIfLine(found: WhatIf, cutOrder: number): ReckoningLine {
  const { text, margin, marginLow, verdict, but } = found;
  const margins = `margin ${margin.toFixed(2)}, low end ${marginLow.toFixed(2)}: ${verdict}`;
  const place = found.cutOrder === cutOrder ? '' : ` (then as cut ${found.cutOrder})`;
  const against = but === null ? '' : `; but ${but.replace(/\.$/, '')}`;
  return line(`What if ${text}`, `${costText(found)}${place}${against}`, margins);
}

function costText({ sheetS, setUpS, aloneS }: WhatIf): string {
  const parts: string[] = [];
  if (aloneS !== null) parts.push(`${duration(aloneS)} more round this piece alone`);
  const longer = aloneS === null ? 'more on' : 'on';
  const sheet = `${aloneS === null ? '' : 'or '}${duration(sheetS)} ${longer} the whole sheet`;
  if (sheetS > 0) parts.push(sheet);
  if (setUpS !== 0) parts.push(setUpText(setUpS));
  return parts.join(', ');
}

function setUpText(setUpS: number | null): string {
  if (setUpS === null) return 'a setting or another pump: not priced';
  return `${duration(setUpS)} to set up, once`;
}

function duration(seconds: number): string {
  return seconds < 90 ? `about ${seconds} s` : `about ${Math.round(seconds / 60)} min`;
}

function lowestLine({ lowestKpa, reckonedKpa }: LowestVacuum, unit: FileUnit): ReckoningLine {
  const kpa = `${upToTwoDigits(lowestKpa, reckonedKpa)} kPa`;
  const inHg = (vacuumKpa: number): number => fromPa(vacuumKpa * 1000, 'inHg');
  const mercury = `${upToTwoDigits(inHg(lowestKpa), inHg(reckonedKpa))} inHg`;
  return line(
    'Lowest vacuum that holds it',
    'it stays by itself while the gauge shows this or more when it comes free',
    unit === 'in' ? `${kpa} (${mercury})` : kpa,
  );
}

/** Up, so that what is read off stays safe; to one decimal where two digits would ask for more than there is. */
function upToTwoDigits(value: number, most: number): string {
  const up = (decimals: number): string => {
    const scale = 10 ** decimals;
    return (Math.ceil(value * scale - 1e-9) / scale).toFixed(decimals);
  };
  return value < 9.95 || Number(up(0)) > most ? up(1) : up(0);
}
