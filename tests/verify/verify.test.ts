import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import type { Part } from '../../src/model/part.ts';
import { FAULT_CODES, type FaultCode } from '../../src/verify/fault.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { at, jobOf, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { mirrorScene, type Scene, turnScene } from '../helpers/symmetry.ts';
import { SAWN_MUTATIONS } from './sawn-mutations.ts';
import { SCENES, type SceneName } from './scenes.ts';

interface Mutation {
  readonly scene: SceneName;
  readonly what: string;
  readonly mutate: (scene: Scene) => Scene;
  /** Every code that must then be found, once or more, and no other. */
  readonly codes: readonly FaultCode[];
}

/** Lengths of moves are base lengths, so 1 is the smallest there is. */
const ROWS: readonly Row[] = [
  ['filled', 'over the left edge', move(0, -1, 0), 'outside'],
  ['filled', 'over the right edge', move(0, 1, 0), 'outside'],
  ['filled', 'over the lower edge', move(0, 0, -1), 'outside'],
  ['filled', 'over the upper edge', move(0, 0, 1), 'outside'],
  ['filledByDisc', 'over the left edge', move(0, -1, 0), 'outside'],
  ['filledByDisc', 'over the right edge', move(0, 1, 0), 'outside'],
  ['filledByDisc', 'over the lower edge', move(0, 0, -1), 'outside'],
  ['filledByDisc', 'over the upper edge', move(0, 0, 1), 'outside'],

  ['underSlant', 'over the trim of the slanted edge to the right', move(0, 1, 0), 'outside'],
  ['underSlant', 'over the trim of the slanted edge upwards', move(0, 0, 1), 'outside'],
  ['underSlant', 'over the trim of the lower edge', move(0, 0, -1), 'outside'],
  ['underSlant', 'over the trim of the left edge', move(0, -1, 0), 'outside'],
  ['underSlant', 'beyond the slanted edge', replace(at(0, 410, 325)), 'outside'],
  ['underSlant', 'with the slanted edge through it', move(0, 800_000, 0), 'outside'],
  ['inLeg', 'into the notch by the smallest step', move(0, 1, 0), 'outside'],
  ['discUnderSlant', 'too near by two micrometres', move(0, 16, 16), 'outside'],

  ['touching', 'overlap by the smallest step', move(1, -1, 0), 'overlap'],
  ['touching', 'one wholly on the other', move(1, -1_600_000, 0), 'overlap'],
  ['touchingL', 'into the leg', move(1, -1, 0), 'overlap'],
  ['touchingL', 'into the foot', move(1, 0, -1), 'overlap'],
  ['touchingDiscs', 'overlap by the smallest step', move(1, -1, 0), 'overlap'],
  ['sideBySide', 'too close by the smallest step', move(1, -1, 0), 'spacing'],
  ['cornerToCorner', 'too close along x', move(1, -1, 0), 'spacing'],
  ['cornerToCorner', 'too close along y', move(1, 0, -1), 'spacing'],
  ['discs', 'too close by the smallest step', move(1, -1, 0), 'spacing'],
  ['discsAslant', 'too close by a micrometre', move(1, -8, -8), 'spacing'],
  ['discAndSide', 'too close by the smallest step', move(1, -1, 0), 'spacing'],
  ['underArch', 'too high by the smallest step', move(1, 0, 1), 'spacing'],
  ['nested', 'too near the frame on the left', move(1, -1, 0), 'spacing'],
  ['nested', 'too near the frame above', move(1, 0, 1), 'spacing'],
  ['nested', 'on the frame', move(1, -400_000, 0), 'overlap'],
  ['nested', 'the cut-out is closed', changeParts({ nestInside: false }), 'cut-out'],
  ['nestedDisc', 'off the middle by two micrometres', move(1, 16, 0), 'spacing'],
  ['nestedDisc', 'the cut-out is closed', changeParts({ nestInside: false }), 'cut-out'],
  ['besideKeepOut', 'too close by the smallest step', move(0, 1, 0), 'keep-out'],
  ['besideKeepOut', 'on the keep-out', move(0, 800_000, 0), 'keep-out'],
  ['discBesideKeepOut', 'too close by a micrometre', move(0, 8, 8), 'keep-out'],

  ['grained', 'across the grain', replace(at(0, 150, 20, 90)), 'grain'],
  ['grained', 'good face down', replace(at(0, 400, 150, 0, true)), 'mirrored'],
  ['halfTurns', 'a quarter turn', replace(at(0, 250, 150, 90)), 'turn'],
  ['halfTurns', 'a whole turn', replace(at(0, 150, 150, 360)), 'turn'],
  ['halfTurns', 'a turn backwards', replace(at(0, 250, 250, -180)), 'turn'],
  ['halfTurns', 'no turn at all', replace(at(0, 150, 150, Number.NaN)), 'turn', 'not-whole'],
  ['halfTurns', 'off the grid', move(0, 0.5, 0), 'not-whole'],
  ['halfTurns', 'nowhere', move(0, 0, Number.NaN), 'not-whole'],
  ['halfTurns', 'endlessly far', move(0, Number.POSITIVE_INFINITY, 0), 'not-whole'],

  ['twoMaterials', 'a piece is missing', remove(2), 'missing'],
  ['twoMaterials', 'twice', put(0, at(1, 200, 0)), 'twice'],
  ['twoMaterials', 'twice in one place', put(0, at(1, 0, 60)), 'twice', 'overlap'],
  ['twoMaterials', 'placed and left out', leaveOut(2), 'twice', 'left-out'],
  ['twoMaterials', 'of the other material', put(0, at(3, 200, 0)), 'other-material'],
  ['twoMaterials', 'beyond the pieces', put(0, at(4, 200, 0)), 'unknown-piece'],
  ['twoMaterials', 'no index', put(0, at(-1, 200, 0)), 'unknown-piece'],
  ['twoMaterials', 'beyond the materials', claim({ material: 2 }), 'unknown-material'],
  ['twoMaterials', 'left out without need', both(remove(2), leaveOut(2)), 'left-out'],

  ['row', 'from right to left', replace(at(2, 10, 20), at(1, 88, 20), at(0, 156, 20)), 'set-order'],
  [
    'row',
    'the first two in the wrong order',
    replace(at(1, 10, 20), at(0, 78, 20)),
    'set-order',
    'set-gap',
  ],
  ['row', 'too wide a gap', move(2, 1, 0), 'set-gap'],
  ['row', 'too narrow a gap', move(2, -1, 0), 'set-gap', 'spacing'],
  ['row', 'not level', move(2, 0, 1), 'set-gap'],
  ['row', 'one upside down', replace(at(2, 206, 60, 180)), 'set-turn'],
  [
    'row',
    'one mirrored',
    both(changeParts({ face: 'either' }), replace(at(2, 206, 20, 0, true))),
    'set-turn',
  ],
  ['row', 'one above the others', move(2, 0, 800_000), 'set-gap'],
  ['row', 'on two sheets', both(remove(2), addSheet(0, at(2, 136, 20))), 'set-apart'],
  ['row', 'one left out', both(remove(2), leaveOut(2)), 'set-apart'],
  [
    'column',
    'from the top down',
    replace(at(2, 20, 10), at(1, 20, 88), at(0, 20, 156)),
    'set-order',
  ],
  ['column', 'too wide a gap', move(2, 0, 1), 'set-gap'],
  ['column', 'not flush', move(1, -1, 0), 'set-gap'],

  ['twoStocks', 'more than on hand', changeStock(1, 0), 'over-stock', 'used'],
  ['twoStocks', 'beyond the stock', changeStock(1, 2), 'unknown-stock', 'used'],
  ['twoStocks', 'an empty sheet', addSheet(1), 'empty-sheet'],
  [
    'twoStocks',
    'says less than the price',
    claim({ used: 3599, status: 'limit' }),
    'used',
    'bound',
  ],
  ['twoStocks', 'says sheets for a price', claim({ used: 2 }), 'used', 'bound', 'status'],
  ['twoStocks', 'falsely proved', bound(3599), 'status'],
  ['twoStocks', 'proved without saying so', claim({ status: 'limit' }), 'status'],
  ['twoStocks', 'impossible, but there it is', claim({ status: 'impossible' }), 'status'],
  ['twoStocks', 'a bound above the layout', both(bound(3601), claim({ status: 'limit' })), 'bound'],
  ['twoStocks', 'no bound', both(bound(Number.NaN), claim({ status: 'limit' })), 'bound'],
  ['inPacks', 'counts single sheets', both(claim({ used: 5100 }), bound(5100)), 'used'],
  ['touching', 'says fewer sheets', both(claim({ used: 0 }), bound(0)), 'used'],
  [
    'shortOfStock',
    'proved with a piece left out',
    both(claim({ status: 'proved' }), bound(1)),
    'status',
  ],
  [
    'shortOfStock',
    'no room, but there is',
    claim({ unplaced: [{ piece: 1, why: 'no-room' }] }),
    'left-out',
  ],
];

