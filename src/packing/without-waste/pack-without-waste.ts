import { type Box, boxContains, boxOf } from '../../geometry/box.ts';
import { regionsOverlap } from '../../geometry/distance.ts';
import type { Point } from '../../geometry/point.ts';
import { type Edge, edgesOf } from '../../geometry/segments.ts';
import { boxContour, type Ring } from '../../geometry/shape.ts';
import { usableBox } from '../../model/stock.ts';
import type { Candidate, PackingTask, Search, Strategy } from '../task.ts';
import type { WorkBudget } from '../work.ts';
import { type Block, type BlockCorner, type Blocks, blocksOf, directionOf } from './blocks.ts';
import { type ConvexCorner, convexCorners, isClear, movedRing, roomWithout } from './free-room.ts';
import { roomsToFill } from './rooms-to-fill.ts';

/**
 * Lays bodies that can fill their sheets without any waste but one straight end of the last sheet.
 *
 * Idea: in every convex corner of the free room some body has a corner of its own, and a side along the side that leaves it. The corner that the fewest
 * bodies fit is filled first, so that a wrong choice soon shows. Of those that fit the one comes first that leaves a room of the fewest corners, by chance
 * among equals; after some tries the search begins anew, each time with more of them.
 * Source: our own, for outlines; the most constrained choice first after Haralick & Elliott 1980, "Increasing tree search efficiency for constraint
 * satisfaction problems", Artificial Intelligence 14; new beginnings after Gomes, Selman & Kautz 1998, "Boosting combinatorial search
 * through randomization", AAAI-98.
 * Cost: for each try the bodies that might fit times the sides of the room, and the room that each leaves. Meant for up to some hundred bodies. Where the
 * last sheet may end anywhere areas often come out even by chance, so little work is spent then.
 * Degenerate cases: the start stays as it is where there is waste by area or an outline that is not exact (see rooms-to-fill.ts), and where a body is not in one piece
 * or not allowed on the stock.
 */
export const packWithoutWaste: Strategy = (task, { budget, random, start }) => {
  const rooms = roomsToFill(task);
  if (rooms === null) return start;
  const stopAt = endsShort(task, rooms) ? Math.max(0, budget.left - WORK_BY_CHANCE) : 0;
  const blocks = blocksOf(task, (work) => budget.spend(work));
  if (blocks === null) return start;
  for (let tries = FIRST_TRIES; goesOn(budget, stopAt); tries *= GROWTH) {
    const left = new Map([...blocks.bodies].map(([kind, { length }]) => [kind, length]));
    const fill: Fill = { blocks, rooms, left, laid: [], tries, stopAt, budget, random };
    if (layAll(fill, task.bodies.length)) return candidateOf(fill);
    const isAllTried = fill.tries > 0;
    if (isAllTried) break;
  }
  return start;
};

const FIRST_TRIES = 300;
const GROWTH = 1.1;
/** What may be spent where the last sheet ends short. */
const WORK_BY_CHANCE = 1e6;

function endsShort({ stocks: [stock] }: PackingTask, rooms: readonly Box[]): boolean {
  return stock !== undefined && (rooms.at(-1)?.maxX ?? 0) < usableBox(stock).maxX;
}

function goesOn(budget: WorkBudget, stopAt: number): boolean {
  return !budget.exhausted && budget.left > stopAt;
}

interface Fill extends Pick<Search, 'budget' | 'random'> {
  readonly blocks: Blocks;
  readonly rooms: readonly Box[];
  /** Bodies of each kind that are not laid yet. */
  readonly left: Map<number, number>;
  readonly laid: Laid[];
  /** How many more there are. */
  tries: number;
  /** How much of the budget is not for this. */
  readonly stopAt: number;
}

/** A block at its place, and its outline there. */
interface Laid {
  readonly block: Block;
  readonly room: number;
  readonly by: Point;
  readonly outline: Ring;
}

/** A block that may be laid, and what it leaves free of its room. */
interface Option {
  readonly laid: Laid;
  readonly rest: readonly Ring[];
}

