import { shortened } from './visible.ts';

/** Longer words are not mistyped keys, and the table below grows with the square of the length. */
const LONGEST_WORD = 40;

/**
 * The candidate that `word` was most likely meant to be, or null where none is near: at most a third of its letters
 * may differ. Of equally near candidates the first wins.
 */
export function nearest(word: string, candidates: readonly string[]): string | null {
  const plain = simplified(word);
  if (LONGEST_WORD < plain.length) return null;
  let best: string | null = null;
  let bestDistance = Math.max(1, Math.floor(plain.length / 3)) + 1;
  for (const candidate of candidates) {
    if (LONGEST_WORD < candidate.length) continue;
    const distance = editDistance(plain, simplified(candidate));
    if (distance < bestDistance) {
      bestDistance = distance;
      best = candidate;
    }
  }
  return best;
}

/** A hint that names the nearest candidate, or lists what is possible. */
export function suggest(word: string, candidates: readonly string[]): string {
  const near = nearest(word, candidates);
  return near === null
    ? `possible: ${candidates.map(shortened).join(', ')}`
    : `did you mean ${shortened(near)}?`;
}

function simplified(word: string): string {
  return word.toLowerCase().replace(/[\s_-]+/g, '-');
}

/**
 * How many letters must be put in, left out, replaced or swapped with their neighbour to make `a` into `b`.
 * Source: Damerau 1964, "A technique for computer detection and correction of spelling errors", Communications of the ACM 7(3),
 * by the table of Wagner and Fischer 1974, "The string-to-string correction problem", Journal of the ACM 21(1).
 */
function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (last[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(replaced, (last[j] as number) + 1, (row[j - 1] as number) + 1);
      if (1 < i && 1 < j && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (beforeLast[j - 2] as number) + 1);
      row.push(least);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] as number;
}
