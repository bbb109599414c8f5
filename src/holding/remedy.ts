/**
 * What to do about a loose thing that does not stay: the cheapest remedy that makes it stay, else the one that helps most.
 *
 * A skin costs a second light pass, tabs cost cleaning up by hand, a clamp costs setting up; each is priced in seconds
 * and reckoned by the same functions as the thing itself. An earlier place costs nothing and is taken before all this,
 * with the cutting order.
 * Source of the prices: common practice, in the table of constants.
 */
import { bodyOf } from './body.ts';
import { clampRemedy } from './clamp-remedy.ts';
import { CONSTANTS } from './constants.ts';
import type { Patient, Remedy } from './patient.ts';
import { heldRegions } from './reach.ts';
import { skinRemedy } from './skin-remedy.ts';
import { type Reckoned, reckon, type Setting } from './stand.ts';
import { tabRemedies } from './tab-remedies.ts';
import { LEAST_TABS } from './tab-strength.ts';
import { verdictOf } from './verdict.ts';

/** The remedy that is advised, or null where the thing stays, or where it moves with all of them. */
export function remedyFor(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  if (as.verdict === 'stays') return null;
  const found: Remedy[] = [];
  const backing = backingAt(setting, thing, as);
  const add = (remedy: Remedy | null): void => {
    if (remedy !== null) found.push(backedBy(remedy, backing));
  };
  const lying = bodyOf(thing.region, heldRegions(setting.air, thing.region, thing.kind));
  // What is tied to a sheet that nothing holds is not held.
  if (thing.isSheetLost) {
    add(clampRemedy(setting, thing, lying, as));
    return cheapest(found) ?? mostHelpful(found, as);
  }
  add(skinRemedy(setting, thing, as));
  if (isSettled(found, LEAST_TABS * CONSTANTS.tabSeconds.value)) return cheapest(found);
  tabRemedies(setting, thing, lying, as).forEach(add);
  if (isSettled(found, CONSTANTS.clampSeconds.value)) return cheapest(found);
  add(clampRemedy(setting, thing, lying, as));
  return cheapest(found) ?? mostHelpful(found, as);
}

/** A skin, whether the thing needs one or not; null where it has none. */
export function skinOn(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  const skin = skinRemedy(setting, thing, as);
  return skin === null ? null : backedBy(skin, backingAt(setting, thing, as));
}

function backingAt(setting: Setting, { sheet }: Patient, { openKerfMm }: Reckoned): Reckoned {
  return reckon(setting, sheet, openKerfMm);
}

/** What is tied to the sheet is held no better than the sheet. */
function backedBy(remedy: Remedy, { nominal, low }: Reckoned): Remedy {
  if (remedy.action === 'clamp') return remedy;
  const margin = Math.min(remedy.margin, nominal.margins.least);
  const marginLow = Math.min(remedy.marginLow, low.margins.least);
  const limit = margin < remedy.margin ? 'sheet' : remedy.limit;
  return { ...remedy, margin, marginLow, verdict: verdictOf(margin, marginLow), limit };
}

/** Whether something holds the thing that costs no more than all that is still to be looked at. */
function isSettled(found: readonly Remedy[], restS: number): boolean {
  const least = cheapest(found);
  return least !== null && least.seconds <= restS;
}

/** Of those that make the thing stay. */
function cheapest(found: readonly Remedy[]): Remedy | null {
  const sure = found.filter(({ verdict }) => verdict === 'stays');
  return sure.length === 0 ? null : sure.reduce((a, b) => (b.seconds < a.seconds ? b : a));
}

/** Of those that make it better; one with which it still moves is none. */
function mostHelpful(found: readonly Remedy[], as: Reckoned): Remedy | null {
  const helping = found.filter(
    ({ margin, verdict }) => verdict !== 'moves' && margin > as.nominal.margins.least,
  );
  return helping.length === 0 ? null : helping.reduce((a, b) => (b.margin > a.margin ? b : a));
}
