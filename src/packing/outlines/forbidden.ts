import { negate } from '../../geometry/convex-sum.ts';
import type { Ring } from '../../geometry/shape.ts';
import { type Convex, convexContains, convexOf, convexSum } from './chains.ts';
import type { Form } from './forms.ts';
import { kept } from './kept.ts';
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

/** What is kept is counted in corners of some 18 bytes; each sum takes as much as some more, and each pair. */
const SUM_OVERHEAD = 25;
const PAIR_OVERHEAD = 20;

/** Units of work that a sum costs, and each corner of one that is kept. */
const SUM_WORK = 100;
const CORNER_WORK = 18;

/** Still forms without spacing: those from `from` on. Against them a moving form counts as it is in `bare`. */
export interface EdgeForms {
  readonly bare: readonly Form[];
  readonly from: number;
}

export interface ForbiddenRule {
  readonly forms: readonly Form[];
  readonly edges: EdgeForms;
  /** The convex rings that stand for a form. */
  readonly ringsOf: (form: Form) => readonly Ring[];
  /** As many corners are kept. */
  readonly room: number;
  /** Told of the work when a pair is first looked at. */
  readonly spend: (work: number) => void;
}

/** The forbidden positions by the moving and the still form. */
export function forbiddenTable(rule: ForbiddenRule): PairTable<Forbidden> {
  const { forms, edges, ringsOf, room, spend } = rule;
  const stillOf = kept((form) => ringsOf(forms[form] as Form).map(convexOf));
  const negatedOf = latest((form) => negatedParts(ringsOf(forms[form] as Form)));
  const bareOf = latest((form) => negatedParts(ringsOf(edges.bare[form] as Form)));
  return pairTable({
    count: forms.length,
    make: (moving, still) => {
      const stillParts = stillOf(still);
      const movingParts = still < edges.from ? negatedOf(moving) : bareOf(moving);
      const found = forbiddenOf(stillParts, movingParts);
      spend(SUM_WORK * stillParts.length * movingParts.length + CORNER_WORK * cornersOf(found));
      return found;
    },
    sizeOf: (sums) => PAIR_OVERHEAD + SUM_OVERHEAD * sums.length + cornersOf(sums),
    room,
  });
}

/** Keeps the value of the index asked for last: a search asks for one moving form again and again. */
function latest<Value>(make: (index: number) => Value): (index: number) => Value {
  let last: { readonly index: number; readonly value: Value } | null = null;
  return (index) => {
    if (last?.index !== index) last = { index, value: make(index) };
    return last.value;
  };
}

function negatedParts(rings: readonly Ring[]): Convex[] {
  return rings.map((ring) => convexOf(negate(ring)));
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
  return sums.reduce((count, { lower, upper }) => count + (lower.length + upper.length) / 2, 0);
}
