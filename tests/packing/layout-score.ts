import type { Job } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { leftoverValue } from '../../src/packing/leftover.ts';
import type { Body, PackingTask, Spot } from '../../src/packing/task.ts';

/** Pieces left out, sheets or their cost, how many sheets that are, and the largest rectangle that is left over as what it lacks: in this order, less is better. */
export type Score = readonly [number, number, number, number];

export function scoreOf(job: Job, layout: Layout): Score {
  const task = packingTask(job, 0);
  const leftovers = layout.sheets.map(({ stock, placements }) =>
    leftoverValue(task, { stock, spots: spotsOf(task, placements) }),
  );
  return [layout.unplaced.length, layout.used, layout.sheets.length, -Math.max(0, ...leftovers)];
}

/** Positive where the first is better. */
export function compareScores(a: readonly number[], b: readonly number[]): number {
  const k = a.findIndex((value, i) => value !== b[i]);
  return k < 0 ? 0 : b[k]! - a[k]!;
}

function spotsOf({ bodies }: PackingTask, placements: readonly Placement[]): Spot[] {
  return bodies.flatMap((body) => {
    const first = placements.find(({ piece }) => piece === body.pieces[0]);
    return first === undefined ? [] : [spotOf(body, first)];
  });
}

function spotOf({ index, orientations }: Body, { x, y, turn, mirrored }: Placement): Spot {
  const orientation = orientations.findIndex(
    (lie) => lie.turn === turn && lie.mirrored === mirrored,
  );
  const own = orientations[orientation]!.placements[0]!;
  return { body: index, orientation, x: x - own.x, y: y - own.y };
}
