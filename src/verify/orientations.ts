import type { Job } from '../model/job.ts';
import type { Layout, Placement } from '../model/layout.ts';
import type { Part, PartGrain } from '../model/part.ts';
import type { SheetStock } from '../model/stock.ts';
import { type Fault, pieceName } from './fault.ts';
import { isPlace } from './laid-piece.ts';

/** Every placement stands on the grid, at a turn that its part allows on such a sheet, along the grain, and good face up where that counts. */
export function checkOrientations(job: Job, layout: Layout): Fault[] {
  const stocks = job.materials[layout.material]?.sheets ?? [];
  return layout.sheets.flatMap((sheet, index) =>
    sheet.placements.flatMap((placement) => {
      const part = partOf(job, placement.piece);
      if (!part) return [];
      return complaints(part, placement, stocks[sheet.stock]).map(([code, saying]) => ({
        code,
        sheet: index,
        piece: placement.piece,
        other: null,
        message: `${pieceName(job, placement.piece)} ${saying}`,
      }));
    }),
  );
}

type Complaint = readonly [Fault['code'], string];

function complaints(part: Part, placement: Placement, stock: SheetStock | undefined): Complaint[] {
  const { x, y, turn, mirrored } = placement;
  const found: Complaint[] = [];
  if (!isPlace(placement)) found.push(['not-whole', `lies at (${x}, ${y}), which is not whole`]);
  if (stock && !allowsTurn(part, stock.grainAxis, turn))
    found.push(['turn', `is turned by ${turn} degrees, which its part does not allow there`]);
  if (stock && !followsGrain(part.grain, stock.grainAxis, turn))
    found.push(['grain', `lies against the grain at ${turn} degrees`]);
  if (mirrored && part.face === 'up') found.push(['mirrored', 'lies with its good face down']);
  return found;
}

/** Whether a part with this grain may lie at this turn on a sheet whose grain runs along `axis`. Mirroring swaps left and right along the part's own x axis, so it never changes the direction of its grain. */
export function followsGrain(grain: PartGrain, axis: 'x' | 'y' | null, turn: number): boolean {
  if (grain === 'any' || axis === null) return true;
  const straight = (grain === 'along') === (axis === 'x');
  return straight ? turn === 0 || turn === 180 : turn === 90 || turn === 270;
}

/** Whether the turn is one of the part's own from its start on such a sheet, which is a quarter turn where the grain would be wrong without; the grain after it is not looked at. */
export function allowsTurn({ grain, turns }: Part, axis: 'x' | 'y' | null, turn: number): boolean {
  const start = followsGrain(grain, axis, 0) ? 0 : 90;
  return turns.some((own) => (start + own) % 360 === turn);
}

function partOf(job: Job, index: number): Part | null {
  const piece = job.pieces[index];
  return (piece && job.parts[piece.part]) ?? null;
}
