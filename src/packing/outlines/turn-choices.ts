import type { Body } from '../task.ts';

/** Which orientations of a body a search looks at where there are too many to try all of them. */
export interface TurnChoices {
  readonly count: number;
  /** The first to try: those turned by quarters, or all where these are few or all there is. */
  readonly first: readonly number[];
  /** One of these is drawn for a place anywhere; as often one of the first as one of all. */
  readonly drawn: readonly number[];
  /** For each orientation the next ones either way round on the same face; all where there are few. */
  readonly beside: (orientation: number) => readonly number[];
}

/** With more orientations a body is said to have many: quarter turns of both faces are eight. */
const MANY = 8;

/** Most outlines lie best along the sheet's sides or at a small angle to where they lie already, so these are looked at more often than others. */
export function turnChoices({ orientations }: Body): TurnChoices {
  const count = orientations.length;
  const all = [...orientations.keys()];
  if (count <= MANY) return { count, first: all, drawn: all, beside: () => all };
  const quarters = all.filter((i) => (orientations[i]?.turn ?? 0) % 90 === 0);
  const first = quarters.length > 0 ? quarters : all;
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
    first,
    drawn: first === all ? all : [...all, ...all.map((i) => first[i % first.length] ?? i)],
    beside: (orientation) => beside[orientation] ?? all,
  };
}

/** The same for a search that turns by quarters where it can: among few orientations good layouts are found far sooner. */
export function withFewTurns(choices: TurnChoices): TurnChoices {
  const { first, beside } = choices;
  const isFirst = new Set(first);
  return {
    ...choices,
    drawn: first,
    beside: (orientation) => (isFirst.has(orientation) ? first : beside(orientation)),
  };
}
