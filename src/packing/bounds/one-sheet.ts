// Decides whether a few boxes fit together on one rectangular sheet.
// Idea: any packing can be pushed down and left until each left edge is a sum of other widths and each box lies on another or on the sheet's edge. So the sheet is filled from below, always in
//   the leftmost of the lowest columns between such sums: a box has its lower left corner there, or the cell stays empty up to the next height at which a box can begin. A branch ends where
//   what is empty, with what the heights of the boxes left cannot fill of each column, is more than the sheet can spare.
// Source: normal patterns of Herz 1972, "Recursive computational procedure for two-dimensional stock cutting", IBM J. Res. Dev. 16, and Christofides & Whitlock 1977, "An algorithm
//   for two-dimensional cutting problems", Operations Research 25; filling as in Martello, Monaci & Vigo 2003, "An exact approach to the strip-packing problem", INFORMS J. on Computing 15.
// Where we differ: a box may have two orientations, chosen where it is placed; the largest box has its centre in the lower left quarter, for a mirrored packing is one too.
// Cost: exponential in the boxes, bounded by the steps given; meant for up to about ten boxes.
// Degenerate cases: no boxes: they fit; where steps, columns or depth do not suffice the answer is null.

/** One or two ways to lay a box down. */
interface BoxChoice {
  readonly boxes: readonly Size[];
}

interface Size {
  readonly width: number;
  readonly height: number;
}

export interface SheetTest {
  /** Whether one box of each of the kinds named, some perhaps more than once, fit together; null where `most` steps did not settle it. */
  readonly fits: (kinds: readonly number[], most: number) => boolean | null;
  /** Steps taken so far. */
  readonly steps: () => number;
}

const MOST_COLUMNS = 400;
const MOST_BOXES = 12;
/** Calls inside one another: far below what the stack bears. */
const MOST_DEPTH = 1500;

export function newSheetTest(choices: readonly BoxChoice[], sheet: Size): SheetTest {
  let steps = 0;
  const turned = choices.map(({ boxes }) => ({ boxes: boxes.map(turn) }));
  return {
    fits: (kinds, most) => {
      if (kinds.length > MOST_BOXES) return null;
      const upright = newFill(choices, sheet, kinds, most);
      const lying = newFill(turned, turn(sheet), kinds, most);
      if (upright === null || lying === null) return null;
      // Fewer columns make fewer branches.
      const state = lying.edges.length < upright.edges.length ? lying : upright;
      if (state.spare < 0) return false;
      const found = fill(state, kinds.length);
      steps += most - state.left;
      if (found) return true;
      return state.left > 0 ? false : null;
    },
    steps: () => steps,
  };
}

function turn({ width, height }: Size): Size {
  return { width: height, height: width };
}

interface Fill {
  readonly height: number;
  /** Left edges of the columns, and the sheet's right edge. */
  readonly edges: Float64Array;
  /** Up to where each column is filled or known to be empty. */
  readonly levels: Float64Array;
  /** Box, width, height and last place of every way to lay a box; the ways of one box follow one another. */
  readonly boxOf: Int32Array;
  readonly widths: Float64Array;
  readonly heights: Float64Array;
  /** By how much the area of each way is more than that of the box's smaller way: grown unlike in width and height, a box changes its area by turning. */
  readonly more: Float64Array;
  readonly lastX: Float64Array;
  readonly lastY: Float64Array;
  /** The box just like it that is placed first, or -1. */
  readonly twins: Int32Array;
  readonly placed: Uint8Array;
  /** For each set of boxes, all heights that stacks of them can have; made when first asked for. */
  readonly stacks: (Float64Array | undefined)[];
  /** The boxes not placed, as bits. */
  open: number;
  /** Area that may still be left empty, if every box still to come lies the smaller way. */
  spare: number;
  depth: number;
  /** Steps left. */
  left: number;
}

