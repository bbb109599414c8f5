import { assert } from '../geometry/assert.ts';
import { type Box, moveBox } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import { boxOfShape, type Pose, placePoint, placeShape } from '../geometry/pose.ts';
import type { Job } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import { type SheetStock, usableBox } from '../model/stock.ts';
import { turnsOn } from '../model/turns.ts';
import { isDisc, outlineKey } from './outline-key.ts';
import { isPriced } from './priced.ts';
import type { Body, Orientation, PackingTask } from './task.ts';

/** The packing of the pieces of one material: bodies in the order of their first pieces. */
export function packingTask(job: Job, material: number): PackingTask {
  const own = job.materials[material];
  assert(own !== undefined, `there is no material ${material}`);
  const { spacing } = job.machine;
  return {
    job,
    material,
    stocks: own.sheets,
    spacing,
    objective: isPriced(own) ? 'cost' : 'sheets',
    bodies: numberBodies(wholesOf(job, material), {
      stocks: own.sheets,
      isSawn: job.machine.kind === 'panel-saw',
    }),
  };
}

/** What is placed as one: its pieces, each with the place of its origin in the whole's own coordinates. */
interface Whole {
  readonly pieces: readonly number[];
  readonly members: readonly Member[];
}

interface Member {
  readonly part: Part;
  readonly at: Point;
}

/** An orientation before it has pieces: where the origin of each member comes to lie. */
interface Stance extends Omit<Orientation, 'placements'> {
  readonly origins: readonly Point[];
  readonly key: string;
}

function wholesOf(job: Job, material: number): Whole[] {
  const wholes: Whole[] = [];
  for (const piece of job.pieces) {
    const part = partOf(job, piece.part);
    if (part.material !== material) continue;
    if (piece.set === null)
      wholes.push({ pieces: [piece.index], members: [{ part, at: { x: 0, y: 0 } }] });
    else if (piece.setOrder === 1) wholes.push(wholeOfSet(job, piece.set));
  }
  return wholes;
}

function wholeOfSet(job: Job, index: number): Whole {
  const set = job.sets[index];
  assert(set !== undefined, `there is no matched set ${index}`);
  const members: Member[] = [];
  let along = 0;
  for (const piece of set.pieces) {
    const part = partOf(job, job.pieces[piece]?.part ?? -1);
    members.push({ part, at: set.axis === 'x' ? { x: along, y: 0 } : { x: 0, y: along } });
    along += (set.axis === 'x' ? part.width : part.height) + job.machine.spacing;
  }
  return { pieces: set.pieces, members };
}

function partOf(job: Job, index: number): Part {
  const part = job.parts[index];
  assert(part !== undefined, `there is no part ${index}`);
  return part;
}

/** What a body is laid down on, and whether in the way of a saw, which turns nothing askew. */
interface Ground {
  readonly stocks: readonly SheetStock[];
  readonly isSawn: boolean;
}

function numberBodies(wholes: readonly Whole[], ground: Ground): readonly Body[] {
  const stancesOf = new Map<string, readonly Stance[]>();
  const kindOf = new Map<string, number>();
  return wholes.map((whole, index) => {
    const pattern = whole.members.map(({ part, at }) => `${part.index}@${at.x},${at.y}`).join(' ');
    const stances = stancesOf.get(pattern) ?? distinctStances(whole, ground);
    stancesOf.set(pattern, stances);
    const looks = stances.map((stance) => stance.key).join('|');
    const kind = kindOf.get(looks) ?? kindOf.size;
    kindOf.set(looks, kind);
    const orientations = stances.map((stance) => withPieces(stance, whole.pieces));
    return { index, kind, pieces: whole.pieces, orientations };
  });
}

function withPieces(stance: Stance, pieces: readonly number[]): Orientation {
  const { turn, mirrored, width, height, rectangular, allowedOn, origins } = stance;
  const placements = origins.map(({ x, y }, i) => ({
    piece: pieces[i] as number,
    x,
    y,
    turn,
    mirrored,
  }));
  return { turn, mirrored, width, height, placements, rectangular, allowedOn };
}

