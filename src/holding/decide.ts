/**
 * What is done about each loose thing of a sheet, and which cuts are left on a skin for the waste beside them.
 *
 * A strip of waste has no cut of its own: a skin holds it where every outline along it is left on one. So it gets a skin at
 * the price of those that it brings upon the pieces beside it, and only where none of them is held worse by it: these stay by
 * themselves, or have a skin anyway. A piece on tabs or under a clamp lets no strip beside it hang on a skin, and one that must not
 * be cut free is not cut there.
 * Source: our own; a skin is reckoned as any other. Where we differ: every strip is priced as if it were the only one, so
 * that nothing depends on their order.
 * Cost: one skin more for each piece beside a strip.
 * Degenerate: a strip beside nothing that is cut free hangs on that, and has no skin.
 */
import { adviceOf, type Verdict } from '../model/holding.ts';
import type { LooseThing } from './loose-things.ts';
import { type Patient, type Remedy, remedyOf } from './patient.ts';
import { remedyFor, skinOn } from './remedy.ts';
import { ownSkinS } from './skin-remedy.ts';
import type { Reckoned, Setting } from './stand.ts';

/** A loose thing with how it stands. */
export interface Case {
  readonly thing: LooseThing;
  /** All but the price of a skin. */
  readonly patient: Omit<Patient, 'skinS'>;
  /** Where it is cut. */
  readonly here: Reckoned;
  /** At its later place on the shortest way, for a piece that does not stay there. */
  readonly later: Reckoned | null;
}

export interface Decision {
  /** What the remedy answers to. */
  readonly reckoned: Reckoned;
  /** Null where nothing is to be done, or nothing reckoned holds the thing. */
  readonly remedy: Remedy | null;
  /** Places in the order of the cuts that are left on the skin that holds it. */
  readonly skinCuts: readonly number[];
}

/** One each, in their order. */
export function decide(setting: Setting, cases: readonly Case[]): Decision[] {
  const alone = cases.map((each) =>
    each.thing.kind === 'sliver' ? undecided(each) : aloneOf(setting, each),
  );
  const carriers = carriersOf(setting, cases, alone);
  const carrying = new Set<number>();
  const decided = cases.map((each, i): Decision => {
    if (each.thing.kind !== 'sliver') return alone[i]!;
    const beside = each.thing.beside.flatMap((laid) => carriers.get(laid) ?? []);
    const patient = { ...each.patient, skinS: priceOf(beside) };
    const remedy = remedyFor(setting, patient, each.here);
    if (remedy?.action !== 'skin') return { ...alone[i]!, remedy };
    for (const { at } of beside) carrying.add(at);
    const skinCuts = beside.map(({ at }) => cases[at]!.thing.moment.place);
    return { ...alone[i]!, remedy, skinCuts: skinCuts.sort((a, b) => a - b) };
  });
  const skins = new Map([...carriers.values()].map(({ at, skin }) => [at, skin]));
  return decided.map((each, i) =>
    carrying.has(i) && each.remedy?.action !== 'skin'
      ? { reckoned: cases[i]!.here, remedy: skins.get(i)!, skinCuts: ownCut(cases[i]!) }
      : each,
  );
}

function undecided({ here }: Case): Decision {
  return { reckoned: here, remedy: null, skinCuts: [] };
}

/** Without a look at what lies beside it. */
function aloneOf(setting: Setting, each: Case): Decision {
  const { here, later } = each;
  if (later !== null && here.verdict === 'stays')
    return { reckoned: later, remedy: earlierRemedy(here), skinCuts: [] };
  const remedy = remedyFor(setting, withOwnSkin(setting, each), here);
  const skinCuts = remedy?.action === 'skin' ? ownCut(each) : [];
  return { reckoned: here, remedy, skinCuts };
}

function withOwnSkin(setting: Setting, { patient }: Case): Patient {
  return { ...patient, skinS: ownSkinS(setting, patient.body) };
}

function ownCut({ thing }: Case): readonly number[] {
  return [thing.moment.place];
}

function earlierRemedy({ nominal, low }: Reckoned): Remedy {
  const margins = { margin: nominal.margins.least, marginLow: low.margins.least };
  return remedyOf('earlier', margins, 0);
}

/** A piece that is cut free beside a strip of waste. */
interface Carrier {
  /** Index in the list of cases. */
  readonly at: number;
  /** How it is left on a skin; null where it may not be. */
  readonly skin: Remedy | null;
  /** What that costs more than is spent on it anyway. */
  readonly moreS: number;
}

/** By the index of the laid piece. */
function carriersOf(
  setting: Setting,
  cases: readonly Case[],
  alone: readonly Decision[],
): ReadonlyMap<number, Carrier> {
  const wanted = new Set(cases.flatMap(({ thing }) => thing.beside));
  const carriers = new Map<number, Carrier>();
  cases.forEach((each, at) => {
    const { kind, laid } = each.thing;
    if (kind !== 'piece' || laid === null || !wanted.has(laid)) return;
    const { remedy } = alone[at]!;
    const { verdict } = each.here;
    const action = remedy?.action ?? 'none';
    if (adviceOf({ kind, action, verdictAfter: remedy?.verdict ?? verdict }) === 'leave') return;
    if (action === 'skin') carriers.set(laid, { at, skin: remedy, moreS: 0 });
    else {
      const skin = action === 'none' || action === 'earlier' ? skinFor(setting, each) : null;
      carriers.set(laid, { at, skin, moreS: skin?.seconds ?? 0 });
    }
  });
  return carriers;
}

/** Null where the piece would be held worse. */
function skinFor(setting: Setting, each: Case): Remedy | null {
  const { here } = each;
  const skin = skinOn(setting, withOwnSkin(setting, each), here);
  if (skin === null || RANK[skin.verdict] < RANK[here.verdict]) return null;
  if (skin.verdict !== 'stays' && skin.margin < here.nominal.margins.least) return null;
  return { ...skin, skinFor: 'waste' };
}

const RANK: Readonly<Record<Verdict, number>> = { moves: 0, marginal: 1, stays: 2 };

/** Null where not all of them, or none, can be left on a skin. */
function priceOf(carriers: readonly Carrier[]): number | null {
  if (carriers.length === 0 || carriers.some(({ skin }) => skin === null)) return null;
  return carriers.reduce((sum, { moreS }) => sum + moreS, 0);
}
