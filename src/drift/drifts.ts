// Says in words what is otherwise in a plan than in the record of an earlier one.
// Idea: both are read from the text of a record by the same reader, so that a plan never drifts from its own. Where the pieces lie is not compared.
// Source: none needed.
// Cost: linear in the two records.
// Degenerate cases: a record in another currency is told as that; a price that is not known on both sides is no drift.
import type { Drift } from '../model/drift.ts';
import { counted, formatLength, formatMoney, formatShare, stockTitle } from '../model/format.ts';
import type { FileUnit, Job } from '../model/job.ts';
import type { Status } from '../model/layout.ts';
import { fromMm } from '../model/units.ts';
import { partDrifts } from './parts.ts';
import type { ComparedRecord } from './read-record.ts';

/** What fails a check comes first; in each kind the order of the plan. */
export function driftsBetween(
  now: ComparedRecord,
  before: ComparedRecord,
  { unit, currency }: Pick<Job, 'unit' | 'currency'>,
): readonly Drift[] {
  return [
    ...stockDrifts(now, before, unit),
    ...costDrifts(now, before, currency),
    ...holdingDrifts(now, before),
    ...partDrifts(now, before, unit),
    ...proofDrifts(now, before),
    ...yieldDrifts(now, before),
    ...machineDrifts(now, before, unit),
    ...searchDrifts(now, before),
  ];
}

function said(kind: Drift['kind'], message: string): Drift {
  return { kind, part: null, message };
}

interface Stock {
  readonly noun: string;
  readonly name: string;
  count: number;
}

function stockDrifts(
  now: ComparedRecord,
  before: ComparedRecord,
  unit: FileUnit,
): readonly Drift[] {
  const [stocks, old] = [stocksOf(now), stocksOf(before)];
  const changed = [...new Set([...stocks.keys(), ...old.keys()])].flatMap((key) => {
    const [own, was] = [stocks.get(key), old.get(key)];
    const [count, oldCount] = [own?.count ?? 0, was?.count ?? 0];
    if (count === oldCount) return [];
    const { name, noun } = (own ?? was)!;
    return [
      said(
        'stock',
        `${stockTitle(name, unit)}: ${countText(count, noun)}, before ${countText(oldCount, noun)}`,
      ),
    ];
  });
  const lumber = (record: ComparedRecord) =>
    new Map(record.lumber.map(({ material, buy, measure }) => [material, `${buy} ${measure}`]));
  const [buys, oldBuys] = [lumber(now), lumber(before)];
  const lumberChanged = [...new Set([...buys.keys(), ...oldBuys.keys()])].flatMap((key) => {
    const [buy, was] = [buys.get(key) ?? 'none', oldBuys.get(key) ?? 'none'];
    return buy === was ? [] : [said('stock', `${key}: ${buy} of lumber, before ${was}`)];
  });
  return [...changed, ...lumberChanged];
}

/** Which offcut of a rack is taken does not matter here, how many are does. */
function stocksOf({ materials }: ComparedRecord): ReadonlyMap<string, Stock> {
  const stocks = new Map<string, Stock>();
  const add = (noun: string, name: string) => {
    const key = `${noun} ${name}`;
    const stock = stocks.get(key) ?? { noun, name, count: 0 };
    stocks.set(key, stock);
    stock.count++;
  };
  for (const { material, sheets, boards } of materials) {
    for (const { stock, rack } of sheets)
      if (rack === null) add('sheet', `${material}, ${stock}`);
      else add('offcut', `${material}, off the rack`);
    for (const { stock } of boards) add('board', `${material}, ${stock}`);
  }
  return stocks;
}

function costDrifts(
  now: ComparedRecord,
  before: ComparedRecord,
  currency: Job['currency'],
): readonly Drift[] {
  const [cost, was] = [now.costs.totalMinor, before.costs.totalMinor];
  if (cost === null && was === null) return [];
  const text = (minor: number | null) =>
    minor === null ? 'not known' : formatMoney(minor, currency);
  if (now.currency !== before.currency)
    return [said('cost', `cost ${text(cost)}, before in ${before.currency}`)];
  return cost === was ? [] : [said('cost', `cost ${text(cost)}, before ${text(was)}`)];
}

function holdingDrifts(now: ComparedRecord, before: ComparedRecord): readonly Drift[] {
  const count = ({ holding }: ComparedRecord, verdict: string) =>
    holding.filter(({ kind, verdictAfter }) => kind === 'piece' && verdictAfter === verdict).length;
  return ['moves', 'marginal'].flatMap((verdict) => {
    const [own, was] = [count(now, verdict), count(before, verdict)];
    const what = verdict === 'moves' ? 'pieces that move' : 'pieces that are marginal';
    return own === was ? [] : [said('holding', `${what} with the remedy: ${own}, before ${was}`)];
  });
}

function proofDrifts(now: ComparedRecord, before: ComparedRecord): readonly Drift[] {
  const old = new Map(before.materials.map(({ material, status }) => [material, status]));
  return now.materials.flatMap(({ material, status }) => {
    const was = old.get(material);
    if (was === undefined || was === status) return [];
    return [said('proof', `${material}: ${STATUS_WORDS[status]}, before ${STATUS_WORDS[was]}`)];
  });
}

const STATUS_WORDS: Readonly<Record<Status, string>> = {
  proved: 'proved',
  limit: 'not proved',
  impossible: 'too little stock',
};

function yieldDrifts(now: ComparedRecord, before: ComparedRecord): readonly Drift[] {
  const [own, was] = [now, before].map(({ costs }) => formatShare(costs.yield));
  return own === was ? [] : [said('yield', `yield ${own}, before ${was}`)];
}

/** The figures may be the same, but what was kept for one machine is not to be cut on the other. */
function machineDrifts(
  now: ComparedRecord,
  before: ComparedRecord,
  unit: FileUnit,
): readonly Drift[] {
  const text = ({ kind, cut, spacing }: NonNullable<ComparedRecord['machine']>) =>
    `${kind.replace('-', ' ')} with a cut of ${formatLength(fromMm(cut), unit)} and a spacing of ${formatLength(fromMm(spacing), unit)}`;
  if (now.machine === null || before.machine === null) return [];
  const [own, was] = [text(now.machine), text(before.machine)];
  return own === was ? [] : [said('machine', `cut on a ${own}, before on a ${was}`)];
}

/** Why a plan may come out otherwise although nothing of the job has changed. */
function searchDrifts(now: ComparedRecord, before: ComparedRecord): readonly Drift[] {
  const text = ({ options: { effort, seed, seconds } }: ComparedRecord) =>
    `effort ${effort}, seed ${seed}${seconds === null ? '' : `, ${seconds} seconds`}`;
  const cut = before.stoppedByTime || before.interrupted;
  return [
    ...(text(now) === text(before)
      ? []
      : [said('search', `searched with ${text(now)}, before with ${text(before)}`)]),
    ...(cut ? [said('search', 'the search of the record was stopped early')] : []),
  ];
}

function countText(count: number, noun: string): string {
  return count === 0 ? `no ${noun}s` : counted(count, noun);
}
