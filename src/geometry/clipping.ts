/** The one door to the clipping library: paths in and out, and its errors turned into ours. */
import ClipperLib, { type Path, type PolyNode } from 'clipper-lib';
import { AssertionError, assert } from './assert.ts';
import type { Region, Ring } from './shape.ts';

// Left alone, the library reports an error through a browser's alert box.
Object.assign(ClipperLib, {
  Error: (message: string) => {
    throw new AssertionError(`clipping: ${message}`);
  },
});

/** Every ring of the regions as a path; the library needs whole numbers and never rounds its input. */
export function toPaths(regions: readonly Region[]): Path[] {
  return regions.flatMap(({ outer, holes }) => [outer, ...holes].map(toPath));
}

/**
 * The regions of a tree of nested paths: each outer path with its holes; what lies in a hole is a region of its own.
 */
export function toRegions(tree: PolyNode): Region[] {
  return tree.Childs().flatMap((outer) => [
    {
      outer: toRing(outer.Contour()),
      holes: outer.Childs().map((hole) => toRing(hole.Contour())),
    },
    ...outer.Childs().flatMap(toRegions),
  ]);
}

/** Runs one Boolean operation; a place is filled where the rings wind round it counter-clockwise. */
export function clip(
  operation: 'union' | 'difference' | 'intersection',
  subject: readonly Region[],
  other: readonly Region[],
): Region[] {
  const { ClipType, PolyType, PolyFillType } = ClipperLib;
  const types = {
    union: ClipType.ctUnion,
    difference: ClipType.ctDifference,
    intersection: ClipType.ctIntersection,
  };
  // The library refuses to run on a subject without paths, except to add the others.
  if (subject.length === 0 && operation !== 'union') return [];
  const clipper = new ClipperLib.Clipper();
  clipper.StrictlySimple = true;
  const hasSubject = clipper.AddPaths(toPaths(subject), PolyType.ptSubject, true);
  const hasOther = clipper.AddPaths(toPaths(other), PolyType.ptClip, true);
  if (!hasSubject && !hasOther) return [];
  const tree = new ClipperLib.PolyTree();
  const { pftPositive } = PolyFillType;
  const done = clipper.Execute(types[operation], tree, pftPositive, pftPositive);
  assert(done, 'the clipping library must finish');
  return toRegions(tree);
}

function toPath(ring: Ring): Path {
  return ring.map(({ x, y }) => ({ X: Math.round(x), Y: Math.round(y) }));
}

/** The library may give a negative zero, which adding 0 turns into a plain one. */
function toRing(path: Path): Ring {
  return path.map(({ X, Y }) => ({ x: X + 0, y: Y + 0 }));
}
