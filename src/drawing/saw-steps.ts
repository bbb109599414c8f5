// Says of every cut of a saw what is in hand, what the fence is set to, and what comes of it.
// Idea: the cuts are replayed on the panels in hand. A side of a cut that is cut again goes on under a name to chalk on it: what is still cut in the same
//   stage keeps the name of the panel it came from, what waits for the next stage gets one of its own. A side that is not cut again is a piece, an offcut or waste.
// Source: our own; names of letters and numbers (A, A2) are common practice, no source.
// Cost: the square of the cuts of a sheet.
// Degenerate cases: a sheet that is a piece by itself has no step; a blade that runs over the edge leaves nothing on that side.
import { type Box, boxContains, boxesOverlap, isEmptyBox, sameBox } from '../geometry/box.ts';
import { boxOfShape, placeShape } from '../geometry/pose.ts';
import type { Offcut } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { Placement, SawCare, SawCut, SheetLayout } from '../model/layout.ts';
import { isWorthKeeping, type OffcutRule } from '../model/offcut-rule.ts';
import { fenceSetting, sawnHalves } from '../model/saw-panels.ts';
import type { KeepOut, SheetStock } from '../model/stock.ts';

/** What one side of a cut is; `rest` keeps the name of the panel in hand, `spoiled` is large enough to keep but for a keep-out on it. */
export type SawnThing =
  | { readonly kind: 'piece'; readonly pieces: readonly number[] }
  | { readonly kind: 'strip'; readonly name: string }
  | { readonly kind: 'offcut'; readonly offcut: Offcut }
  | { readonly kind: 'rest' | 'spoiled' | 'waste' | 'dust' };

/** One side of a cut with its size along and across the length of the sheet. */
export interface SawnSide {
  readonly thing: SawnThing;
  readonly along: number;
  readonly across: number;
}

export interface SawStep {
  /** From 1 within the sheet. */
  readonly number: number;
  /** Null for the sheet itself. */
  readonly inHand: string | null;
  readonly axis: 'along' | 'across';
  /** The edge that lies against the fence, as drawn. */
  readonly edge: 'left' | 'right' | 'lower' | 'upper';
  /** What lies between fence and blade, across the cut. */
  readonly setting: number;
  /** Whether the cut takes off waste and nothing else. */
  readonly isTrim: boolean;
  readonly guided: SawnSide;
  readonly off: SawnSide;
  readonly care: readonly SawCare[];
  readonly cut: SawCut;
}

/** The steps of sheets that are alike; the pieces of a step are one of each sheet, in the order of the sheets. */
export function sawSteps(
  job: Job,
  sheets: readonly SheetLayout[],
  { keepOuts }: SheetStock,
  offcuts: readonly Offcut[],
): readonly SawStep[] {
  const { machine } = job;
  const [first] = sheets;
  if (machine.kind === 'router' || first === undefined) return [];
  const pieces = sheets.flatMap(({ placements }) =>
    placements.map((placement) => ({ piece: placement.piece, box: placedBox(job, placement) })),
  );
  const laid: Laid = { pieces, offcuts, keepOuts, rule: job.offcuts, chalk: new Chalk() };
  return first.cuts.map((_, i) => stepOf(first.cuts, i, machine.kerf, laid));
}

/** What lies on the sheets, and what was written on them so far. */
interface Laid {
  readonly pieces: readonly { readonly piece: number; readonly box: Box }[];
  readonly offcuts: readonly Offcut[];
  readonly keepOuts: readonly KeepOut[];
  readonly rule: OffcutRule;
  readonly chalk: Chalk;
}

