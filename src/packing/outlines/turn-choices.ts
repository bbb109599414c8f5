import type { Body } from '../task.ts';

/** Which orientations of a body a search looks at where there are too many to try all of them. */
export interface TurnChoices {
  readonly count: number;
  /** The first to try: those turned by quarters, or all where these are few or all there is. */
  readonly first: readonly number[];
  /** For each orientation the next ones either way round on the same face; all where there are few. */
  readonly beside: (orientation: number) => readonly number[];
}

/** With more orientations a body is said to have many: quarter turns of both faces are eight. */
const MANY = 8;

/** Most outlines lie best along the sheet's sides or at a small angle to where they lie already, so these are looked at more often than others. */
export function turnChoices({ orientations }: Body): TurnChoices {
  const count = orientations.length;
  const all = [...orientations.keys()];
  if (count <= MANY) return { count, first: all, beside: () => all };
  const quarters = all.filter((i) => (orientations[i]?.turn ?? 0) % 90 === 0);
  const rounds = [false, true].map((face) =>
    all
      .filter((i) => orientations[i]?.mirrored === face)
      .sort((a, b) => (orientations[a]?.turn ?? 0) - (orientations[b]?.turn ?? 0)),
  );
  const beside = all.map((i) => {
    const round = rounds.find((own) => own.includes(i)) ?? [];
    const at = round.indexOf(i);
    return [round[(at + 1) % round.length] ?? i, round.at(at - 1) ?? i];
  });
  return {
    count,
    first: quarters.length > 0 ? quarters : all,
    beside: (orientation) => beside[orientation] ?? all,
  };
}
