// Says in which order a board is cut from left to right: the end trim first, then stops, and what is cut out between them.
// Idea: between two runs of pieces one kerf apart lies nothing but that kerf, or a gap; a gap is a step of its own that says what lies in it and where the
//   next piece starts. All places count from the left end of the whole board, since that is what a person can mark before the first cut.
// Source: our own.
// Cost: runs times defects and leftovers.
// Degenerate cases: a board without pieces has what is kept of it only; without an end trim there is no first step.
import type { BoardLeftover } from '../model/costs.ts';
import type { Defect, Stretch } from '../model/stock.ts';
import type { BoardPattern, StopSetting } from './board-patterns.ts';

export type BoardStep =
  | { readonly kind: 'trim'; readonly length: number }
  | { readonly kind: 'stop'; readonly stop: StopSetting }
  | { readonly kind: 'gap'; readonly things: readonly GapThing[]; readonly next: number }
  | {
      readonly kind: 'rest';
      readonly things: readonly GapThing[];
      /** What of the right end trim is still on the last leftover that is kept; 0 for none. */
      readonly trim: number;
    };

/** What lies between pieces: a defect, or a leftover. */
export type GapThing =
  | { readonly kind: 'defect'; readonly defect: Defect }
  | { readonly kind: 'leftover'; readonly leftover: BoardLeftover };

export function boardSteps(pattern: BoardPattern, kerf: number): readonly BoardStep[] {
  const { stock, stops } = pattern;
  const steps: BoardStep[] = [];
  if (stock.endTrim > 0) steps.push({ kind: 'trim', length: stock.endTrim });
  let clear = stock.endTrim;
  for (const stop of stops) {
    if (clear < stop.at) {
      steps.push({
        kind: 'gap',
        things: thingsIn(pattern, { from: clear, to: stop.at }),
        next: stop.at,
      });
    }
    steps.push({ kind: 'stop', stop });
    clear = stop.at + stop.timesPerBoard * (stop.length + kerf);
  }
  const rest = restOf(pattern, clear);
  return rest === null ? steps : [...steps, rest];
}

/** Nothing where the last piece leaves no more than trim and kerf. */
function restOf(pattern: BoardPattern, from: number): BoardStep | null {
  const { length, endTrim } = pattern.stock;
  const things = thingsIn(pattern, { from, to: length });
  const last = things.findLastIndex((thing) => isKept(thing));
  // Behind the last leftover that is kept a defect is nobody's concern.
  const shown =
    last < 0 ? things.filter(({ kind }) => kind === 'leftover') : things.slice(0, last + 1);
  if (shown.length === 0) return null;
  const end = shown.at(-1)!;
  const isLast = end.kind === 'leftover' && end.leftover.to === length - endTrim;
  return { kind: 'rest', things: shown, trim: isLast && last >= 0 ? endTrim : 0 };
}

function isKept(thing: GapThing): boolean {
  return thing.kind === 'leftover' && thing.leftover.isKept;
}

function thingsIn({ stock, leftovers }: BoardPattern, { from, to }: Stretch): readonly GapThing[] {
  const defects = stock.defects
    .filter((defect) => defect.from < to && from < defect.to)
    .map((defect) => ({ at: defect.from, thing: { kind: 'defect', defect } as const }));
  const left = leftovers
    .filter((leftover) => from <= leftover.from && leftover.to <= to)
    .map((leftover) => ({ at: leftover.from, thing: { kind: 'leftover', leftover } as const }));
  return [...defects, ...left].toSorted((a, b) => a.at - b.at).map(({ thing }) => thing);
}