/** Every allowed stance, but of those that look the same on the same stocks only the one with the lowest turn. */
function distinctStances(whole: Whole, ground: Ground): Stance[] {
  const { stocks } = ground;
  const solid = fillsItsBox(whole);
  const allowed = allowedTurns(whole, ground);
  const turns = [...allowed.keys()].sort((a, b) => a - b);
  const stanceAt = (turn: number, mirrored: boolean) =>
    stanceOf(whole, { x: 0, y: 0, turn, mirrored }, allowed.get(turn) ?? [], solid);
  const square = turns.filter((turn) => turn % 90 === 0).map((turn) => stanceAt(turn, false));
  // A rectangle is worth laying down askew only where it fits no sheet straight. A disc never is, but rounding would make its box a little larger.
  const straight = solid || whole.members.every(({ part }) => isDisc(part));
  if (straight && square.some((stance) => fitsSome(stance, stocks))) return withoutRepeats(square);
  const faces =
    whole.members.length === 1 && whole.members[0]?.part.face === 'either' && !solid
      ? [false, true]
      : [false];
  return withoutRepeats(turns.flatMap((turn) => faces.map((mirrored) => stanceAt(turn, mirrored))));
}

/** The turns that every member allows, each with the stocks on which it does. A matched set turns by quarters only, because other turns would round its gaps. */
function allowedTurns(
  { members }: Whole,
  { stocks, isSawn }: Ground,
): ReadonlyMap<number, readonly boolean[]> {
  const [first, ...others] = members;
  assert(first !== undefined, 'a body has a piece');
  const allowed = new Map<number, boolean[]>();
  for (const [i, stock] of stocks.entries()) {
    const ofOthers = others.map(({ part }) => turnsOn(part, stock));
    for (const turn of turnsOn(first.part, stock)) {
      if ((others.length > 0 || isSawn) && turn % 90 !== 0) continue;
      if (!ofOthers.every((turns) => turns.includes(turn))) continue;
      const on = allowed.get(turn) ?? stocks.map(() => false);
      on[i] = true;
      allowed.set(turn, on);
    }
  }
  return allowed;
}

/** Whether nothing else can lie inside the box: a plain rectangle, or a row of equally deep ones. */
function fillsItsBox({ members }: Whole): boolean {
  const solid = members.every(
    ({ part }) => part.rectangular && !(part.nestInside && part.shape.inner.length > 0),
  );
  if (!solid) return false;
  const width = Math.max(...members.map(({ part, at }) => at.x + part.width));
  const height = Math.max(...members.map(({ part, at }) => at.y + part.height));
  const row = members.every(({ part }) => part.height === height);
  const column = members.every(({ part }) => part.width === width);
  return row || column;
}

function stanceOf(whole: Whole, pose: Pose, allowedOn: readonly boolean[], solid: boolean): Stance {
  const { turn, mirrored } = pose;
  const origins = whole.members.map(({ at }) => placePoint(at, pose));
  const shapes = whole.members.map(({ part }) => placeShape(part.shape, pose));
  const box = around(
    shapes.map((shape, i) => moveBox(boxOfShape(shape), origins[i]?.x ?? 0, origins[i]?.y ?? 0)),
  );
  const width = box.maxX - box.minX;
  const height = box.maxY - box.minY;
  const rectangular = solid && turn % 90 === 0;
  const moved = origins.map(({ x, y }) => ({ x: x - box.minX, y: y - box.minY }));
  const looks = rectangular
    ? 'box'
    : whole.members.map(({ part }, i) => outlineKey(part, pose, moved[i] as Point)).join(' ');
  const key = `${width}x${height} ${allowedOn.map(Number).join('')} ${looks}`;
  return { turn, mirrored, width, height, rectangular, allowedOn, origins: moved, key };
}

function around(boxes: readonly Box[]): Box {
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
}

function fitsSome(stance: Stance, stocks: readonly SheetStock[]): boolean {
  return stocks.some((stock, i) => {
    const usable = usableBox(stock);
    return (
      stance.allowedOn[i] === true &&
      stance.width <= usable.maxX - usable.minX &&
      stance.height <= usable.maxY - usable.minY
    );
  });
}

function withoutRepeats(stances: readonly Stance[]): Stance[] {
  const seen = new Set<string>();
  return stances.filter(({ key }) => {
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}
