import { describe, expect, it } from 'vitest';
import { planDrifts, planRecord } from '../../src/index.ts';
import { isFailing } from '../../src/model/drift.ts';
import type { Plan } from '../../src/model/plan.ts';
import { benchPlan } from '../helpers/board-plan.ts';
import { mixedPlan } from '../helpers/mixed-plan.ts';
import { samplePlan } from '../helpers/sample-plan.ts';
import { chestPlan } from '../helpers/sawn-plan.ts';

/** A record as far as it is changed here. */
interface Draft {
  currency: string;
  machine: { kind: string; cut: number; spacing: number };
  stoppedByTime: boolean;
  options: { effort: string };
  materials: {
    material: string;
    status: string;
    unplaced: { part: string; piece: number; why: string }[];
    sheets: {
      stock: string;
      rack: string | null;
      placements: {
        part: string;
        piece: number;
        x: number;
        y: number;
        turn: number;
        grainDeg: number | null;
        holes: { x: number; y: number; diameter: number }[];
        edges: { left: number; right: number; bottom: number; top: number } | undefined;
        outline: [number, number][];
        cutOuts: [number, number][][];
      }[];
    }[];
    boards: { stock: string; pieces: { part: string; length: number }[] }[];
  }[];
  lumber: { buy: number; parts: { count: number; width: number }[] }[];
  holding: { kind: string; verdictAfter: string }[];
  costs: { totalMinor: number | null; yield: number };
}

const PLANS: readonly (readonly [string, () => Plan])[] = [
  ['a router', samplePlan],
  ['a saw', chestPlan],
  ['boards', benchPlan],
  ['boards and sheets in inches', () => mixedPlan('in')],
];

describe('a plan held against a record', () => {
  it.each(PLANS)('has not changed against its own, for %s', (_, make) => {
    const plan = make();
    expect(planDrifts(plan, planRecord(plan, 'other'))).toEqual([]);
  });

  it.each<readonly [string, (draft: Draft) => void, readonly string[]]>([
    [
      'fewer sheets',
      ({ materials }) =>
        void materials[0]!.sheets.push({ ...materials[0]!.sheets[0]!, placements: [] }),
      ['fails: material-0, 2440 × 1220 mm: 1 sheet, before 2 sheets'],
    ],
    [
      'an offcut in place of a sheet',
      ({ materials }) => {
        materials[0]!.sheets[0]!.rack = 'R3';
      },
      [
        'fails: material-0, 2440 × 1220 mm: 1 sheet, before no sheets',
        'fails: material-0, off the rack: no offcuts, before 1 offcut',
      ],
    ],
    [
      'another cost',
      ({ costs }) => {
        costs.totalMinor = 1;
      },
      ['fails: cost 214.50 EUR, before 0.01 EUR'],
    ],
    [
      'a cost that was not known',
      ({ costs }) => {
        costs.totalMinor = null;
      },
      ['fails: cost 214.50 EUR, before not known'],
    ],
    [
      'another currency',
      (draft) => {
        draft.currency = 'CHF';
      },
      ['fails: cost 214.50 EUR, before in CHF'],
    ],
    [
      'another cutter',
      ({ machine }) => {
        machine.cut = 8;
      },
      [
        'is told: cut on a router with a cut of 6.35 mm and a spacing of 8 mm, before on a router with a cut of 8 mm and a spacing of 8 mm',
      ],
    ],
    [
      'a part that is new',
      (draft) => rename(draft, 'Cleat', null),
      ['fails: "Cleat" is new, 3 pieces of material-0'],
    ],
    [
      'another name',
      (draft) => rename(draft, 'Cleat', 'Strip'),
      ['fails: "Cleat" is new, 3 pieces of material-0', 'fails: "Strip" is gone, before 3 pieces'],
    ],
    [
      'another size',
      (draft) => reshape(draft, 'Cleat', ([x, y]) => [x * 2, y]),
      ['fails: "Cleat" measures 278 × 60 mm, before 556 × 60 mm'],
    ],
    [
      'another outline of the same size',
      (draft) => {
        const [first] = placed(draft, 'Cleat');
        for (const each of placed(draft, 'Cleat')) each.outline = each.outline.slice(1);
        expect(first!.outline).not.toEqual([]);
      },
      ['fails: "Cleat" has another outline of the same size'],
    ],
    [
      'a hole that moved',
      (draft) => {
        const drilled = drilledPart(draft);
        for (const { holes } of placed(draft, drilled)) holes[0]!.x += 0.5;
      },
      [
        `fails: "${drilledPart(JSON.parse(planRecord(samplePlan(), '')))}" has other holes or pockets`,
      ],
    ],
    [
      'an edge band',
      (draft) => {
        for (const each of placed(draft, 'Cleat'))
          each.edges = { left: 1, right: 0, bottom: 0, top: 0 };
      },
      ['fails: "Cleat" has other edge bands'],
    ],
    [
      'a record from before edge bands were in it',
      (draft) => {
        for (const each of placed(draft, 'Cleat')) each.edges = undefined;
      },
      [],
    ],
    [
      'another grain',
      (draft) => {
        for (const each of placed(draft, 'Cleat')) each.grainDeg = 45;
      },
      ['fails: "Cleat" has another grain'],
    ],
    [
      'a piece that lies turned',
      (draft) => {
        for (const each of placed(draft, 'Cleat')) {
          each.turn = (each.turn + 15) % 360;
          each.grainDeg = each.grainDeg === null ? null : each.grainDeg + 15;
          each.outline = each.outline.map(turned15);
          [each.x, each.y] = turned15([each.x, each.y]);
          for (const hole of each.holes) [hole.x, hole.y] = turned15([hole.x, hole.y]);
        }
      },
      [],
    ],
    [
      'a piece that had no place',
      ({ materials: [material] }) => {
        const { placements } = material!.sheets[0]!;
        const { part, piece } = placements.pop()!;
        material!.unplaced.push({ part, piece, why: 'no-stock' });
      },
      [],
    ],
    [
      'another place and yield',
      ({ materials, costs }) => {
        for (const each of materials[0]!.sheets[0]!.placements) {
          each.x += 5;
          each.outline = each.outline.map(([x, y]) => [x + 5, y]);
          for (const hole of each.holes) hole.x += 5;
        }
        costs.yield = 0.1;
      },
      ['is told: yield 74.2 %, before 10.0 %'],
    ],
    [
      'less proof, and another search',
      (draft) => {
        draft.materials[0]!.status = 'limit';
        draft.options.effort = 'long';
        draft.stoppedByTime = true;
      },
      [
        'is told: material-0: proved, before not proved',
        'is told: searched with effort quick, seed 1, before with effort long, seed 1',
        'is told: the search of the record was stopped early',
      ],
    ],
    [
      'pieces at risk',
      ({ holding }) => {
        const pieces = holding.filter(({ kind }) => kind === 'piece');
        for (const each of pieces) each.verdictAfter = 'stays';
        pieces[0]!.verdictAfter = 'moves';
      },
      [
        'fails: pieces that move with the remedy: 0, before 1',
        'fails: pieces that are marginal with the remedy: 1, before 0',
      ],
    ],
  ])('tells of %s', (_, change, drifts) => {
    expect(told(samplePlan(), change)).toEqual(drifts);
  });
});

