/**
 * In which order the pieces of a sheet are cut.
 *
 * Rules that never bend: in a piece first its holes, then its cut-outs, then its outline; a piece
 * inside a cut-out before the piece that has the cut-out. Within them the early pieces come first
 * and then the weak ones, each group weakest first, while the vacuum is high; the rest follow one
 * another by the shortest way from centre to centre, starting with the weakest. Equal cases are
 * decided by piece index, distances are squared in whole numbers: a mirrored or turned sheet keeps
 * its order.
 * Source: common practice; nearest neighbour as the way. Cost: the square of the number of pieces.
 */
import { assert } from '../geometry/assert.ts';
import type { Point } from '../geometry/point.ts';
import type { CutStep } from '../model/holding.ts';

/** `early`: stays only if it is cut early; `weak`: does not stay even then; `strong`: stays wherever it comes. */
export type Standing = 'early' | 'weak' | 'strong';

export interface OrderedPiece {
  readonly piece: number;
  readonly holes: number;
  readonly cutOuts: number;
  /** Index in the list of the piece in whose cut-out it lies. */
  readonly host: number | null;
  readonly standing: Standing;
  readonly margin: number;
  /** Twice its centre, so that it is on the grid. */
  readonly centre: Point;
}

export function cuttingOrder(pieces: readonly OrderedPiece[]): CutStep[] {
  const urgencies = pieces.map((_, i) => urgencyOf(pieces, i));
  const waiting = new Set(pieces.keys());
  const steps: CutStep[] = [];
  let last: number | null = null;
  while (waiting.size > 0) {
    const hosts = new Set([...waiting].map((i) => (pieces[i] as OrderedPiece).host));
    const ready = [...waiting].filter((i) => !hosts.has(i));
    assert(ready.length > 0, 'no piece lies inside itself');
    last = nextOf(pieces, urgencies, ready, last);
    waiting.delete(last);
    steps.push(...stepsOf(pieces[last] as OrderedPiece));
  }
  return steps;
}

interface Urgency {
  readonly rank: number;
  readonly margin: number;
}

const RANKS: Readonly<Record<Standing, number>> = { early: 0, weak: 1, strong: 2 };

/** A piece inside a cut-out is as urgent as the piece around it, which has to wait for it. */
function urgencyOf(pieces: readonly OrderedPiece[], index: number): Urgency {
  const { standing, margin, host } = pieces[index] as OrderedPiece;
  const own = { rank: RANKS[standing], margin };
  if (host === null) return own;
  const around = urgencyOf(pieces, host);
  return isBefore(around, own) ? around : own;
}

function isBefore(a: Urgency, b: Urgency): boolean {
  return a.rank < b.rank || (a.rank === b.rank && a.margin < b.margin);
}

function nextOf(
  pieces: readonly OrderedPiece[],
  urgencies: readonly Urgency[],
  ready: readonly number[],
  last: number | null,
): number {
  const compare = (a: number, b: number): number => {
    const [ua, ub] = [urgencies[a] as Urgency, urgencies[b] as Urgency];
    if (ua.rank !== ub.rank) return ua.rank - ub.rank;
    if (ua.rank === RANKS.strong && last !== null) {
      const way = way2(pieces, last, a) - way2(pieces, last, b);
      if (way !== 0) return way;
    }
    return ua.margin - ub.margin || pieceOf(pieces, a) - pieceOf(pieces, b);
  };
  return ready.reduce((best, each) => (compare(each, best) < 0 ? each : best));
}

function pieceOf(pieces: readonly OrderedPiece[], index: number): number {
  return (pieces[index] as OrderedPiece).piece;
}

/** Squared distance between two centres. */
function way2(pieces: readonly OrderedPiece[], from: number, to: number): number {
  const a = (pieces[from] as OrderedPiece).centre;
  const b = (pieces[to] as OrderedPiece).centre;
  return (a.x - b.x) ** 2 + (a.y - b.y) ** 2;
}

function stepsOf({ piece, holes, cutOuts }: OrderedPiece): CutStep[] {
  const features = (kind: CutStep['kind'], count: number): CutStep[] =>
    Array.from({ length: count }, (_, feature) => ({ kind, piece, feature }));
  return [...features('hole', holes), ...features('cut-out', cutOuts), ...features('outline', 1)];
}
