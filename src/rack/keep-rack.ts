import { formatSize, keptNumber } from '../model/format.ts';
import type { Deed, Rack, RackEntry } from '../model/rack.ts';
import {
  type Changed,
  type KeptText,
  type Line,
  problemsOfLine,
  withOffcuts,
  withTakenBack,
  withUsed,
} from './change-rack.ts';
import { linesOfPlan } from './lines.ts';
import { type PlanRecord, planMark } from './plan-record.ts';
import { readRack } from './read-rack.ts';

/** What a person wants done to a rack: the new text (null: nothing to write) and what was done, a sentence a line; or why not. */
export type Outcome =
  | { readonly ok: true; readonly text: string | null; readonly said: readonly string[] }
  | { readonly ok: false; readonly why: 'wrong' | 'taken'; readonly said: readonly string[] };

/** A rack as it is written, and what it means. */
export interface Kept extends KeptText {
  readonly rack: Rack;
}

/** A plan's record, the hash of its bytes, and when it was cut. */
export interface CutPlan {
  readonly record: PlanRecord;
  readonly sha256: string;
  readonly date: string | null;
}

/** One offcut by hand; `currency` is that of its price, null where the rack names it. */
export function addLine(kept: Kept, line: Line, currency: string | null): Outcome {
  const { rack } = kept;
  const known = rack.currency?.code ?? null;
  if (known !== null && currency !== null && currency !== known)
    return wrong(`the prices of this rack are in ${known}`);
  const money = currency ?? known;
  const problems = problemsOfLine(line, { unit: rack.unit, currency: money });
  if (problems.length > 0) {
    const said = problems.map(({ message, hint }) =>
      hint === null ? message : `${message}; ${hint}`,
    );
    return { ok: false, why: 'wrong', said };
  }
  if (find(rack, line.id) !== null)
    return wrong(`there is an offcut ${line.id} already, on the rack or used`);
  return added(kept, [line], currency);
}

/** All leftovers of a plan that was cut; what it took off the rack is used by then. The same plan is added once only. */
export function addPlan(kept: Kept, plan: CutPlan): Outcome {
  const { rack } = kept;
  // The entry of a piece that is gone may have been taken out by hand.
  const taken = plan.record.taken.filter(({ id }) => find(rack, id) !== null);
  const used = usePlan(kept, { ...plan, record: { ...plan.record, taken } });
  if (!used.ok) return used;
  const said = plan.record.taken.length === 0 ? [] : used.said;
  const mark = planMark(plan.sha256);
  const before = rack.entries.filter(({ from }) => from.plan === mark).map(({ id }) => id);
  if (before.length > 0) {
    const again = `The offcuts of this plan were added before: ${before.join(', ')}. Nothing is added again.`;
    return { ok: true, text: used.text, said: [...said, again] };
  }
  const lines = linesOfPlan(rack, plan.record, { planSha256: plan.sha256, date: plan.date });
  if (lines.length === 0)
    return { ok: true, text: used.text, said: [...said, 'The plan leaves nothing worth keeping.'] };
  const all = added({ ...kept, text: used.text ?? kept.text }, lines, null);
  if (!all.ok) return all;
  return { ...all, said: [...said, ...all.said, ...alikeBefore(rack, plan.record.job, lines)] };
}

/** A plan that was made again leaves the same once more, though only one of the two was cut. */
function alikeBefore(rack: Rack, job: string, lines: readonly Line[]): readonly string[] {
  const signOf = ({ material, size, from }: Line) => `${material} ${size} ${from.sheet}`;
  const fresh = new Set(lines.map(signOf));
  const alike = rack.entries.filter(({ used, from, material, stock }) => {
    const size = `${keptNumber(stock.length, rack.unit)} x ${keptNumber(stock.width, rack.unit)}`;
    return used === null && from.job === job && fresh.has(`${material} ${size} ${from.sheet}`);
  });
  if (alike.length === 0) return [];
  const labels = alike.map(({ id }) => id);
  return [
    `From another plan of this job, the same sheets and sizes are on the rack: ${labels.join(', ')}. If that one was not cut, holdfast offcuts use ${labels.join(' ')} takes them off.`,
  ];
}

function added(kept: Kept, lines: readonly Line[], currency: string | null): Outcome {
  const { rack } = kept;
  const changed = withOffcuts(kept, rack, lines, currency);
  if ('why' in changed) return wrong(changed.why);
  const ids = lines.map(({ id }) => id);
  const entries =
    readRack(changed.text, kept.limits).rack?.entries.filter(({ id }) => ids.includes(id)) ?? [];
  const said = entries.map((entry) => `Added ${offcutWords(rack, entry)}`);
  return {
    ok: true,
    text: changed.text,
    said: [...said, `Write ${ids.length === 1 ? 'the id on it' : 'its id on each of them'}.`],
  };
}

/** Offcuts that go into something, by their labels; all of them or none. */
export function useIds(kept: Kept, ids: readonly string[], by: Deed): Outcome {
  const { rack } = kept;
  const found = findAll(rack, ids);
  if (!Array.isArray(found)) return found as Outcome;
  const entries: readonly RackEntry[] = found;
  const gone = entries.filter(({ used }) => used !== null);
  if (gone.length > 0)
    return { ok: false, why: 'taken', said: gone.map((entry) => takenSentence(entry)) };
  return marked(kept, entries, by);
}

