import type { Job } from '../../src/model/job.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { jobOf, type PartInput, partOf, sheetOf } from '../helpers/jobs.ts';
import { arch, disc, hollow, lShape, rect, rounded } from '../helpers/shapes.ts';

const LENGTHS = [720, 560, 600, 450, 330, 900, 280, 864, 564];
const WIDTHS = [300, 330, 560, 150, 120, 400, 80];

/** Forty cabinet rectangles of different sizes, half of them with grain, and twenty curved or notched pieces, for 2440 x 1220 sheets. */
export function workshopJob(): Job {
  const random = seededRandom(7);
  const pick = (values: readonly number[]) => values[Math.floor(random() * values.length)] ?? 0;
  const rectangles = Array.from({ length: 40 }, (): PartInput => {
    const shape = rect(pick(LENGTHS), pick(WIDTHS) + Math.floor(random() * 10));
    return partOf(shape, { grain: random() < 0.5 ? 'along' : 'any' });
  });
  const curved = [
    ...[0, 1, 2, 3, 4].map((k) => arch(600 + 100 * k, 250 + 20 * k, 90 + 10 * k)),
    ...[0, 1, 2, 3, 4].map((k) => hollow(700 + 60 * k, 200 + 20 * k, 60, 70 + 10 * k)),
    ...[0, 1, 2, 3].map((k) => disc(180 + 70 * k)),
    ...[0, 1, 2].map((k) => rounded(500 + 50 * k, 350, 60)),
    ...[0, 1, 2].map((k) => lShape(420 + 40 * k, 380, 110)),
  ].map((shape) => partOf(shape));
  return jobOf({
    spacing: 6.35,
    sheets: [sheetOf(2440, 1220, { trim: 10, grain: 'x' })],
    parts: [...rectangles, ...curved],
  });
}
