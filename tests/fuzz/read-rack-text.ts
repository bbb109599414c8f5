import type { Rack } from '../../src/model/rack.ts';
import { MAX_SHEET_SPAN } from '../../src/model/units.ts';
import { takeBackIds, useIds } from '../../src/rack/keep-rack.ts';
import { withRack } from '../../src/rack/onto-job.ts';
import { readRack } from '../../src/rack/read-rack.ts';
import { CODES, type Corpus } from './corpus.ts';
import type { Reader } from './fuzz-case.ts';
import { mutated } from './mutate.ts';
import { drawnRack } from './parts-file-nodes.ts';
import { WORDS } from './read-parts-text.ts';
import { jobFaults } from './sound-job.ts';
import type { TinyPlan } from './tiny-plans.ts';
import { sentenceFaults, severityFaults, toldFaults } from './told.ts';

const OWN_WORDS = [
  ...WORDS,
  'format',
  'holdfast-rack/1',
  'id',
  'R1',
  'used',
  'used-by',
  'state',
  'on-rack',
  'date',
  '2026-03-31',
  'from',
  'note',
  'next-number',
];

/** Rack files; what is read is offered to a job, used and taken back. */
export function rackReader({ racks }: Corpus, [plan]: readonly TinyPlan[]): Reader {
  return (draw) => {
    const text = draw.weighed<() => string>([
      [6, () => drawnRack(draw)],
      [2, () => mutated(drawnRack(draw), draw, OWN_WORDS)],
      [4, () => mutated(draw.pick(racks), draw, OWN_WORDS)],
    ])();
    return {
      shown: text,
      read: () => {
        const { rack, problems } = readRack(text);
        return {
          isRead: rack !== null,
          codes: problems.map(({ code }) => code),
          faults: [
            ...toldFaults(problems, text, CODES),
            ...severityFaults(problems, rack !== null),
            ...(rack === null ? [] : rackFaults(rack)),
            ...(rack === null ? [] : jobFaults(withRack(plan!.job, rack).job)),
            ...(rack === null ? [] : keptFaults(text, rack)),
          ],
          later: null,
        };
      },
    };
  };
}

function rackFaults({ entries, nextNumber }: Rack): string[] {
  const ids = new Set(entries.map(({ id }) => id.toUpperCase()));
  const isLength = (value: number) =>
    Number.isInteger(value) && 1 <= value && value <= MAX_SHEET_SPAN;
  return [
    ...(ids.size < entries.length ? ['an id twice'] : []),
    ...(Number.isSafeInteger(nextNumber) && 1 <= nextNumber
      ? []
      : [`the next number is ${nextNumber}`]),
    ...entries.flatMap(({ id, thickness, stock }) =>
      [thickness, stock.length, stock.width].every(isLength) ? [] : [`a length of ${id}`],
    ),
  ];
}

const DEED = { job: 'Stool', sheet: null, plan: null, date: null };

/** The text that a change gives reads again, which the functions themselves assert; using and taking back leaves what was. */
function keptFaults(text: string, rack: Rack): string[] {
  const onRack = rack.entries.find(({ used }) => used === null);
  if (onRack === undefined) return [];
  const used = useIds({ text, rack }, [onRack.id], DEED);
  if (!used.ok) return used.said.flatMap(sentenceFaults);
  if (used.text === null) return ['nothing was marked as used'];
  const after = readRack(used.text);
  if (after.rack === null) return [`the rack is lost: ${after.problems[0]?.message}`];
  const back = takeBackIds({ text: used.text, rack: after.rack }, [onRack.id]);
  if (!back.ok || back.text === null) return ['nothing was taken back'];
  const last = readRack(back.text).rack;
  return last?.entries.length === rack.entries.length ? [] : ['offcuts were lost'];
}
