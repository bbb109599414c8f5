/** What pockets ask for that the plan cannot give: another cutter, or a sheet that is held better. */
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { formatLength } from '../model/format.ts';
import type { SheetHolding } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import { fromMm } from '../model/units.ts';

export function pocketWarnings(job: RouterJob, holding: readonly SheetHolding[]): string[] {
  const { cutter } = job.machine;
  const narrow = job.parts
    .filter((part) => hasNarrowPocket(part, cutter.diameter))
    .map(
      ({ name }) =>
        `${name}: a pocket is narrower than the cutter of ${formatLength(cutter.diameter, job.unit)} and takes another one, which is not reckoned with.`,
    );
  return [...new Set(narrow), ...holding.flatMap((sheet) => sheetWarnings(job, sheet))];
}

/** What drawing and rounding may take from the width of a groove. */
const SLACK_MM = 0.02;

function hasNarrowPocket({ pockets }: Part, cutter: number): boolean {
  const inset = cutter / 2 - fromMm(SLACK_MM);
  return pockets.some(({ contour }) => {
    const outer = flattenContour(contour, 'curve', DRAWING_CHORD_ERROR);
    return offsetRegion({ outer, holes: [] }, -inset, 'mitre').length === 0;
  });
}

/** The pocket that comes nearest to moving each sheet, where it does. */
function sheetWarnings({ parts, pieces }: RouterJob, { sheet, loose }: SheetHolding): string[] {
  const found = loose.flatMap(({ piece, pocketing }) =>
    piece === null || pocketing === null || pocketing.verdict === 'stays'
      ? []
      : [{ piece, pocketing }],
  );
  if (found.length === 0) return [];
  const { piece, pocketing } = found.reduce((a, b) =>
    b.pocketing.margin < a.pocketing.margin ? b : a,
  );
  const { name } = parts[pieces[piece]!.part]!;
  const how = pocketing.verdict === 'moves' ? 'will' : 'may';
  return [
    `Sheet ${sheet}: while the pockets of ${name} are cut the sheet itself ${how} move (margin ${pocketing.margin.toFixed(2)}, low end ${pocketing.marginLow.toFixed(2)}): clamp the sheet, or cut in shallower passes.`,
  ];
}
