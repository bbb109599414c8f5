import { DRAWING_CHORD_ERROR, flattenShape } from '../geometry/flatten.ts';
import { placeShape } from '../geometry/pose.ts';
import type { Ring } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import type { Placement } from '../model/layout.ts';
import type { RecordFault } from '../model/recheck.ts';
import { fromMm, toMm } from '../model/units.ts';
import { pieceName } from '../verify/fault.ts';
import type { PlacementRecord } from './schema.ts';

/** How far an outline as written may be from the part placed by x, y and turn. */
const TOLERANCE = fromMm(0.001);

/** The outline and cut-outs of a piece agree, corner by corner, with its part placed where the record says. */
export function outlineFaults(
  job: Job,
  placement: Placement,
  { outline, cutOuts }: PlacementRecord,
  path: string,
): readonly RecordFault[] {
  const { shape } = job.parts[job.pieces[placement.piece]!.part]!;
  const { outer, holes } = flattenShape(placeShape(shape, placement), 'curve', DRAWING_CHORD_ERROR);
  const name = pieceName(job, placement.piece);
  const faults = ringFaults(outer, outline, `${path}.outline`, name);
  if (cutOuts.length === holes.length)
    return [
      ...faults,
      ...holes.flatMap((hole, i) => ringFaults(hole, cutOuts[i]!, `${path}.cutOuts[${i}]`, name)),
    ];
  const message = `${name} has ${holes.length} cut-outs, not ${cutOuts.length}`;
  return [...faults, { code: 'outline', path: `${path}.cutOuts`, message }];
}

/** The first corner that is off is told: where a piece was moved, all are. */
function ringFaults(
  wanted: Ring,
  given: PlacementRecord['outline'],
  path: string,
  name: string,
): readonly RecordFault[] {
  if (given.length !== wanted.length) {
    const message = `${given.length} corners; ${name} as placed has ${wanted.length}`;
    return [{ code: 'outline', path, message }];
  }
  const off = wanted.findIndex(({ x, y }, i) => {
    const [ownX, ownY] = given[i]!;
    const [dx, dy] = [fromMm(ownX) - x, fromMm(ownY) - y];
    return dx * dx + dy * dy > TOLERANCE * TOLERANCE;
  });
  if (off < 0) return [];
  const { x, y } = wanted[off]!;
  const message = `(${given[off]!.join(', ')}) of ${name} is not where x, y and turn put it: (${toMm(x)}, ${toMm(y)})`;
  return [{ code: 'outline', path: `${path}[${off}]`, message }];
}
