import { stockTitle } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Layout, UnplacedLengths } from '../model/layout.ts';
import type { LengthPart } from '../model/part.ts';
import type { BoardStock } from '../model/stock.ts';
import type { Fault, FaultCode } from './fault.ts';

/** Every piece that is cut to length lies on one board, once, or is counted as left out; none is left out while an empty board would take it. */
export function checkBoardPieces(job: Job, layout: Layout): Fault[] {
  const faults: Fault[] = [];
  const seen = new Set<string>();
  for (const { part, number } of layout.boards.flatMap(({ pieces }) => pieces)) {
    const own = job.lengthParts[part];
    const key = `${part} ${number}`;
    const name = own ? `${own.name} ${number}` : `piece ${number} of length part ${part}`;
    if (!own || !Number.isInteger(number) || number < 1 || number > own.count)
      faults.push(fault('unknown-piece', `the job has no ${name}`));
    else if (own.material !== layout.material)
      faults.push(fault('other-material', `${name} is of another material`));
    else if (seen.has(key)) faults.push(fault('twice', `${name} is in the layout twice`));
    seen.add(key);
  }
  for (const left of layout.unplacedLengths) faults.push(...checkLeft(job, layout, left));
  for (const part of job.lengthParts) {
    if (part.material === layout.material) faults.push(...checkCount(layout, part, seen));
  }
  return faults;
}

/** As many pieces as the part has, on boards and left out together. */
function checkCount(layout: Layout, part: LengthPart, seen: ReadonlySet<string>): Fault[] {
  const left = layout.unplacedLengths
    .filter((own) => own.part === part.index)
    .reduce((sum, { count }) => sum + count, 0);
  let laid = 0;
  for (let number = 1; number <= part.count; number++)
    if (seen.has(`${part.index} ${number}`)) laid++;
  if (laid + left === part.count) return [];
  const said = `${laid} on boards and ${left} left out of ${part.count} of ${part.name}`;
  return [fault(laid + left < part.count ? 'missing' : 'twice', said)];
}

function checkLeft(job: Job, layout: Layout, { part, count, why }: UnplacedLengths): Fault[] {
  const own = job.lengthParts[part];
  if (!own || !Number.isInteger(count) || count < 1)
    return [fault('unknown-piece', `${count} of length part ${part} are left out`)];
  if (own.material !== layout.material)
    return [fault('other-material', `${own.name} is of another material`)];
  const stock = job.materials[layout.material]?.boards.find(
    (board) => isLeft(board, why, layout) && takes(board, own.length),
  );
  if (!stock) return [];
  const said = `${own.name} is left out ('${why}'), but an empty board of ${stockTitle(stock.name, job.unit)} takes it`;
  return [fault('left-out', said)];
}

/** Whether a board of this stock speaks against the reason given: any board there is against 'no-room', an unused one against 'no-stock'. */
function isLeft(stock: BoardStock, why: UnplacedLengths['why'], layout: Layout): boolean {
  if (stock.onHand === null) return true;
  const taken = layout.boards.filter((board) => board.stock === stock.index).length;
  return stock.onHand > (why === 'no-room' ? 0 : taken);
}

/** Whether a piece so long fits somewhere between the trimmed ends and the defects: at an end or behind a defect, if anywhere. */
function takes({ length, endTrim, defects }: BoardStock, wanted: number): boolean {
  return [endTrim, ...defects.map(({ to }) => to)].some(
    (at) =>
      at >= endTrim &&
      at + wanted <= length - endTrim &&
      defects.every(({ from, to }) => at >= to || at + wanted <= from),
  );
}

function fault(code: FaultCode, message: string): Fault {
  return { code, sheet: null, piece: null, other: null, message };
}
