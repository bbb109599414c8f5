// Bounds the sheets, or their cost, from below by dual feasible functions of widths and heights.
// Idea: a scale f over the sheet's length and a scale g over its width give each rectangle the weight f(w) g(h), and the rectangles of one sheet never weigh more than
//   f's capacity times g's. So the weight of all rectangles, in sheets, is a bound; the best of many pairs of scales is taken. A rectangle that may be turned
//   weighs the less of its two weights; where the sheet is square, their mean, because a turned layout is a layout of the turned sheet.
// Source: Fekete & Schepers 2004, "A general framework for bounds for higher-dimensional orthogonal packing problems", Math. Methods of OR 60 (products of scales);
//   Boschetti & Mingozzi 2003, "The two-dimensional finite bin packing problem, part II", 4OR 1 (turned rectangles); the mean for square sheets is that of doubling the instance.
// Where we differ. Several stocks: each has its own pair of scales, a rectangle weighs what it weighs least on any stock it fits, times that stock's cost; the contents of
//   a sheet then never weigh more than its cost. Spacing: pieces are one spacing apart in a straight line, not along an axis, so boxes may grow by p in width and q in height,
//   and the sheet with them, whenever p^2 + q^2 <= spacing^2; three such pairs are tried. A matched set counts as its box: beside the mouth of a gap another piece can come as near
//   as spacing times sqrt(3) / 2 to that box, so with sets p^2 + q^2 is held below three quarters of the square.
// Cost: pairs of scales times kinds, held to about MOST_WEIGHINGS by looking at fewer scales. Screened in doubles, claimed in BigInt.
// Degenerate cases: bodies that are not rectangles, or that may lie askew, weigh nothing; keep-outs and counts of sheets are not looked at, which only weakens the bound.
import { type SheetStock, usableBox } from '../../model/stock.ts';
import { countOf } from '../priced.ts';
import type { Body, PackingTask } from '../task.ts';
import { partOfPiece } from './body-measures.ts';
import { scalesOf } from './scales.ts';
import {
  type Choice,
  newView,
  screenPairs,
  type View,
  type WeighedKind,
  weighExactly,
} from './weighing.ts';

const MOST_WEIGHINGS = 20_000_000;

/** No layout of the task's bodies uses fewer sheets, or costs fewer minor units, than this. */
export function dualFeasibleBound(task: PackingTask): number {
  const kinds = rectangularKinds(task);
  if (kinds.length === 0) return 0;
  let best = 0;
  for (const growth of growthsOf(task)) {
    const views = task.stocks.map((stock, index) => viewOf(task, kinds, stock, index, growth));
    const [only] = views;
    if (only === undefined) return 0;
    const twin = views.length === 1 ? symmetricView(task, kinds, growth) : null;
    if (twin !== null) best = heaviest(twin, best);
    // Where every kind may be turned, the mean is never the smaller weight.
    if (twin !== null && kinds.every(({ body }) => turnsOrIsSquare(body))) continue;
    best = views.length === 1 ? heaviest(only, best) : Math.max(best, heaviestMix(views));
  }
  return best;
}

/** Bodies of one kind that are sure to lie straight. */
interface Kind {
  readonly body: Body;
  count: number;
}

export function rectangularKinds(task: PackingTask): Kind[] {
  const kinds = new Map<number, Kind>();
  for (const body of task.bodies) {
    if (!liesStraight(task, body)) continue;
    const kind = kinds.get(body.kind);
    if (kind) kind.count++;
    else kinds.set(body.kind, { body, count: 1 });
  }
  return [...kinds.values()];
}

/** Whether the body fills its box and no allowed turn lays it askew, also none that the packing leaves out. */
function liesStraight(task: PackingTask, body: Body): boolean {
  const grained = task.stocks.every(({ grainAxis }) => grainAxis !== null);
  return (
    body.orientations.length > 0 &&
    body.orientations.every(({ rectangular }) => rectangular) &&
    body.pieces.every((piece) => {
      const { turns, grain } = partOfPiece(task, piece);
      return (grained && grain !== 'any') || turns.every((turn) => turn % 90 === 0);
    })
  );
}

/** How much boxes grow in width and in height. */
export interface Growth {
  readonly p: number;
  readonly q: number;
}

