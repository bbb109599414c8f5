// Prices the time that a job takes at the machine and at the bench.
// Idea: each kind of work is a line, its time in whole seconds times the rate of an hour. A kind whose time the file leaves out counts as nothing and is named;
//   the time of cutting itself is never taken as nothing: where it is not known, the price is not known either. A book of sheets is cut once.
// Source: none needed.
// Where we differ: nothing is added for rapid moves and plunges. Before each sheet with holes the tools change from the cutter to each drill and back.
// Cost: linear in pieces and payers.
// Degenerate cases: a rate of nothing makes work free; without rates there is no line.

import { alikeSheets } from '../model/books.ts';
import type { PlanCosts } from '../model/costs.ts';
import { counted } from '../model/format.ts';
import { isRouterJob, type Job } from '../model/job.ts';
import type { Layout, SheetLayout } from '../model/layout.ts';
import { numberedSheets } from '../model/plan.ts';
import type { Rates } from '../model/rates.ts';
import { boardCutCount } from './board-cuts.ts';
import { sum, timesOver } from './money.ts';
import { type Payer, toolHoles } from './payers.ts';
import { type BorneLine, bandMm } from './quote-stock.ts';

/** Work of one kind, whether it is paid for or not. */
export interface Work {
  readonly section: 'machine' | 'bench';
  readonly name: string;
  /** What outputs call it where the file says no time of it. */
  readonly short: string;
  /** Null: not known. */
  readonly seconds: number | null;
  /** Whether it counts as nothing because the file says no time of it. */
  readonly isLeftOut: boolean;
  /** What to write where the time is not known. */
  readonly key: string;
  readonly weights: readonly number[] | null;
}

/** Every kind of work that the job has, those without a time as well. */
export function workOf(
  job: Job,
  layouts: readonly Layout[],
  costs: PlanCosts,
  payers: readonly Payer[],
): readonly Work[] {
  const { rates } = job;
  if (rates === null) return [];
  return [
    ...sheetWork(job, rates, layouts, payers),
    ...cuttingWork(job, rates, layouts, costs, payers),
    ...holeWork(job, rates, layouts, payers),
    ...benchWork(rates, costs, payers),
  ];
}

export function timeLines({ rates }: Job, works: readonly Work[]): readonly BorneLine[] {
  const labour = rates?.labour ?? null;
  if (labour === null) return [];
  return works
    .filter(({ isLeftOut }) => !isLeftOut)
    .map(({ section, name, seconds, key, weights }): BorneLine => {
      const rate = section === 'machine' ? labour.machineCents : labour.benchCents;
      const cents =
        seconds === null || rate === null ? null : timesOver(rate, seconds, SECONDS_PER_HOUR);
      const missing =
        seconds === null
          ? `costs has no ${key}, so its time is not known`
          : `labour has no ${section}`;
      return {
        section,
        name,
        amount: seconds,
        unit: 's',
        eachCents: rate,
        cents,
        missing: cents === null ? missing : null,
        weights,
      };
    });
}

const SECONDS_PER_HOUR = 3600;

/** Whatever takes so long for each of `count`; nothing where there are none. */
function repeated(
  work: Pick<Work, 'section' | 'name' | 'short' | 'key' | 'weights'>,
  count: number,
  eachS: number | null,
  mayBeLeftOut = true,
): readonly Work[] {
  if (count === 0 || eachS === 0) return [];
  const seconds = eachS === null ? null : Math.round(count * eachS);
  return [{ ...work, seconds, isLeftOut: mayBeLeftOut && eachS === null }];
}

/** Setting up is borne like all else together; a sheet is loaded for its parts by their area. */
function sheetWork(
  job: Job,
  rates: Rates,
  layouts: readonly Layout[],
  payers: readonly Payer[],
): readonly Work[] {
  const section = 'machine';
  const loads = layouts.flatMap(({ material, sheets }) =>
    repeated(
      {
        section,
        name: `Load ${counted(sheets.length, 'sheet')} of ${job.materials[material]!.name}`,
        short: 'loading',
        key: 'loading',
        weights: payers.map(({ from, material: taken }) =>
          from?.stock === 'sheets' && from.index === material ? taken : 0,
        ),
      },
      sheets.length,
      rates.loadingS,
    ),
  );
  const setup = { section, name: 'Set up', short: 'setup', key: 'setup', weights: null } as const;
  return [...repeated(setup, 1, rates.setupS), ...loads];
}

