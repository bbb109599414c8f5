import { lengthNumber } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import type { Rack, RackEntry } from '../model/rack.ts';
import { type Material, type SheetStock, usableBox } from '../model/stock.ts';
import type { Problem } from '../partsfile/problem.ts';

/** The job with the rack as further stock, or the problems of taking them together; `passedOver` are offcuts of a right name and a wrong thickness. */
export interface RackedJob {
  readonly job: Job;
  readonly offered: number;
  readonly passedOver: readonly string[];
  readonly problems: readonly Problem[];
}

/**
 * Adds what is on the rack to the stock of the job. An offcut is of a material where its `material` is the very key of it and its thickness the very
 * same: a name that is only alike is not safe, for a wrong board is scrap. Offcuts that no piece goes on are left out, as they would only slow the search.
 */
export function withRack(job: Job, rack: Rack): RackedJob {
  const onRack = rack.entries.filter(({ used }) => used === null);
  const named = onRack.filter(({ material }) => job.materials.some(({ id }) => id === material));
  const problems = currencyProblems(job, rack, named);
  const materials = job.materials.map((material) => {
    const parts = job.parts.filter((part) => part.material === material.index);
    const own = named
      .filter((entry) => isOf(entry, material))
      .map(({ stock }) => stock)
      .filter((stock) => parts.some((part) => mayLieOn(part, stock)));
    const first = material.sheets.length;
    const stocks = own.map((stock, i) => ({
      ...stock,
      index: first + i,
      name: nameIn(job, stock),
      place: material.place,
    }));
    return { ...material, sheets: [...material.sheets, ...stocks] };
  });
  const passedOver = named
    .filter((entry) => !job.materials.some((material) => isOf(entry, material)))
    .map(({ id }) => id);
  const offered = materials.reduce(
    (sum, { sheets }, i) => sum + sheets.length - job.materials[i]!.sheets.length,
    0,
  );
  return { job: { ...job, materials }, offered, passedOver, problems };
}

function isOf(entry: RackEntry, { id, thickness }: Material): boolean {
  return entry.material === id && entry.thickness === thickness;
}

/** By its label, and by its size in the unit of the job, which may not be that of the rack. */
function nameIn({ unit }: Job, { rack, length, width }: SheetStock): string {
  return `${rack}, ${lengthNumber(length, unit)} x ${lengthNumber(width, unit)}`;
}

/** False only where no turn and no side of the part goes inside the trimmed edges. */
function mayLieOn({ width, height, turns }: Part, stock: SheetStock): boolean {
  if (turns.some((turn) => turn % 90 !== 0)) return true;
  const { minX, minY, maxX, maxY } = usableBox(stock);
  const [short, long] = [width, height].sort((a, b) => a - b);
  const [narrow, wide] = [maxX - minX, maxY - minY].sort((a, b) => a - b);
  return short! <= narrow! && long! <= wide!;
}

/** Prices in another currency than the job's would be added up as if they were the same money. */
function currencyProblems(job: Job, rack: Rack, named: readonly RackEntry[]): readonly Problem[] {
  const isPriced = named.some(({ stock }) => stock.priceCents !== 0);
  if (!isPriced || rack.currency === null || rack.currency.code === job.currency.code) return [];
  return [
    {
      severity: 'error',
      code: 'mixed-currency',
      place: null,
      path: 'currency',
      message: `the rack has prices in ${rack.currency.code}, the parts file in ${job.currency.code}`,
      hint: 'write the prices in one currency, or take those of the rack out',
    },
  ];
}
