/** Ascending numbers as few words: runs of three and more as `4–9`. */
export function numberRuns(numbers: readonly number[]): readonly string[] {
  const runs: { from: number; to: number }[] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last?.to === number - 1) last.to = number;
    else runs.push({ from: number, to: number });
  }
  return runs.flatMap(({ from, to }) => {
    if (to - from >= 2) return [`${from}–${to}`];
    return from === to ? [`${from}`] : [`${from}`, `${to}`];
  });
}
