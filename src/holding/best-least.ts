/**
 * The greatest least margin that any cutting order of a sheet gives.
 *
 * The more kerf is open, the less a piece is held, and how much is open after the last cut does not
 * depend on who comes last. So the last place goes to the piece that is held best there, and the
 * places before it are filled in the same way from the end, always among the pieces around which no
 * other one still waits. Moving that piece to the end of any order brings all others forward, so no
 * order does better.
 * Source: Lawler 1973, "Optimal sequencing of a single machine subject to precedence constraints",
 * Management Science 19, 544-546.
 * Where we differ: pieces share kerf, so the cost of a place is not a sum of times; the proof needs
 * only that the sum grows with the set of those that are cut. The first piece found that is held no
 * worse than some piece must be anyway takes the place, since it cannot lower the least.
 * Cost: about two margins a piece, at most the square of their number.
 * Degenerate: without pieces the least is infinite.
 */
import { type Block, openedUm } from './open-kerf.ts';

/** `marginAt` must not rise with the open kerf. */
export function bestLeastMargin(
  blocks: readonly Block[],
  marginAt: (block: number, openUm: number) => number,
): number {
  const alone = blocks.map(({ kerfUm }, i) => marginAt(i, kerfUm));
  const strongestFirst = [...blocks.keys()].sort((a, b) => alone[b]! - alone[a]!);
  const cut = new Uint8Array(blocks.length).fill(1);
  let openUm = wholeKerfUm(blocks);
  let least = alone.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  for (let left = blocks.length; left > 0; left--) {
    let [last, margin] = [-1, Number.NEGATIVE_INFINITY];
    for (const i of strongestFirst) {
      const { host } = blocks[i]!;
      if (cut[i] === 0 || (host !== null && cut[host] === 1)) continue;
      const own = marginAt(i, openUm);
      if (own > margin) [last, margin] = [i, own];
      if (margin >= least) break;
    }
    least = Math.min(least, margin);
    cut[last] = 0;
    openUm -= openedUm(blocks[last]!, cut);
  }
  return least;
}

/** When all is cut. */
export function wholeKerfUm(blocks: readonly Block[]): number {
  const cut = new Uint8Array(blocks.length);
  return blocks.reduce((sum, block, i) => {
    const um = openedUm(block, cut);
    cut[i] = 1;
    return sum + um;
  }, 0);
}