type Row = readonly [SceneName, string, (scene: Scene) => Scene, ...FaultCode[]];

const MUTATIONS: readonly Mutation[] = ROWS.map(([scene, what, mutate, ...codes]) => ({
  scene,
  what,
  mutate,
  codes,
}));

/** A fault stays the same from whichever side it is seen, but for those that the view itself can undo. */
const VIEWS: readonly View[] = [
  { title: 'as they are', see: (scene) => scene, undoes: [] },
  { title: 'turned', see: turnScene, undoes: ['turn'] },
  { title: 'turned twice', see: (scene) => turnScene(turnScene(scene)), undoes: ['turn'] },
  { title: 'mirrored', see: mirrorScene, undoes: ['turn', 'mirrored'] },
  {
    title: 'turned and mirrored',
    see: (scene) => mirrorScene(turnScene(scene)),
    undoes: ['turn', 'mirrored'],
  },
];

interface View {
  readonly title: string;
  readonly see: (scene: Scene) => Scene;
  readonly undoes: readonly FaultCode[];
}

describe.each(VIEWS)('layouts $title', ({ see, undoes }) => {
  it.each(Object.entries<Scene>(SCENES))('%s is valid', (_, scene) => {
    expect(verifyLayout(...asArguments(see(scene)))).toEqual({ valid: true, faults: [] });
  });

  const seen = MUTATIONS.filter(({ codes }) => !codes.some((c) => undoes.includes(c)));

  it.each(seen)('$scene, $what', ({ scene, mutate, codes }) => {
    const { valid, faults } = verifyLayout(...asArguments(see(mutate(SCENES[scene]))));
    expect(new Set(faults.map(({ code }) => code))).toEqual(new Set(codes));
    expect(valid).toBe(false);
  });
});

