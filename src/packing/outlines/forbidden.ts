import { negate } from '../../geometry/convex-sum.ts';
import { type Convex, convexContains, convexOf, convexSum } from './chains.ts';
import type { Form } from './forms.ts';
import { type PairTable, pairTable } from './pair-table.ts';

/**
 * For a form that moves and a form that lies still: where the first one's origin may not come, seen from the second one's origin.
 *
 * Idea: two convex parts overlap just when the difference of their origins lies strictly inside the Minkowski sum of the one and the
 * negative of the other. So two forms overlap just when the difference lies strictly inside one of the sums of their parts, taken pairwise.
 * Nothing is united or clipped: all corners stay whole numbers, and a fit without any play is found because touching is not inside.
 * Source: Lozano-Pérez 1983, "Spatial planning: a configuration space approach", section III; without the union that usually follows.
 * Cost: the product of the part counts, once for each pair of forms that meet; kept while there is room.
 */
export type Forbidden = readonly Convex[];

/** As many corners of sums are kept, about 150 megabytes; each pair counts as some more. */
const MOST_CORNERS = 6e6;
const PAIR_OVERHEAD = 20;

/** Units of work that a sum costs, and each corner of one that is kept. */
const SUM_WORK = 100;
const CORNER_WORK = 18;

/** Still forms without spacing: those from `from` on. Against them a moving form counts as it is in `bare`. */
export interface EdgeForms {
  readonly bare: readonly Form[];
  readonly from: number;
}

/** The forbidden positions by the moving and the still form; `spend` is told of the work when a pair is first looked at. */
export function forbiddenTable(
  forms: readonly Form[],
  spend: (work: number) => void,
  edges: EdgeForms = { bare: [], from: forms.length },
): PairTable<Forbidden> {
  const parts = forms.map((form) => form.parts.map(convexOf));
  const negated = forms.map(negatedParts);
  const bare = edges.from < forms.length ? edges.bare.map(negatedParts) : [];
  return pairTable({
    count: forms.length,
    make: (moving, still) => {
      const [stillParts, movingParts] = [
        parts[still] ?? [],
        (still < edges.from ? negated : bare)[moving] ?? [],
      ];
      const found = forbiddenOf(stillParts, movingParts);
      spend(SUM_WORK * stillParts.length * movingParts.length + CORNER_WORK * cornersOf(found));
      return found;
    },
    sizeOf: (sums) => PAIR_OVERHEAD + cornersOf(sums),
    room: MOST_CORNERS,
  });
}

function negatedParts({ parts }: Form): Convex[] {
  return parts.map((ring) => convexOf(negate(ring)));
}

function forbiddenOf(still: readonly Convex[], moving: readonly Convex[]): Forbidden {
  return withoutCovered(still.flatMap((a) => moving.map((b) => convexSum(a, b))));
}

/** The sums without those that lie inside one other: of the many sums of two hollow outlines about half. */
function withoutCovered(sums: Convex[]): readonly Convex[] {
  if (sums.length < 2) return sums;
  // A sum can only lie inside one with a larger box.
  sums.sort((a, b) => boxArea(b) - boxArea(a));
  const kept: Convex[] = [];
  for (const sum of sums) if (!kept.some((other) => convexContains(other, sum))) kept.push(sum);
  return kept;
}

function boxArea({ minX, minY, maxX, maxY }: Convex): number {
  return (maxX - minX) * (maxY - minY);
}

function cornersOf(sums: Forbidden): number {
  return sums.reduce((count, { lower, upper }) => count + lower.xs.length + upper.xs.length, 0);
}
