import { describe, expect, it } from 'vitest';
import { emptyRack, type Line } from '../../src/rack/change-rack.ts';
import {
  addLine,
  addPlan,
  type Kept,
  type Outcome,
  takeBackIds,
  takeBackPlan,
  useIds,
  usePlan,
} from '../../src/rack/keep-rack.ts';
import { readPlanRecord } from '../../src/rack/plan-record.ts';
import { readRack } from '../../src/rack/read-rack.ts';
import { planText, smallRack } from './racks.ts';

const NOBODY = { job: null, sheet: null, plan: null, date: null };
const BY_HAND: Line = {
  id: 'R3',
  material: 'ply',
  thickness: '18',
  size: '600x200',
  grain: 'second',
  price: null,
  from: NOBODY,
  note: null,
};

describe('keeping the rack', () => {
  it('adds all that a plan leaves, with origin and date, once only', () => {
    const plan = cutPlan(
      planText([
        [884.27, 324.99],
        [400, 300],
      ]),
      'a'.repeat(64),
    );
    const once = textOf(addPlan(kept(smallRack()), plan));
    const entries = kept(once).rack.entries.slice(2);
    expect(entries.map(({ id, from }) => [id, from])).toEqual([
      ['R3', { job: 'Stool', sheet: 1, plan: 'aaaaaaaaaaaaaaaa', date: '2026-03-31' }],
      ['R4', { job: 'Stool', sheet: 1, plan: 'aaaaaaaaaaaaaaaa', date: '2026-03-31' }],
    ]);
    // Never promised larger than it is.
    expect(entries[0]?.stock).toMatchObject({ length: 884.2 * 8000, width: 324.9 * 8000 });
    expect(addPlan(kept(once), plan)).toMatchObject({ ok: true, text: null });
    const other = addPlan(kept(once), { ...plan, sha256: 'b'.repeat(64) });
    expect(kept(textOf(other)).rack.entries).toHaveLength(6);
  });

  it('says where another plan of the job left the same', () => {
    const plan = cutPlan(planText([[884.27, 324.99]]), 'a'.repeat(64));
    const once = kept(textOf(addPlan(kept(smallRack()), plan)));
    const again = addPlan(once, { ...plan, sha256: 'b'.repeat(64) });
    expect(again.said.join()).toMatch(/on the rack: R3\. .*offcuts use R3 /);
    const other = cutPlan(planText([[884.27, 300]]), 'c'.repeat(64));
    expect(addPlan(once, other).said.join()).not.toMatch(/another plan/);
  });

  it('changes nothing where values stand for others', () => {
    const text = smallRack().replace('id: R1', 'id: &first R1').concat('# *first is no alias\n');
    expect(useIds(kept(text), ['R2'], NOBODY)).toMatchObject({ ok: true });
    const alias = text.replace('note: bruised', 'note: *first');
    expect(alias).not.toBe(text);
    expect(useIds(kept(alias), ['R2'], NOBODY)).toMatchObject({ ok: false, why: 'wrong' });
  });

  it('leaves out what rounds to nothing', () => {
    const plan = cutPlan(
      planText([
        [0.04, 400],
        [400, 300],
      ]),
      'a'.repeat(64),
    );
    expect(kept(textOf(addPlan(kept(smallRack()), plan))).rack.entries).toHaveLength(3);
  });

  it('says where the next label would be too long', () => {
    const last = kept(textOf(addLine(kept(smallRack()), { ...BY_HAND, id: 'R9999999' }, null)));
    const plan = cutPlan(planText([[400, 300]]), 'a'.repeat(64));
    expect(addPlan(last, plan)).toMatchObject({ ok: false, why: 'wrong' });
  });

  it('takes nothing back while what the same plan leaves is on the rack', () => {
    const plan = cutPlan(planText([[400, 300]], [{ id: 'R1', size: [800, 400] }]), 'c'.repeat(64));
    const cut = kept(textOf(addPlan(kept(smallRack()), plan)));
    for (const refused of [takeBackPlan(cut, plan.sha256), takeBackIds(cut, ['R1'])]) {
      expect(refused).toMatchObject({ ok: false, why: 'taken' });
      expect(refused.said.join()).toContain('holdfast offcuts use R3 ');
    }
    const gone = kept(textOf(useIds(cut, ['R3'], NOBODY)));
    const back = kept(textOf(takeBackPlan(gone, plan.sha256)));
    expect(back.rack.entries.map(({ used }) => used === null)).toEqual([true, true, false]);
  });

  it('marks what the plan took off the rack when its leftovers are added', () => {
    const plan = cutPlan(planText([[400, 300]], [{ id: 'R1', size: [800, 400] }]), 'c'.repeat(64));
    const { rack } = kept(textOf(addPlan(kept(smallRack()), plan)));
    expect(rack.entries.map(({ id, used }) => [id, used?.job ?? null])).toEqual([
      ['R1', 'Stool'],
      ['R2', null],
      ['R3', null],
    ]);
  });

  it('writes a thickness exactly and sizes to a 64th in a rack in inches', () => {
    const plan = cutPlan(planText([[800, 400]]), 'd'.repeat(64));
    const text = textOf(addPlan(kept(emptyRack('in')), plan));
    expect(text).toContain('thickness: 18mm');
    expect(text).toContain('size: 31-31/64 x 15-47/64');
    expect(kept(text).rack.entries[0]?.thickness).toBe(18 * 8000);
  });

  it('never gives a label again, not even where its entry was taken out', () => {
    const added = textOf(addLine(kept(smallRack()), BY_HAND, null));
    const without = added.replace(/ {2}- id: R3[\s\S]*?(?=next-number)/, '');
    expect(kept(without).rack.entries.map(({ id }) => id)).toEqual(['R1', 'R2']);
    expect(kept(without).rack.nextNumber).toBe(4);
  });

  it.each([
    ['a use by label', (rack: Kept) => useIds(rack, ['r2'], { ...NOBODY, job: 'Box' })],
    [
      'a use by plan',
      (rack: Kept) =>
        usePlan(rack, cutPlan(planText([], [{ id: 'R2', size: [300, 500] }]), 'e'.repeat(64))),
    ],
  ])('undoes %s, and then the file says what it said', (_, use) => {
    const start = kept(textOf(addLine(kept(smallRack()), BY_HAND, null)));
    const used = kept(textOf(use(start)));
    expect(used.rack.entries.filter(({ used: by }) => by !== null).map(({ id }) => id)).toEqual([
      'R2',
    ]);
    expect(textOf(takeBackIds(used, ['R2']))).toBe(start.text);
    const ofPlan = takeBackPlan(used, 'e'.repeat(64));
    if (used.rack.entries[1]?.used?.plan == null) expect(ofPlan).toMatchObject({ text: null });
    else expect(textOf(ofPlan)).toBe(start.text);
  });

  it.each<[string, (rack: Kept) => Outcome, 'wrong' | 'taken', RegExp]>([
    ['an unknown label', (rack) => useIds(rack, ['R1', 'R7'], NOBODY), 'wrong', /no R7/],
    [
      'what is used',
      (rack) => useIds(used(rack), ['R1', 'R2'], NOBODY),
      'taken',
      /R2 is used already, for Box/,
    ],
    [
      'what another plan has taken',
      (rack) =>
        usePlan(
          used(rack),
          cutPlan(planText([], [{ id: 'R2', size: [300, 500] }]), 'f'.repeat(64)),
        ),
      'taken',
      /R2 is used/,
    ],
    [
      'an offcut of another size',
      (rack) =>
        usePlan(rack, cutPlan(planText([], [{ id: 'R2', size: [300, 501] }]), 'f'.repeat(64))),
      'taken',
      /make the plan again/,
    ],
    [
      'a label that is there',
      (rack) => addLine(rack, { ...BY_HAND, id: 'r1' }, null),
      'wrong',
      /r1 already/,
    ],
    ['a bad size', (rack) => addLine(rack, { ...BY_HAND, size: '600' }, null), 'wrong', /size/],
    ['a bad currency', (rack) => addLine(rack, { ...BY_HAND, price: '3' }, 'EURO'), 'wrong', /EUR/],
    [
      'a price in no currency',
      (rack) => addLine(rack, { ...BY_HAND, price: '3' }, null),
      'wrong',
      /currency/,
    ],
  ])('refuses %s and changes nothing', (_, act, why, says) => {
    const outcome = act(kept(smallRack()));
    expect(outcome).toMatchObject({ ok: false, why });
    expect(outcome.said.join(' ')).toMatch(says);
  });

  it('keeps comments, and Windows line ends', () => {
    const text = textOf(addLine(kept(smallRack().replaceAll('\n', '\r\n')), BY_HAND, null));
    for (const comment of ['# Rack by the door', '# the good one', '# measured twice'])
      expect(text).toContain(comment);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(kept(text).rack.entries).toHaveLength(3);
  });

  it.each(['\r', '\u2028', '\u2029'])(
    'takes back what was used where %j, which ends a line elsewhere, stands in a comment',
    (sign) => {
      const before = kept(smallRack().replace('# measured', `# ${sign}measured`));
      const used = kept(textOf(useIds(before, ['R1'], NOBODY)));
      const back = kept(textOf(takeBackIds(used, ['R1'])));
      expect(back.rack).toEqual(before.rack);
    },
  );

  it.each([
    'yes',
    'null',
    '12',
    '- a',
    'a: b',
    '"',
    '#',
    "it's",
    'Überzug 18 mm',
    '*x',
    '{',
    ' , ',
  ])('writes the note %j so that it reads the same', (note) => {
    const text = textOf(addLine(kept(smallRack()), { ...BY_HAND, note }, null));
    expect(kept(text).rack.entries[2]?.note).toBe(note.trim());
  });

  it.each([
    ['', ''],
    ['{}', 'format'],
    ['[', ''],
    ['{"format":"holdfast-plan/1"}', 'job'],
    ['null', ''],
  ])('takes %j for no plan', (text, fault) => {
    expect(readPlanRecord(text)).toEqual({ fault });
  });

  // Whatever a rack file would refuse: what a person or another program writes in a record ends there.
  it.each<readonly [string, string, string]>([
    ['"job":"Stool"', '"job":""', 'job'],
    ['"job":"Stool"', '"job":" Stool"', 'job'],
    ['"job":"Stool"', `"job":"${'a'.repeat(201)}"`, 'job'],
    ['"job":"Stool"', '"job":"a\\nb"', 'job'],
    ['"material":"ply"', '"material":"\\u0007"', 'materials[0].material'],
    ['"thickness":18', '"thickness":0.00001', 'materials[0].thickness'],
    ['"thickness":18', '"thickness":9000', 'materials[0].thickness'],
    ['"number":1', '"number":1e12', 'materials[0].sheets[0].number'],
    ['"length":2440', '"length":8400', 'materials[0].sheets[0].length'],
    ['"length":884.27', '"length":2441', 'materials[0].sheets[0].offcuts'],
    ['"length":884.27', '"length":-1', 'materials[0].sheets[0].offcuts[0].length'],
    ['"rack":"R1"', '"rack":"../R1"', 'materials[0].sheets[1].rack'],
    ['"rack":"R2"', '"rack":"r1"', 'rack'],
  ])('takes a record with %s as %s for none', (before, after, fault) => {
    const taken = ['R1', 'R2'].map((id) => ({ id, size: [800, 400] as const }));
    const text = planText([[884.27, 324.99]], taken);
    expect(text).toContain(before);
    expect(readPlanRecord(text)).toMatchObject({ job: 'Stool' });
    expect(readPlanRecord(text.replace(before, after))).toEqual({ fault });
  });
});

function kept(text: string): Kept {
  const { rack, problems } = readRack(text);
  expect(problems).toEqual([]);
  return { text, rack: rack! };
}

function textOf(outcome: Outcome): string {
  expect(outcome).toMatchObject({ ok: true });
  return (outcome as { text: string }).text;
}

function used(rack: Kept): Kept {
  return kept(textOf(useIds(rack, ['R2'], { ...NOBODY, job: 'Box' })));
}

function cutPlan(text: string, sha256: string) {
  const record = readPlanRecord(text);
  if ('fault' in record) throw new Error(`no plan: ${record.fault}`);
  return { record, sha256, date: '2026-03-31' };
}