describe('faults', () => {
  it('has a mutation for every code', () => {
    const all = [...MUTATIONS, ...SAWN_MUTATIONS];
    expect(new Set(all.flatMap(({ codes }) => codes))).toEqual(new Set(FAULT_CODES));
  });

  it('names the sheet and both pieces', () => {
    const { faults } = verifyLayout(...asArguments(move(1, -1, 0)(SCENES.sideBySide)));
    const message = 'Part 0 1 is closer than the spacing to Part 0 2 on sheet 1';
    expect(faults).toEqual([{ code: 'spacing', sheet: 0, piece: 0, other: 1, message }]);
  });
});

describe('a part that may not turn', () => {
  const job = jobOf({
    sheets: [sheetOf(500, 500), sheetOf(500, 500, { grain: 'y' })],
    parts: [partOf(rect(200, 100), { grain: 'along', turns: [0], count: 2 })],
  });
  const codesAt = (onPlain: Placement, onGrained: Placement) => {
    const sheets = [onPlain, onGrained].map((own, stock) => ({ stock, placements: [own] }));
    const claim = { status: 'limit', bound: { atLeast: 1, provedBy: 'area' } } as const;
    return verifyLayout(job, layoutOf(sheets, claim)).faults.map(({ code }) => code);
  };

  it('lies as drawn on a sheet without grain, and along the grain on another', () => {
    expect(codesAt(at(0, 0, 0), at(1, 200, 0, 90))).toEqual([]);
    expect(codesAt(at(0, 200, 0, 90), at(1, 200, 0, 90))).toEqual(['turn']);
    expect(codesAt(at(0, 0, 0), at(1, 200, 300, 270))).toEqual(['turn']);
    expect(codesAt(at(0, 0, 0), at(1, 0, 0))).toEqual(['turn', 'grain']);
  });

  it('is left out where only its turn on another sheet would let it in', () => {
    const job = jobOf({
      sheets: [sheetOf(100, 500), sheetOf(100, 150, { grain: 'y' })],
      parts: [partOf(rect(200, 100), { grain: 'along', turns: [0] })],
    });
    const nothing = { status: 'impossible', unplaced: [{ piece: 0, why: 'no-room' }] } as const;
    const layout = layoutOf([], { ...nothing, used: 0, bound: { atLeast: 0, provedBy: 'area' } });
    expect(verifyLayout(job, layout).faults).toEqual([]);
  });
});

