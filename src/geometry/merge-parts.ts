/** The second half of `convexParts`: neighbours that are convex together become one part. */
import { orientation, type Point } from './point.ts';
import { distance2 } from './segments.ts';
import type { Ring } from './shape.ts';

/**
 * Takes out cuts between convex counter-clockwise parts that meet edge to edge, longest cut first, where the parts on
 * both sides are convex as one. Corners that come to lie in the middle of a side stay.
 */
export function mergeParts(parts: readonly Ring[]): Ring[] {
  const mesh = buildMesh(parts);
  for (const cut of longestFirst(mesh)) mergeAcross(mesh, cut);
  return mesh.parts
    .filter((part) => part.length > 0)
    .map((part) => part.map((id) => mesh.points[id] as Point));
}

/** Parts as lists of point numbers; `owner` tells which part has the edge that runs from one point to another. */
interface Mesh {
  readonly points: readonly Point[];
  readonly parts: number[][];
  readonly owner: Map<number, number>;
}

/** An edge with a part on either side. */
interface Cut {
  readonly from: number;
  readonly to: number;
}

function buildMesh(rings: readonly Ring[]): Mesh {
  const ids = new Map<string, number>();
  const points: Point[] = [];
  const parts = rings.map((ring) =>
    ring.map((p) => {
      const key = `${p.x} ${p.y}`;
      const id = ids.get(key) ?? points.push(p) - 1;
      ids.set(key, id);
      return id;
    }),
  );
  const mesh = { points, parts, owner: new Map<number, number>() };
  for (const [index, part] of parts.entries()) claimEdges(mesh, part, index);
  return mesh;
}

function claimEdges(mesh: Mesh, part: readonly number[], index: number): void {
  for (const [i, from] of part.entries()) {
    mesh.owner.set(edgeKey(mesh, from, part[(i + 1) % part.length] as number), index);
  }
}

function edgeKey(mesh: Mesh, from: number, to: number): number {
  return from * mesh.points.length + to;
}

function longestFirst(mesh: Mesh): Cut[] {
  const cuts: (Cut & { readonly length2: number })[] = [];
  for (const part of mesh.parts) {
    for (const [i, from] of part.entries()) {
      const to = part[(i + 1) % part.length] as number;
      if (from > to || !mesh.owner.has(edgeKey(mesh, to, from))) continue;
      const p = mesh.points[from] as Point;
      const q = mesh.points[to] as Point;
      cuts.push({ from, to, length2: distance2(p, q) });
    }
  }
  return cuts.sort((a, b) => b.length2 - a.length2 || a.from - b.from || a.to - b.to);
}

function mergeAcross(mesh: Mesh, { from, to }: Cut): void {
  const left = mesh.owner.get(edgeKey(mesh, from, to));
  const right = mesh.owner.get(edgeKey(mesh, to, from));
  if (left === undefined || right === undefined || left === right) return;
  const merged = joinParts(startingAt(mesh, left, to), startingAt(mesh, right, from));
  if (!merged.seams.every((seam) => isConvexAt(mesh, merged.ring, seam))) return;
  claimEdges(mesh, mesh.parts[right] as number[], left);
  mesh.parts[left] = merged.ring;
  mesh.parts[right] = [];
}

function startingAt(mesh: Mesh, index: number, id: number): number[] {
  const part = mesh.parts[index] as number[];
  const start = part.indexOf(id);
  return [...part.slice(start), ...part.slice(0, start)];
}

/**
 * Joins two parts, each of which begins where the other ends. Where they go on running along one another beyond the
 * cut, that goes too. `seams` are the positions in the new ring where they meet.
 */
function joinParts(left: number[], right: number[]): { ring: number[]; seams: number[] } {
  while (left[1] === right.at(-2)) {
    left.shift();
    right.pop();
  }
  while (right[1] === left.at(-2)) {
    right.shift();
    left.pop();
  }
  return { ring: [...left.slice(0, -1), ...right.slice(0, -1)], seams: [0, left.length - 1] };
}

function isConvexAt(mesh: Mesh, ring: readonly number[], index: number): boolean {
  const at = (i: number) => mesh.points[ring.at(i % ring.length) as number] as Point;
  return orientation(at(index - 1), at(index), at(index + 1)) >= 0;
}
