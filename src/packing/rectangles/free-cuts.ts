import { COLUMN, ROW } from '../panelsaw/direction.ts';
import type { CutKind } from './engine.ts';
import { pick } from './engine.ts';
import { fitAll } from './fit-all.ts';
import { orderDecoder } from './order-decoder.ts';
import {
  FREE_RULE_COUNT,
  RULE_COUNT,
  SKYLINE_UP,
  STRIPS_SIDEWAYS,
  STRIPS_UPWARDS,
} from './rules.ts';

/** By track. Going gap by gap is better for many small boxes on a sheet, free rectangles for few large ones. */
const SKYLINE_SHARES = [0.5, 0.9];

/** The cuts of a router: a box may lie anywhere. Only on a plain sheet are there rules that go gap by gap. */
export const FREE_CUTS: CutKind = {
  ruleCount: RULE_COUNT,
  toolsFor: (task) => ({ decoder: orderDecoder(task), fit: fitAll }),
  fillsCorners: true,
  startsAnew: true,
  stripRules: { [COLUMN]: STRIPS_UPWARDS, [ROW]: STRIPS_SIDEWAYS },
  drawRule: (random, { isPlain }, track) =>
    isPlain && random() < SKYLINE_SHARES[track % SKYLINE_SHARES.length]!
      ? SKYLINE_UP + pick(random, 2)
      : pick(random, FREE_RULE_COUNT),
  ruleOn: ({ isPlain }, rule) => (isPlain ? rule : rule % FREE_RULE_COUNT),
};
