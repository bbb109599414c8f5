import type { RecordFault } from '../model/recheck.ts';
import { nameOf } from './rebuilding.ts';
import type { PlanFile } from './schema.ts';

/** Every entry of the hold-down is of a sheet of the record and, unless it is a sliver, of a piece on it; each piece on a sheet has one at most. */
export function holdingFaults({ materials, holding }: PlanFile): readonly RecordFault[] {
  const sheets = new Map<number, Set<string>>();
  for (const { number, placements } of materials.flatMap((each) => each.sheets))
    sheets.set(number, new Set(placements.map(({ part, piece }) => nameOf(part, piece))));
  const seen = new Set<string>();
  return holding.flatMap(({ kind, part, piece, sheet }, i): RecordFault[] => {
    const fault = (key: string, message: string): RecordFault[] => [
      { code: 'holding', path: `holding[${i}]${key}`, message },
    ];
    const own = sheets.get(sheet);
    if (own === undefined) return fault('.sheet', `there is no sheet ${sheet}`);
    if (kind === 'sliver' && part === null && piece === null) return [];
    if (kind === 'sliver' || part === null || piece === null)
      return fault('.part', `a ${kind} is of ${kind === 'sliver' ? 'no' : 'some'} piece`);
    const name = nameOf(part, piece);
    if (!own.has(name)) return fault('', `${name} is not on sheet ${sheet}`);
    if (kind !== 'piece') return [];
    if (seen.has(name)) return fault('', `${name} is held twice`);
    seen.add(name);
    return [];
  });
}
