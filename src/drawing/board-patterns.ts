import type { BoardLeftover } from '../model/costs.ts';
import type { BoardPiece } from '../model/layout.ts';
import { boardKerf } from '../model/machine.ts';
import { type NumberedBoard, numberedBoards, type Plan } from '../model/plan.ts';
import type { BoardStock, Material } from '../model/stock.ts';

/** A piece of every board of a pattern: what counts at the saw, whatever it is called. */
export interface PatternCut {
  readonly at: number;
  readonly length: number;
}

/** One setting of the stop: a length, how often in a row each board has it, and which pieces they are in all. */
export interface StopSetting {
  /** Left end of the first of them. */
  readonly at: number;
  readonly length: number;
  readonly timesPerBoard: number;
  readonly pieces: readonly {
    readonly name: string;
    readonly note: string | null;
    readonly numbers: readonly number[];
  }[];
}

/** Boards that are cut alike: of one stock, with the same lengths at the same places. */
export interface BoardPattern {
  readonly material: Material;
  readonly stock: BoardStock;
  readonly numbers: readonly number[];
  /** From left to right. */
  readonly cuts: readonly PatternCut[];
  /** From left to right, those of one length that follow one another a kerf apart together. */
  readonly stops: readonly StopSetting[];
  /** Of each board. */
  readonly leftovers: readonly BoardLeftover[];
}

/** All boards of the job, alike ones together, in the order of the first of each. */
export function boardPatterns(plan: Plan): readonly BoardPattern[] {
  const groups = new Map<string, NumberedBoard[]>();
  for (const each of numberedBoards(plan.layouts)) {
    const key = JSON.stringify([each.material, each.board.stock, cutsOf(plan, each)]);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].map((alike) => patternOf(plan, alike));
}

function patternOf(plan: Plan, alike: readonly NumberedBoard[]): BoardPattern {
  const first = alike[0]!;
  const material = plan.job.materials[first.material]!;
  return {
    material,
    stock: material.boards[first.board.stock]!,
    numbers: alike.map(({ number }) => number),
    cuts: cutsOf(plan, first),
    stops: stopsOf(plan, alike),
    leftovers: plan.costs.boards[first.number - 1]?.leftovers ?? [],
  };
}

function cutsOf(plan: Plan, { board }: NumberedBoard): readonly PatternCut[] {
  return board.pieces.map((piece) => ({ at: piece.at, length: lengthOf(plan, piece) }));
}

function stopsOf(plan: Plan, alike: readonly NumberedBoard[]): readonly StopSetting[] {
  const kerf = boardKerf(plan.job.machine);
  const runs: { at: number; length: number; end: number; places: number[] }[] = [];
  cutsOf(plan, alike[0]!).forEach(({ at, length }, i) => {
    const last = runs.at(-1);
    if (last?.length === length && last.end + kerf === at) {
      last.end = at + length;
      last.places.push(i);
    } else {
      runs.push({ at, length, end: at + length, places: [i] });
    }
  });
  return runs.map(({ at, length, places }) => ({
    at,
    length,
    timesPerBoard: places.length,
    pieces: piecesOf(
      plan,
      alike.flatMap(({ board }) => places.map((place) => board.pieces[place]!)),
    ),
  }));
}

/** By their parts, in the order of the file. */
function piecesOf({ job }: Plan, own: readonly BoardPiece[]): StopSetting['pieces'] {
  const parts = [...new Set(own.map(({ part }) => part))].toSorted((a, b) => a - b);
  return parts.map((part) => ({
    name: job.lengthParts[part]!.name,
    note: job.lengthParts[part]!.note,
    numbers: own
      .filter((piece) => piece.part === part)
      .map(({ number }) => number)
      .toSorted((a, b) => a - b),
  }));
}

function lengthOf({ job }: Plan, { part }: BoardPiece): number {
  return job.lengthParts[part]!.length;
}
