// Packs bodies as boxes that a saw can part, every cut from edge to edge.
// Idea: the box engine of free cuts with another decoder: a sheet is an order of boxes and a rule, laid out as a slicing tree. Builds, taking sheets away
//   and packing the last sheet to one end are the same steps; what waits is brought onto sheets by changing their trees (fit-trees.ts).
// Source: see the files of the steps and slicing-tree.ts.
// Cost: counted work; the first build is always made.
// Degenerate cases: as in pack-rectangles.ts; a box that the saw could not trim on all sides fits no stock.
import type { Machine } from '../../model/machine.ts';
import type { BoxTask } from '../rectangles/box-task.ts';
import { type Costs, Decoded } from '../rectangles/decoded.ts';
import { type CutKind, pick, type Tools } from '../rectangles/engine.ts';
import type { OrderDecoder } from '../rectangles/order-decoder.ts';
import { boxStrategy } from '../rectangles/pack-rectangles.ts';
import { COLUMN, ROW } from './direction.ts';
import { fitTrees } from './fit-trees.ts';
import {
  SAW_RULE_COUNT,
  SlicingDecoder,
  STRIPS_SIDEWAYS,
  STRIPS_UPWARDS,
} from './slicing-decoder.ts';
import { NO_LIMIT, NO_TREE_LIMITS, type TreeLimits } from './slicing-tree.ts';

const SAW_CUTS: CutKind = {
  ruleCount: SAW_RULE_COUNT,
  toolsFor: sawTools,
  fillsCorners: false,
  startsAnew: false,
  stripRules: { [COLUMN]: STRIPS_UPWARDS, [ROW]: STRIPS_SIDEWAYS },
  drawRule: (random) => pick(random, SAW_RULE_COUNT),
  ruleOn: (_, rule) => rule,
};

export const packPanels = boxStrategy(SAW_CUTS);

function sawTools({ task, area, bodies }: BoxTask): Tools {
  const result = new Decoded();
  const costs: Costs = { ofKind: Float64Array.from(area), leastPerArea: 1 };
  // A matched set is cut once more, beside or across what it lies in.
  const inner = Uint8Array.from(bodies, ([first]) =>
    task.bodies[first!]!.pieces.length > 1 ? 1 : 0,
  );
  const slicing = new SlicingDecoder(limitsOf(task.job.machine), inner, costs, result);
  const decoder: OrderDecoder = {
    result,
    costs,
    decode: (stock, order, length, rule, limit, width = stock.width, height = stock.height) =>
      slicing.decode(stock, order, length, rule, limit, width, height),
    layAgain: (stock, sheet) => slicing.layAgain(stock, sheet),
    work: () => slicing.filler.work,
  };
  return { decoder, fit: fitTrees(slicing) };
}

function limitsOf(machine: Machine): TreeLimits {
  if (machine.kind === 'router') return NO_TREE_LIMITS;
  const { stages, longestRip, longestCrosscut, firstCut, kerf, leastFeed } = machine;
  // Boxes are grown by a kerf, and so are the panels.
  return {
    depth: stages ?? NO_LIMIT,
    alongX: longestRip === null ? NO_LIMIT : longestRip + kerf,
    alongY: longestCrosscut === null ? NO_LIMIT : longestCrosscut + kerf,
    isRootFixed: firstCut !== null,
    narrow: leastFeed.width + kerf,
  };
}
