import { ringArea } from '../../src/geometry/area.ts';
import { boxOf } from '../../src/geometry/box.ts';
import { regionsOverlap } from '../../src/geometry/distance.ts';
import type { Region, Ring } from '../../src/geometry/shape.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { sidesTable } from '../../src/packing/outlines/depth.ts';
import { forbiddenTable } from '../../src/packing/outlines/forbidden.ts';
import type { Form } from '../../src/packing/outlines/forms.ts';
import { type Measure, overlapsOf } from '../../src/packing/outlines/overlap.ts';
import { rootGrids } from '../../src/packing/outlines/root-grids.ts';
import type { Fixed, Setup } from '../../src/packing/outlines/setup.ts';
import { jobOf, sheetOf } from '../helpers/jobs.ts';

/** A setup of given forms on one empty room of whole numbers, without a job behind it: for searches on grids small enough to try every place. */
export function smallSetup(
  parts: readonly (readonly Ring[])[],
  width: number,
  height: number,
  measure: Measure = 'circles',
): Setup {
  const forms = parts.map(formOf);
  const edges = { bare: [], from: forms.length };
  const forbidden = forbiddenTable({
    forms,
    edges,
    ringsOf: ({ parts: rings }) => rings,
    room: Number.POSITIVE_INFINITY,
    spend: () => undefined,
  });
  const overlaps = overlapsOf(
    forms,
    sidesTable(forms.length, forbidden),
    measure,
    edges,
    () => undefined,
  );
  return {
    task: packingTask(jobOf({ sheets: [sheetOf(width, height)], parts: [] }), 0),
    forms,
    formsOfBody: [],
    turnsOfBody: [],
    forbidden,
    coarselyForbidden: forbidden,
    overlaps,
    grids: rootGrids(forms, overlaps, {
      work: Number.POSITIVE_INFINITY,
      count: forms.length,
    }),
    rooms: [{ minX: 0, minY: 0, maxX: width, maxY: height, keepOuts: [] }],
  };
}

/** The parts moved so that the lower-left corner of their box is the origin. */
function formOf(parts: readonly Ring[]): Form {
  const { minX, minY } = boxOf(parts.flat());
  const moved = parts.map((ring) => ring.map(({ x, y }) => ({ x: x - minX, y: y - minY })));
  const reach = boxOf(moved.flat());
  const area = moved.reduce((sum, ring) => sum + ringArea(ring), 0);
  return { width: reach.maxX, height: reach.maxY, parts: moved, reach, area };
}

/** Whether a form at a place overlaps none of the others; by the polygons themselves, without the sums. */
export function isFree(setup: Setup, one: Fixed, others: readonly Fixed[]): boolean {
  const own = partsAt(setup, one);
  return others.every((other) =>
    partsAt(setup, other).every((a) => own.every((b) => !regionsOverlap(a, b))),
  );
}

function partsAt({ forms }: Setup, { form, x, y }: Fixed): Region[] {
  return (forms[form]?.parts ?? []).map((ring) => ({
    outer: ring.map((point) => ({ x: point.x + x, y: point.y + y })),
    holes: [],
  }));
}