function newFill(
  choices: readonly BoxChoice[],
  sheet: Size,
  kinds: readonly number[],
  steps: number,
): Fill | null {
  const area = (kind: number) => Math.min(...choices[kind]!.boxes.map(areaOf));
  const sorted = [...kinds].sort((a, b) => area(b) - area(a) || a - b);
  const edges = edgesOf(choices, sorted, sheet.width);
  if (edges === null) return null;
  const ways = sorted.flatMap((kind, box) =>
    choices[kind]!.boxes.map(({ width, height }) => ({ box, width, height })),
  );
  // The first box is held to one quarter, so it must not be held to an order among its twins as well.
  const part = (box: number) => (box === 0 ? 2 : 1);
  return {
    height: sheet.height,
    edges,
    levels: new Float64Array(edges.length - 1),
    boxOf: Int32Array.from(ways, ({ box }) => box),
    widths: Float64Array.from(ways, ({ width }) => width),
    heights: Float64Array.from(ways, ({ height }) => height),
    more: Float64Array.from(ways, (way) => areaOf(way) - area(sorted[way.box]!)),
    lastX: Float64Array.from(ways, ({ box, width }) => (sheet.width - width) / part(box)),
    lastY: Float64Array.from(ways, ({ box, height }) => (sheet.height - height) / part(box)),
    twins: Int32Array.from(sorted, (kind, box) =>
      box > 1 && sorted[box - 1] === kind ? box - 1 : -1,
    ),
    placed: new Uint8Array(sorted.length),
    stacks: [],
    open: 2 ** sorted.length - 1,
    spare: areaOf(sheet) - sorted.reduce((sum, kind) => sum + area(kind), 0),
    depth: 0,
    left: steps,
  };
}

function areaOf({ width, height }: Size): number {
  return width * height;
}

/** All sums of widths below the sheet's width, each box counted once at most, and the sheet's width; null where they are too many. */
function edgesOf(
  choices: readonly BoxChoice[],
  kinds: readonly number[],
  width: number,
): Float64Array | null {
  let sums: Float64Array = NO_SUM;
  for (const kind of kinds) {
    const { boxes } = choices[kind]!;
    sums = withMore(sums, boxes[0]!.width, boxes.at(-1)!.width, width - 1);
    if (sums.length > MOST_COLUMNS) return null;
  }
  return Float64Array.of(...sums, width);
}

const NO_SUM = Float64Array.of(0);

/** Ascending sums, and each of them plus one length or the other, up to `most`, without repeats. */
function withMore(sums: Float64Array, a: number, b: number, most: number): Float64Array {
  const merged = new Float64Array(3 * sums.length);
  let count = 0;
  let i = 0;
  let j = 0;
  let k = 0;
  for (;;) {
    const first = i < sums.length ? sums[i]! : Number.POSITIVE_INFINITY;
    const second = j < sums.length ? sums[j]! + a : Number.POSITIVE_INFINITY;
    const third = k < sums.length ? sums[k]! + b : Number.POSITIVE_INFINITY;
    const least = Math.min(first, second, third);
    if (least > most || least === Number.POSITIVE_INFINITY) return merged.subarray(0, count);
    if (first === least) i++;
    if (second === least) j++;
    if (third === least) k++;
    merged[count++] = least;
  }
}

/** Whether the boxes not yet placed, `count` of them, fit above the levels. */
function fill(state: Fill, count: number): boolean {
  if (count === 0) return true;
  if (state.left <= 0) return false;
  state.left = state.depth > MOST_DEPTH ? 0 : state.left - 1;
  const { levels, edges, boxOf, widths, heights, twins, placed, lastX, lastY } = state;
  const { at, end } = lowestGap(levels);
  const level = levels[at]!;
  const left = edges[at]!;
  const room = edges[end]! - left;
  let lowest = Number.POSITIVE_INFINITY;
  let narrowest = Number.POSITIVE_INFINITY;
  for (let way = 0; way < boxOf.length; way++) {
    const box = boxOf[way]!;
    if (placed[box]) continue;
    lowest = Math.min(lowest, heights[way]!);
    narrowest = Math.min(narrowest, widths[way]!);
    if (widths[way]! > room || left > lastX[way]! || level > lastY[way]!) continue;
    const twin = twins[box]!;
    if (twin >= 0 && !placed[twin]) continue;
    if (place(state, count, way, at, end)) return true;
    if (state.left <= 0) return false;
  }
  if (level + lowest > state.height) return false;
  return narrowest > room
    ? leaveEmpty(state, count, at, end, nextBeside(state, at, end))
    : leaveEmpty(state, count, at, at + 1, nextAbove(state, level, lowest));
}

