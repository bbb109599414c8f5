import { type Box, boxContains, boxesOverlap, growBox } from '../geometry/box.ts';
import { boxContour } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import { cutWidth } from '../model/machine.ts';
import type { RecordFault } from '../model/recheck.ts';
import { usableBox } from '../model/stock.ts';
import { fromMm } from '../model/units.ts';
import { closedShape, shapesCloserThan } from '../verify/closeness.ts';
import { pieceName } from '../verify/fault.ts';
import type { LaidSheet } from '../verify/laid-piece.ts';
import type { SheetRecord } from './schema.ts';

/** Every offcut lies inside the trimmed edges, a cut away from each piece, and clear of keep-outs and of the other offcuts. */
export function offcutFaults(
  job: Job,
  { stock, pieces }: LaidSheet,
  { offcuts }: SheetRecord,
  path: string,
): readonly RecordFault[] {
  if (stock === null) return [];
  const cut = cutWidth(job.machine);
  const boxes = offcuts.map(boxOfRecord);
  return boxes.flatMap((box, i) => {
    const near = pieces.filter(
      (laid) =>
        boxesOverlap(growBox(box, cut), laid.box) &&
        shapesCloserThan(closedShape(laid), { outer: boxContour(box), inner: [] }, cut),
    );
    const said = [
      ...(boxContains(usableBox(stock), box) ? [] : ['reaches over the trimmed edge']),
      ...near.map(({ piece }) => `is not clear of ${pieceName(job, piece.index)}`),
      ...stock.keepOuts
        .filter((keepOut) => boxesOverlap(keepOut.box, box))
        .map(({ why }) => `has some of a keep-out (${why})`),
      ...(boxes.slice(0, i).some((other) => boxesOverlap(other, box))
        ? ['overlaps another offcut']
        : []),
    ];
    return said.map((text) => ({
      code: 'offcut',
      path: `${path}.offcuts[${i}]`,
      message: `the offcut ${text}`,
    }));
  });
}

function boxOfRecord({ x, y, length, width }: SheetRecord['offcuts'][number]): Box {
  const [minX, minY] = [fromMm(x), fromMm(y)];
  return { minX, minY, maxX: minX + fromMm(length), maxY: minY + fromMm(width) };
}
