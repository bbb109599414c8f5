import type { Job } from '../../src/model/job.ts';
import type { Layout, SawCut } from '../../src/model/layout.ts';
import type { PanelSaw } from '../../src/model/machine.ts';
import type { FaultCode } from '../../src/verify/fault.ts';
import { jobOf } from '../packing/jobs.ts';
import { type SawnJob, sawnJob } from '../packing-panelsaw/saws.ts';

export interface SawnScene {
  readonly job: Job;
  readonly layout: Layout;
}

/**
 * A sheet of 100 by 60 with a trim of 4 at its left and lower edge and a kerf of 2: a piece of 50 by 40 beside one of 40 by 20 under one of 40 by 16.
 * The cuts: two trims, between the pieces across, on top of the left one, between the others along, and to the right of and above them.
 */
const JOB: SawnJob = sawnJob(
  [{ length: 100, width: 60, trim: { left: 4, right: 0, bottom: 4, top: 0 } }],
  [
    { width: 50, height: 40 },
    { width: 40, height: 20 },
    { width: 40, height: 16 },
  ],
  { kerf: 2, stages: 2, longestRip: 100, longestCrosscut: 60 },
);

const CUTS: readonly SawCut[] = [
  cut('y', 2, [0, 0, 100, 60]),
  cut('x', 2, [4, 0, 100, 60]),
  cut('y', 54, [4, 4, 100, 60]),
  cut('y', 96, [56, 4, 100, 60]),
  cut('x', 44, [4, 4, 54, 60]),
  cut('x', 24, [56, 4, 96, 60]),
  cut('x', 42, [56, 26, 96, 60]),
];

export const SAWN: SawnScene = {
  job: JOB,
  layout: {
    material: 0,
    objective: 'sheets',
    status: 'proved',
    used: 1,
    bound: { atLeast: 1, provedBy: 'area' },
    sheets: [
      {
        stock: 0,
        placements: [
          { piece: 0, x: 4, y: 4, turn: 0, mirrored: false },
          { piece: 1, x: 56, y: 4, turn: 0, mirrored: false },
          { piece: 2, x: 56, y: 26, turn: 0, mirrored: false },
        ],
        cuts: CUTS,
      },
    ],
    boards: [],
    unplaced: [],
    unplacedLengths: [],
  },
};

interface SawnMutation {
  readonly what: string;
  readonly scene: SawnScene;
  readonly codes: readonly FaultCode[];
}

export const SAWN_MUTATIONS: readonly SawnMutation[] = [
  { what: 'cuts at a router', scene: routed(), codes: ['stray-cut'] },
  { what: 'no cuts', scene: withCuts([]), codes: ['not-cut-out'] },
  { what: 'the last cut left out', scene: withCuts(CUTS.slice(0, -1)), codes: ['not-cut-out'] },
  {
    what: 'a cut to the side by the smallest step',
    scene: withCuts(changed(2, { at: 55 })),
    codes: ['cut-elsewhere', 'not-cut-out'],
  },
  {
    what: 'a panel that is not there',
    scene: withCuts(changed(6, { panel: { minX: 56, minY: 25, maxX: 96, maxY: 60 } })),
    codes: ['cut-elsewhere', 'not-cut-out'],
  },
  {
    what: 'a cut that ends inside the sheet',
    scene: withCuts(changed(2, { panel: { minX: 4, minY: 4, maxX: 100, maxY: 44 } })),
    codes: ['cut-elsewhere', 'not-cut-out'],
  },
  {
    what: 'a cut beside its panel',
    scene: withCuts([...CUTS, cut('y', 54, [4, 4, 54, 44])]),
    codes: ['cut-elsewhere'],
  },
  { what: 'a rip too long', scene: withSaw({ longestRip: 95 }), codes: ['cut-too-long'] },
  { what: 'a crosscut too long', scene: withSaw({ longestCrosscut: 59 }), codes: ['cut-too-long'] },
  {
    what: 'the first cut across where it was to run along',
    scene: fourSquares('along'),
    codes: ['first-cut'],
  },
  { what: 'one stage too many', scene: threeStages(2), codes: ['too-many-stages'] },
];

/** Four squares, parted across first: 100 by 100, without a kerf. */
export function fourSquares(firstCut: PanelSaw['firstCut']): SawnScene {
  const at = (piece: number, x: number, y: number) => ({ piece, x, y, turn: 0, mirrored: false });
  const placements = [at(0, 0, 0), at(1, 50, 0), at(2, 0, 50), at(3, 50, 50)];
  const cuts = [
    cut('y', 50, [0, 0, 100, 100]),
    cut('x', 50, [0, 0, 50, 100]),
    cut('x', 50, [50, 0, 100, 100]),
  ];
  const parts = [{ width: 50, height: 50, count: 4 }];
  return {
    job: sawnJob([{ length: 100, width: 100 }], parts, { firstCut }),
    layout: { ...SAWN.layout, sheets: [{ stock: 0, placements, cuts }] },
  };
}

/** Along, across the upper half, and along again on its right: 100 by 100, without a kerf. */
export function threeStages(stages: 2 | 3, firstCut: PanelSaw['firstCut'] = null): SawnScene {
  const parts = [
    { width: 100, height: 50 },
    { width: 50, height: 50 },
    { width: 50, height: 25, count: 2 },
  ];
  const at = (piece: number, x: number, y: number) => ({ piece, x, y, turn: 0, mirrored: false });
  const placements = [at(0, 0, 0), at(1, 0, 50), at(2, 50, 50), at(3, 50, 75)];
  const cuts = [
    cut('x', 50, [0, 0, 100, 100]),
    cut('y', 50, [0, 50, 100, 100]),
    cut('x', 75, [50, 50, 100, 100]),
  ];
  const { layout } = SAWN;
  return {
    job: sawnJob([{ length: 100, width: 100 }], parts, { stages, firstCut }),
    layout: { ...layout, sheets: [{ stock: 0, placements, cuts }] },
  };
}

function cut(
  axis: SawCut['axis'],
  at: number,
  panel: readonly [number, number, number, number],
): SawCut {
  const [minX, minY, maxX, maxY] = panel;
  return { panel: { minX, minY, maxX, maxY }, axis, at, fence: 'low', stage: 1, care: [] };
}

function withCuts(cuts: readonly SawCut[]): SawnScene {
  const { job, layout } = SAWN;
  return { job, layout: { ...layout, sheets: layout.sheets.map((sheet) => ({ ...sheet, cuts })) } };
}

function changed(index: number, change: Partial<SawCut>): readonly SawCut[] {
  return CUTS.map((each, i) => (i === index ? { ...each, ...change } : each));
}

function withSaw(change: Partial<PanelSaw>): SawnScene {
  return { ...SAWN, job: { ...JOB, machine: { ...JOB.machine, ...change } } };
}

function routed(): SawnScene {
  const { machine } = jobOf([], [], 2);
  return { ...SAWN, job: { ...JOB, machine } };
}
