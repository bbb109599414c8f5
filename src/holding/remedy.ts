/**
 * What to do about a loose thing that does not stay: the cheapest remedy that makes it stay, else
 * the one that helps most.
 *
 * Cheapest first: a skin costs a second light pass, tabs cost cleaning up by hand, a clamp costs
 * setting up. Each is reckoned by the same functions as the thing itself. A skin has two stages,
 * the passes above it and the last light pass, taken when every kerf of the sheet is open; the
 * worse one counts. Friction and tabs add up, because friction gives way without breaking.
 * Source of sizes: common practice, in the table of constants.
 */
import { offsetRegion } from '../geometry/offset.ts';
import type { Point } from '../geometry/point.ts';
import type { Region, Ring } from '../geometry/shape.ts';
import type { Action, LooseKind, Tab, Verdict } from '../model/holding.ts';
import type { FileUnit } from '../model/job.ts';
import { fromMm, toMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import { type Body, bodyOf } from './body.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';
import { freeingDepthMm, passForce } from './cutting-force.ts';
import { roundMargin, worstTip } from './margins.ts';
import { heldRegions } from './reach.ts';
import { skinFor, skinHold } from './skin.ts';
import { type Reckoned, reckon, type Setting, type Stand } from './stand.ts';
import { type TabSite, tabPlaces } from './tab-places.ts';
import {
  fewestTabs,
  type TabSize,
  tabCount,
  tabLiftN,
  tabPushN,
  tabSlipMargin,
  tabTipNmm,
} from './tab-strength.ts';
import { STAYS, verdictOf } from './verdict.ts';

/** A loose thing and what of its sheet a remedy needs to know. */
export interface Patient {
  readonly kind: LooseKind;
  readonly body: Body;
  readonly region: Region;
  readonly site: TabSite;
  /** Kerf that is open on the sheet when everything is cut. */
  readonly wholeKerfMm: number;
  /** The unit in which tabs get round sizes. */
  readonly unit: FileUnit;
}

export interface Remedy {
  readonly action: Action;
  readonly margin: number;
  readonly marginLow: number;
  readonly verdict: Verdict;
  /** Base lengths; 0 without a skin. */
  readonly skin: number;
  readonly tabs: readonly Tab[];
}

/** The remedy that is advised, or null where the thing stays, or where nothing helps. */
export function remedyFor(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  if (as.verdict === 'stays') return null;
  let best: Remedy | null = null;
  for (const remedy of [skinRemedy, tabRemedy, clampRemedy]) {
    const found = remedy(setting, thing, as);
    if (found === null) continue;
    if (found.verdict === 'stays') return found;
    if (found.margin > (best ?? { margin: as.nominal.margins.least }).margin) best = found;
  }
  return best;
}

function skinRemedy(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  const { machine, material } = setting;
  const thicknessMm = toMm(material.thickness);
  const skinMm = skinFor(thicknessMm);
  if (skinMm === 0) return null;
  const above = passForce(machine, material, freeingDepthMm(machine, thicknessMm - skinMm));
  const tied = reckon(setting, thing.body, as.openKerfMm, {
    pass: above,
    skin: skinHold(thing.body, skinMm),
  });
  const freed = reckon(setting, thing.body, thing.wholeKerfMm, {
    pass: passForce(machine, material, skinMm),
  });
  const margin = Math.min(tied.nominal.margins.least, freed.nominal.margins.least);
  const marginLow = Math.min(tied.low.margins.least, freed.low.margins.least);
  return remedyOf('skin', margin, marginLow, { skin: fromMm(skinMm) });
}

/** As few tabs of the usual size as do, else as few large ones. */
function tabRemedy(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  const held = heldRegions(setting.air, thing.region, thing.kind);
  const body = bodyOf(thing.region, held);
  let best: Remedy | null = null;
  for (const { size, most } of tabSizes(setting, thing.unit)) {
    for (let count = firstCount(setting, thing.region.outer, as, size); count <= most; count++) {
      const found = tabsOf(setting, { body, thing, size }, as, count);
      if (found === null) break;
      if (best === null || found.margin > best.margin) best = found;
      if (found.verdict === 'stays') return found;
    }
  }
  return best;
}

function tabsOf(setting: Setting, tabbed: Tabbed, as: Reckoned, count: number): Remedy | null {
  const { thing, size } = tabbed;
  const places = tabPlaces(thing.site, size.width, fromMm(CONSTANTS.tabSpread.value), count);
  if (places.length < count) return null;
  const marginAt = (stand: Stand): number => tabbedMargin(setting, tabbed, places, stand);
  const tabs = places.map((at) => ({ at, width: size.width, height: size.height }));
  return remedyOf('tabs', marginAt(as.nominal), marginAt(as.low), { tabs });
}

function clampRemedy(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  if (thing.kind !== 'piece') return null;
  const foot = fromMm(CONSTANTS.clampFoot.value / 2);
  if (offsetRegion(thing.region, -foot, 'mitre').length === 0) return null;
  const clamped = reckon(setting, thing.body, as.openKerfMm, {
    clampN: CONSTANTS.clampForce.value,
  });
  return remedyOf('clamp', clamped.nominal.margins.least, clamped.low.margins.least, {});
}

function remedyOf(
  action: Action,
  margin: number,
  marginLow: number,
  { skin = 0, tabs = [] }: { readonly skin?: number; readonly tabs?: readonly Tab[] },
): Remedy {
  return { action, margin, marginLow, verdict: verdictOf(margin, marginLow), skin, tabs };
}

/** What tabs are reckoned for; the body is that of the thing as it lies. */
interface Tabbed {
  readonly body: Body;
  readonly thing: Patient;
  readonly size: RoundTab;
}

interface RoundTab extends TabSize {
  readonly width: number;
  readonly height: number;
}

function tabSizes(
  { machine, material }: Setting,
  unit: FileUnit,
): { readonly size: RoundTab; readonly most: number }[] {
  const { tabWidth, tabHeight, manyTabs, largeTabWidth, largeTabHeight, mostTabs } = CONSTANTS;
  const sizeOf = (widths: number, heights: number): RoundTab => {
    const width = roundSize(widths * machine.cutter.diameter, unit);
    const height = roundSize(heights * material.thickness, unit);
    const kerfMm = toMm(machine.cutter.diameter);
    return { width, height, widthMm: toMm(width), heightMm: toMm(height), kerfMm };
  };
  return [
    { size: sizeOf(tabWidth.value, tabHeight.value), most: manyTabs.value },
    { size: sizeOf(largeTabWidth.value, largeTabHeight.value), most: mostTabs.value },
  ];
}

/** To half a millimetre, or to 1/32 inch where the file is in inches. */
function roundSize(length: number, unit: FileUnit): number {
  const step = unit === 'in' ? UNITS_PER_INCH / 32 : UNITS_PER_MM / 2;
  return Math.max(1, Math.round(length / step)) * step;
}

function firstCount({ material }: Setting, ring: Ring, as: Reckoned, size: TabSize): number {
  const { grip, load } = as.nominal;
  const tabN = tabPushN(size, FAMILY_CONSTANTS[material.family].strength);
  const frictionN = grip.friction * grip.forceN;
  return Math.max(fewestTabs(ring), tabCount(STAYS.margin * load.resultantN, frictionN, tabN));
}

function tabbedMargin(
  { material }: Setting,
  { body, thing, size }: Tabbed,
  places: readonly Point[],
  { grip, load, margins }: Stand,
): number {
  const { strength } = FAMILY_CONSTANTS[material.family];
  const slip =
    margins.turn + tabSlipMargin(places, thing.region.outer, load, tabPushN(size, strength));
  const liftN = tabLiftN(size, strength);
  const tip = worstTip(
    body.tips,
    load,
    (side) => grip.forceN * side.centreMm + tabTipNmm(places, side, liftN),
  ).margin;
  return roundMargin(Math.min(slip, tip));
}