function cuttingWork(
  job: Job,
  rates: Rates,
  layouts: readonly Layout[],
  { cutTimeS, boards }: PlanCosts,
  payers: readonly Payer[],
): readonly Work[] {
  const sheets = numberedSheets(layouts);
  const saw = { section: 'machine', short: 'cutting' } as const;
  const hasPockets = job.parts.some(({ pockets }) => pockets.length > 0);
  const contours = {
    ...saw,
    name: hasPockets ? 'Cut contours and pockets' : 'Cut contours',
    key: 'feed',
    seconds: cutTimeS === null ? null : Math.round(cutTimeS),
    isLeftOut: false,
    weights: payers.map(({ cutting }) => cutting),
  };
  const sawn = sum(
    alikeSheets(job, layouts).map(
      ({ sheets: [first], books }) => first!.sheet.cuts.length * books.length,
    ),
  );
  const sawCuts = { ...saw, name: counted(sawn, 'saw cut'), key: 'saw-cut' };
  const cuts = boardCutCount(job, layouts, boards);
  const boardCuts = { ...saw, name: `${counted(cuts, 'cut')} of boards`, key: 'board-cut' };
  return [
    ...(isRouterJob(job) && sheets.length > 0 ? [contours] : []),
    ...repeated({ ...sawCuts, weights: contours.weights }, sawn, rates.sawCutS, false),
    ...repeated(
      { ...boardCuts, weights: payers.map(({ boardPieces }) => boardPieces) },
      cuts,
      rates.boardCutS,
      false,
    ),
  ];
}

/** At a router holes are drilled by the machine, at a saw by hand. */
function holeWork(
  job: Job,
  rates: Rates,
  layouts: readonly Layout[],
  payers: readonly Payer[],
): readonly Work[] {
  const holes = sum(payers.map((payer) => payer.holes));
  const changes = sum(numberedSheets(layouts).map(({ sheet }) => toolChanges(job, sheet)));
  const change = {
    section: 'machine',
    name: counted(changes, 'tool change'),
    short: 'tool changes',
    key: 'tool-change',
    weights: payers.map((payer) => payer.toolHoles),
  } as const;
  const drill = {
    section: isRouterJob(job) ? 'machine' : 'bench',
    name: `Drill ${counted(holes, 'hole')}`,
    short: 'drilling',
    key: 'hole',
    weights: payers.map((payer) => payer.holes),
  } as const;
  return [...repeated(change, changes, rates.toolChangeS), ...repeated(drill, holes, rates.holeS)];
}

/** From the cutter to a drill for each other diameter, and back. */
function toolChanges(job: Job, { placements }: SheetLayout): number {
  const parts = new Set(placements.map(({ piece }) => job.pieces[piece]!.part));
  const drills = new Set([...parts].flatMap((part) => toolHoles(job, job.parts[part]!)));
  return drills.size === 0 ? 0 : drills.size + 1;
}

function benchWork(
  { edgeBand }: Rates,
  { handTimeS }: PlanCosts,
  payers: readonly Payer[],
): readonly Work[] {
  const section = 'bench';
  const byHand = payers.map(({ handS }) => handS);
  const hand = {
    section,
    name: 'Tabs and clamps',
    short: 'tabs and clamps',
    key: '',
    // Tabs on waste between the pieces alone are for all of them.
    weights: sum(byHand) > 0 ? byHand : payers.map(({ cutting }) => cutting),
  } as const;
  const metres = bandMm(payers) / 1000;
  const band = {
    section,
    name: 'Put on edge bands',
    short: 'putting on edge bands',
    key: 'time',
    weights: payers.map((payer) => payer.band),
  } as const;
  const hasBand = edgeBand !== null && metres > 0;
  return [
    ...repeated(hand, handTimeS > 0 ? 1 : 0, handTimeS),
    ...repeated(band, hasBand ? metres : 0, edgeBand?.secondsPerM ?? null),
  ];
}
