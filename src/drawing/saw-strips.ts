// Writes the names of the strips that a sheet is cut into beside the sheet, each in the middle of its strip.
// Idea: strips run from edge to edge, so their names stand outside at the left or below, where nothing else is; those of deeper strips are in the sequence only.
// Source: our own.
// Cost: linear in the cuts.
// Degenerate cases: a strip narrower than the smallest letter has no name on the drawing.
import { cutWidth } from '../model/machine.ts';
import { sawnHalves } from '../model/saw-panels.ts';
import { toMm } from '../model/units.ts';
import { type Group, group } from './display-list.ts';
import { frameAt, lettering } from './marks.ts';
import type { SawStep } from './saw-steps.ts';
import type { SheetView } from './sheet-view.ts';
import { LETTERS } from './styles.ts';

/** Millimetres of paper from the edge of the sheet. */
const OUTSIDE = 2.5;
const GAP = 0.3;
const LEAST = 1.7;

export function drawStripNames({ sawing, job }: SheetView, unit: number): Group {
  const kerf = cutWidth(job.machine);
  const named = (sawing?.steps ?? []).flatMap((step) => namedHalves(step, kerf));
  const items = named.flatMap(({ name, axis, from, to }) => {
    const size = Math.min(LETTERS.size, toMm(to - from) / unit - GAP);
    if (size < LEAST) return [];
    const how = { style: 'text', size, anchor: 'middle', maxWidth: 4 } as const;
    const middle = toMm((from + to) / 2);
    const at = axis === 'along' ? { x: 0, y: middle } : { x: middle, y: 0 };
    const [x, y] = axis === 'along' ? [-OUTSIDE, 0] : [0, -OUTSIDE];
    return lettering(frameAt(at, unit), x!, y!, name, how);
  });
  return group(items);
}

/** Whether any of them is a strip of the sheet itself. */
export function hasStrips(steps: readonly SawStep[]): boolean {
  return steps.some((step) => namedHalves(step, 0).length > 0);
}

interface NamedStrip {
  readonly name: string;
  readonly axis: SawStep['axis'];
  /** Across the cut that parts it off. */
  readonly from: number;
  readonly to: number;
}

function namedHalves({ inHand, axis, guided, off, cut }: SawStep, kerf: number): NamedStrip[] {
  if (inHand !== null) return [];
  const { low, high } = sawnHalves(cut, kerf);
  const [guidedBox, offBox] = cut.fence === 'low' ? [low, high] : [high, low];
  return [
    { thing: guided.thing, box: guidedBox },
    { thing: off.thing, box: offBox },
  ].flatMap(({ thing, box }) => {
    if (thing.kind !== 'strip') return [];
    const [from, to] = axis === 'along' ? [box.minY, box.maxY] : [box.minX, box.maxX];
    return [{ name: thing.name, axis, from, to }];
  });
}
