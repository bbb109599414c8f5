import { ringArea } from '../../geometry/area.ts';
import { type Box, isEmptyBox } from '../../geometry/box.ts';
import { isWorthKeeping } from '../../model/offcut-rule.ts';
import type { Part } from '../../model/part.ts';
import { type SheetStock, usableBox } from '../../model/stock.ts';
import { partOfPiece } from '../bounds/body-measures.ts';
import { growRectilinear } from '../outlines/grow-rectilinear.ts';
import type { Candidate, PackingTask } from '../task.ts';

/**
 * The parts of sheets that the bodies of a task fill if they leave no waste: sheets one after the other, and the last one up to an end along its length.
 * They reach half the spacing over what is usable, as the bodies do over their pieces. Null where areas do not come out even, where the outline of
 * some piece is not exact (curves, with spacing slanted sides and notches narrower than it, cut-outs to nest in), and with keep-outs, odd-shaped sheets or several stocks;
 * also where all go on a part of one sheet, for areas often come out even by chance then, and no sheet would be saved.
 */
export function roomsToFill(task: PackingTask): readonly Box[] | null {
  const [stock, ...others] = task.stocks;
  if (stock === undefined || others.length > 0) return null;
  if (stock.keepOuts.length > 0 || stock.boundary !== null) return null;
  const twiceArea = twiceGrownArea(task);
  const { minX, minY, maxX, maxY } = usableBox(stock);
  const below = Math.floor(task.spacing / 2);
  const above = Math.ceil(task.spacing / 2);
  const whole = { minX: minX - below, minY: minY - below, maxX: maxX + above, maxY: maxY + above };
  const twiceWidth = BigInt(2 * (whole.maxY - whole.minY));
  if (twiceArea === null || isEmptyBox(whole) || twiceArea % twiceWidth !== 0n) return null;
  const length = whole.maxX - whole.minX;
  const lengths = Number(twiceArea / twiceWidth);
  const count = Math.ceil(lengths / length);
  if (count > (stock.onHand ?? count)) return null;
  const end = whole.minX + lengths - (count - 1) * length;
  if (count === 1 && end < maxX) return null;
  return Array.from({ length: count }, (_, i) => (i < count - 1 ? whole : { ...whole, maxX: end }));
}

/** Whether no layout is better, as this one takes no more of its sheets than one without waste, and what it leaves is worth keeping or nothing. */
export function isWithoutWaste(task: PackingTask, { sheets, unplaced }: Candidate): boolean {
  const rooms = unplaced.length > 0 ? null : roomsToFill(task);
  if (rooms === null || sheets.length > rooms.length) return false;
  const ends = sheets.map(({ spots }) =>
    spots.reduce((end, { body, orientation, x }) => {
      const width = task.bodies[body]?.orientations[orientation]?.width ?? 0;
      return Math.max(end, x + width);
    }, 0),
  );
  const end = Math.min(...ends);
  const usable = usableBox(task.stocks[0] as SheetStock);
  const leftover = { ...usable, minX: end + task.spacing };
  return (
    end + Math.ceil(task.spacing / 2) <= (rooms.at(-1)?.maxX ?? 0) &&
    (isEmptyBox(leftover) || isWorthKeeping(leftover, task.job.offcuts))
  );
}

/** Twice the area of all pieces with half the spacing around them, which is a whole number; null where it is not exact. */
function twiceGrownArea(task: PackingTask): bigint | null {
  const ofPart = new Map<Part, bigint | null>();
  let sum = 0n;
  for (const piece of task.bodies.flatMap(({ pieces }) => pieces)) {
    const part = partOfPiece(task, piece);
    const known = ofPart.get(part);
    const area = known === undefined ? twiceGrown(part, task.spacing) : known;
    if (area === null) return null;
    ofPart.set(part, area);
    sum += area;
  }
  return sum;
}

function twiceGrown({ nestInside, shape: { outer, inner } }: Part, spacing: number): bigint | null {
  if (nestInside && inner.length > 0) return null;
  if (outer.some(({ via }) => via !== null)) return null;
  const grown = spacing === 0 ? outer : growRectilinear(outer, 0, spacing);
  return grown === null ? null : BigInt(2 * ringArea(grown));
}
