// Keeps the maximal free rectangles of one sheet while boxes are placed on it.
// Idea: a free rectangle that the placed box overlaps gives way to at most four strips beside the box, each as large as it can be. A strip can lie inside
//   another rectangle only where that one ends at the same side of the box, so each strip is compared with few others.
// Source: Jylänki 2010, "A thousand ways to pack the bin", section 2.4. Here strips too small for every box still to come are dropped at once,
//   and the list is kept free of contained rectangles by looking at new strips only: old ones stay maximal.
// Cost: one pass over the list a box. Meant for hundreds of thousands of short lists a second: flat arrays, nothing is allocated after the first growth.
// Degenerate cases: touching is not overlapping; a box outside everything changes nothing.

const LEFT = 0;
const RIGHT = 1;
const BOTTOM = 2;
const TOP = 3;

/** The class guards the invariant that no listed rectangle lies inside another and none is overlapped by a box placed before. */
export class FreeSpace {
  count = 0;
  minX = new Int32Array(64);
  minY = new Int32Array(64);
  maxX = new Int32Array(64);
  maxY = new Int32Array(64);
  /** Rectangles looked at so far, for counted work. */
  work = 0;
  readonly #strips: readonly Strips[] = [newStrips(), newStrips(), newStrips(), newStrips()];

  /** One free rectangle from the origin. */
  clear(width: number, height: number): void {
    this.count = 0;
    if (width > 0 && height > 0) this.#append(0, 0, width, height);
  }

  /** The rectangles of `other`, cut off at `width` and `height`. */
  copy(other: FreeSpace, width: number, height: number): void {
    this.count = 0;
    for (let i = 0; i < other.count; i++) {
      const maxX = Math.min(other.maxX[i]!, width);
      const maxY = Math.min(other.maxY[i]!, height);
      // Cutting may leave one rectangle inside another; that costs a little time and does no harm.
      if (other.minX[i]! < maxX && other.minY[i]! < maxY)
        this.#append(other.minX[i]!, other.minY[i]!, maxX, maxY);
    }
  }

  /** Takes a box out. Strips narrower than `leastWidth` or lower than `leastHeight`, both at least 1, are of no use and dropped. */
  take(
    left: number,
    bottom: number,
    right: number,
    top: number,
    leastWidth: number,
    leastHeight: number,
  ): void {
    const { minX, minY, maxX, maxY, count } = this;
    const [onLeft, onRight, onBottom, onTop] = this.#strips as [Strips, Strips, Strips, Strips];
    for (const strips of this.#strips) clearStrips(strips, count);
    let kept = 0;
    for (let i = 0; i < count; i++) {
      const x1 = minX[i]!;
      const y1 = minY[i]!;
      const x2 = maxX[i]!;
      const y2 = maxY[i]!;
      if (x1 >= right || x2 <= left || y1 >= top || y2 <= bottom) {
        minX[kept] = x1;
        minY[kept] = y1;
        maxX[kept] = x2;
        maxY[kept] = y2;
        if (x2 === left) noteNeighbour(onLeft, x2 - x1, y1, y2);
        else if (x1 === right) noteNeighbour(onRight, x2 - x1, y1, y2);
        if (y2 === bottom) noteNeighbour(onBottom, y2 - y1, x1, x2);
        else if (y1 === top) noteNeighbour(onTop, y2 - y1, x1, x2);
        kept++;
        continue;
      }
      if (y2 - y1 >= leastHeight) {
        if (left - x1 >= leastWidth) addStrip(onLeft, left - x1, y1, y2);
        if (x2 - right >= leastWidth) addStrip(onRight, x2 - right, y1, y2);
      }
      if (x2 - x1 >= leastWidth) {
        if (bottom - y1 >= leastHeight) addStrip(onBottom, bottom - y1, x1, x2);
        if (y2 - top >= leastHeight) addStrip(onTop, y2 - top, x1, x2);
      }
    }
    this.work += count;
    if (kept === count) return;
    this.count = kept;
    this.#appendStrips(left, bottom, right, top);
  }

  /** Drops every rectangle that starts at this corner. */
  giveUp(x: number, y: number): void {
    let kept = 0;
    for (let i = 0; i < this.count; i++) {
      if (this.minX[i] === x && this.minY[i] === y) continue;
      this.minX[kept] = this.minX[i]!;
      this.minY[kept] = this.minY[i]!;
      this.maxX[kept] = this.maxX[i]!;
      this.maxY[kept] = this.maxY[i]!;
      kept++;
    }
    this.work += this.count;
    this.count = kept;
  }

  /** Adds the strips beside the box just taken out, less those that lie inside others. */
  #appendStrips(left: number, bottom: number, right: number, top: number): void {
    for (let side = 0; side < 4; side++) {
      const strips = this.#strips[side]!;
      for (let i = 0; i < strips.count; i++) {
        if (isHidden(strips, i)) continue;
        const depth = strips.depth[i]!;
        const from = strips.from[i]!;
        const to = strips.to[i]!;
        if (side === LEFT) this.#append(left - depth, from, left, to);
        else if (side === RIGHT) this.#append(right, from, right + depth, to);
        else if (side === BOTTOM) this.#append(from, bottom - depth, to, bottom);
        else if (side === TOP) this.#append(from, top, to, top + depth);
      }
      this.work += strips.count;
    }
  }

