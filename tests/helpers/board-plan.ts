import type { Job } from '../../src/model/job.ts';
import type { BoardLayout, Layout } from '../../src/model/layout.ts';
import { boardKerf } from '../../src/model/machine.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { planOf } from './plan-of.ts';

/** A board of a stock with pieces of these parts, by name, one kerf apart from the trimmed end or from `at` on, in base lengths. */
export interface BoardSketch {
  readonly stock?: number;
  readonly parts: readonly string[];
  readonly at?: number;
}

/** A plan of a parts file whose only material is cut into the boards of the sketches. */
export function boardPlan(
  text: string,
  sketches: readonly BoardSketch[],
  changes: Partial<Layout> = {},
): Plan {
  const { job } = readPartsFile(text, () => ({ ok: false, reason: 'missing', detail: '' }));
  if (job === null) throw new Error('no job');
  const boards = layBoards(job, sketches);
  const layout: Layout = {
    material: 0,
    objective: 'sheets',
    status: 'proved',
    used: boards.length,
    bound: { atLeast: boards.length, provedBy: 'area' },
    sheets: [],
    boards,
    unplaced: [],
    unplacedLengths: [],
    ...changes,
  };
  return planOf(job, layout);
}

function layBoards(job: Job, sketches: readonly BoardSketch[]): readonly BoardLayout[] {
  const counts = new Map<number, number>();
  return sketches.map(({ stock = 0, parts, at: start }) => {
    let at = start ?? job.materials[0]!.boards[stock]!.endTrim;
    const pieces = parts.map((name) => {
      const part = job.lengthParts.findIndex((each) => each.name === name);
      const number = (counts.get(part) ?? 0) + 1;
      counts.set(part, number);
      const piece = { part, number, at };
      at += job.lengthParts[part]!.length + boardKerf(job.machine);
      return piece;
    });
    return { stock, pieces };
  });
}

/** Legs, posts and rails of a bench from boards of two lengths, one with a knot; four patterns on six boards. Invented. */
export const BENCH = `job: Garden bench
unit: mm
currency: EUR
machine: { kind: router, cutter: { diameter: 3 }, kerf: 3 }
materials:
  ash45:
    name: Ash 45 x 45
    family: hardwood
    thickness: 45
    boards:
      - { length: 2400, price: 14.50, trim: 15 }
      - { length: 1800, price: 9.80, trim: 10, defects: [{ at: 800, length: 60, why: knot }] }
parts:
  - { name: Leg, material: ash45, length: 720, count: 5, note: tapered below }
  - { name: Post, material: ash45, length: 720, count: 2 }
  - { name: Rail, material: ash45, length: 640, count: 4 }
  - { name: Pin, material: ash45, length: 80, count: 6 }
`;

export function benchPlan(): Plan {
  return boardPlan(BENCH, [
    { parts: ['Leg', 'Leg', 'Rail'] },
    { parts: ['Leg', 'Post', 'Rail'] },
    { parts: ['Leg', 'Leg', 'Rail'] },
    { stock: 1, parts: ['Post'] },
    { stock: 1, parts: ['Rail'], at: 860 * 8000 },
    { parts: ['Pin', 'Pin', 'Pin', 'Pin', 'Pin', 'Pin'] },
  ]);
}
