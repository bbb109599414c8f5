import type { Layout, UnplacedWhy } from '../model/layout.ts';
import type { LengthPart } from '../model/part.ts';
import type { Plan } from '../model/plan.ts';

/** Pieces of a part that find no board. */
export interface MissingLengths {
  readonly part: LengthPart;
  readonly numbers: readonly number[];
  readonly why: UnplacedWhy;
}

/** The pieces that the layout says are left over, by their numbers: those that lie on none of its boards. */
export function missingLengths({ job }: Plan, layout: Layout): readonly MissingLengths[] {
  const laid = layout.boards.flatMap(({ pieces }) => pieces);
  return layout.unplacedLengths.map(({ part: index, why }) => {
    const part = job.lengthParts[index]!;
    const found = new Set(laid.flatMap((piece) => (piece.part === index ? [piece.number] : [])));
    const all = Array.from({ length: part.count }, (_, i) => i + 1);
    return { part, numbers: all.filter((number) => !found.has(number)), why };
  });
}

/** "3 × Leg". */
export function missingText({ part, numbers }: MissingLengths): string {
  return numbers.length === 1 ? `${part.name} ${numbers[0]}` : `${numbers.length} × ${part.name}`;
}
