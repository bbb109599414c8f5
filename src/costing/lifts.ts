// Lists what of a job is heavy to lift.
// Idea: each kind of sheet in use is held against the recommended limit, and so is each kind of piece; pieces under the limit are left out.
// Source: `lifting.ts`.
// Cost: linear in sheets and parts.
// Degenerate cases: a job without sheets has nothing to lift; boards have no weight, as no section is known.

import type { PlanCosts } from '../model/costs.ts';
import { stockTitle } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { numberedSheets } from '../model/plan.ts';
import type { Lift, Lifting } from '../model/quote.ts';
import { recommendedLimitKg, SHEET_TASK } from './lifting.ts';

export function liftingOf(
  job: Job,
  layouts: readonly Layout[],
  { sheets, parts }: Pick<PlanCosts, 'sheets' | 'parts'>,
): Lifting {
  const limitKg = Math.round(recommendedLimitKg(SHEET_TASK[job.unit], job.unit) * 100) / 100;
  const lift = (kind: Lift['kind'], name: string, weightKg: number): Lift => ({
    kind,
    name,
    weightKg,
    index: Math.round((weightKg / limitKg) * 100) / 100,
  });
  const kinds = new Map<string, Lift>();
  for (const { number, material, sheet } of numberedSheets(layouts)) {
    const { name, sheets: stocks } = job.materials[material]!;
    const stock = stocks[sheet.stock]!;
    const key = `${material} ${sheet.stock}`;
    const { weightKg } = sheets[number - 1]!;
    if (!kinds.has(key))
      kinds.set(key, lift('sheet', `${name}, ${stockTitle(stock.name, job.unit)}`, weightKg));
  }
  const pieces = job.parts.map(({ name, index }) =>
    lift('piece', name, parts[index]!.pieceWeightKg),
  );
  return { limitKg, lifts: [...kinds.values(), ...pieces.filter(({ index }) => index > 1)] };
}