/** Lays as many bodies as there are; false where that fails or no tries are left. */
function layAll(fill: Fill, bodies: number): boolean {
  const { laid, budget, stopAt } = fill;
  if (bodies === 0) return true;
  const open = [optionsIn(fill, -1, [])];
  while (open.length > 0) {
    const option = open.at(-1)?.pop();
    if (option === undefined) {
      open.pop();
      const inVain = laid.pop();
      if (inVain !== undefined) keepCount(fill, inVain, 1);
    } else if (fill.tries <= 0 || !goesOn(budget, stopAt)) return false;
    else {
      laid.push(option.laid);
      keepCount(fill, option.laid, -1);
      if (laid.length === bodies) return true;
      open.push(optionsIn(fill, option.laid.room, option.rest));
    }
  }
  return false;
}

function keepCount({ left }: Fill, { block: { kind } }: Laid, by: 1 | -1): void {
  left.set(kind, (left.get(kind) ?? 0) + by);
}

/** What may be laid next, the most promising last: in what is free of a room, or in the next one where nothing is. */
function optionsIn(fill: Fill, room: number, free: readonly Ring[]): Option[] {
  const next = fill.rooms[room + 1];
  if (free.length === 0 && next !== undefined) return optionsIn(fill, room + 1, [boxContour(next)]);
  fill.tries--;
  return inOrder(fill, free, tightest(fill, room, free));
}

/** What fits the corner that the least fits. */
function tightest(fill: Fill, room: number, free: readonly Ring[]): readonly Laid[] {
  const sides = free.flatMap(edgesOf);
  const corners = free.flatMap(convexCorners).map((corner) => {
    const alike = fill.blocks.cornersAlong.get(directionOf(corner.at, corner.after)) ?? [];
    return { corner, alike };
  });
  let least: readonly Laid[] | null = null;
  for (const { corner, alike } of corners.sort((a, b) => a.alike.length - b.alike.length)) {
    const fits = fitsIn(fill, { room, sides, corner }, alike, least?.length ?? alike.length);
    if (least === null || fits.length < least.length) least = fits;
    if (least.length <= 1) break;
  }
  return least ?? [];
}

interface Place {
  readonly room: number;
  /** Of the free room. */
  readonly sides: readonly Edge[];
  readonly corner: ConvexCorner;
}

/** The blocks that fit with one of the corners, `most` at most. */
function fitsIn(
  fill: Fill,
  { room, sides, corner }: Place,
  alike: readonly BlockCorner[],
  most: number,
): readonly Laid[] {
  const fits: Laid[] = [];
  for (const { block, at } of alike) {
    if (fits.length === most) break;
    if (fill.left.get(block.kind) === 0) continue;
    const by = { x: corner.at.x - at.x, y: corner.at.y - at.y };
    if (!block.parts.every((part) => isClear(sides, part, by))) continue;
    const laid = { block, room, by, outline: movedRing(block.outline, by) };
    if (block.parts.length === 1 || isFree(fill, laid)) fits.push(laid);
  }
  fill.budget.spend(alike.length * sides.length);
  return fits;
}

/** A side of the free room along the seam of two convex parts goes unseen by them, so blocks of several are compared with all that lies in the room. */
function isFree({ rooms, laid, budget }: Fill, { room, outline }: Laid): boolean {
  const region = { outer: outline, holes: [] };
  const others = laid.filter((other) => other.room === room);
  budget.spend(others.length * outline.length);
  return (
    boxContains(rooms[room] as Box, boxOf(outline)) &&
    !others.some((other) => regionsOverlap(region, { outer: other.outline, holes: [] }))
  );
}

function inOrder(
  { budget, random }: Fill,
  free: readonly Ring[],
  choices: readonly Laid[],
): Option[] {
  const ranked = choices.map((laid) => {
    const rest = roomWithout(free, laid.outline);
    const corners = free.flat().length + laid.outline.length;
    budget.spend(corners * (TRACE_WORK + corners));
    return { laid, rest, rank: rest.flat().length + random() };
  });
  return ranked.sort((a, b) => b.rank - a.rank);
}

/** What it costs to trace a room anew, for each of its corners beside comparing them with one another. */
const TRACE_WORK = 100;

function candidateOf({ blocks, rooms, laid }: Fill): Candidate {
  const waiting = new Map([...blocks.bodies].map(([kind, bodies]) => [kind, [...bodies]]));
  const sheets = rooms.map((_, room) => ({
    stock: 0,
    spots: laid
      .filter((one) => one.room === room)
      .map(({ block: { kind, orientation }, by }) => ({
        body: waiting.get(kind)?.shift() as number,
        orientation,
        ...by,
      })),
  }));
  return { sheets, unplaced: [] };
}
