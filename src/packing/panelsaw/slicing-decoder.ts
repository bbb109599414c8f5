// Lays boxes on one sheet in a given order so that a saw can part them from edge to edge.
// Idea: a sheet is kept as an order of boxes and a rule by which each in turn finds its place in the slicing tree (tree-filler.ts), or as an order in which
//   each box is told where it comes in (tree-order.ts).
// Source: see the files named.
// Cost: boxes times nodes; allocation-free after the first growth.
// Degenerate cases: what no cut may cross is cut away first, so a sheet may be several panels; an empty order is a sheet with nothing on it.
import type { BoxStock } from '../rectangles/box-task.ts';
import type { Costs, Decoded, LaidOut } from '../rectangles/decoded.ts';
import { NONE_LEFT } from '../rectangles/rules.ts';
import { COLUMN, type Direction, ROW } from './direction.ts';
import type { PanelGround } from './ground.ts';
import { NO_LIMIT, SlicingTree, type TreeLimits } from './slicing-tree.ts';
import { IN_STRIPS, PLACE_RULES, TreeFiller } from './tree-filler.ts';
import { follow } from './tree-order.ts';

/** Place rules with a row as the root, then the same with a column. */
export const SAW_RULE_COUNT = 2 * PLACE_RULES;
/** Rules that lay out again what was made strip by strip: strips one above the other, and strips side by side. */
export const STRIPS_UPWARDS = SAW_RULE_COUNT;
export const STRIPS_SIDEWAYS = SAW_RULE_COUNT + 1;

/** The first cuts of a sheet that is laid out by the rule. */
function directionOf(rule: number): Direction {
  return rule < PLACE_RULES || rule === STRIPS_SIDEWAYS ? ROW : COLUMN;
}

/** The first one of the rules with the same first cuts. */
export function firstRuleOf(rule: number): number {
  return directionOf(rule) === ROW ? 0 : PLACE_RULES;
}

/** The class guards the agreement between the trees of the panels and the boxes placed. */
export class SlicingDecoder {
  readonly filler: TreeFiller;
  readonly #limits: TreeLimits;
  readonly #into: Decoded;
  readonly #trees: SlicingTree[] = [];

  constructor(limits: TreeLimits, inner: Uint8Array, costs: Costs, into: Decoded) {
    this.#limits = limits;
    this.#into = into;
    this.filler = new TreeFiller(limits, inner, costs, into);
  }

  /** Whether the boxes left out cost at most `limit`; `width` and `height` cut the sheet short. Places are told only where all had to find room. */
  decode(
    stock: BoxStock,
    order: Int32Array,
    length: number,
    rule: number,
    limit: number,
    width: number,
    height: number,
  ): boolean {
    const grounds = this.#open(stock, rule, width, height);
    const placeRule = rule < SAW_RULE_COUNT ? rule % PLACE_RULES : IN_STRIPS;
    if (!this.filler.fill(grounds, order, length, placeRule, limit)) return false;
    // Nobody asks for places while boxes may be left out.
    if (limit === NONE_LEFT) this.#settle(grounds);
    return true;
  }

  /** Lays a sheet out as it was. */
  layAgain(stock: BoxStock, sheet: LaidOut): boolean {
    const { codes, count, rule, beside, width, height } = sheet;
    if (beside === null) return this.decode(stock, codes, count, rule, NONE_LEFT, width, height);
    const grounds = this.#open(stock, rule, width, height);
    follow(this.filler, grounds, codes.subarray(0, count), beside);
    this.#settle(grounds);
    return true;
  }

  /** The panels of a sheet that the saw can cut, with trees of their own, in which its boxes are; all of each panel may be used again. */
  grow(stock: BoxStock, sheet: LaidOut): readonly PanelGround[] {
    this.layAgain(stock, sheet);
    const { width, height } = stock;
    return this.#panels(stock, sheet.rule, width, height).flatMap((ground) => {
      const tree = this.newTree();
      if (!tree.begin(ground.panel, ground.width, ground.height)) return [];
      tree.copyFrom(ground.tree);
      tree.renew(ground.width, ground.height);
      return [{ ...ground, tree }];
    });
  }

  /** Whether children may be put together: where nothing bounds how deep trees are and how long cuts. */
  get mayGroup(): boolean {
    const { depth, alongX, alongY } = this.#limits;
    return Math.min(depth, alongX, alongY) === NO_LIMIT;
  }

  /** A tree under the limits of the machine. */
  newTree(): SlicingTree {
    return new SlicingTree(this.#limits);
  }

  #open(stock: BoxStock, rule: number, width: number, height: number): readonly PanelGround[] {
    const grounds = this.#panels(stock, rule, width, height);
    for (const ground of grounds) {
      const { tree, panel } = ground;
      const isShort = tree.begin(panel, ground.width, ground.height);
      // A panel that cannot be cut takes nothing.
      if (!isShort) tree.freeX[tree.root] = -1;
    }
    return grounds;
  }

  #panels(stock: BoxStock, rule: number, width: number, height: number): readonly PanelGround[] {
    return stock.panels[directionOf(rule)].map((panel, index) => {
      const tree = this.#trees[index] ?? this.newTree();
      this.#trees[index] = tree;
      const w = Math.max(0, Math.min(panel.maxX, width) - panel.minX);
      const h = Math.max(0, Math.min(panel.maxY, height) - panel.minY);
      return { tree, stock, panel, index, width: w, height: h };
    });
  }

  /** Only now is it known where the cuts run. */
  #settle(grounds: readonly PanelGround[]): void {
    for (const { tree, panel } of grounds) tree.settle(panel.minX, panel.minY);
    const { placedCount, placedX, placedY } = this.#into;
    const { leafOf, groundOf } = this.filler;
    for (let k = 0; k < placedCount; k++) {
      const { tree } = grounds[groundOf[k]!]!;
      placedX[k] = tree.x[leafOf[k]!]!;
      placedY[k] = tree.y[leafOf[k]!]!;
    }
  }
}
