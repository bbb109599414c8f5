// Lists who bears the costs of a job, and how much of everything each one takes.
// Idea: every part of the file is one, the members of a matched set together, and hardware that no part has. What a part takes is what its costs grow with: area,
//   way of the cutter, holes, edge bands, time for tabs and clamps.
// Source: none needed, sums.
// Cost: linear in parts, pieces and what needs care.
// Degenerate cases: hardware takes nothing but its own price.
import { flattenShape, PACKING_CHORD_ERROR } from '../geometry/flatten.ts';
import type { SheetHolding } from '../model/holding.ts';
import { isRouterJob, type Job } from '../model/job.ts';
import { passCount } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import type { Rates } from '../model/rates.ts';
import { contourLengthMm, pieceAreaMm2 } from './areas.ts';
import { bandLength } from './edge-band.ts';
import { pocketRunMm } from './pockets.ts';

export interface Payer {
  readonly kind: 'part' | 'hardware';
  readonly name: string;
  readonly group: string | null;
  readonly count: number;
  /** Where its material comes from, with the index there; null for hardware. */
  readonly from: { readonly stock: 'sheets' | 'boards' | 'lumber'; readonly index: number } | null;
  /** Area of sheets, length of boards, surface of lumber: of all copies, in any one unit. */
  readonly material: number;
  /** Length of the contours, and of the ways that clear the pockets, times the passes. */
  readonly cutting: number;
  readonly holes: number;
  /** Holes that need another tool than the cutter. */
  readonly toolHoles: number;
  /** In base lengths. */
  readonly band: number;
  /** Pieces of boards. */
  readonly boardPieces: number;
  /** For tabs and clamps of its pieces and of the waste inside them. */
  readonly handS: number;
}

/** In the order of the file: parts from sheets, from boards, from lumber, then hardware. */
export function payersOf(
  job: Job,
  rates: Rates | null,
  holding: readonly SheetHolding[],
): readonly Payer[] {
  const hand = handTimes(job, holding);
  return [
    ...partsByName(job).map((members) => sheetPayer(job, members, hand)),
    ...job.lengthParts.map((part) => ({
      ...payer('part', part),
      from: { stock: 'boards' as const, index: part.material },
      material: part.length * part.count,
      boardPieces: part.count,
    })),
    ...job.lumber.flatMap(({ parts }, index) =>
      parts.map((part) => ({
        ...payer('part', part),
        from: { stock: 'lumber' as const, index },
        material: part.length * part.width * part.count,
      })),
    ),
    ...(rates?.hardware ?? [])
      .filter(({ part }) => part === null)
      .map((item) => payer('hardware', item)),
  ];
}

/** The members of a matched set share their name. */
function partsByName({ parts }: Job): readonly (readonly Part[])[] {
  const named = new Map<string, Part[]>();
  for (const part of parts) {
    const members = named.get(part.name);
    if (members === undefined) named.set(part.name, [part]);
    else members.push(part);
  }
  return [...named.values()];
}

function payer(
  kind: Payer['kind'],
  { name, group, count }: Pick<Payer, 'name' | 'group' | 'count'>,
): Payer {
  return {
    kind,
    name,
    group,
    count,
    from: null,
    material: 0,
    cutting: 0,
    holes: 0,
    toolHoles: 0,
    band: 0,
    boardPieces: 0,
    handS: 0,
  };
}

function sheetPayer(job: Job, members: readonly Part[], hand: ReadonlyMap<number, number>): Payer {
  const [first] = members;
  const total = (of: (part: Part) => number) =>
    members.reduce((sum, part) => sum + of(part) * part.count, 0);
  return {
    ...payer('part', { ...first!, count: total(() => 1) }),
    from: { stock: 'sheets', index: first!.material },
    material: total(pieceAreaMm2),
    cutting: total((part) => cuttingOf(job, part)),
    holes: total(({ holes }) => holes.length),
    toolHoles: total((part) => toolHoles(job, part).length),
    band: total(bandLength),
    handS: members.reduce((sum, { index }) => sum + (hand.get(index) ?? 0), 0),
  };
}

function cuttingOf(job: Job, part: Part): number {
  const length = contourLengthMm(flattenShape(part.shape, 'curve', PACKING_CHORD_ERROR));
  if (!isRouterJob(job)) return length;
  const passes = passCount(job.machine, job.materials[part.material]!.thickness);
  return length * passes + pocketRunMm(part, job.machine);
}

/** Diameters of the holes that another tool than the cutter makes; none at a saw, where all are drilled at the bench. */
export function toolHoles({ machine }: Job, { holes }: Part): readonly number[] {
  if (machine.kind !== 'router') return [];
  const { diameter: own } = machine.cutter;
  return holes.map(({ diameter }) => diameter).filter((diameter) => diameter !== own);
}

/** Seconds for tabs and clamps, by the index of the part. */
function handTimes(job: Job, holding: readonly SheetHolding[]): ReadonlyMap<number, number> {
  const times = new Map<number, number>();
  for (const { action, piece, remedyS } of holding.flatMap(({ loose }) => loose)) {
    if (piece === null || (action !== 'tabs' && action !== 'clamp')) continue;
    const { part } = job.pieces[piece]!;
    times.set(part, (times.get(part) ?? 0) + remedyS);
  }
  return times;
}
