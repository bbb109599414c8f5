import { rectangle } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import { hasSlantedEdge } from '../model/stock.ts';
import { packingTask } from './bodies.ts';
import { fitsStock, isSolidRectangle } from './bounds/body-measures.ts';
import type { Body, Candidate, Orientation, PackedSheet, PackingTask } from './task.ts';

/** From this share of rectangles on, of the bodies or of the area of their boxes, a job of outlines is searched as boxes too. */
const LEAST_RECTANGLES = 0.5;

/** A mixed job as one of boxes. */
export interface AsBoxes {
  /** The task of the same job with its bounding rectangle in place of every outline: what is found for it is found for that job, step by step. */
  readonly task: PackingTask;
  /** A packing of the boxes as one of the outlines inside them. */
  readonly unboxed: (candidate: Candidate) => Candidate;
}

/** Whether boxes are not all there is to a task: some body is no box, or boxes would not come up to the edge of a sheet. */
export function needsShapes({ bodies, stocks }: PackingTask): boolean {
  return !bodies.every(isRectangle) || stocks.some(hasSlantedEdge);
}

/** Null where nothing is to be gained: no outlines or hardly anything else, a saw, which knows boxes only, or an outline that fits a sheet only askew. */
export function asBoxes(own: PackingTask): AsBoxes | null {
  if (own.job.machine.kind !== 'router' || !isMixed(own)) return null;
  const replaced = packingTask(withBoxes(own.job, own.material), own.material);
  const bodies = replaced.bodies.map(boxOf);
  const hasLies = ({ orientations }: Body, i: number) =>
    orientations.every((lie) => lieInside(own.bodies[i]!, lie) >= 0);
  if (!bodies.every(hasLies)) return null;
  const task = { ...replaced, bodies };
  const fits = (body: Body) => own.stocks.some((stock, index) => fitsStock(body, stock, index));
  if (bodies.some((body, i) => !fits(body) && fits(own.bodies[i]!))) return null;
  const unboxed = ({ sheets, unplaced }: Candidate): Candidate => ({
    sheets: sheets.map((sheet) => unboxedSheet(sheet, task, own)),
    unplaced,
  });
  return { task, unboxed };
}

function isMixed(task: PackingTask): boolean {
  if (!needsShapes(task)) return false;
  const { bodies } = task;
  const rectangles = bodies.filter(isRectangle);
  return (
    rectangles.length >= LEAST_RECTANGLES * bodies.length ||
    boxArea(rectangles) >= LEAST_RECTANGLES * boxArea(bodies)
  );
}

function isRectangle({ orientations }: Body): boolean {
  return orientations.every(({ rectangular }) => rectangular);
}

function boxArea(bodies: readonly Body[]): number {
  return bodies.reduce(
    (sum, { orientations: [lie] }) => sum + (lie?.width ?? 0) * (lie?.height ?? 0),
    0,
  );
}

function withBoxes(job: Job, material: number): Job {
  const boxed = (part: Part): Part =>
    part.material !== material || isSolidRectangle(part)
      ? part
      : {
          ...part,
          shape: { outer: rectangle(0, 0, part.width, part.height), inner: [] },
          rectangular: true,
          nestInside: false,
        };
  return { ...job, parts: job.parts.map(boxed) };
}

/** The body with each lie taken for its box, as that of a row of unequal pieces is still no rectangle. */
function boxOf(body: Body): Body {
  const orientations = body.orientations.map((lie) => ({ ...lie, rectangular: true }));
  return { ...body, orientations };
}

/** The orientation in which the body's own outline lies in a box, wherever the box may be; -1 where there is none. */
function lieInside({ orientations }: Body, box: Orientation): number {
  const fits = ({ width, height, allowedOn }: Orientation) =>
    width <= box.width &&
    height <= box.height &&
    box.allowedOn.every((allowed, stock) => !allowed || allowedOn[stock]);
  const alike = orientations.findIndex((lie) => lie.turn === box.turn && fits(lie));
  return alike >= 0 ? alike : orientations.findIndex(fits);
}

function unboxedSheet(
  { stock, spots }: PackedSheet,
  task: PackingTask,
  own: PackingTask,
): PackedSheet {
  const laid = spots.map((spot) => {
    const box = task.bodies[spot.body]!.orientations[spot.orientation]!;
    return { ...spot, orientation: lieInside(own.bodies[spot.body]!, box) };
  });
  return { stock, spots: laid, boxed: true };
}
