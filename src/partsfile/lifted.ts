import { SIDES, type Side } from '../model/part.ts';
import type { LiftedEdge } from '../model/stock.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { child, type Field, isFlawed } from './tree.ts';
import { type LengthRange, type Reading, readLength } from './values.ts';

/** From the thinnest leaf of a feeler gauge to more than a pump would leave. */
const GAP: LengthRange = { min: UNITS_PER_MM / 50, max: 10 * UNITS_PER_MM };

/** Edges of a sheet that do not lie down; null after a problem. */
export function readLifted(
  sheet: Field,
  { length, width }: { readonly length: number; readonly width: number },
  reading: Reading,
): readonly LiftedEdge[] | null {
  const field = child(sheet, 'lifted');
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const edges = SIDES.flatMap((side) => {
    const edge = child(field, side);
    const across = side === 'left' || side === 'right' ? length : width;
    return edge === null ? [] : [readEdge(edge, { side, across }, reading)];
  });
  return edges.every((edge) => edge !== null) ? edges : null;
}

function readEdge(
  field: Field,
  { side, across }: { readonly side: Side; readonly across: number },
  reading: Reading,
): LiftedEdge | null {
  const [gapField, depthField] = [child(field, 'gap'), child(field, 'depth')];
  if (isFlawed(field) || gapField === null || depthField === null) return null;
  const gap = readLength(gapField, reading, GAP);
  const depth = readLength(depthField, reading, { min: UNITS_PER_MM, max: across });
  return gap === null || depth === null ? null : { side, gap, depth };
}
