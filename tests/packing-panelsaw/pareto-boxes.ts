/** The boxes into which pieces can be packed so that a saw parts them, none larger than another: by trying everything, for a handful of pieces. */

export interface Size {
  readonly w: number;
  readonly h: number;
}

/** `pieces` lists the lies of each piece; `stages` counts changes of direction, and the first cut runs along y where `isRow`, or either way where null. */
export function paretoBoxes(
  pieces: readonly (readonly Size[])[],
  stages: number,
  isRow: boolean | null,
): readonly Size[] {
  const all = 2 ** pieces.length - 1;
  const known = new Map<string, readonly Size[]>();
  const boxes = (set: number, depth: number, row: boolean): readonly Size[] => {
    const one = pieces.findIndex((_, i) => set === 2 ** i);
    if (one >= 0) return pieces[one]!;
    if (depth === 0) return [];
    const key = `${set} ${depth} ${row}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    known.set(key, []);
    const made = [...boxes(set, depth - 1, !row)];
    for (let part = (set - 1) & set; part > 0; part = (part - 1) & set) {
      const rest = set & ~part;
      if (part < rest) continue;
      for (const a of boxes(part, depth, row))
        for (const b of boxes(rest, depth, row)) made.push(beside(a, b, row));
    }
    const least = withoutLarger(made);
    known.set(key, least);
    return least;
  };
  const ways = isRow === null ? [true, false] : [isRow];
  return withoutLarger(ways.flatMap((row) => boxes(all, stages, row)));
}

function beside(a: Size, b: Size, isRow: boolean): Size {
  return isRow ? { w: a.w + b.w, h: Math.max(a.h, b.h) } : { w: Math.max(a.w, b.w), h: a.h + b.h };
}

function withoutLarger(sizes: readonly Size[]): readonly Size[] {
  const sorted = [...sizes].sort((a, b) => a.w - b.w || a.h - b.h);
  const kept: Size[] = [];
  for (const size of sorted) {
    const last = kept.at(-1);
    if (last === undefined || size.h < last.h) kept.push(size);
  }
  return kept;
}
