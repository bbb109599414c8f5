import type { Box } from '../../geometry/box.ts';
import type { Machine } from '../../model/machine.ts';
import { closedBoxes, type SheetStock, usableBox } from '../../model/stock.ts';
import { COLUMN, type Direction, ROW } from '../panelsaw/direction.ts';
import { panelsOf } from '../panelsaw/panels.ts';
import { isRoomFor, type PanelLists, roomyPanels } from '../panelsaw/roomy-panels.ts';
import { type Price, priceOf } from '../priced.ts';
import type { Body, PackingTask } from '../task.ts';
import { unionArea } from '../union-area.ts';
import { codeOf, EITHER } from './code.ts';
import { FreeSpace } from './free-space.ts';

/** Wider than any sheet: the side of a box that does not exist or fits no empty sheet. */
export const NO_BOX = 2 ** 30;

/**
 * One stock as the box engine sees it. Every box is grown by the spacing on its right and top, and so is the sheet: n boxes then need n - 1 spacings,
 * and grown boxes that do not overlap are boxes at least one spacing apart. Keep-outs grow the same way and are cut out of the empty sheet,
 * and so is what an odd-shaped sheet has outside its trimmed edges, but without any spacing.
 */
export interface BoxStock extends Price {
  readonly width: number;
  readonly height: number;
  /** Where the usable box starts on the sheet. */
  readonly originX: number;
  readonly originY: number;
  /** The free rectangles of an empty sheet. */
  readonly empty: FreeSpace;
  /** The clean panels by the direction of the first cut; at a router only the whole of a plain sheet. */
  readonly panels: PanelLists;
  readonly freeArea: number;
  /** Whether nothing is cut out of it. */
  readonly isPlain: boolean;
  readonly onHand: number;
  /** Two boxes a kind, at 2 * kind and 2 * kind + 1; the second is missing where turning changes nothing. */
  readonly boxWidth: Int32Array;
  readonly boxHeight: Int32Array;
  /** The orientation that each box stands for. */
  readonly orientation: Int32Array;
}

/** A packing task flattened to boxes: kinds with counts, so that a thousand equal pieces cost no more than one to look at. */
export interface BoxTask {
  readonly task: PackingTask;
  readonly stocks: readonly BoxStock[];
  readonly kindCount: number;
  /** The bodies of each kind, ascending. */
  readonly bodies: readonly (readonly number[])[];
  /** Area of the smallest box of each kind with its spacing; 0 for a kind whose box fits no stock. */
  readonly area: Float64Array;
  /** The code of each kind that leaves the lie open, if there are two. */
  readonly freeCode: Int32Array;
}

export function boxTask(task: PackingTask): BoxTask {
  const bodies: number[][] = [];
  const patterns: Body[] = [];
  for (const body of task.bodies) {
    const own = bodies[body.kind];
    if (own) own.push(body.index);
    else {
      bodies[body.kind] = [body.index];
      patterns[body.kind] = body;
    }
  }
  const stocks = task.stocks.map((stock, index) => boxStock(task, patterns, stock, index));
  const area = Float64Array.from(patterns, (_, kind) => smallestArea(stocks, kind));
  const freeCode = Int32Array.from(patterns, (_, kind) =>
    codeOf(kind, turns(stocks, kind) ? EITHER : 0),
  );
  return { task, stocks, kindCount: patterns.length, bodies, area, freeCode };
}

/** Whether a kind has two boxes on some stock. */
function turns(stocks: readonly BoxStock[], kind: number): boolean {
  return stocks.some(({ boxWidth }) => boxWidth[2 * kind + 1] !== NO_BOX);
}

function boxStock(
  task: PackingTask,
  patterns: readonly Body[],
  stock: SheetStock,
  index: number,
): BoxStock {
  const usable = usableBox(stock);
  const width = Math.max(0, usable.maxX - usable.minX) + task.spacing;
  const height = Math.max(0, usable.maxY - usable.minY) + task.spacing;
  const empty = new FreeSpace();
  empty.clear(width, height);
  const obstacles = [
    ...stock.keepOuts.map(({ box }) => grownKeepOut(box, usable, task.spacing)),
    ...closedBoxes(stock).map((box) => edgeBox(box, usable, task.spacing)),
  ];
  for (const { minX, minY, maxX, maxY } of obstacles) empty.take(minX, minY, maxX, maxY, 1, 1);
  const sheet = { minX: 0, minY: 0, maxX: width, maxY: height };
  const open = boxesOf(empty);
  const boxesIn = (places: readonly Box[]) =>
    patterns.map((body) => boxesOn(body, index, task, places));
  const panels = panelsFor(task.job.machine, stock, sheet, obstacles, {
    places: open,
    kinds: () => boxesIn(open).filter((lies) => lies.length > 0),
  });
  const boxes = boxesIn(panels === null ? open : [...panels[ROW], ...panels[COLUMN]]);
  const column = (pick: (box: TurnedBox | undefined) => number) =>
    Int32Array.from({ length: 2 * boxes.length }, (_, i) => pick(boxes[i >> 1]?.[i & 1]));
  return {
    width,
    height,
    originX: usable.minX,
    originY: usable.minY,
    empty,
    panels: panels ?? (obstacles.length === 0 ? wholeSheet(sheet) : NO_PANELS),
    freeArea: width * height - unionArea(obstacles.map((box) => clipped(box, width, height))),
    isPlain: obstacles.length === 0,
    ...priceOf(task.objective, stock),
    onHand: stock.onHand ?? Number.POSITIVE_INFINITY,
    boxWidth: column((box) => box?.width ?? NO_BOX),
    boxHeight: column((box) => box?.height ?? NO_BOX),
    orientation: column((box) => box?.orientation ?? -1),
  };
}

