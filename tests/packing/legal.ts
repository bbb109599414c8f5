import type { Job } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import { type SheetStock, usableBox } from '../../src/model/stock.ts';

/**
 * What is wrong with a layout of rectangles, in words, by the plainest comparisons: every pair, every piece. It knows nothing of how layouts are made.
 * Rectangles keep a spacing along an axis here, which is more than the straight-line distance that is asked for.
 */
export function faultsOf(job: Job, layout: Layout): string[] {
  const faults: string[] = [];
  const stocks = job.materials[layout.material]?.sheets ?? [];
  const seen = new Map<number, number>();
  const note = (piece: number) => seen.set(piece, (seen.get(piece) ?? 0) + 1);
  layout.unplaced.forEach(({ piece }) => {
    note(piece);
  });
  layout.sheets.forEach((sheet, index) => {
    const stock = stocks[sheet.stock] as SheetStock;
    const boxes = sheet.placements.map((placement) => boxOfPiece(job, placement));
    sheet.placements.forEach((placement, i) => {
      note(placement.piece);
      const name = `piece ${placement.piece} on sheet ${index}`;
      if (!turnAllowed(job, placement, stock)) faults.push(`${name} lies at ${placement.turn}`);
      const box = boxes[i] as Edges;
      const usable = usableBox(stock);
      const inside =
        usable.minX <= box.minX &&
        box.maxX <= usable.maxX &&
        usable.minY <= box.minY &&
        box.maxY <= usable.maxY;
      if (!inside) faults.push(`${name} is not inside`);
      for (const keepOut of stock.keepOuts)
        if (tooNear(box, keepOut.box, job.machine.spacing)) faults.push(`${name} is on a keep-out`);
      for (let k = 0; k < i; k++)
        if (tooNear(box, boxes[k] as Edges, job.machine.spacing))
          faults.push(`${name} is too near to piece ${sheet.placements[k]?.piece}`);
    });
    if (sheet.placements.length === 0) faults.push(`sheet ${index} is empty`);
  });
  job.pieces.forEach(({ index, part }) => {
    const due = job.parts[part]?.material === layout.material ? 1 : 0;
    if ((seen.get(index) ?? 0) !== due) faults.push(`piece ${index} is there ${seen.get(index)}x`);
  });
  stocks.forEach(({ onHand }, k) => {
    const used = layout.sheets.filter(({ stock }) => stock === k).length;
    if (onHand !== null && used > onHand) faults.push(`${used} of stock ${k}, ${onHand} on hand`);
  });
  return faults;
}

interface Edges {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Box of a rectangular piece as placed: its own corner comes to (x, y) after the turn. */
function boxOfPiece(job: Job, { piece, x, y, turn, mirrored }: Placement): Edges {
  const part = job.parts[job.pieces[piece]?.part ?? -1];
  const w = part?.width ?? 0;
  const h = part?.height ?? 0;
  const cos = [1, 0, -1, 0][turn / 90] as number;
  const sin = [0, 1, 0, -1][turn / 90] as number;
  const across = mirrored ? -w : w;
  const far = { x: cos * across - sin * h, y: sin * across + cos * h };
  return {
    minX: x + Math.min(0, far.x),
    minY: y + Math.min(0, far.y),
    maxX: x + Math.max(0, far.x),
    maxY: y + Math.max(0, far.y),
  };
}

function turnAllowed(job: Job, { piece, turn, mirrored }: Placement, stock: SheetStock): boolean {
  const part = job.parts[job.pieces[piece]?.part ?? -1];
  if (!part || (mirrored && part.face === 'up')) return false;
  if (part.grain === 'any' || stock.grainAxis === null) return part.turns.includes(turn);
  const start = (part.grain === 'along') === (stock.grainAxis === 'x') ? 0 : 90;
  return (turn === start || turn === start + 180) && part.turns.includes(turn - start);
}

function tooNear(a: Edges, b: Edges, spacing: number): boolean {
  return (
    a.minX < b.maxX + spacing &&
    b.minX < a.maxX + spacing &&
    a.minY < b.maxY + spacing &&
    b.minY < a.maxY + spacing
  );
}
