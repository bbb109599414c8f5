import { pathFrame } from './drawing-frame.ts';
import { type DrawnBody, shapeOfPaths } from './drawn-shape.ts';
import { reportFault, reportWarning } from './fault.ts';
import { unitLength } from './lengths.ts';
import { readPath } from './svg-path.ts';
import { type Field, textOf } from './tree.ts';
import type { Reading } from './values.ts';

/** What an SVG path text of a parts file draws, in the unit of the file; null after a problem. */
export function readPathText(field: Field, { unit, report }: Reading): DrawnBody | null {
  const scale = unitLength(unit);
  const { limits } = report;
  const read = readPath(textOf(field), { transforms: [], scaleX: scale, scaleY: scale, limits });
  if (read.ok && read.warning !== null) reportWarning(report, field, read.warning);
  const body = read.ok ? shapeOfPaths(read.paths, pathFrame(unit), false, limits) : read;
  if (body.ok) return body;
  reportFault(report, field, body.fault);
  return null;
}
