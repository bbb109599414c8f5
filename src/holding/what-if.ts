/**
 * What would make a piece stay, cheapest first, and how low the vacuum may fall under one that does.
 *
 * Each change of machine or table is a changed job whose sheet is planned anew, cutting order included, by the functions
 * of the holding plan; the layout stays. Kept are those with which it stays, and those that raise a margin and lower none.
 * Only where none of them is enough are pairs tried, the cheapest first, and the first that is enough is kept as well.
 * A price is in seconds: the longer way of the cutter at its feed, round the piece alone where that does as much, else over
 * all kerfs of the sheet, and setting up, once. What has no price comes last.
 * Cost: a cutting order of the sheet for each change, and for some forty pairs at most.
 */
import type { Verdict } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { NumberedSheet } from '../model/plan.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import type { Body } from './body.ts';
import { type Change, changesFor, cutS } from './changes.ts';
import { planCuts } from './cut-plan.ts';
import { chipFault } from './cut-warnings.ts';
import { bodiesOf, sheetFloors } from './hold-sheet.ts';
import { type LaidPiece, layPieces } from './laid-pieces.ts';
import { type Reckoned, reckon, type Setting, settingOf, standAt } from './stand.ts';
import { verdictOf } from './verdict.ts';

export interface WhatIf {
  readonly text: string;
  /** What speaks against it; null where nothing does. */
  readonly but: string | null;
  /** Longer cutting of this sheet. */
  readonly sheetS: number;
  /** Longer cutting where the change is made round this piece only, at its present place; null where that cannot be, or does less. */
  readonly aloneS: number | null;
  /** Setting up, once; null where it has no price. */
  readonly setUpS: number | null;
  /** Place in the sheet's order of freeing cuts. */
  readonly cutOrder: number;
  readonly margin: number;
  readonly marginLow: number;
  readonly verdict: Verdict;
  /** With the change. */
  readonly job: RouterJob;
}

/** For a piece of the sheet; none where it stays as planned, at an early place too. */
export function whatIfs(job: RouterJob, numbered: NumberedSheet, piece: number): readonly WhatIf[] {
  const scene = sceneOf(job, numbered, piece);
  const now = standingOf(scene, job);
  if (now.reckoned.verdict === 'stays') return [];
  const helping = changesFor(job, scene.material, scene.stock, now.setting.air).filter((change) =>
    isBetter(standingOf(scene, change.apply(job)), now),
  );
  const found = cheapestFirst(helping.map((change) => outcome(scene, now, [change])));
  if (found.some(({ verdict }) => verdict === 'stays')) return found;
  const pairs = cheapestFirst(
    pairsOf(helping).map((bundle) => ({ bundle, aloneS: null, ...priceOf(scene, bundle) })),
  );
  for (const { bundle } of pairs) {
    const pair = outcome(scene, now, bundle);
    if (pair.verdict === 'stays') return [...found, pair];
  }
  return found;
}

export interface LowestVacuum {
  readonly lowestKpa: number;
  /** What the holding plan gives at the cut that frees the piece. */
  readonly reckonedKpa: number;
}

/** The lowest vacuum at the table, read at the gauge, under which the piece stays when it is cut free; null where it does not stay. */
export function lowestVacuum(
  job: RouterJob,
  numbered: NumberedSheet,
  piece: number,
): LowestVacuum | null {
  const scene = sceneOf(job, numbered, piece);
  const { setting, body, reckoned } = standingOf(scene, job);
  if (reckoned.verdict !== 'stays') return null;
  const stays = (vacuumKpa: number): boolean => {
    const margin = (end: 'nominal' | 'low'): number =>
      standAt(setting, body, vacuumKpa, { end }).margins.least;
    return verdictOf(margin('nominal'), margin('low')) === 'stays';
  };
  const reckonedKpa = reckoned.nominal.vacuumKpa;
  let [low, high] = [0, reckonedKpa];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if (stays(middle)) high = middle;
    else low = middle;
  }
  return { lowestKpa: high, reckonedKpa };
}

/** To far less than a gauge shows. */
const HALVINGS = 20;

interface Scene {
  readonly job: RouterJob;
  readonly material: Material;
  readonly stock: SheetStock;
  readonly laid: readonly LaidPiece[];
  /** Of the piece in `laid`. */
  readonly index: number;
  /** As the job stands. */
  readonly bodies: readonly Body[];
  readonly wholeKerfMm: number;
}

function sceneOf(job: RouterJob, { material: at, sheet }: NumberedSheet, piece: number): Scene {
  const material = job.materials[at]!;
  const stock = material.sheets[sheet.stock]!;
  const laid = layPieces(job, sheet);
  const setting = settingOf(job.machine, job.table, material, stock, sheetFloors(laid));
  const bodies = bodiesOf(laid, setting);
  const wholeKerfMm = planCuts(setting, laid, bodies).moments.at(-1)!.openKerfMm;
  const index = laid.findIndex((each) => each.piece === piece);
  return { job, material, stock, laid, index, bodies, wholeKerfMm };
}