function stepOf(
  cuts: readonly SawCut[],
  index: number,
  kerf: number,
  { pieces, offcuts, keepOuts, rule, chalk }: Laid,
): SawStep {
  const cut = cuts[index]!;
  const next = (half: Box) => cuts.slice(index + 1).find(({ panel }) => sameBox(panel, half));
  const thingOf = (half: Box, isRest: boolean): SawnThing => {
    if (isEmptyBox(half)) return { kind: 'dust' };
    if (next(half) !== undefined) return chalk.mark(cut.panel, half, isRest);
    const own = pieces.filter(({ box }) => sameBox(box, half));
    if (own.length > 0) return { kind: 'piece', pieces: own.map(({ piece }) => piece) };
    const offcut = offcuts.find(({ box }) => boxContains(half, box));
    if (offcut !== undefined) return { kind: 'offcut', offcut };
    const isSpoiled = keepOuts.some(({ box }) => boxesOverlap(box, half));
    return { kind: isSpoiled && isWorthKeeping(half, rule) ? 'spoiled' : 'waste' };
  };
  const { low, high } = sawnHalves(cut, kerf);
  const [isLowRest, isHighRest] = [low, high].map((half) => next(half)?.stage === cut.stage);
  const lowSide = sideOf(low, thingOf(low, isLowRest! && !isHighRest));
  const highSide = sideOf(high, thingOf(high, isHighRest!));
  const [guided, off] = cut.fence === 'low' ? [lowSide, highSide] : [highSide, lowSide];
  return {
    number: index + 1,
    inHand: chalk.nameOf(cut.panel),
    axis: cut.axis === 'x' ? 'along' : 'across',
    edge: EDGES[cut.axis][cut.fence],
    setting: fenceSetting(cut, kerf),
    isTrim: [guided, off].some(({ thing: { kind } }) => kind === 'waste' || kind === 'dust'),
    guided,
    off,
    care: cut.care,
    cut,
  };
}

/** The highest stage of a cut that parts pieces: trims and cuts that only take an offcut off do not count against the stages of a saw. */
export function stageCount(steps: readonly SawStep[]): number {
  const isHeld = ({ thing: { kind } }: SawnSide) => ['piece', 'strip', 'rest'].includes(kind);
  const parting = steps.filter(({ guided, off }) => isHeld(guided) && isHeld(off));
  return Math.max(Math.min(1, steps.length), ...parting.map(({ cut }) => cut.stage));
}

const EDGES = {
  x: { low: 'lower', high: 'upper' },
  y: { low: 'left', high: 'right' },
} as const;

function sideOf({ minX, minY, maxX, maxY }: Box, thing: SawnThing): SawnSide {
  return { thing, along: Math.max(0, maxX - minX), across: Math.max(0, maxY - minY) };
}

function placedBox({ parts, pieces }: Job, placement: Placement): Box {
  const { shape } = parts[pieces[placement.piece]!.part]!;
  return boxOfShape(placeShape(shape, placement));
}

/** Gives out the names of strips and remembers them: no two strips of a sheet have the same. */
class Chalk {
  readonly #panels: { box: Box; name: string | null }[] = [];
  #strips = 0;
  readonly #parts = new Map<string, number>();

  /** Null for the sheet. */
  nameOf(panel: Box): string | null {
    return this.#panels.find(({ box }) => sameBox(box, panel))?.name ?? null;
  }

  mark(panel: Box, half: Box, isRest: boolean): SawnThing {
    const from = this.nameOf(panel);
    if (isRest) {
      this.#panels.push({ name: from, box: half });
      return { kind: 'rest' };
    }
    const name = this.#nextName(from);
    this.#panels.push({ box: half, name });
    return { kind: 'strip', name };
  }

  /** However deep a strip lies, its name is the letter of the strip of the sheet that it came from and a number. */
  #nextName(from: string | null): string {
    if (from === null) {
      this.#strips += 1;
      return letters(this.#strips - 1);
    }
    const strip = from.replace(/\d+$/, '');
    const count = (this.#parts.get(strip) ?? 0) + 1;
    this.#parts.set(strip, count);
    return `${strip}${count}`;
  }
}

/** A, B, … Z, AA, AB, … */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : `${letters(Math.floor(index / 26) - 1)}${last}`;
}
