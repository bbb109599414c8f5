import { type AlikeSheets, alikeSheets } from '../model/books.ts';
import type { Plan } from '../model/plan.ts';
import { sawnLength } from '../model/saw-panels.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { oncePer } from './once-per.ts';
import { type SawStep, sawSteps, stageCount } from './saw-steps.ts';

/** Sheets that are cut alike, and how. */
export interface SawGroup {
  readonly material: Material;
  readonly stock: SheetStock;
  readonly numbers: readonly number[];
  readonly steps: readonly SawStep[];
  readonly stages: number;
  /** How many sheets lie in each stack that is cut at once. */
  readonly books: readonly number[];
}

/** What a person does at the saw in all. */
export interface SawTotals {
  /** A book of sheets is cut once. */
  readonly cuts: number;
  readonly runMm: number;
  readonly stages: number;
  /** Cuts that need care. */
  readonly marked: number;
}

/** All sheets of the job, alike ones together, in the order of the first of each; none at a router. */
export function sawGroups(plan: Plan): readonly SawGroup[] {
  return alikeOf(plan).map((alike) => groupOf(plan, alike));
}

/** The group of one sheet; null at a router. */
export function sawGroupOf(plan: Plan, number: number): SawGroup | null {
  const alike = alikeOf(plan).find(({ sheets }) => sheets.some((each) => each.number === number));
  return alike === undefined ? null : groupOf(plan, alike);
}

const alikeOf = oncePer(({ job, layouts }: Plan) => alikeSheets(job, layouts));

export function sawTotals(groups: readonly SawGroup[]): SawTotals {
  const sum = (of: (group: SawGroup) => number) =>
    groups.reduce((total, group) => total + of(group) * group.books.length, 0);
  return {
    cuts: sum(({ steps }) => steps.length),
    runMm: sum(({ steps }) => steps.reduce((run, { cut }) => run + toMm(sawnLength(cut)), 0)),
    stages: Math.max(0, ...groups.map(({ stages }) => stages)),
    marked: sum(({ steps }) => steps.filter(({ care }) => care.length > 0).length),
  };
}

function groupOf({ job, costs }: Plan, { sheets, books }: AlikeSheets): SawGroup {
  const first = sheets[0]!;
  const material = job.materials[first.material]!;
  const offcuts = costs.sheets.find(({ sheet }) => sheet === first.number)?.offcuts ?? [];
  const stock = material.sheets[first.sheet.stock]!;
  const steps = sawSteps(
    job,
    sheets.map(({ sheet }) => sheet),
    stock,
    offcuts,
  );
  return {
    material,
    stock,
    numbers: sheets.map(({ number }) => number),
    steps,
    stages: stageCount(steps),
    books,
  };
}
