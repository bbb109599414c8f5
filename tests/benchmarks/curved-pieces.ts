import type { Shape } from '../../src/geometry/shape.ts';
import type { Job } from '../../src/model/job.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { arch, disc, hollow, rounded } from '../helpers/shapes.ts';
import { bracket } from './kitchen-mix.ts';

/**
 * So many curved pieces on sheets of 2440 x 1220 with a spacing of 6.35 mm, for runs that show how the search grows.
 * Arches, brackets, discs, rounded doors and hollow rails take turns, each of a size of its own; a larger job begins with the pieces of a smaller one.
 */
export function curvedPieces(count: number): Job {
  const random = seededRandom(1);
  const within = (least: number, most: number) => least + Math.floor((most - least + 1) * random());
  const kinds: readonly (() => Shape)[] = [
    () => arch(within(300, 900), within(180, 320), within(50, 120)),
    () => bracket(within(240, 480), within(240, 480), within(60, 100)),
    () => disc(within(120, 400)),
    () => rounded(within(250, 600), within(250, 450), within(30, 100)),
    () => hollow(within(400, 1000), within(150, 240), within(50, 80), within(40, 90)),
  ];
  const shapes = Array.from({ length: count }, (_, k) => kinds[k % kinds.length]!());
  return jobOf({
    spacing: 6.35,
    sheets: [sheetOf(2440, 1220)],
    parts: shapes.map((shape) => partOf(shape)),
  });
}