/** The leftmost of the lowest columns, and the end of those beside it that are as low. */
function lowestGap(levels: Float64Array): { at: number; end: number } {
  let at = 0;
  for (let c = 1; c < levels.length; c++) if (levels[c]! < levels[at]!) at = c;
  let end = at + 1;
  while (end < levels.length && levels[end] === levels[at]) end++;
  return { at, end };
}

/** A box goes into the gap's left end. */
function place(state: Fill, count: number, way: number, at: number, end: number): boolean {
  const { levels, edges, boxOf, widths, heights, more, placed } = state;
  if (more[way]! > state.spare) return false;
  const box = boxOf[way]!;
  const level = levels[at]!;
  const right = edges[at]! + widths[way]!;
  let to = at;
  while (to < end && edges[to]! < right) levels[to++] = level + heights[way]!;
  placed[box] = 1;
  state.spare -= more[way]!;
  state.open -= 1 << box;
  state.depth++;
  const found = count === 1 || (!wastes(state) && fill(state, count - 1));
  state.depth--;
  state.open += 1 << box;
  state.spare += more[way]!;
  placed[box] = 0;
  levels.fill(level, at, to);
  return found;
}

/** The lower of the gap's two sides: below it nothing goes into a gap that is too narrow for every box. */
function nextBeside({ levels, height }: Fill, at: number, end: number): number {
  const before = at > 0 ? levels[at - 1]! : height;
  const behind = end < levels.length ? levels[end]! : height;
  return Math.min(before, behind);
}

/** The lowest height above the level at which a box can lie on another. */
function nextAbove({ levels, height }: Fill, level: number, lowest: number): number {
  let next = Math.min(height, level + lowest);
  for (let c = 0; c < levels.length; c++)
    if (levels[c]! > level && levels[c]! < next) next = levels[c]!;
  return next;
}

/** Nothing goes into these columns up to the height `next`. */
function leaveEmpty(state: Fill, count: number, at: number, end: number, next: number): boolean {
  const { levels, edges } = state;
  const level = levels[at]!;
  const empty = (edges[end]! - edges[at]!) * (next - level);
  if (empty > state.spare) return false;
  state.spare -= empty;
  levels.fill(next, at, end);
  state.depth++;
  const found = !wastes(state) && fill(state, count);
  state.depth--;
  levels.fill(level, at, end);
  state.spare += empty;
  return found;
}

/** Whether more must stay empty above the levels than the sheet can spare: no stack of the open boxes has just the height that a column leaves. */
function wastes(state: Fill): boolean {
  const { levels, edges, height } = state;
  const stacks = stacksOf(state, state.open);
  let lost = 0;
  let known = -1;
  let gap = 0;
  for (let c = 0; c < levels.length; c++) {
    const level = levels[c]!;
    if (level !== known) {
      known = level;
      gap = height - level - highestUpTo(stacks, height - level);
    }
    lost += gap * (edges[c + 1]! - edges[c]!);
  }
  return lost > state.spare;
}

function highestUpTo(stacks: Float64Array, room: number): number {
  let low = 0;
  let high = stacks.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (stacks[middle]! <= room) low = middle;
    else high = middle;
  }
  return stacks[low]!;
}

function stacksOf(state: Fill, open: number): Float64Array {
  if (open === 0) return NO_SUM;
  const known = state.stacks[open];
  if (known !== undefined) return known;
  const box = 31 - Math.clz32(open);
  const first = state.boxOf.indexOf(box);
  const last = state.boxOf.lastIndexOf(box);
  const rest = stacksOf(state, open - (1 << box));
  const stacks = withMore(rest, state.heights[first]!, state.heights[last]!, state.height);
  state.stacks[open] = stacks;
  return stacks;
}
