/**
 * In which order the pieces of a sheet are cut.
 *
 * Rules that never bend: in a piece first its pockets, in which holes may lie, then its holes, then its cut-outs, then its outline; a piece
 * inside a cut-out, with all its cuts, before the first cut of the piece around it; skins are taken
 * off after all other cuts. Within them the
 * least margin of the sheet is made as large as any order makes it. Then each piece is cut while its
 * verdict is still the best it can have, as far as all of them can be: those that stay before those
 * that are marginal, of equals those that open less kerf first. Among the orders that keep all this
 * a short way is taken.
 * Source: see `best-least.ts`, `deadlines.ts` and `short-way.ts`. Cost: theirs.
 */
import type { ContourStep, Holding, SkinStep } from '../model/holding.ts';
import { bestLeastMargin } from './best-least.ts';
import { grantWishes, hostsOf, keepsDeadlines, type Wish } from './deadlines.ts';
import type { Needed } from './kerf-limits.ts';
import { type Block, openedUm } from './open-kerf.ts';
import { shortWay } from './short-way.ts';
import { MOVES, STAYS } from './verdict.ts';

/** How the pieces are held, by their place in the list of blocks. */
export interface Holds {
  /** Must not rise with the open kerf. */
  readonly marginAt: (block: number, openUm: number) => number;
  /** The most open kerf with which a piece has the margins needed. */
  readonly latestUm: (block: number, needed: Needed) => number;
}

/** Indices in the list of blocks. */
export interface CuttingOrder {
  readonly order: readonly number[];
  /** The short way that heeds no margin; the same list where it serves as the order. */
  readonly shortest: readonly number[];
}

export function cuttingOrder(blocks: readonly Block[], holds: Holds): CuttingOrder {
  const wayWith = (deadlinesUm: readonly number[]): readonly number[] =>
    weakEndFirst(blocks, holds, deadlinesUm, shortWay(blocks, deadlinesUm));
  const shortest = wayWith(blocks.map(() => Number.POSITIVE_INFINITY));
  const deadlinesUm = deadlinesOf(blocks, holds);
  const order = keepsDeadlines(blocks, deadlinesUm, shortest) ? shortest : wayWith(deadlinesUm);
  return { order, shortest };
}

export interface StepCounts {
  readonly piece: number;
  readonly pockets: number;
  readonly holes: number;
  readonly cutOuts: number;
}

export function stepsOf({ piece, pockets, holes, cutOuts }: StepCounts): ContourStep[] {
  const features = (kind: ContourStep['kind'], count: number): ContourStep[] =>
    Array.from({ length: count }, (_, feature) => ({ kind, piece, feature }));
  return [
    ...features('pocket', pockets),
    ...features('hole', holes),
    ...features('cut-out', cutOuts),
    ...features('outline', 1),
  ];
}

/** In the order of the cuts that left them. */
export function skinSteps(loose: readonly Holding[]): SkinStep[] {
  return loose.flatMap(({ kind, piece, cutOrder, skin }): SkinStep[] =>
    skin === 0 || kind === 'sliver' || piece === null
      ? []
      : [{ kind: 'skin', thing: kind, piece, cutOrder }],
  );
}

/** A way is as short from its other end: it starts with the piece that is held less well. */
function weakEndFirst(
  blocks: readonly Block[],
  { marginAt }: Holds,
  deadlinesUm: readonly number[],
  way: readonly number[],
): readonly number[] {
  if (way.length < 2) return way;
  const alone = (i: number): number => marginAt(i, blocks[i]!.kerfUm);
  const back = way.toReversed();
  const isWeaker = alone(back[0]!) < alone(way[0]!);
  return isWeaker && keepsDeadlines(blocks, deadlinesUm, back) ? back : way;
}

function deadlinesOf(blocks: readonly Block[], { marginAt, latestUm }: Holds): readonly number[] {
  const margin = bestLeastMargin(blocks, marginAt);
  const hard = blocks.map((_, i) => latestUm(i, { margin, marginLow: null }));
  const earliestUm = blocks.map((_, i) => earliestKerfUm(blocks, i));
  const smallestFirst = [...blocks.keys()].sort((a, b) => earliestUm[a]! - earliestUm[b]!);
  const wishesFor = (needed: Needed): Wish[] =>
    smallestFirst
      .map((block) => ({ block, deadlineUm: latestUm(block, needed) }))
      .filter(({ block, deadlineUm }) => earliestUm[block]! <= deadlineUm);
  const wishes = [...wishesFor(STAYS), ...wishesFor({ margin: MOVES, marginLow: null })];
  return grantWishes(
    blocks,
    hard,
    wishes.filter(({ deadlineUm }) => Number.isFinite(deadlineUm)),
  );
}

/** Open kerf after a piece that is cut as early as can be, after all that lies in its cut-outs. */
function earliestKerfUm(blocks: readonly Block[], index: number): number {
  const cut = new Uint8Array(blocks.length);
  let openUm = 0;
  blocks.forEach((block, i) => {
    if (i !== index && !hostsOf(blocks, i).includes(index)) return;
    openUm += openedUm(block, cut);
    cut[i] = 1;
  });
  return openUm;
}
