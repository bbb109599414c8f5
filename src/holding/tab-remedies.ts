/**
 * Tabs as a remedy: as few of the usual size as do, else as few large ones, for each choice of edges.
 *
 * Tabs are best where the grain runs across the kerf and no edge is seen later; those elsewhere cost more to clean up.
 * Friction and tabs add up, because friction gives way without breaking.
 * Source of sizes: common practice, in the table of constants.
 */
import type { Point } from '../geometry/point.ts';
import type { Ring } from '../geometry/shape.ts';
import type { FileUnit } from '../model/job.ts';
import { fromMm, toMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import type { Body } from './body.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';
import { roundMargin, worstTip } from './margins.ts';
import { type Patient, type Remedy, remedyOf } from './patient.ts';
import type { Reckoned, Setting, Stand } from './stand.ts';
import { isAnyOnShow, TAB_EDGES, type TabEdges, type TabSite, tabPlaces } from './tab-places.ts';
import {
  fewestTabs,
  type TabSize,
  tabCount,
  tabLiftN,
  tabPushN,
  tabSlipMargin,
  tabTipNmm,
} from './tab-strength.ts';
import { STAYS } from './verdict.ts';

/** One for each choice of edges that has room for tabs, until one makes the thing stay. `lying` is the body of the thing as it lies on the sheet. */
export function tabRemedies(setting: Setting, thing: Patient, lying: Body, as: Reckoned): Remedy[] {
  const remedies: Remedy[] = [];
  for (const edges of TAB_EDGES) {
    const found = tabRemedy(setting, { lying, thing, edges }, as);
    if (found === null) continue;
    // An edge that is seen is spoilt for a better verdict only.
    if (edges === 'any' && remedies.some(({ verdict }) => verdict === found.verdict)) continue;
    remedies.push(found);
    if (found.verdict === 'stays') break;
  }
  return remedies;
}

/** Why no tabs hold a thing. */
export function tabFault(
  setting: Setting,
  { site, region, unit }: Pick<Patient, 'site' | 'region' | 'unit'>,
): string {
  const { size } = tabSizes(setting, unit)[0];
  const count = fewestTabs(region.outer);
  const hasPlaces = (on: TabSite): boolean =>
    tabPlaces(on, size.width, fromMm(CONSTANTS.tabSpread.value), count).length >= count;
  if (hasPlaces(site)) return 'what tabs find a place are too weak';
  const hasRoom = hasPlaces({ ...site, isFirm: () => true });
  return hasRoom ? 'no firm stock beside it for tabs' : 'no room on it for tabs';
}

interface Tabbed {
  readonly lying: Body;
  readonly thing: Patient;
  readonly edges: TabEdges;
}

function tabRemedy(setting: Setting, tabbed: Tabbed, as: Reckoned): Remedy | null {
  const { thing } = tabbed;
  let best: Remedy | null = null;
  for (const { size, most } of tabSizes(setting, thing.unit)) {
    for (let count = firstCount(setting, thing.region.outer, as, size); count <= most; count++) {
      const found = tabsOf(setting, tabbed, size, as, count);
      if (found === null) break;
      if (best === null || found.margin > best.margin) best = found;
      if (found.verdict === 'stays') return found;
    }
  }
  return best;
}

function tabsOf(
  setting: Setting,
  tabbed: Tabbed,
  size: RoundTab,
  as: Reckoned,
  count: number,
): Remedy | null {
  const { site } = tabbed.thing;
  const { width, height } = size;
  const places = tabPlaces(site, width, fromMm(CONSTANTS.tabSpread.value), count, tabbed.edges);
  if (places.length < count) return null;
  const marginAt = (stand: Stand): number => tabbedMargin(setting, tabbed, size, places, stand);
  const margins = { margin: marginAt(as.nominal), marginLow: marginAt(as.low) };
  const seconds = count * CONSTANTS.tabSeconds.value * cleaningFactor(tabbed.edges);
  return remedyOf('tabs', margins, seconds, {
    tabs: places.map((at) => ({ at, width, height })),
    onShow: tabbed.edges === 'any' && isAnyOnShow(site, places),
  });
}

/** Tabs that may be anywhere are priced as the worst of them. */
function cleaningFactor(edges: TabEdges): number {
  switch (edges) {
    case 'best':
      return 1;
    case 'hidden':
      return CONSTANTS.slantedTab.value;
    case 'any':
      return CONSTANTS.showTab.value;
  }
}

interface RoundTab extends TabSize {
  readonly width: number;
  readonly height: number;
}

interface SizeUsed {
  readonly size: RoundTab;
  readonly most: number;
}

function tabSizes({ machine, material }: Setting, unit: FileUnit): readonly [SizeUsed, SizeUsed] {
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
  { lying, thing }: Tabbed,
  size: RoundTab,
  places: readonly Point[],
  { grip, load, margins }: Stand,
): number {
  const { strength } = FAMILY_CONSTANTS[material.family];
  const slip =
    margins.turn + tabSlipMargin(places, thing.region.outer, load, tabPushN(size, strength));
  const liftN = tabLiftN(size, strength);
  const tip = worstTip(
    lying.tips,
    load,
    (side) => grip.forceN * side.centreMm + tabTipNmm(places, side, liftN),
  ).margin;
  return roundMargin(Math.min(slip, tip));
}