  #append(x1: number, y1: number, x2: number, y2: number): void {
    const at = this.count++;
    if (at === this.minX.length) {
      this.minX = doubled(this.minX);
      this.minY = doubled(this.minY);
      this.maxX = doubled(this.maxX);
      this.maxY = doubled(this.maxY);
    }
    this.minX[at] = x1;
    this.minY[at] = y1;
    this.maxX[at] = x2;
    this.maxY[at] = y2;
  }
}

/**
 * What lies along one side of the box just placed: `depth` away from the side, `from` and `to` along it. The new strips come first;
 * old rectangles that end at the side follow from the far end of the arrays downwards.
 */
interface Strips {
  count: number;
  neighbours: number;
  depth: Int32Array;
  from: Int32Array;
  to: Int32Array;
}

function newStrips(): Strips {
  return {
    count: 0,
    neighbours: 0,
    depth: new Int32Array(64),
    from: new Int32Array(64),
    to: new Int32Array(64),
  };
}

/** Empties the list and makes room: strips and neighbours together are never more than the rectangles on the sheet. */
function clearStrips(strips: Strips, most: number): void {
  strips.count = 0;
  strips.neighbours = 0;
  if (strips.depth.length >= most) return;
  strips.depth = new Int32Array(2 * most);
  strips.from = new Int32Array(2 * most);
  strips.to = new Int32Array(2 * most);
}

function addStrip(strips: Strips, depth: number, from: number, to: number): void {
  const at = strips.count++;
  strips.depth[at] = depth;
  strips.from[at] = from;
  strips.to[at] = to;
}

function noteNeighbour(strips: Strips, depth: number, from: number, to: number): void {
  const at = strips.depth.length - ++strips.neighbours;
  strips.depth[at] = depth;
  strips.from[at] = from;
  strips.to[at] = to;
}

/** Whether strip `i` lies inside a neighbour or another strip of its side; of equal strips the first one stays. */
function isHidden(strips: Strips, i: number): boolean {
  const { depth, from, to, count, neighbours } = strips;
  const own = depth[i]!;
  const low = from[i]!;
  const high = to[i]!;
  for (let k = 0; k < count; k++) {
    if (k === i || depth[k]! < own || from[k]! > low || to[k]! < high) continue;
    if (k < i || depth[k]! > own || from[k]! < low || to[k]! > high) return true;
  }
  for (let k = depth.length - neighbours; k < depth.length; k++) {
    if (depth[k]! >= own && from[k]! <= low && to[k]! >= high) return true;
  }
  return false;
}

function doubled(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}
