import type { FileUnit } from '../model/job.ts';
import { type Item, line } from './display-list.ts';
import type { Frame } from './marks.ts';

/** Long enough that a printer's "fit to page", usually 94 to 98 %, shows on a folding rule; in millimetres of paper. */
const LENGTH: Readonly<Record<FileUnit, { readonly mm: number; readonly words: string }>> = {
  mm: { mm: 100, words: '100 mm' },
  in: { mm: 101.6, words: '4 in' },
};

/** How far its ends stand up and down. */
const TICK = 1;

/** A line to be measured on the print; the frame's origin is its middle, in millimetres of paper. */
export function drawCheckLine(unit: FileUnit, frame: Frame): Item[] {
  const half = LENGTH[unit].mm / 2;
  const tick = (x: number) => line('check', frame.at(x, -TICK), frame.at(x, TICK));
  return [line('check', frame.at(-half, 0), frame.at(half, 0)), tick(-half), tick(half)];
}

/** What stands below it. */
export function scaleWords(scale: number, unit: FileUnit): string {
  return `scale 1 : ${scale} · print at 100 %: the line is ${LENGTH[unit].words} long`;
}
