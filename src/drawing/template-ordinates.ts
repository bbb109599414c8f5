// Measures along two edges of a part's box where its corners, holes and openings lie, counted from the lower left corner.
// Idea: one figure for each distance, however many things stand at it. Figures that would lie on one another are moved apart as little as
//   possible, and a bent line leads from each to its place.
// Source: moving apart is a least-squares fit that keeps the order, by joining neighbours that collide (Ayer, Brunk, Ewing, Reid and
//   Silverman 1955, "An empirical distribution function for sampling with incomplete information", Annals of Mathematical Statistics 26(4)).
// Cost: linear after sorting.
// Degenerate cases: a part without corners inside its box and without holes has no figures.
import type { FileUnit } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import { toMm } from '../model/units.ts';
import { type DrawnPoint, type Item, line } from './display-list.ts';
import { contourBox } from './ink.ts';
import { frameAt, lettering } from './marks.ts';
import { drawnPoint } from './outline.ts';
import { LETTERS } from './styles.ts';
import { featuresOf } from './template-features.ts';
import { measuredNumber } from './template-numbers.ts';
import { textWidth } from './text.ts';

/** From which edge outwards, and which coordinate is told there. */
export type MeasuredEdge = 'bottom' | 'left';

const LEAD = { near: 1.2, bent: 2.6, straight: 5.6, end: 7, text: 7.8 } as const;
const PITCH = LETTERS.dimension + 0.6;
/** Nearer to a corner of the box the overall size says enough. */
const AT_END = 0.05;

/** The figures along an edge of the box, and how far they reach out. */
export function drawOrdinates(
  part: Part,
  edge: MeasuredEdge,
  unit: FileUnit,
): { readonly items: readonly Item[]; readonly depth: number } {
  const places = ordinates(part, edge, unit);
  if (places.length === 0) return { items: [], depth: 0 };
  const out = (along: number, away: number): DrawnPoint =>
    edge === 'bottom' ? { x: along, y: -away } : { x: -away, y: along };
  const spots = apart(places.map(({ at }) => at));
  const widest = Math.max(...places.map(({ text }) => textWidth(text, LETTERS.dimension)));
  const items = places.flatMap(({ at, text }, i) => {
    const spot = spots[i] ?? at;
    return [
      line('dimension', out(at, LEAD.near), out(at, LEAD.bent)),
      line('dimension', out(at, LEAD.bent), out(spot, LEAD.straight)),
      line('dimension', out(spot, LEAD.straight), out(spot, LEAD.end)),
      ...lettering(frameAt(out(spot, LEAD.text), 1, edge === 'bottom' ? 90 : 0), 0, 0, text, {
        style: 'text',
        size: LETTERS.dimension,
        anchor: 'end',
        maxWidth: widest * 1.001,
      }),
    ];
  });
  return { items, depth: LEAD.text + widest };
}

/** Every distance once, ascending, with its figure; those at the ends of the box left out. */
function ordinates(
  part: Part,
  edge: MeasuredEdge,
  unit: FileUnit,
): readonly { readonly at: number; readonly text: string }[] {
  const end = toMm(edge === 'bottom' ? part.width : part.height);
  const along = ({ x, y }: DrawnPoint) => (edge === 'bottom' ? x : y);
  const told = new Map<string, number>();
  for (const at of measuredPoints(part)
    .map(along)
    .toSorted((a, b) => a - b)) {
    const text = measuredNumber(at, unit);
    if (at > AT_END && at < end - AT_END && !told.has(text)) told.set(text, at);
  }
  return [...told].map(([text, at]) => ({ text, at }));
}

/** Holes by their centres; outline and openings by corners, openings by their box or centre as well. */
function measuredPoints({ shape, holes, pockets }: Part): readonly DrawnPoint[] {
  const openings = [...shape.inner, ...pockets.map(({ contour }) => contour)];
  return [
    ...holes.map(drawnPoint),
    ...featuresOf(shape.outer).corners,
    ...openings.flatMap((contour) => {
      const { circle, corners } = featuresOf(contour);
      if (circle !== null) return [circle.centre];
      const box = contourBox(contour);
      return [...corners, { x: box.minX, y: box.minY }, { x: box.maxX, y: box.maxY }];
    }),
  ];
}

/** The places, each at least a line of letters from the next. */
function apart(wanted: readonly number[]): readonly number[] {
  const blocks: { sum: number; count: number }[] = [];
  wanted.forEach((at, i) => {
    let block = { sum: at - i * PITCH, count: 1 };
    for (let last = blocks.at(-1); last !== undefined; last = blocks.at(-1)) {
      if (last.sum / last.count < block.sum / block.count) break;
      block = { sum: block.sum + last.sum, count: block.count + last.count };
      blocks.pop();
    }
    blocks.push(block);
  });
  const moved = blocks.flatMap(({ sum, count }) => Array<number>(count).fill(sum / count));
  return moved.map((at, i) => at + i * PITCH);
}
