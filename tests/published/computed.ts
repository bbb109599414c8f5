import { COMPUTED_AIR } from './computed-air.ts';
import { COMPUTED_CUTTING } from './computed-cutting.ts';
import { COMPUTED_HOLD } from './computed-hold.ts';
import { COMPUTED_LIFTING } from './computed-lifting.ts';
import { COMPUTED_LUMBER } from './computed-lumber.ts';
import { COMPUTED_PRESSURE } from './computed-pressure.ts';
import type { Computed } from './inputs.ts';

/** How the tool computes each value of values.yaml, by its id. */
export const COMPUTED: Computed = {
  ...COMPUTED_PRESSURE,
  ...COMPUTED_AIR,
  ...COMPUTED_CUTTING,
  ...COMPUTED_HOLD,
  ...COMPUTED_LUMBER,
  ...COMPUTED_LIFTING,
};
