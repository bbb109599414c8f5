import { driftsBetween } from '../../src/drift/drifts.ts';
import { readComparedRecord } from '../../src/drift/read-record.ts';
import { faultLines, recheck } from '../../src/index.ts';
import { addPlan } from '../../src/rack/keep-rack.ts';
import { readPlanRecord } from '../../src/rack/plan-record.ts';
import { readRack } from '../../src/rack/read-rack.ts';
import { recheckPlan } from '../../src/recheck.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { smallRack } from '../rack/racks.ts';
import { changedRecord } from './drawn-record.ts';
import type { Reader } from './fuzz-case.ts';
import type { TinyPlan } from './tiny-plans.ts';
import { sentenceFaults } from './told.ts';

/** Records of plans through all that reads them: the check against the job, the comparison with another plan, and the rack. */
export function recordReader(plans: readonly TinyPlan[]): Reader {
  const rack = { text: smallRack(), rack: readRack(smallRack()).rack! };
  return (draw) => {
    const own = draw.pick(plans);
    const text = changedRecord(draw.chance(0.97) ? own.text : draw.pick(plans).text, draw);
    // Reckoning all anew takes ten times as long as all the rest.
    const isReckoned = draw.chance(0.1);
    const isKept = draw.chance(0.1);
    return {
      shown: text,
      read: () => {
        const told = recordFaults(text, own, isReckoned);
        const drifts = driftFaults(text, own);
        const record = readPlanRecord(text);
        const kept =
          isKept && !('fault' in record)
            ? addPlan(rack, { record, sha256: own.sha256, date: null })
            : null;
        return {
          isRead: told.length === 0,
          codes: told.map(({ code }) => code),
          faults: [
            ...told.flatMap(({ code, path, message }) => [
              ...(typeof code === 'string' && typeof path === 'string' ? [] : ['no code or path']),
              ...(message === '' ? ['nothing is told'] : []),
            ]),
            // As they are printed: words of the record are made visible there.
            ...faultLines(told).flatMap((line) => (line.text === '' ? ['an empty line'] : [])),
            ...drifts,
            ...(kept === null ? [] : kept.said.flatMap(sentenceFaults)),
          ],
          later: null,
        };
      },
    };
  };
}

function recordFaults(text: string, { job, sha256, text: own }: TinyPlan, isReckoned: boolean) {
  const { plan, faults } = readRecord(text);
  if (plan === null) return faults;
  if (isReckoned) return recheck(job, plan, sha256).faults;
  return recheckPlan(job, plan, sha256, () => own).faults;
}

function driftFaults(text: string, { text: own, job }: TinyPlan): string[] {
  const before = readComparedRecord(text);
  const now = readComparedRecord(own);
  if ('fault' in before || 'fault' in now) return [];
  return driftsBetween(now, before, job).flatMap(({ message }) =>
    message === '' ? ['nothing is told'] : [],
  );
}
