import type { RecordFault } from '../model/recheck.ts';
import { jsonOf, pathText } from './json.ts';
import { type PlanFile, RECORD } from './schema.ts';

/** A plan's record, or what is wrong with the text of one. */
export type ReadRecord =
  | { readonly plan: PlanFile; readonly faults: readonly [] }
  | { readonly plan: null; readonly faults: readonly RecordFault[] };

/** Nobody reads more of them, and a file of another kind may have a million. */
const MOST_FAULTS = 20;

/** Reads the text of a `plan.json` strictly; where it is none, says what is wrong with it. */
export function readRecord(text: string): ReadRecord {
  const tree = jsonOf(text);
  if (tree === undefined) {
    const isBlank = text.trim() === '';
    const message = isBlank ? 'the file is empty, or larger than any plan' : 'the file is not JSON';
    return { plan: null, faults: [{ code: 'not-a-plan', path: '', message }] };
  }
  const { data: plan, error } = RECORD.safeParse(tree);
  if (plan !== undefined) return { plan, faults: [] };
  const faults = error.issues
    .slice(0, MOST_FAULTS)
    .map(({ path, message }) => ({ code: 'not-a-plan', path: pathText(path), message }));
  const more = error.issues.length - faults.length;
  const rest = { code: 'not-a-plan', path: '', message: `and ${more} more such faults` };
  return { plan: null, faults: more > 0 ? [...faults, rest] : faults };
}
