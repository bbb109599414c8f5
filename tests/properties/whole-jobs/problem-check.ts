import { formatProblem, PROBLEM_CODES, type Problem } from '../../../src/partsfile/problem.ts';

/** Problems as nobody may be told them: without a place, with a place that the text has not, or with something in the words that is no word. */
export function problemFaults(problems: readonly Problem[], text: string): string[] {
  const lines = text.split('\n');
  return problems.flatMap((problem) => {
    const { code, place } = problem;
    const told = formatProblem('job.yaml', problem);
    const faults = NO_WORD.test(told) ? [`${code} says: ${told}`] : [];
    if (!(PROBLEM_CODES as readonly string[]).includes(code)) faults.push(`${code} is no code`);
    if (place === null)
      return code === 'too-many-problems' ? faults : [...faults, `${code} has no place`];
    const line = lines[place.line - 1];
    const isThere = line !== undefined && place.column >= 1 && place.column <= line.length + 1;
    return isThere ? faults : [...faults, `${code} is at ${place.line}:${place.column}`];
  });
}

/** What a mistake of ours leaves in a text. */
export const NO_WORD = /\b(undefined|NaN|Infinity)\b|\[object /;
