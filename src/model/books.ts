import type { Job } from './job.ts';
import type { Layout } from './layout.ts';
import { type NumberedSheet, numberedSheets } from './plan.ts';

/** Sheets that a saw cuts alike: of one material and size, with the same parts at the same places and the same cuts. */
export interface AlikeSheets {
  readonly sheets: readonly NumberedSheet[];
  /** How many sheets lie in each stack that is cut at once: as many full books as there can be, then the rest. */
  readonly books: readonly number[];
}

/** All sheets of the job, alike ones together, in the order of the first of each; none at a router. */
export function alikeSheets(job: Job, layouts: readonly Layout[]): readonly AlikeSheets[] {
  if (job.machine.kind === 'router') return [];
  const groups = new Map<string, NumberedSheet[]>();
  for (const each of numberedSheets(layouts)) {
    const key = JSON.stringify([each.material, likeness(job, each)]);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].map((sheets) => ({
    sheets,
    books: inBooks(sheets.length, mostInBook(job, sheets[0]!.material)),
  }));
}

/** What the saw sees of a sheet: two prices for the same sheets are nothing to it. */
function likeness(job: Job, { material, sheet }: NumberedSheet): unknown {
  const { stock, placements, cuts } = sheet;
  const { name, length, width, boundary, trim, grainAxis, keepOuts } =
    job.materials[material]!.sheets[stock]!;
  const own = [name, length, width, boundary, trim, grainAxis, keepOuts];
  const places = placements.map(({ piece, x, y, turn, mirrored }) => [
    job.pieces[piece]!.part,
    x,
    y,
    turn,
    mirrored,
  ]);
  return [own, places.map((place) => JSON.stringify(place)).toSorted(), cuts];
}

function mostInBook({ machine, materials }: Job, material: number): number {
  if (machine.kind === 'router' || machine.stackHeight === null) return 1;
  return Math.max(1, Math.floor(machine.stackHeight / materials[material]!.thickness));
}

function inBooks(sheets: number, most: number): readonly number[] {
  const full = Array<number>(Math.floor(sheets / most)).fill(most);
  return sheets % most === 0 ? full : [...full, sheets % most];
}
