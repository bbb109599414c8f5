import type { Job } from '../../src/model/job.ts';
import type { BoardLayout } from '../../src/model/layout.ts';
import type { LengthPart } from '../../src/model/part.ts';
import type { BoardStock } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { jobOf, type PartInput, type SheetInput } from './jobs.ts';

/** A job of lengths by hand, at a saw. All lengths here are in mm; the material may have sheets as well. */
export interface BoardJobInput {
  readonly kerf?: number;
  readonly boards: readonly BoardInput[];
  /** Length and count of each part; or the part's material too. */
  readonly lengths: readonly (
    | readonly [number, number]
    | readonly [number, number, { readonly material: number }]
  )[];
  readonly leastLeftover?: number;
  readonly sheets?: readonly SheetInput[];
  readonly parts?: readonly PartInput[];
}

export interface BoardInput {
  readonly length: number;
  readonly endTrim?: number;
  /** From and to. */
  readonly defects?: readonly (readonly [number, number])[];
  readonly priceCents?: number | null;
  readonly onHand?: number | null;
}

export function boardJob(input: BoardJobInput): Job {
  const { kerf = 0, boards, lengths, leastLeftover = 0, sheets = [], parts = [] } = input;
  const materials = Math.max(0, ...lengths.map(([, , more]) => more?.material ?? 0)) + 1;
  const job = jobOf({ materials: Array.from({ length: materials }, () => sheets), parts });
  return {
    ...job,
    machine: { ...SAW, kerf: fromMm(kerf), spacing: fromMm(kerf) },
    materials: job.materials.map((material) => ({
      ...material,
      boards: boards.map(stockOf),
      leastLeftover: fromMm(leastLeftover),
    })),
    lengthParts: lengths.map(
      ([length, count, more], index): LengthPart => ({
        index,
        name: `Bar ${index}`,
        material: more?.material ?? 0,
        group: null,
        note: null,
        count,
        length: fromMm(length),
        place: NOWHERE,
      }),
    ),
  };
}

/** A board by its pieces: part, number, and place in mm. */
export function boardOf(
  stock: number,
  ...pieces: readonly (readonly [number, number, number])[]
): BoardLayout {
  return {
    stock,
    pieces: pieces.map(([part, number, at]) => ({ part, number, at: fromMm(at) })),
  };
}

const NOWHERE = { line: 1, column: 1 };

const SAW = {
  kind: 'panel-saw',
  stages: null,
  firstCut: null,
  longestRip: null,
  longestCrosscut: null,
  stackHeight: null,
  leastFeed: { width: 0, length: 0 },
  assumed: [],
} as const;

function stockOf(input: BoardInput, index: number): BoardStock {
  const { length, endTrim = 0, defects = [], priceCents = null, onHand = null } = input;
  return {
    index,
    name: `board of ${length}`,
    length: fromMm(length),
    endTrim: fromMm(endTrim),
    defects: defects.map(([from, to]) => ({ from: fromMm(from), to: fromMm(to), why: 'knot' })),
    priceCents,
    onHand,
    place: NOWHERE,
  };
}
