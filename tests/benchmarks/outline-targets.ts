import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Densities of a strip in percent, as they are published. */
export interface Published {
  readonly average: number;
  readonly best: number;
  /** Whether the figures are quoted from memory, not from the paper. */
  readonly fromMemory: boolean;
}

/** Of the shares of jobs on sheets without waste that are solved with the fewest sheets. */
export interface KnownTarget {
  readonly still: number;
  readonly turned: number;
}

/**
 * What is published, after
 * Elkeran 2013, "A new approach for sheet nesting problem using guided cuckoo search and pairwise clustering", European J. of Operational Research 231, 757-769;
 * Leung, Lin & Zhang 2012, "Extended local search algorithm based on nonlinear programming for two-dimensional irregular strip packing problem",
 * Computers & OR 39, 678-686. Up to twenty minutes of search each.
 */
const FROM_MEMORY: Readonly<Record<string, readonly [average: number, best: number]>> = {
  shirts: [87.59, 88.96],
  trousers: [89.02, 91.0],
  albano: [87.47, 89.58],
  dagli: [87.06, 89.51],
  fu: [90.68, 92.41],
  jakobs1: [88.9, 89.1],
  marques: [89.4, 90.59],
  shapes0: [67.26, 68.79],
  dighe1: [100, 100],
};

/** What we aim at, by the work of a track: densities in percent, to one digit. */
const WORKS = [1e9, 6e9, 6e10];
const TARGETS: Readonly<Record<string, readonly number[]>> = {
  shirts: [86.5, 88.0, 89.0],
  trousers: [90.0, 90.9, 91.1],
  albano: [87.5, 88.4, 89.6],
  dagli: [86.0, 87.2, 89.0],
  fu: [90.5, 91.2, 92.4],
  jakobs1: [89.0, 89.1, 89.1],
  marques: [88.9, 89.6, 90.6],
  shapes0: [66.0, 67.8, 68.8],
  dighe1: [100, 100, 100],
};
const KNOWN_TARGETS: readonly KnownTarget[] = [
  { still: 0.45, turned: 0.25 },
  { still: 0.6, turned: 0.4 },
  { still: 0.75, turned: 0.55 },
];

/** Null for another strip or another amount of work. */
export function targetOf(strip: string, work: number): number | null {
  return TARGETS[strip]?.[WORKS.indexOf(work)] ?? null;
}

export function knownTargetOf(work: number): KnownTarget | null {
  return KNOWN_TARGETS[WORKS.indexOf(work)] ?? null;
}

/** By the names of strips: from the folder's own list, where it has one. */
export function publishedDensities(folder: string): ReadonlyMap<string, Published> {
  const list = join(folder, 'published-densities.csv');
  const listed = existsSync(list) ? parsePublished(readFileSync(list, 'utf8')) : [];
  const remembered = Object.entries(FROM_MEMORY).map(
    ([name, [average, best]]) => [name, { average, best, fromMemory: true }] as const,
  );
  return new Map([...remembered, ...listed]);
}

/** Of several averages, and of several bests, the highest; lines without both are left out. */
export function parsePublished(text: string): [string, Published][] {
  const [head = [], ...lines] = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => line.split(',').map((cell) => cell.trim()));
  return lines.flatMap((cells): [string, Published][] => {
    const average = highest(head, cells, '_avg_pct');
    const best = highest(head, cells, '_best_pct');
    if (average === null || best === null) return [];
    const fromMemory = average.fromMemory || best.fromMemory;
    return [[cells[0] ?? '', { average: average.value, best: best.value, fromMemory }]];
  });
}

function highest(head: readonly string[], cells: readonly string[], what: string) {
  const found = head.flatMap((name, k) =>
    name.includes(what) && cells[k]
      ? [{ value: Number(cells[k]), fromMemory: name.endsWith('_memory') }]
      : [],
  );
  return found.sort((a, b) => b.value - a.value)[0] ?? null;
}