function asArguments({ job, layout }: Scene): [Job, Layout] {
  return [job, layout];
}

function both(first: (scene: Scene) => Scene, second: (scene: Scene) => Scene) {
  return (scene: Scene) => second(first(scene));
}

function claim(changes: Partial<Layout>) {
  return ({ job, layout }: Scene): Scene => ({ job, layout: { ...layout, ...changes } });
}

function bound(atLeast: number) {
  return claim({ bound: { atLeast, provedBy: 'area' } });
}

function changeParts(changes: Partial<Part>) {
  return ({ job, layout }: Scene): Scene => ({
    job: { ...job, parts: job.parts.map((part) => ({ ...part, ...changes })) },
    layout,
  });
}

/** Every placement changed into any number of others. */
function changePlacements(change: (placement: Placement) => readonly Placement[]) {
  return ({ job, layout }: Scene): Scene => {
    const sheets = layout.sheets.map((s) => ({ ...s, placements: s.placements.flatMap(change) }));
    return { job, layout: { ...layout, sheets } };
  };
}

function move(piece: number, dx: number, dy: number) {
  return changePlacements((p) => [p.piece === piece ? { ...p, x: p.x + dx, y: p.y + dy } : p]);
}

function replace(...placements: readonly Placement[]) {
  return changePlacements((p) => [placements.find(({ piece }) => piece === p.piece) ?? p]);
}

function remove(piece: number) {
  return changePlacements((p) => (p.piece === piece ? [] : [p]));
}

function put(sheet: number, placement: Placement) {
  return ({ job, layout }: Scene): Scene => {
    const sheets = layout.sheets.map((s, index) =>
      index === sheet ? { ...s, placements: [...s.placements, placement] } : s,
    );
    return { job, layout: { ...layout, sheets } };
  };
}

function addSheet(stock: number, ...placements: readonly Placement[]) {
  return ({ job, layout }: Scene): Scene => {
    const sheets = [...layout.sheets, { stock, placements, cuts: [] }];
    const priceCents = job.materials[0]?.sheets[stock]?.priceCents ?? 0;
    const used = layout.used + (layout.objective === 'cost' ? priceCents : 1);
    return { job, layout: { ...layout, status: 'limit', used, sheets } };
  };
}

/** The sheet taken from another stock, with all claims left as they are. */
function changeStock(sheet: number, stock: number) {
  return ({ job, layout }: Scene): Scene => {
    const sheets = layout.sheets.map((s, index) => (index === sheet ? { ...s, stock } : s));
    return { job, layout: { ...layout, sheets } };
  };
}

function leaveOut(piece: number) {
  return claim({ status: 'limit', unplaced: [{ piece, why: 'no-stock' }] });
}
