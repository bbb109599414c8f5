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
import type { Patient, Remedy } from './patient.ts';
import { heldRegions } from './reach.ts';
import { skinRemedy } from './skin-remedy.ts';
import type { Reckoned, Setting } from './stand.ts';
import { tabRemedies } from './tab-remedies.ts';

/** The remedy that is advised, or null where the thing stays, or where nothing helps. */
export function remedyFor(setting: Setting, thing: Patient, as: Reckoned): Remedy | null {
  if (as.verdict === 'stays') return null;
  const lying = bodyOf(thing.region, heldRegions(setting.air, thing.region, thing.kind));
  const found = [
    skinRemedy(setting, thing, as),
    ...tabRemedies(setting, thing, lying, as),
    clampRemedy(setting, thing, lying, as),
  ].filter((remedy) => remedy !== null);
  const sure = found.filter(({ verdict }) => verdict === 'stays');
  if (sure.length > 0) return sure.reduce((a, b) => (b.seconds < a.seconds ? b : a));
  const helping = found.filter(({ margin }) => margin > as.nominal.margins.least);
  return helping.length === 0 ? null : helping.reduce((a, b) => (b.margin > a.margin ? b : a));
}