/** All that a plan takes off the rack. What another took, or what is not there as the plan has it, stops all of it. */
export function usePlan(kept: Kept, { record, sha256, date }: CutPlan): Outcome {
  const { rack } = kept;
  const mark = planMark(sha256);
  const found = findAll(
    rack,
    record.taken.map(({ id }) => id),
  );
  if (!Array.isArray(found)) return found as Outcome;
  const entries: readonly RackEntry[] = found;
  const other = entries.filter(({ id, material, stock }) => {
    const taken = record.taken.find((each) => each.id.toUpperCase() === id.toUpperCase())!;
    return (
      taken.material !== material || taken.length !== stock.length || taken.width !== stock.width
    );
  });
  if (other.length > 0)
    return {
      ok: false,
      why: 'taken',
      said: other.map(
        ({ id }) => `${id} is not the offcut that the plan was made with: make the plan again`,
      ),
    };
  const gone = entries.filter(({ used }) => used !== null && used.plan !== mark);
  if (gone.length > 0)
    return { ok: false, why: 'taken', said: gone.map((entry) => takenSentence(entry)) };
  const open = entries.filter(({ used }) => used === null);
  if (open.length > 0)
    return marked(kept, open, { job: record.job, sheet: null, plan: mark, date });
  const ids = entries.map(({ id }) => id).join(', ');
  const said =
    entries.length === 0
      ? 'The plan takes nothing off the rack.'
      : `Marked before for this plan: ${ids}.`;
  return { ok: true, text: null, said: [said] };
}

function marked(kept: Kept, entries: readonly RackEntry[], by: Deed): Outcome {
  const { rack } = kept;
  const ids = entries.map(({ id }) => id);
  const said = entries.map((entry) => `Used: ${offcutWords(rack, entry)}`);
  return done(withUsed(kept, ids, by), said);
}

/** Offcuts that were not used after all, by their labels. */
export function takeBackIds(kept: Kept, ids: readonly string[]): Outcome {
  const { rack } = kept;
  const found = findAll(rack, ids);
  if (!Array.isArray(found)) return found as Outcome;
  return takenBack(kept, found);
}

/** All that was marked for a plan. */
export function takeBackPlan(kept: Kept, planSha256: string): Outcome {
  const { rack } = kept;
  const mark = planMark(planSha256);
  return takenBack(
    kept,
    rack.entries.filter(({ used }) => used?.plan === mark),
  );
}

function takenBack(kept: Kept, entries: readonly RackEntry[]): Outcome {
  const { rack } = kept;
  const used = entries.filter((entry) => entry.used !== null);
  if (used.length === 0)
    return {
      ok: true,
      text: null,
      said: ['Nothing of it is marked as used; offcuts list --all shows what is.'],
    };
  const plans = new Set(used.flatMap((entry) => entry.used?.plan ?? []));
  const left = rack.entries.filter(
    (entry) => entry.used === null && entry.from.plan !== null && plans.has(entry.from.plan),
  );
  if (left.length > 0) {
    const labels = left.map(({ id }) => id);
    const sentence = `What the same plan leaves is on the rack: ${labels.join(', ')}. If the plan was not cut after all, holdfast offcuts use ${labels.join(' ')} takes that off first`;
    return { ok: false, why: 'taken', said: [sentence] };
  }
  const ids = used.map(({ id }) => id);
  const said = used.map((entry) => `Back on the rack: ${offcutWords(rack, entry)}`);
  return done(withTakenBack(kept, ids), said);
}

function find({ entries }: Rack, id: string): RackEntry | null {
  return entries.find((entry) => entry.id.toUpperCase() === id.toUpperCase()) ?? null;
}

/** The entries in the order of the file, or what stops it. */
function findAll(rack: Rack, ids: readonly string[]): readonly RackEntry[] | Outcome {
  const unknown = ids.filter((id) => find(rack, id) === null);
  if (unknown.length > 0)
    return wrong(`there is no ${unknown.join(', ')} on this rack; holdfast offcuts list shows it`);
  const wanted = new Set(ids.map((id) => id.toUpperCase()));
  return rack.entries.filter(({ id }) => wanted.has(id.toUpperCase()));
}

function takenSentence({ id, used }: RackEntry): string {
  const by = used?.job == null ? '' : `, for ${used.job}`;
  return `${id} is used already${by}; holdfast offcuts take-back ${id} puts it on the rack again`;
}

function done(changed: Changed, said: readonly string[]): Outcome {
  return 'why' in changed ? wrong(changed.why) : { ok: true, text: changed.text, said };
}

function wrong(sentence: string): Outcome {
  return { ok: false, why: 'wrong', said: [sentence] };
}

/** "R12, 800 × 400 mm of birch18". */
function offcutWords({ unit }: Rack, { id, material, stock }: RackEntry): string {
  return `${id}, ${formatSize(stock.length, stock.width, unit)} of ${material}`;
}