/** What is said against the plan's own record after a change. */
function told(plan: Plan, change: (draft: Draft) => void): readonly string[] {
  const draft: Draft = JSON.parse(planRecord(plan, ''));
  change(draft);
  const drifts = planDrifts(plan, JSON.stringify(draft));
  if ('fault' in drifts) return [drifts.fault];
  return drifts.map((drift) => `${isFailing(drift) ? 'fails' : 'is told'}: ${drift.message}`);
}

function placed({ materials }: Draft, part: string) {
  const all = materials.flatMap(({ sheets }) => sheets.flatMap(({ placements }) => placements));
  return all.filter((each) => each.part === part);
}

function drilledPart({ materials }: Draft): string {
  const all = materials.flatMap(({ sheets }) => sheets.flatMap(({ placements }) => placements));
  return all.find(({ holes }) => holes.length > 0)!.part;
}

/** To the six decimals of a record. */
function turned15([x, y]: [number, number]): [number, number] {
  const [cos, sin] = [Math.cos(Math.PI / 12), Math.sin(Math.PI / 12)];
  const round = (value: number) => Math.round(value * 1e6) / 1e6;
  return [round(x * cos - y * sin), round(x * sin + y * cos)];
}

function reshape(
  draft: Draft,
  part: string,
  way: (at: [number, number]) => [number, number],
): void {
  for (const each of placed(draft, part)) each.outline = each.outline.map(way);
}

/** Null takes the part out. */
function rename({ materials }: Draft, part: string, name: string | null): void {
  for (const sheet of materials.flatMap(({ sheets }) => sheets))
    sheet.placements = sheet.placements.flatMap((each) => {
      if (each.part !== part) return [each];
      return name === null ? [] : [{ ...each, part: name }];
    });
}
