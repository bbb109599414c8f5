import type { RecordFault } from '../model/recheck.ts';
import { jsonOf, pathText } from './json.ts';
import { MOST_FAULTS, type PlanFile, RECORD } from './schema.ts';

/** A plan's record, or what is wrong with the text of one. */
export type ReadRecord =
  | { readonly plan: PlanFile; readonly faults: readonly [] }
  | { readonly plan: null; readonly faults: readonly RecordFault[] };

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
  return { plan: null, faults };
}
