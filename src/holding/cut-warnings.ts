/**
 * What a file asks of the cutter that is not usual: a chip outside the chart, a compression cutter that only lifts.
 *
 * The feed per tooth at the pass that frees a piece is held against the chart of usual feeds, as both are printed, so that
 * rounding alone warns of nothing. Materials with the same trouble share a sentence.
 * Source: the chart in the table of constants, common practice.
 * Degenerate: of a cutter far from those of the chart, or a feed that the file does not give, nothing is said.
 */
import { lengthNumber } from '../model/format.ts';
import type { FileUnit, RouterJob } from '../model/job.ts';
import type { Router } from '../model/machine.ts';
import type { Family, Material } from '../model/stock.ts';
import { fromMm, toMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import { usualChipIn } from './chip.ts';
import { CHIP_LOADS_IN } from './constants.ts';
import { freeingPasses, type PassForce } from './cutting-force.ts';

/**
 * A sentence each; `materials` are indices, all that the job has pieces of where they are left out. Of those in `weak` some
 * piece does not stay: a thicker chip would push it harder.
 */
export function cutWarnings(
  job: RouterJob,
  materials: readonly number[] = usedMaterials(job),
  weak: ReadonlySet<number> = new Set(),
): string[] {
  const { machine, unit } = job;
  const told = new Map<string, string[]>();
  for (const index of materials) {
    const material = job.materials[index]!;
    const [freeing] = freeingPasses(machine, material);
    const chip = isChipGiven(machine) ? chipFault(machine, material, unit) : null;
    const faults = [
      chip?.side === 'under' && weak.has(index) ? chip.text.replace(/\.$/, WEAK) : chip?.text,
      tipText(machine, freeing, unit),
      lastPassText(machine, material, unit),
    ];
    for (const fault of faults.filter((text) => text !== undefined && text !== null))
      told.set(fault, [...(told.get(fault) ?? []), material.name]);
  }
  return [...told].map(([fault, names]) => `${names.join(', ')}: ${fault}`);
}

export interface ChipFault {
  readonly side: 'under' | 'over';
  readonly text: string;
}

/** How the feed per tooth of the freeing pass lies outside the usual range; null where it does not. */
export function chipFault(machine: Router, material: Material, unit: FileUnit): ChipFault | null {
  if (!isInChart(machine)) return null;
  const [{ feedMm, depthMm }] = freeingPasses(machine, material);
  const usual = usualFeed(machine, material.family, depthMm, unit);
  const feed = (unit === 'in' ? feedMm / MM_PER_INCH : feedMm).toFixed(DECIMALS[unit]);
  const side =
    Number(feed) < Number(usual.low) ? 'under' : Number(feed) > Number(usual.high) ? 'over' : null;
  if (side === null) return null;
  const harm = HARM[side];
  const range = `${usual.low} to ${usual.high} ${unit}`;
  const text = `${feed} ${unit} a tooth is ${side} the usual ${range} for this cutter and depth (common practice): ${harm}.`;
  return { side, text };
}

const HARM: Readonly<Record<ChipFault['side'], string>> = {
  under: 'it rubs and heats; feed faster or turn the spindle slower',
  over: 'it tears edges and may break the cutter; feed slower or turn the spindle faster',
};

/** A slower spindle at the same feed makes the chip as thick as a faster feed does. */
const WEAK =
  ', but both push harder, and some pieces do not stay as it is: first see that those hold.';

/** The usual range of the feed per tooth, in the unit of the file. */
export function usualFeed(
  { cutter }: Router,
  family: Family,
  depthMm: number,
  unit: FileUnit,
): { readonly low: string; readonly high: string } {
  const diameterIn = cutter.diameter / UNITS_PER_INCH;
  const { low, high } = usualChipIn(family, diameterIn, depthMm / MM_PER_INCH);
  const text = (inches: number): string =>
    (unit === 'in' ? inches : inches * MM_PER_INCH).toFixed(DECIMALS[unit]);
  return { low: text(low), high: text(high) };
}

const MM_PER_INCH = UNITS_PER_INCH / UNITS_PER_MM;
const DECIMALS: Readonly<Record<FileUnit, number>> = { mm: 2, in: 3 };

/** How far the chart is carried on: a cutter of 3 mm is one of 1/8 inch. */
const CHART_REACH = 1.2;

function isInChart({ cutter }: Router): boolean {
  const diameterIn = cutter.diameter / UNITS_PER_INCH;
  const [first, last] = [CHIP_LOADS_IN[0]!, CHIP_LOADS_IN.at(-1)!];
  return first.diameterIn / CHART_REACH < diameterIn && diameterIn < last.diameterIn * CHART_REACH;
}

/** What the tool took as given is no fault of the file. */
function isChipGiven({ assumed }: Router): boolean {
  return !assumed.some((text) =>
    /^(cutter|feed|spindle speed|\d+ flutes|each cut in one pass)\b/.test(text),
  );
}

/** A compression cutter presses only with what lies above its up-cut tip. */
function tipText({ cutter }: Router, { depthMm }: PassForce, unit: FileUnit): string | null {
  if (cutter.spiral !== 'compression' || toMm(cutter.upcutLength) < depthMm) return null;
  const tip = lengthNumber(cutter.upcutLength, unit);
  const pass = lengthNumber(fromMm(depthMm), unit);
  return `the up-cut tip of ${tip} ${unit} takes the whole pass of ${pass} ${unit}, so this compression cutter only lifts; cut deeper or take a shorter tip.`;
}

function lastPassText(
  { lastPass }: Router,
  { thickness }: Material,
  unit: FileUnit,
): string | null {
  if (lastPass === 0 || lastPass < thickness) return null;
  return `a last pass of ${lengthNumber(lastPass, unit)} ${unit} is as deep as the sheet, so none is kept.`;
}

function usedMaterials({ parts, pieces }: RouterJob): number[] {
  return [...new Set(pieces.map(({ part }) => parts[part]!.material))].sort((a, b) => a - b);
}