/** Whether a saw can trim a box of this size on all sides. */
function isInReach(machine: Machine, width: number, height: number): boolean {
  if (machine.kind === 'router') return true;
  return width <= (machine.longestRip ?? width) && height <= (machine.longestCrosscut ?? height);
}

const NO_PANELS = { [ROW]: [], [COLUMN]: [] } as const;

function wholeSheet(sheet: Box): PanelLists {
  const panel = (direction: Direction) => ({ ...sheet, direction, depth: 0, mayTurn: true });
  return { [ROW]: [panel(ROW)], [COLUMN]: [panel(COLUMN)] };
}

/** Null at a router. */
function panelsFor(
  machine: Machine,
  { length, width }: SheetStock,
  sheet: Box,
  obstacles: readonly Box[],
  { places, kinds }: { readonly places: readonly Box[]; readonly kinds: () => TurnedBox[][] },
): PanelLists | null {
  if (machine.kind === 'router') return null;
  // Panels are grown by a kerf.
  const limits = {
    stages: machine.stages,
    alongX: (machine.longestRip ?? length) + machine.kerf,
    alongY: (machine.longestCrosscut ?? width) + machine.kerf,
  };
  const isAllowed = (direction: Direction) =>
    direction === ROW
      ? machine.firstCut !== 'along' && width <= (machine.longestCrosscut ?? width)
      : machine.firstCut !== 'across' && length <= (machine.longestRip ?? length);
  const panels = (direction: Direction, whole: Box | null) =>
    isAllowed(direction)
      ? panelsOf(sheet, obstacles, { first: direction, ...limits, whole }).map((panel) => ({
          ...panel,
          // However short a part of the sheet is looked at, it is the whole sheet that lies on the saw.
          mayTurn: panel.mayTurn && isAllowed(ROW) && isAllowed(COLUMN),
        }))
      : [];
  return roomyPanels(panels, places, obstacles.length === 0 ? [] : kinds());
}

function boxesOf({ count, minX, minY, maxX, maxY }: FreeSpace): readonly Box[] {
  return Array.from({ length: count }, (_, i) => ({
    minX: minX[i]!,
    minY: minY[i]!,
    maxX: maxX[i]!,
    maxY: maxY[i]!,
  }));
}

/** In the coordinates of the usable box; grown on its right and top, which keeps grown boxes a spacing away on all four sides. */
function grownKeepOut(box: Box, usable: Box, spacing: number): Box {
  return {
    minX: box.minX - usable.minX,
    minY: box.minY - usable.minY,
    maxX: box.maxX - usable.minX + spacing,
    maxY: box.maxY - usable.minY + spacing,
  };
}

/**
 * In the coordinates of the usable box; less the spacing on its left and bottom, where grown boxes come too near by just so much.
 * On the sides of the usable box it goes on to the end of the grown sheet. A box thinner than the spacing keeps one unit: that is enough for no
 * box to lie across it, and costs room on one side.
 */
function edgeBox(box: Box, usable: Box, spacing: number): Box {
  const maxX = box.maxX - usable.minX + (box.maxX === usable.maxX ? spacing : 0);
  const maxY = box.maxY - usable.minY + (box.maxY === usable.maxY ? spacing : 0);
  const minX = box.minX === usable.minX ? 0 : box.minX - usable.minX + spacing;
  const minY = box.minY === usable.minY ? 0 : box.minY - usable.minY + spacing;
  return { minX: Math.min(minX, maxX - 1), minY: Math.min(minY, maxY - 1), maxX, maxY };
}

function clipped(box: Box, width: number, height: number): Box {
  const minX = Math.min(width, Math.max(0, box.minX));
  const minY = Math.min(height, Math.max(0, box.minY));
  return {
    minX,
    minY,
    maxX: Math.max(minX, Math.min(width, box.maxX)),
    maxY: Math.max(minY, Math.min(height, box.maxY)),
  };
}

interface TurnedBox {
  readonly width: number;
  readonly height: number;
  readonly orientation: number;
}

/** The two smallest distinct boxes of a body that fit an empty sheet of the stock; a rectangle never has more than two. */
function boxesOn(
  body: Body,
  stock: number,
  { spacing, job }: PackingTask,
  places: readonly Box[],
): TurnedBox[] {
  const boxes: TurnedBox[] = [];
  body.orientations.forEach(({ width, height, allowedOn }, orientation) => {
    if (!isInReach(job.machine, width, height)) return;
    const box = { width: width + spacing, height: height + spacing, orientation };
    const known = boxes.some((other) => other.width === box.width && other.height === box.height);
    const fits = places.some((place) => isRoomFor(box, place));
    if (allowedOn[stock] && !known && fits) boxes.push(box);
  });
  return boxes.sort((a, b) => a.width * a.height - b.width * b.height).slice(0, 2);
}

function smallestArea(stocks: readonly BoxStock[], kind: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { boxWidth, boxHeight } of stocks) {
    for (const i of [2 * kind, 2 * kind + 1]) {
      const width = boxWidth[i] ?? NO_BOX;
      if (width !== NO_BOX) least = Math.min(least, width * (boxHeight[i] ?? NO_BOX));
    }
  }
  return Number.isFinite(least) ? least : 0;
}
