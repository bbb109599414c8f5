import type { Box } from '../../src/geometry/box.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import type { Part, Side } from '../../src/model/part.ts';
import type { SheetStock } from '../../src/model/stock.ts';

/** A layout of the first material of a job. */
export interface Scene {
  readonly job: RouterJob;
  readonly layout: Layout;
}

/** The same sheets with everything on them, seen after a quarter turn counter-clockwise. Where grain and turns both count, the turns must be all quarters, since they are counted from the grain. */
export function turnScene({ job, layout }: Scene): Scene {
  return {
    job: changeJob(job, turnSheet, (part) => ({
      ...part,
      turns: changeTurns(part.turns, (t) => t + 90),
    })),
    layout: changePlacements(job, layout, (p, stock) => ({
      ...p,
      x: stock.width - p.y,
      y: p.x,
      turn: (p.turn + 90) % 360,
    })),
  };
}

/** The same sheets with everything on them, seen from below: every piece turns its other face up, so all parts allow that. */
export function mirrorScene({ job, layout }: Scene): Scene {
  return {
    job: changeJob(job, mirrorSheet, (part) => ({
      ...part,
      face: 'either',
      turns: changeTurns(part.turns, (t) => 360 - t),
    })),
    layout: changePlacements(job, layout, (p, stock) => ({
      ...p,
      x: stock.length - p.x,
      turn: (360 - p.turn) % 360,
      mirrored: !p.mirrored,
    })),
  };
}

export function turnSheet(stock: SheetStock): SheetStock {
  const { length, width, boundary, trim, grainAxis } = stock;
  const turnBox = (b: Box): Box => ({
    minX: width - b.maxY,
    minY: b.minX,
    maxX: width - b.minY,
    maxY: b.maxX,
  });
  return {
    ...stock,
    length: width,
    width: length,
    boundary: boundary?.map(({ x, y }) => ({ x: width - y, y: x })) ?? null,
    trim: { left: trim.top, bottom: trim.left, right: trim.bottom, top: trim.right },
    grainAxis: grainAxis && (grainAxis === 'x' ? 'y' : 'x'),
    keepOuts: stock.keepOuts.map((k) => ({ ...k, box: turnBox(k.box) })),
    lifted: stock.lifted.map((edge) => ({ ...edge, side: TURNED[edge.side] })),
  };
}

export function mirrorSheet(stock: SheetStock): SheetStock {
  const { length, boundary, trim } = stock;
  const mirrorBox = (b: Box): Box => ({ ...b, minX: length - b.maxX, maxX: length - b.minX });
  return {
    ...stock,
    boundary: boundary?.map(({ x, y }) => ({ x: length - x, y })).toReversed() ?? null,
    trim: { ...trim, left: trim.right, right: trim.left },
    keepOuts: stock.keepOuts.map((k) => ({ ...k, box: mirrorBox(k.box) })),
    lifted: stock.lifted.map((edge) => ({ ...edge, side: MIRRORED[edge.side] })),
  };
}

const TURNED: Readonly<Record<Side, Side>> = {
  left: 'bottom',
  bottom: 'right',
  right: 'top',
  top: 'left',
};
const MIRRORED: Readonly<Record<Side, Side>> = {
  left: 'right',
  right: 'left',
  bottom: 'bottom',
  top: 'top',
};

/** The job with every sheet and every part replaced. */
export function changeJob(
  job: RouterJob,
  changeSheet: (stock: SheetStock) => SheetStock,
  changePart: (part: Part) => Part,
): RouterJob {
  const materials = job.materials.map((m) => ({ ...m, sheets: m.sheets.map(changeSheet) }));
  return { ...job, materials, parts: job.parts.map(changePart) };
}

/** Turns in degrees after a change, brought back to one round and put in order. */
export function changeTurns(turns: readonly number[], change: (turn: number) => number): number[] {
  return turns.map((turn) => change(turn) % 360).sort((a, b) => a - b);
}

function changePlacements(
  job: RouterJob,
  layout: Layout,
  change: (placement: Placement, stock: SheetStock) => Placement,
): Layout {
  const sheets = layout.sheets.map((sheet) => {
    const stock = job.materials[layout.material]?.sheets[sheet.stock];
    return stock ? { ...sheet, placements: sheet.placements.map((p) => change(p, stock)) } : sheet;
  });
  return { ...layout, sheets };
}
