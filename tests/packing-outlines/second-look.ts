import { type Box, boxContains } from '../../src/geometry/box.ts';
import { closerThan, regionsOverlap } from '../../src/geometry/distance.ts';
import { CHECKING_CHORD_ERROR, flattenShape } from '../../src/geometry/flatten.ts';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import { type Region, rectangle } from '../../src/geometry/shape.ts';
import { usableBox } from '../../src/model/stock.ts';
import type { Candidate, PackedSheet, PackingTask, Spot } from '../../src/packing/task.ts';

/** Everything wrong with a candidate, looked at without any search code: all pairs, on rings finer than the search uses; empty where all is well. */
export function faultsOf(task: PackingTask, candidate: Candidate): string[] {
  return [
    ...countFaults(task, candidate),
    ...candidate.sheets.flatMap((s) => sheetFaults(task, s)),
  ];
}

function countFaults(task: PackingTask, { sheets, unplaced }: Candidate): string[] {
  const seen = [...sheets.flatMap(({ spots }) => spots.map(({ body }) => body)), ...unplaced];
  const all = task.bodies.map(({ index }) => index);
  const faults = sameNumbers(seen, all) ? [] : [`bodies ${seen.join(' ')}, not each one once`];
  task.stocks.forEach(({ onHand }, stock) => {
    const used = sheets.filter((sheet) => sheet.stock === stock).length;
    if (onHand !== null && used > onHand) faults.push(`${used} sheets of stock ${stock}`);
  });
  return faults;
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  const sorted = (list: readonly number[]) => [...list].sort((x, y) => x - y).join(' ');
  return sorted(a) === sorted(b);
}

interface Laid {
  readonly body: number;
  readonly box: Box;
  readonly region: Region;
}

function sheetFaults(task: PackingTask, { stock: number, spots }: PackedSheet): string[] {
  const stock = task.stocks[number];
  if (stock === undefined) return [`no stock ${number}`];
  const faults: string[] = [];
  const laid = spots.flatMap((spot) => {
    if (!task.bodies[spot.body]?.orientations[spot.orientation]?.allowedOn[number])
      faults.push(`body ${spot.body} against the grain`);
    return laidPieces(task, spot);
  });
  for (const { body, box } of laid)
    if (!boxContains(usableBox(stock), box)) faults.push(`body ${body} outside`);
  const keepOuts = stock.keepOuts.map(({ box }) => ({
    outer: rectangle(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY),
    holes: [],
  }));
  laid.forEach(({ body, region }, i) => {
    for (const other of laid.slice(i + 1))
      if (other.body !== body && tooNear(task, region, other.region))
        faults.push(`bodies ${body} and ${other.body} too near`);
    for (const keepOut of keepOuts)
      if (tooNear(task, region, keepOut)) faults.push(`body ${body} too near a keep-out`);
  });
  return faults;
}

function tooNear({ spacing }: PackingTask, a: Region, b: Region): boolean {
  return spacing === 0 ? regionsOverlap(a, b) : closerThan(a, b, spacing);
}

function laidPieces(task: PackingTask, { body, orientation, x, y }: Spot): Laid[] {
  const placements = task.bodies[body]?.orientations[orientation]?.placements ?? [];
  return placements.flatMap((placement) => {
    const part = task.job.parts[task.job.pieces[placement.piece]?.part ?? -1];
    if (part === undefined) return [];
    const inner = part.nestInside ? part.shape.inner : [];
    const pose = { ...placement, x: placement.x + x, y: placement.y + y };
    const shape = placeShape({ outer: part.shape.outer, inner }, pose);
    const region = flattenShape(shape, 'outside', CHECKING_CHORD_ERROR);
    return [{ body, box: boxOfShape(shape), region }];
  });
}
