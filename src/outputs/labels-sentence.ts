import { counted, formatSize } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import type { LabelGrid } from '../model/label-grid.ts';

/** How many labels there are, on what, and which of them have no code. */
export function labelsSentence(
  {
    count,
    pages,
    withoutCode,
    grid,
  }: {
    readonly count: number;
    readonly pages: number;
    readonly withoutCode: number;
    readonly grid: LabelGrid;
  },
  unit: FileUnit,
): string {
  const size = formatSize(grid.label.width, grid.label.height, unit);
  const on =
    grid.kind === 'roll'
      ? `on a roll, ${size}`
      : `on ${counted(pages, 'sheet')} of paper, ${grid.columns} × ${grid.rows} of ${size}`;
  const codes =
    withoutCode === 0
      ? ''
      : withoutCode === count
        ? ' They are too small for a code.'
        : ` ${withoutCode === 1 ? 'One of them has' : `${withoutCode} of them have`} no code: their names are too long for it.`;
  return `${counted(count, 'label')} ${on}: print at full size.${codes}`;
}