export function growthsOf({ spacing, bodies }: PackingTask): Growth[] {
  if (spacing === 0) return [{ p: 0, q: 0 }];
  const hasSets = bodies.some(({ pieces }) => pieces.length > 1);
  const square = hasSets ? (3 * spacing * spacing) / 4 : spacing * spacing;
  const straight = wholeRoot(square);
  const diagonal = wholeRoot(square / 2);
  return [
    { p: diagonal, q: diagonal },
    { p: straight, q: 0 },
    { p: 0, q: straight },
  ];
}

/** The largest whole number whose square is at most `square`. */
function wholeRoot(square: number): number {
  let root = Math.floor(Math.sqrt(square)) + 1;
  while (root * root > square) root--;
  return root;
}

export function viewOf(
  task: PackingTask,
  kinds: readonly Kind[],
  stock: SheetStock,
  index: number,
  { p, q }: Growth,
): View {
  const sheet = grownSheet(task, stock, { p, q });
  const weighed = kinds.map(({ body, count }): WeighedKind => {
    const boxes = body.orientations
      .filter(({ allowedOn }) => allowedOn[index])
      .map(({ width, height }) => ({ width: width + p, height: height + q }))
      .filter(({ width, height }) => width <= sheet.width && height <= sheet.height);
    return { count, boxes };
  });
  return newView(weighed, sheet, false);
}

/** On one square stock, every box and its turned twin; null where that gives nothing new. */
export function symmetricView(
  task: PackingTask,
  kinds: readonly Kind[],
  growth: Growth,
): View | null {
  const { p, q } = growth;
  const stock = task.stocks[0] as SheetStock;
  const sheet = grownSheet(task, stock, growth);
  const turns = kinds.some(({ body }) => body.orientations.length > 1);
  if (!turns || p !== q || sheet.width !== sheet.height) return null;
  const weighed = kinds.map(({ body, count }): WeighedKind => {
    const [first] = body.orientations;
    const width = (first?.width ?? 0) + p;
    const height = (first?.height ?? 0) + q;
    if (width > sheet.width || height > sheet.height) return { count, boxes: [] };
    return {
      count,
      boxes: [
        { width, height },
        { width: height, height: width },
      ],
    };
  });
  return newView(weighed, sheet, true);
}

function turnsOrIsSquare({ orientations }: Body): boolean {
  return orientations.length > 1 || orientations.every(({ width, height }) => width === height);
}

function grownSheet({ objective }: PackingTask, stock: SheetStock, { p, q }: Growth) {
  const { minX, minY, maxX, maxY } = usableBox(stock);
  return { width: maxX - minX + p, height: maxY - minY + q, cost: countOf(objective, stock) };
}

/** The best bound above `best` from one stock, or `best`. */
function heaviest(view: View, best: number): number {
  let bound = best;
  const [scalesX, scalesY] = scalesFor(view);
  screenPairs(view, scalesX, scalesY, (scaleX, scaleY, weight) => {
    // Doubles may be a little wrong; whole numbers decide.
    if (weight * view.cost * (1 + 1e-9) <= bound) return;
    bound = Math.max(bound, weighExactly([{ view, scaleX, scaleY }]));
  });
  return bound;
}

/** Each stock with the pair of scales that would be best were it the only one. */
function heaviestMix(views: readonly View[]): number {
  const choices = views.map((view): Choice => {
    if (view.cost === 0) return { view, ...noWeight(view) };
    const [scalesX, scalesY] = scalesFor(view);
    let choice: Choice = { view, scaleX: NOTHING, scaleY: NOTHING };
    screenPairs(view, scalesX, scalesY, (scaleX, scaleY) => {
      choice = { view, scaleX, scaleY };
    });
    return choice;
  });
  return weighExactly(choices);
}

/** What goes on a sheet that costs nothing counts nothing, by whatever scales. */
function noWeight({ axisX, axisY }: View): Pick<Choice, 'scaleX' | 'scaleY'> {
  const zeros = ({ lengths }: View['axisX']) => ({
    values: new Float64Array(lengths.length),
    capacity: 1,
  });
  return { scaleX: zeros(axisX), scaleY: zeros(axisY) };
}

const NOTHING = { values: new Float64Array(0), capacity: 1 };

export function scalesFor({ axisX, axisY, counts }: View) {
  const pairs = MOST_WEIGHINGS / Math.max(1, counts.length);
  const most = Math.max(8, Math.floor(Math.sqrt(pairs)));
  return [scalesOf(axisX, most), scalesOf(axisY, most)] as const;
}
