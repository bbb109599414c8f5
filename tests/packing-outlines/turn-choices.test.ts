import { describe, expect, it } from 'vitest';
import type { PartFace } from '../../src/model/part.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { construct } from '../../src/packing/outlines/construct.ts';
import { spotFinder } from '../../src/packing/outlines/find-spot.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import { turnChoices, withFewTurns } from '../../src/packing/outlines/turn-choices.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { turnsOf } from '../../src/partsfile/turns.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { polygon } from '../helpers/shapes.ts';

const ANY = turnsOf('any');
const WEDGE = polygon([0, 0], [300, 0], [90, 140]);

describe('the choices of turns', () => {
  it.each([
    { turns: [0, 90, 180, 270], first: [0, 90, 180, 270], beside: [0, 90, 180, 270] },
    { turns: ANY, first: [0, 90, 180, 270], beside: [15, 345] },
    {
      turns: ANY.filter((turn) => turn % 90 !== 0),
      first: ANY.filter((turn) => turn % 90 !== 0),
      beside: [30, 345],
    },
  ])(
    'among $turns.length are tried by quarters first, and next to the present one',
    ({ turns, first, beside }) => {
      const { orientations, choices } = choicesOf(turns);
      const turnOf = (i: number) => orientations[i]!.turn;
      expect(choices.count).toBe(turns.length);
      expect(choices.first.map(turnOf)).toEqual(first);
      expect(choices.beside(0).map(turnOf)).toEqual(beside);
    },
  );

  it('beside a mirrored one are mirrored too', () => {
    const { orientations, choices } = choicesOf(ANY, 'either');
    const mirrored = orientations.findIndex((one) => one.mirrored && one.turn === 45);
    expect(choices.beside(mirrored).map((i) => orientations[i])).toMatchObject([
      { turn: 60, mirrored: true },
      { turn: 30, mirrored: true },
    ]);
  });

  it('are drawn from all of them, and as often by quarters', () => {
    const { orientations, choices } = choicesOf(ANY);
    const turns = choices.drawn.map((i) => orientations[i]!.turn);
    expect([...new Set(turns)]).toEqual(ANY);
    for (const quarter of [0, 90, 180, 270])
      expect(turns.filter((turn) => turn === quarter)).toHaveLength(7);
    expect(turns).toHaveLength(2 * ANY.length);
  });

  it('are few in one of the searches: quarters, and beside one that lies askew its neighbours', () => {
    const { orientations, choices } = choicesOf(ANY);
    const few = withFewTurns(choices);
    const turnOf = (i: number) => orientations[i]!.turn;
    expect(few.drawn.map(turnOf)).toEqual([0, 90, 180, 270]);
    expect(few.beside(ANY.indexOf(90)).map(turnOf)).toEqual([0, 90, 180, 270]);
    expect(few.beside(ANY.indexOf(45)).map(turnOf)).toEqual([60, 30]);
  });

  it('let a body that fits by no quarter turn be laid askew', () => {
    const long = polygon([0, 0], [1040, 0], [1040, 40], [0, 60]);
    const task = packingTask(
      jobOf({ spacing: 0, sheets: [sheetOf(1000, 600)], parts: [partOf(long, { turns: ANY })] }),
      0,
    );
    const setup = setupOf(task, 'circles', new WorkBudget(1e9));
    const findSpot = spotFinder(setup, new WorkBudget(1e9));
    const recipe = { order: [0], held: [-1], stocks: [[0]] };
    const { sheets, unplaced } = construct({ setup, findSpot, inHurry: () => false }, recipe);
    expect(unplaced).toEqual([]);
    expect(
      setup.task.bodies[0]!.orientations[sheets[0]!.spots[0]!.orientation]!.turn % 90,
    ).not.toBe(0);
  });
});

function choicesOf(turns: readonly number[], face: PartFace = 'up') {
  const parts = [partOf(WEDGE, { turns, face })];
  const [body] = packingTask(jobOf({ sheets: [sheetOf(2000, 1000)], parts }), 0).bodies;
  return { orientations: body!.orientations, choices: turnChoices(body!) };
}