interface Standing {
  readonly setting: Setting;
  readonly body: Body;
  readonly reckoned: Reckoned;
  readonly cutOrder: number;
}

/** The piece at its place in the order that the job gives. */
function standingOf(scene: Scene, job: RouterJob): Standing {
  const { material, stock, laid, index } = scene;
  const setting = settingOf(job.machine, job.table, material, stock, sheetFloors(laid));
  // Bodies depend on the table and the width of the cutter, which no change touches.
  const bodies = job.table === scene.job.table ? scene.bodies : bodiesOf(laid, setting);
  const { moments } = planCuts(setting, laid, bodies);
  const moment = moments.find(({ laid: i, step }) => i === index && step.kind === 'outline')!;
  const body = bodies[index]!;
  const reckoned = reckon(setting, body, moment.openKerfMm);
  return { setting, body, reckoned, cutOrder: moment.place };
}

function isBetter({ reckoned: then }: Standing, { reckoned: now }: Standing): boolean {
  if (then.verdict === 'stays') return true;
  const nominal = then.nominal.margins.least - now.nominal.margins.least;
  const low = then.low.margins.least - now.low.margins.least;
  return nominal >= 0 && low >= 0 && nominal + low > 0;
}

/** Changes that are made together. */
type Bundle = readonly Change[];

function pairsOf(changes: readonly Change[]): Bundle[] {
  return changes.flatMap((a, i) =>
    changes.slice(i + 1).flatMap((b): Bundle[] => (a.kind === b.kind ? [] : [[a, b]])),
  );
}

type Price = Pick<WhatIf, 'sheetS' | 'setUpS' | 'aloneS'>;

/** Equal costs keep the order of the list, and what has no price comes last. */
function cheapestFirst<T extends Price>(list: readonly T[]): T[] {
  const cost = ({ sheetS, setUpS, aloneS }: Price): number =>
    setUpS === null ? Number.MAX_VALUE : setUpS + (aloneS ?? sheetS);
  return list.toSorted((a, b) => cost(a) - cost(b));
}

function priceOf({ job, material, wholeKerfMm }: Scene, bundle: Bundle): Omit<Price, 'aloneS'> {
  const sheetS = longerS(job, applied(job, bundle), material, wholeKerfMm);
  const setUpS = bundle.reduce<number | null>(
    (sum, change) => (sum === null || change.setUpS === null ? null : sum + change.setUpS),
    0,
  );
  return { sheetS, setUpS };
}

function longerS(job: RouterJob, then: RouterJob, { thickness }: Material, kerfMm: number): number {
  const seconds = ({ machine }: RouterJob): number => cutS(machine, thickness, kerfMm);
  return Math.max(0, Math.round(seconds(then) - seconds(job)));
}

function applied(job: RouterJob, bundle: Bundle): RouterJob {
  return bundle.reduce((changed, { apply }) => apply(changed), job);
}

function outcome(scene: Scene, now: Standing, bundle: Bundle): WhatIf {
  const job = applied(scene.job, bundle);
  const then = standingOf(scene, job);
  const { nominal, low, verdict } = then.reckoned;
  return {
    text: bundle.map(({ text }) => text).join(', and '),
    but: bundle.some(isOfCut) ? thinChip(job, scene.material) : null,
    ...priceOf(scene, bundle),
    aloneS: bundle.every(isOfCut) ? aloneS(scene, now, job, verdict) : null,
    cutOrder: then.cutOrder,
    margin: nominal.margins.least,
    marginLow: low.margins.least,
    verdict,
    job,
  };
}

/** Passes and feed can change from one cut to the next. */
function isOfCut({ kind }: Change): boolean {
  return kind === 'feed' || kind === 'passes';
}

function aloneS(scene: Scene, now: Standing, then: RouterJob, verdict: Verdict): number | null {
  const { job, material, stock, laid, index } = scene;
  const setting = settingOf(then.machine, then.table, material, stock, sheetFloors(laid));
  const here = reckon(setting, now.body, now.reckoned.openKerfMm);
  if (here.verdict !== verdict) return null;
  return longerS(job, then, material, ownKerfMm(laid[index]!));
}

/** All the kerf that cutting this piece alone opens. */
function ownKerfMm({ open, outlineKerfMm }: LaidPiece): number {
  return open.openings.reduce((sum, { kerfMm }) => sum + kerfMm, outlineKerfMm);
}

/** Slower is not always better: a thin chip rubs. */
function thinChip({ machine, unit }: RouterJob, material: Material): string | null {
  const fault = chipFault(machine, material, unit);
  return fault?.side === 'under' ? fault.text : null;
}
