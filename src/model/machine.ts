import type { Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';

export const SPIRALS = ['straight', 'up-cut', 'down-cut', 'compression'] as const;
export type Spiral = (typeof SPIRALS)[number];

export interface Cutter {
  readonly diameter: number;
  readonly flutes: number;
  readonly spiral: Spiral;
  /** Angle of the flutes against the axis; 0 for a straight cutter. */
  readonly helixDeg: number;
  /** Length of the up-cut tip of a compression cutter; 0 for the others. */
  readonly upcutLength: number;
  readonly worn: boolean;
}

/** A CNC router. `assumed` names each value that the parts file left out, with the value taken. */
export interface Router {
  readonly kind: 'router';
  readonly cutter: Cutter;
  readonly spindleRpm: number;
  readonly feedMmPerMin: number;
  /** Deepest cut of one pass. */
  readonly passDepth: number;
  /** Depth that is kept for a pass of its own at the end of each cut; 0 where the passes are equal. */
  readonly lastPass: number;
  /** What the cut leaves on the sides for a finishing cut of the whole depth; 0 without one. */
  readonly finish: number;
  /** Least distance between two pieces, and between a piece and a keep-out. */
  readonly spacing: number;
  /** Width of the cut of the saw that cuts the boards of the job. */
  readonly boardKerf: number;
  readonly assumed: readonly string[];
}

/** How many times the direction of the cuts changes, at most: 2 are strips and pieces; null for as often as need be. Trimming a piece to size counts as none. */
export const STAGE_LIMITS = [2, 3, 4] as const;
export type Stages = (typeof STAGE_LIMITS)[number] | null;

/** Along the length of the sheet, or across it. */
export type FirstCut = 'along' | 'across';

/** A panel saw or table saw: every cut goes from edge to edge. `assumed` names each value that the parts file left out, with the value taken. */
export interface PanelSaw {
  readonly kind: 'panel-saw';
  /** Width of the cut. */
  readonly kerf: number;
  /** Pieces lie at least a kerf apart. */
  readonly spacing: number;
  readonly stages: Stages;
  /** Null: the better one. */
  readonly firstCut: FirstCut | null;
  /** Longest cuts along and across the length of a sheet that the machine takes; null for any. */
  readonly longestRip: number | null;
  readonly longestCrosscut: number | null;
  /** How high equal sheets may be stacked to be cut together; null for one at a time. */
  readonly stackHeight: number | null;
  /** What is narrower or shorter is not fed by hand without a helper such as a push stick. */
  readonly leastFeed: { readonly width: number; readonly length: number };
  readonly assumed: readonly string[];
}

export type Machine = Router | PanelSaw;

/** How wide the saw is that cuts the boards. */
export function boardKerf(machine: Machine): number {
  return machine.kind === 'router' ? machine.boardKerf : machine.kerf;
}

/** How wide a cut through a sheet is. */
export function cutWidth(machine: Machine): number {
  return machine.kind === 'router' ? machine.cutter.diameter : machine.kerf;
}

/** How many times the cutter goes round a cut of this depth. */
export function passCount({ passDepth, lastPass, finish }: Router, depth: number): number {
  const last = lastPass > 0 && lastPass < depth ? 1 : 0;
  return Math.ceil((depth - last * lastPass) / passDepth) + last + (finish > 0 ? 1 : 0);
}

/** How many times the cutter goes down to the depth of a pocket; nothing is kept for a last pass or a finishing cut there. */
export function pocketPasses({ passDepth }: Router, depth: number): number {
  return Math.ceil(depth / passDepth);
}

/** One point of a pump curve: free air moved at this vacuum below the atmosphere. */
export interface PumpPoint {
  readonly flowM3h: number;
  readonly vacuumKpa: number;
}

/** Nominal value and the cautious end of its band. */
export interface Band {
  readonly nominal: number;
  readonly low: number;
}

/** The pipe between pump and table: the vacuum that it was seen to take at a flow, or its measures. */
export type Pipe =
  | { readonly kind: 'measured'; readonly lossKpa: number; readonly flowM3h: number }
  | {
      readonly kind: 'plain';
      readonly bore: number;
      readonly length: number;
      readonly elbows: number;
    };

/** How the vacuum reaches the stock on a table that lets no air through a board. `leakMm2` is the opening that all its leaks together make. */
export type Seal =
  | {
      readonly kind: 'gasket';
      /** A cord round each piece, or one round the whole sheet. */
      readonly around: 'pieces' | 'sheet';
      /** How far inside the edge the cord lies. */
      readonly inset: number;
      /** Share of the table inside a cord round the sheet that is open groove. */
      readonly grooveShare: number;
      readonly leakMm2: number;
    }
  | {
      readonly kind: 'pods';
      readonly length: number;
      readonly width: number;
      /** How many pods one piece gets at most. */
      readonly perPiece: number;
      readonly leakMm2: number;
    };

/** A part of the table with a valve of its own, in the coordinates of the table. */
export interface Zone {
  readonly box: Box;
  readonly shut: boolean;
}

/** The vacuum table. `assumed` names each value that the parts file left out, with the value taken. */
export interface Table {
  /** Whether the parts file says anything of the table. */
  readonly isGiven: boolean;
  /** Size of the vacuum area; null where the file has none: then it is taken as large as the sheet. */
  readonly size: { readonly length: number; readonly width: number } | null;
  /** Where the lower-left corner of a sheet lies on the table. */
  readonly sheetAt: Point;
  /** None: the table is one zone. Zones that no sheet reaches are shut. */
  readonly zones: readonly Zone[];
  /** Places that let no air through. */
  readonly masked: readonly Box[];
  readonly pump: { readonly kind: string; readonly curve: readonly PumpPoint[] };
  /** Null: the curve is that at the table. */
  readonly pipe: Pipe | null;
  /** Null: the stock lies on the spoilboard, which the air goes through. */
  readonly seal: Seal | null;
  readonly spoilboard: {
    readonly kind: string;
    readonly thickness: number;
    /** Permeability through the board; `low` is the cautious end, which is the larger number. */
    readonly permeabilityM2: Band;
    /** Permeability along the board over that through it. */
    readonly alongRatio: number;
  };
  readonly altitudeM: number;
  readonly friction: Band;
  readonly frictionFilmFaced: Band;
  readonly assumed: readonly string[];
}
