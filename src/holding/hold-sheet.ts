/** The holding plan of one sheet: its cutting order, and each loose thing with its whole reckoning. */
import type { Region } from '../geometry/shape.ts';
import type { Terrace } from '../geometry/terraces.ts';
import type { Holding, Pocketing, SheetHolding } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { NumberedSheet } from '../model/plan.ts';
import { type SheetStock, sheetRing } from '../model/stock.ts';
import { type Body, bodyOf } from './body.ts';
import { planCuts } from './cut-plan.ts';
import { skinSteps } from './cutting-order.ts';
import { type Case, type Decision, decide } from './decide.ts';
import { type Floor, floorSizes, mergeFloors, placeFloors } from './floors.ts';
import { type CutMoment, vacuumAlong } from './kerf-timeline.ts';
import { type LaidPiece, layPieces } from './laid-pieces.ts';
import { type LooseThing, looseThings } from './loose-things.ts';
import { missTexts } from './out-of-reach.ts';
import { pocketStand } from './pocket-pass.ts';
import { heldRegions, isAllReached, liftedMm } from './reach.ts';
import { type Reckoned, reckon, type Setting, settingOf } from './stand.ts';
import { tabFault as tabFaultOf } from './tab-remedies.ts';
import { whySentence } from './wording.ts';

export interface HeldSheet {
  readonly setting: Setting;
  readonly things: readonly HeldThing[];
  readonly plan: SheetHolding;
}

export interface HeldThing {
  readonly body: Body;
  /** As it lies on the sheet, openings taken out. */
  readonly region: Region;
  /** Of its pockets and blind holes, on the sheet. */
  readonly floors: readonly Terrace[];
  /** How the sheet stands while its pockets are cut; null without any. */
  readonly pocketing: Reckoned | null;
  /** Without the remedy. */
  readonly reckoned: Reckoned;
  readonly holding: Holding;
}

export function holdSheet(job: RouterJob, { number, material, sheet }: NumberedSheet): HeldSheet {
  const stuff = job.materials[material]!;
  const stock = stuff.sheets[sheet.stock]!;
  const laid = layPieces(job, sheet);
  const setting = settingOf(job.machine, job.table, stuff, stock, sheetFloors(laid));
  const bodies = bodiesOf(laid, setting);
  const { moments, early, ...figures } = planCuts(setting, laid, bodies);
  const wholeKerfMm = moments.at(-1)?.openKerfMm ?? 0;
  const whole = sheetBody(stock, setting);
  const vacuum = vacuumAlong(setting.air, moments);
  const stays = (i: number, openKerfMm: number): boolean =>
    reckon(setting, bodies[i]!, openKerfMm).verdict === 'stays';
  const cases = looseThings({ stock, footing: setting.air, laid, bodies, moments, stays }).map(
    (thing): Case => {
      const here = reckon(setting, thing.body, thing.moment.openKerfMm);
      const later = (thing.kind === 'piece' ? early.get(thing.laid!) : undefined) ?? null;
      const isSheetLost = isLostAt(vacuum, thing.moment.place);
      const patient = { ...thing, sheet: whole, isSheetLost, wholeKerfMm, unit: job.unit };
      return { thing, patient, here, later };
    },
  );
  const things = decide(setting, cases).map((decision, i): HeldThing => {
    const { thing, patient, here } = cases[i]!;
    const own = thing.laid === null ? null : laid[thing.laid]!;
    const piece = own?.piece ?? null;
    const isPiece = thing.kind === 'piece' && own !== null;
    const floors = isPiece ? placeFloors(own.open.floors, own.pose) : [];
    const pocketing = isPiece
      ? pocketStand(setting, whole, own.part, pocketKerfMm(moments, thing.laid))
      : null;
    const isUnheld = decision.remedy === null && here.verdict !== 'stays';
    const fault = isUnheld ? tabFaultOf(setting, patient) : null;
    const subject = {
      job,
      stock,
      sheet: number,
      piece,
      thing,
      setting,
      vacuum,
      tabFault: fault,
      pocketing,
    };
    const holding = holdingOf(subject, decision);
    const { body, region } = thing;
    return { body, region, floors, pocketing, reckoned: decision.reckoned, holding };
  });
  const loose = things.map(({ holding }) => holding);
  const steps = [...moments.map(({ step }) => step), ...skinSteps(loose)];
  return { setting, things, plan: { sheet: number, loose, steps, ...vacuum, ...figures } };
}

