import type { Job } from '../model/job.ts';
import type { Layout, Unplaced, UnplacedLengths } from '../model/layout.ts';
import type { RecordFault } from '../model/recheck.ts';
import type { Material } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { differences } from './differences.ts';
import { rebuildBoards } from './rebuild-boards.ts';
import { rebuildSheets } from './rebuild-sheets.ts';
import { mentionFault, nameOf, type Rebuilding, rebuildingOf } from './rebuilding.ts';
import type { MaterialRecord, PlanFile } from './schema.ts';

/** The layout of a material of the job, and where in the record's materials it is told of. */
export interface RebuiltLayout {
  readonly layout: Layout;
  readonly place: number;
}

/** The layouts that a record tells of, and what it tells that is nothing in the job: that is left out of them. */
export interface Rebuilt {
  /** In the order of the job's materials; without those that the record has not. */
  readonly layouts: readonly RebuiltLayout[];
  readonly faults: readonly RecordFault[];
}

export function rebuild(job: Job, plan: PlanFile): Rebuilt {
  const rebuilding = rebuildingOf(job);
  const { faults } = rebuilding;
  const places = job.materials.map(({ id }) =>
    plan.materials.findIndex(({ material }) => material === id),
  );
  plan.materials.forEach(({ material }, i) => {
    if (places.includes(i)) return;
    const isTwice = job.materials.some(({ id }) => id === material);
    const message = isTwice ? `${material} is there twice` : `the job has no material ${material}`;
    faults.push({ code: 'unknown-material', path: `materials[${i}].material`, message });
  });
  const layouts = job.materials.flatMap((material, i) => {
    const place = places[i]!;
    const own = plan.materials[place];
    if (own !== undefined)
      return [{ layout: rebuildMaterial(material, own, place, rebuilding, plan), place }];
    const message = `the record says nothing of ${material.id}`;
    faults.push({ code: 'missing', path: 'materials', message });
    return [];
  });
  return { layouts, faults };
}

function rebuildMaterial(
  material: Material,
  record: MaterialRecord,
  place: number,
  rebuilding: Rebuilding,
  plan: PlanFile,
): Layout {
  const path = `materials[${place}]`;
  const { name, family, index } = material;
  const facts = { name, family, thickness: toMm(material.thickness) };
  rebuilding.faults.push(...differences(facts, record, path, 'material'));
  const { status, objective, used, atLeast, provedBy } = record;
  const sheets = rebuildSheets(material, record, path, rebuilding, plan);
  const boards = rebuildBoards(material, record, path, rebuilding, plan);
  const left = leftOut(record, path, rebuilding);
  // A material without pieces has no proof to name.
  const bound = { atLeast, provedBy: provedBy ?? 'area' };
  return { material: index, objective, status, used, bound, sheets, boards, ...left };
}

function leftOut(
  { unplaced }: MaterialRecord,
  path: string,
  { names, faults, seen }: Rebuilding,
): Pick<Layout, 'unplaced' | 'unplacedLengths'> {
  const pieces: Unplaced[] = [];
  const lengths: UnplacedLengths[] = [];
  unplaced.forEach(({ part, piece, why }, i) => {
    const name = nameOf(part, piece);
    const [own, length] = [names.pieces.get(name), names.lengths.get(name)];
    const fault = mentionFault(name, own ?? length, seen, `${path}.unplaced[${i}]`);
    if (fault !== null) faults.push(fault);
    else if (own !== undefined) pieces.push({ piece: own, why });
    else lengths.push({ part: length!, count: 1, why });
  });
  return { unplaced: pieces, unplacedLengths: grouped(lengths) };
}

function grouped(lengths: readonly UnplacedLengths[]): readonly UnplacedLengths[] {
  const groups = new Map<string, UnplacedLengths>();
  for (const each of lengths) {
    const key = `${each.part} ${each.why}`;
    groups.set(key, { ...each, count: (groups.get(key)?.count ?? 0) + 1 });
  }
  return [...groups.values()];
}
