/** What to do about a loose thing, in one sentence for the person at the machine. */
import { counted, formatLength } from '../model/format.ts';
import type { LooseKind } from '../model/holding.ts';
import type { FileUnit } from '../model/job.ts';
import { formatVacuum } from '../model/readings.ts';
import { toMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import type { Body } from './body.ts';
import { isLost } from './kerf-timeline.ts';
import type { Margins } from './margins.ts';
import type { Remedy } from './patient.ts';
import type { Reckoned } from './stand.ts';
import { MOVES, STAYS } from './verdict.ts';

export interface Case {
  readonly kind: LooseKind;
  readonly body: Body;
  readonly cutOrder: number;
  /** The cuts that are left on the skin that holds it. */
  readonly skinCuts: readonly number[];
  /** Why the vacuum does not reach all of it; none where it does. */
  readonly misses: readonly string[];
  readonly isOnPods: boolean;
  /** Nominal vacuum before the first cut and after the last. */
  readonly startKpa: number;
  readonly endKpa: number;
  /** Why no tabs hold it; null where it needs none, or gets some. */
  readonly tabFault: string | null;
  readonly cutter: number;
  readonly unit: FileUnit;
}

export function whySentence(about: Case, as: Reckoned, remedy: Remedy | null): string {
  const { least } = as.nominal.margins;
  if (as.verdict === 'stays') {
    const stays = `Stays by itself, held ${least.toFixed(2)} times over`;
    if (remedy === null) return `${stays}.`;
    return `${stays}; but waste beside it hangs on this cut: ${advice(about, remedy)}; ${outcome(about, as, remedy)}.`;
  }
  const figures = `margin ${least.toFixed(2)}, low end ${as.low.margins.least.toFixed(2)}`;
  if (remedy?.action === 'earlier') return earlierSentence(about, as, remedy, figures);
  const trouble = `${reason(about)}${lostText(about, as)}${cutName(as)} ${mayOrWill(as)} ${mishap(as.nominal.margins)} (${figures})`;
  if (remedy === null)
    return `${trouble}, and nothing reckoned here holds it${about.tabFault === null ? '' : ` (${about.tabFault})`}: ${lastResort(about, as)}.`;
  return `${trouble}: ${advice(about, remedy)}; ${outcome(about, as, remedy)}.`;
}

/** The first figures are those of the shortest way, the others those of the order that is advised. */
function earlierSentence(about: Case, as: Reckoned, remedy: Remedy, figures: string): string {
  const later = `At its later place on the shortest way the cut ${mayOrWill(as)} ${mishap(as.nominal.margins)} (${figures})`;
  return `${later}; this order has it as number ${about.cutOrder} of its sheet, while the vacuum is high: ${outcome(about, as, remedy)}.`;
}

/** Why hardly anything holds it, where that is not its size. */
function reason({ kind, body, misses, isOnPods }: Case): string {
  if (misses.length > 0) {
    const reach =
      body.heldAreaMm2 === 0 ? 'No vacuum reaches it' : 'The vacuum reaches only part of it';
    return `${reach}, as it lies ${misses.join(' and ')}. `;
  }
  return isOnPods && kind === 'piece' && body.heldAreaMm2 === 0 ? 'No pod fits under it. ' : '';
}

/** That hardly any vacuum is left when it comes free. */
function lostText({ startKpa, unit }: Case, { nominal: { vacuumKpa } }: Reckoned): string {
  if (!isLost(vacuumKpa, startKpa)) return '';
  return `By then the vacuum has broken down, from ${formatVacuum(startKpa, unit)} to ${formatVacuum(vacuumKpa, unit)}. `;
}

function cutName({ nominal }: Reckoned): string {
  return nominal.pass.kind === 'finishing' ? 'The finishing cut' : 'The cut that frees it';
}

function mayOrWill({ verdict }: Reckoned): string {
  return verdict === 'moves' ? 'will' : 'may';
}

function mishap({ slide, tip, least }: Margins): string {
  if (tip === least) return 'lift or tip it';
  return slide < MOVES ? 'push it aside' : 'twist it loose';
}

function advice(about: Case, remedy: Remedy): string {
  const { unit } = about;
  switch (remedy.action) {
    case 'none':
    case 'earlier':
      return 'leave it';
    case 'skin': {
      const skin = `leave a skin of ${formatLength(remedy.skin, unit)} in ${cutsOf(about)} and take that away last`;
      return `${pocketFirst(about)}${skin}`;
    }
    case 'tabs': {
      const [first] = remedy.tabs;
      const size = first
        ? `${formatLength(first.width, unit)} wide and ${formatLength(first.height, unit)} high`
        : '';
      return `${pocketFirst(about)}leave ${counted(remedy.tabs.length, 'tab')}, ${size}, ${remedy.onShow ? 'on show edges too, as no other edge has the place, ' : ''}and cut ${remedy.tabs.length === 1 ? 'it' : 'them'} by hand after the run`;
    }
    case 'clamp':
      return `clamp it ${clampPlace(remedy, unit)} before the cut that frees it`;
  }
}

/** The middle of the foot, from the lower-left corner of the sheet. */
function clampPlace({ clamp }: Remedy, unit: FileUnit): string {
  if (clamp === null) return '';
  const middle = [(clamp.minX + clamp.maxX) / 2, (clamp.minY + clamp.maxY) / 2];
  const [x, y] = middle.map((at) => formatLength(nearest(at, unit), unit));
  return `at ${x}, ${y} of the sheet (foot ${formatLength(nearest(clamp.maxX - clamp.minX, unit), unit)})`;
}

/** To a millimetre, or a 16th of an inch. */
function nearest(length: number, unit: FileUnit): number {
  const step = unit === 'in' ? UNITS_PER_INCH / 16 : UNITS_PER_MM;
  return Math.round(length / step) * step;
}

function cutsOf({ kind, skinCuts }: Case): string {
  if (kind !== 'sliver') return 'the cut round it';
  return `${skinCuts.length === 1 ? 'the cut' : 'the cuts'} beside it (${skinCuts.join(', ')})`;
}

/** Narrow waste is sooner cut to dust than held. */
function pocketFirst({ kind, body, cutter }: Case): string {
  const narrow = kind !== 'piece' && body.narrowMm < POCKET_WIDTH * toMm(cutter);
  return narrow ? 'clear it to dust as a pocket, or ' : '';
}

/** In cutter diameters: what a few turns of the cutter clear. */
const POCKET_WIDTH = 4;

function outcome(about: Case, as: Reckoned, remedy: Remedy): string {
  const number = remedy.margin.toFixed(2);
  switch (remedy.verdict) {
    case 'stays':
      return `so held it stays, margin ${number}`;
    case 'marginal':
      return `so held it may still move, margin ${number}, as ${shortfall(about, as, remedy)}: try it in waste first`;
    case 'moves':
      return `so held it still moves, margin ${number}`;
  }
}

/** Why a remedy is not enough to be sure. */
function shortfall({ endKpa, unit }: Case, { nominal }: Reckoned, remedy: Remedy): string {
  if (remedy.margin >= STAYS.margin)
    return `only the cautious figures fall short, margin ${remedy.marginLow.toFixed(2)}`;
  switch (remedy.limit) {
    case 'sheet':
      return 'the sheet that it is tied to is held no better';
    case 'last pass':
      return `the light pass that takes the skin off comes when all is cut, at ${formatVacuum(endKpa, unit)}`;
    case 'own':
      return `${remedy.action === 'tabs' ? 'no more or larger tabs find a place' : `a ${remedy.action} adds no more`}, and the vacuum is ${formatVacuum(nominal.vacuumKpa, unit)}`;
  }
}

function lastResort({ kind }: Case, { verdict }: Reckoned): string {
  switch (kind) {
    case 'piece':
      if (verdict === 'marginal')
        return 'try it in waste first; else leave it in a larger piece and cut that up afterwards';
      return 'do not cut it free in this run; leave it in a larger piece and cut that up afterwards, or hold it another way';
    case 'slug':
      return 'clear it to dust as a pocket';
    case 'sliver':
      return 'clear it to dust as a pocket, or plan again with more spacing';
  }
}
