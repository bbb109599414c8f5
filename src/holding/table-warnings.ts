/** What a person has to know of how the sheets of a job lie on the table. */
import { stockTitle } from '../model/format.ts';
import type { RouterJob } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { numberedSheets } from '../model/plan.ts';
import { type SheetStock, sheetArea } from '../model/stock.ts';
import { toMm2 } from '../model/units.ts';
import { isTurned, reachOf } from './reach.ts';

/** A sentence each, for every kind of sheet that is used. */
export function tableWarnings(job: RouterJob, layouts: readonly Layout[]): string[] {
  const used = new Set(
    numberedSheets(layouts).map(
      ({ material, sheet }) => job.materials[material]!.sheets[sheet.stock]!,
    ),
  );
  return [...used].flatMap((stock) => [
    ...reachTexts(job, stock),
    ...liftedTexts(job, stock),
    ...turnTexts(job, stock),
  ]);
}

function reachTexts({ table, unit }: RouterJob, stock: SheetStock): string[] {
  const { coveredMm2 } = reachOf({ ...table, seal: null }, { ...stock, lifted: [] });
  const share = coveredMm2 / toMm2(sheetArea(stock));
  if (share > 0.9999) return [];
  const lies = share < 0.0001 ? 'nothing' : `only ${(share * 100).toFixed(1)} %`;
  return [
    `Sheets of ${stockTitle(stock.name, unit)}: ${lies} of the sheet lies over a working table; the rest is not held, nor is what hangs on it.`,
  ];
}

function liftedTexts({ unit }: RouterJob, { name, lifted }: SheetStock): string[] {
  const sides = lifted.map(({ side }) => side).join(', ');
  return lifted.length === 0
    ? []
    : [
        `Sheets of ${stockTitle(name, unit)}: nothing is held where an edge stands up (${sides}); press it down or screw it down in the waste before the run.`,
      ];
}

/** Which zone is shut decides which pieces are held. */
function turnTexts({ table, unit }: RouterJob, stock: SheetStock): string[] {
  const { size, zones, masked, sheetAt } = table;
  const isPlaced = zones.length + masked.length > 0 || sheetAt.x !== 0 || sheetAt.y !== 0;
  if (size === null || !isPlaced || !isTurned(size, stock)) return [];
  return [
    `Sheets of ${stockTitle(stock.name, unit)}: reckoned as lying turned a quarter counter-clockwise on the table, long side along long side.`,
  ];
}