/**
 * In the coordinates of their parts, so that equal pieces have equal bodies however they lie; only a piece that the
 * vacuum does not reach all over has one of its own.
 */
export function bodiesOf(laid: readonly LaidPiece[], { air }: Setting): Body[] {
  const known = new Map<number, Body>();
  const whole = { ...air, within: null };
  return laid.map(({ part, pose, open, region }) => {
    if (!isAllReached(air, region))
      return bodyOf(
        region,
        heldRegions(air, region, 'piece'),
        liftedMm(air, region),
        placeFloors(open.floors, pose),
      );
    const body =
      known.get(part.index) ??
      bodyOf(open.region, heldRegions(whole, open.region, 'piece'), 0, open.floors);
    known.set(part.index, body);
    return body;
  });
}

/** Of all pieces, by their depth. */
export function sheetFloors(laid: readonly LaidPiece[]): Floor[] {
  return mergeFloors(laid.flatMap(({ open }) => floorSizes(open.floors)));
}

/** What is open on the sheet when the first pocket of a piece is cut. */
function pocketKerfMm(moments: readonly CutMoment[], laid: number | null): number {
  const moment = moments.find(({ laid: i, step }) => i === laid && step.kind === 'pocket');
  return moment?.openKerfMm ?? 0;
}

/** Whether the table no longer holds once the cut of this number is done. */
function isLostAt({ lostAfter }: Pick<SheetHolding, 'lostAfter'>, place: number): boolean {
  return lostAfter !== null && place >= lostAfter;
}

/** The sheet as it lies, which is held no better than the vacuum under it. */
function sheetBody(stock: SheetStock, { air }: Setting): Body {
  const region: Region = { outer: sheetRing(stock), holes: [] };
  return bodyOf(region, air.within ?? [region]);
}

interface Subject {
  readonly job: RouterJob;
  readonly stock: SheetStock;
  readonly sheet: number;
  readonly piece: number | null;
  readonly thing: LooseThing;
  readonly setting: Setting;
  readonly tabFault: string | null;
  readonly pocketing: Reckoned | null;
  readonly vacuum: Pick<SheetHolding, 'vacuumStartKpa' | 'vacuumAlongKpa'>;
}

function holdingOf(subject: Subject, { reckoned, remedy, skinCuts }: Decision): Holding {
  const { job, stock, sheet, piece, thing, setting, vacuum, tabFault, pocketing } = subject;
  const { kind, region, body, moment } = thing;
  const { nominal, low, verdict } = reckoned;
  const cutter = job.machine.cutter.diameter;
  const misses = isAllReached(setting.air, region)
    ? []
    : missTexts(job.table, stock, region, job.unit);
  const isOnPods = setting.air.seal?.kind === 'pods';
  const place = { cutOrder: moment.place, skinCuts, misses, isOnPods };
  const [startKpa, endKpa] = [vacuum.vacuumStartKpa, vacuum.vacuumAlongKpa.at(-1) ?? 0];
  const about = { kind, body, ...place, startKpa, endKpa, tabFault, cutter, unit: job.unit };
  return {
    kind,
    piece,
    sheet,
    outline: kind === 'piece' ? null : region.outer,
    cutOrder: moment.place,
    vacuumKpa: nominal.vacuumKpa,
    holdingForceN: roundForce(nominal.grip.forceN),
    cuttingForceN: roundForce(nominal.load.resultantN),
    margin: nominal.margins.least,
    marginLow: low.margins.least,
    verdict,
    action: remedy?.action ?? 'none',
    marginAfter: remedy?.margin ?? nominal.margins.least,
    verdictAfter: remedy?.verdict ?? verdict,
    skin: remedy?.skin ?? 0,
    skinFor: remedy?.skinFor ?? null,
    skinCuts,
    tabs: remedy?.tabs ?? [],
    pocketing: pocketing === null ? null : pocketingOf(pocketing),
    clamp: remedy?.clamp ?? null,
    // The skins that hold a sliver are paid for by the pieces with the cuts.
    remedyS: kind === 'sliver' && remedy?.action === 'skin' ? 0 : Math.round(remedy?.seconds ?? 0),
    why: whySentence(about, reckoned, remedy),
  };
}

function pocketingOf({ nominal, low, verdict }: Reckoned): Pocketing {
  return {
    cuttingForceN: roundForce(nominal.load.resultantN),
    margin: nominal.margins.least,
    marginLow: low.margins.least,
    verdict,
  };
}

/** To the printed 0.1 N. */
function roundForce(forceN: number): number {
  return Math.round(forceN * 10) / 10;
}
