import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { boardKerf } from '../../src/model/machine.ts';

/** A second check, by sums and by pairs: every piece somewhere, no two of a board nearer than a kerf, nothing on trim or defect, no board too many. */
export function faultsOfBoards(job: Job, layout: Layout): string[] {
  const kerf = boardKerf(job.machine);
  const faults: string[] = [];
  const stocks = job.materials[layout.material]!.boards;
  for (const { index, name, count, material } of job.lengthParts) {
    if (material !== layout.material) continue;
    const numbers = layout.boards
      .flatMap(({ pieces }) => pieces.filter(({ part }) => part === index))
      .map(({ number }) => number);
    const left = layout.unplacedLengths.find(({ part }) => part === index)?.count ?? 0;
    if (numbers.length + left !== count || new Set(numbers).size !== numbers.length)
      faults.push(`${name}: ${numbers.length} and ${left} of ${count}`);
  }
  for (const [b, { stock, pieces }] of layout.boards.entries()) {
    const { length, endTrim, defects } = stocks[stock]!;
    const taken = pieces.map(({ part, at }) => [at, at + job.lengthParts[part]!.length] as const);
    const closed = [
      [Number.NEGATIVE_INFINITY, endTrim] as const,
      [length - endTrim, Number.POSITIVE_INFINITY] as const,
      ...defects.map(({ from, to }) => [from, to] as const),
    ];
    taken.forEach(([from, to], i) => {
      if (closed.some(([a, z]) => from < z && a < to))
        faults.push(`board ${b}: piece ${i} outside`);
      if (taken.slice(i + 1).some(([a, z]) => from < z + kerf && a < to + kerf))
        faults.push(`board ${b}: piece ${i} near another`);
    });
  }
  stocks.forEach(({ onHand }, s) => {
    const used = layout.boards.filter(({ stock }) => stock === s).length;
    if (used > (onHand ?? used)) faults.push(`${used} boards of stock ${s}`);
  });
  return faults;
}
