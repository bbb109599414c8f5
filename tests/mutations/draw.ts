import { createHash } from 'node:crypto';
import { type Fault, keyOf } from './faults.ts';

/** The folders that get faults, each as many as the others; a file belongs to the last of them that it is in. */
export const FOLDERS = [
  'src/geometry',
  'src/verify',
  'src/holding',
  'src/costing',
  'src/partsfile',
  'src/record',
  'src/packing',
  'src/packing/rectangles',
  'src/packing/outlines',
  'src/packing/panelsaw',
  'src/packing/boards',
  'src/packing/bounds',
] as const;
export type Folder = (typeof FOLDERS)[number];

/** Of one way of making a fault, so many at most are drawn in a folder. */
const MOST_OF_ONE_OPERATOR = 2;

export function folderOf(file: string): Folder | null {
  return FOLDERS.findLast((folder) => file.startsWith(`${folder}/`)) ?? null;
}

/** The order in which the faults of a folder have their turn. Each has a rank by its own text and the seed, so that a change elsewhere moves none. */
export function rankedBy(seed: number, faults: readonly Fault[]): Fault[] {
  const rank = new Map(faults.map((fault) => [fault, rankOf(seed, fault)]));
  return [...faults].sort((a, b) => (rank.get(a)! < rank.get(b)! ? -1 : 1));
}

function rankOf(seed: number, fault: Fault): string {
  return createHash('sha256')
    .update(`${seed} ${keyOf(fault)}`)
    .digest('hex');
}

/** The first `count` in their order that are not `unfit`, one of a file and two of an operator at most; and the unfit ones before the last of them. */
export function drawn(
  ranked: readonly Fault[],
  count: number,
  isUnfit: (fault: Fault) => boolean,
): { faults: Fault[]; unfit: Fault[] } {
  const faults: Fault[] = [];
  const unfit: Fault[] = [];
  for (const fault of ranked) {
    if (faults.length === count) break;
    if (faults.some(({ file }) => file === fault.file)) continue;
    const alike = faults.filter(({ operator }) => operator === fault.operator);
    if (alike.length === MOST_OF_ONE_OPERATOR) continue;
    (isUnfit(fault) ? unfit : faults).push(fault);
  }
  return { faults, unfit };
}
