import type { MatchedSet, Part, Piece } from '../model/part.ts';
import type { PartEntry } from './parts.ts';

/** Parts, pieces and sets of a job, with their indices. */
export interface Pieces {
  readonly parts: readonly Part[];
  readonly pieces: readonly Piece[];
  readonly sets: readonly MatchedSet[];
}

/** Numbers the parts through the file and the pieces within each name; a set's pieces follow one another, set by set. */
export function numberPieces(entries: readonly PartEntry[]): Pieces {
  const parts: Part[] = [];
  const pieces: Piece[] = [];
  const sets: MatchedSet[] = [];
  for (const { name, members, axis } of entries) {
    const first = parts.length;
    members.forEach((part, i) => {
      parts.push({ ...part, index: first + i });
    });
    const count = members[0]?.count ?? 0;
    for (let round = 0; round < count; round++) {
      const own = members.map((_, i) => ({
        index: pieces.length + i,
        part: first + i,
        number: round * members.length + i + 1,
        set: axis === null ? null : sets.length,
        setOrder: axis === null ? null : i + 1,
      }));
      pieces.push(...own);
      if (axis !== null) {
        const index = sets.length;
        sets.push({
          index,
          name,
          number: round + 1,
          axis,
          pieces: own.map((piece) => piece.index),
        });
      }
    }
  }
  return { parts, pieces, sets };
}
