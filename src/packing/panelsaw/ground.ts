import type { BoxStock } from '../rectangles/box-task.ts';
import type { Panel } from './panels.ts';
import type { SlicingTree } from './slicing-tree.ts';

/** A tree, and the stock that its sheet is of. */
export interface Ground {
  readonly tree: SlicingTree;
  readonly stock: BoxStock;
}

/** A clean panel of a sheet with its tree, and how far of it may be used. */
export interface PanelGround extends Ground {
  readonly panel: Panel;
  /** Of the panel, among those of the sheet. */
  readonly index: number;
  readonly width: number;
  readonly height: number;
}
