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
  /** Least distance between two pieces, and between a piece and a keep-out. */
  readonly spacing: number;
  readonly assumed: readonly string[];
}

export type Machine = Router;

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

/** The vacuum table. `assumed` names each value that the parts file left out, with the value taken. */
export interface Table {
  /** Size of the vacuum area; null where the file has none: then it is taken as large as the sheet. */
  readonly size: { readonly length: number; readonly width: number } | null;
  readonly pump: { readonly kind: string; readonly curve: readonly PumpPoint[] };
  readonly spoilboard: {
    readonly kind: string;
    readonly thickness: number;
    /** Permeability through the board; `low` is the cautious end, which is the larger number. */
    readonly permeabilityM2: Band;
  };
  readonly altitudeM: number;
  readonly friction: Band;
  readonly frictionFilmFaced: Band;
  readonly assumed: readonly string[];
}
