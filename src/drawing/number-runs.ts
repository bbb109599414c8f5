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

/** The same to be read out: "1 to 4, 7 and 9". */
export function spokenRuns(numbers: readonly number[]): string {
  return listed(numberRuns(numbers).map((run) => run.replace('–', ' to ')));
}

/** "a, b and c". */
export function listed(words: readonly string[]): string {
  return [words.slice(0, -1).join(', '), ...words.slice(-1)].filter(Boolean).join(' and ');
}
