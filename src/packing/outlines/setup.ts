import { type Box, boxOf } from '../../geometry/box.ts';
import type { Ring } from '../../geometry/shape.ts';
import { closedParts, usableBox } from '../../model/stock.ts';
import type { PackingTask } from '../task.ts';
import type { WorkBudget } from '../work.ts';
import { sidesTable } from './depth.ts';
import { type Forbidden, forbiddenTable } from './forbidden.ts';
import { coarseParts, type Form, type Forms, formsOf, rectangleForm, ringForm } from './forms.ts';
import { type Measure, type Overlaps, overlapsOf } from './overlap.ts';
import type { PairTable } from './pair-table.ts';
import { type RootGrids, rootGrids } from './root-grids.ts';
import { type TurnChoices, turnChoices, withFewTurns } from './turn-choices.ts';

/** What all searches of one task share: the forms, where they may not come to one another, and the room on each stock. */
export interface Setup {
  readonly task: PackingTask;
  readonly forms: readonly Form[];
  /** For each body the form of each of its orientations. */
  readonly formsOfBody: readonly (readonly number[])[];
  readonly turnsOfBody: readonly TurnChoices[];
  readonly forbidden: PairTable<Forbidden>;
  /** The same with the hull in the place of each form that fills it nearly. */
  readonly coarselyForbidden: PairTable<Forbidden>;
  readonly overlaps: Overlaps;
  /** Null where they are not worth their while. */
  readonly grids: RootGrids | null;
  readonly rooms: readonly Room[];
}

/** The usable part of a stock, and what lies on it from the start. */
export interface Room {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Keep-outs, and what an odd-shaped sheet has outside its trimmed edges. */
  readonly keepOuts: readonly Fixed[];
}

/** A form at its place. */
export interface Fixed {
  readonly form: number;
  readonly x: number;
  readonly y: number;
}

/** The budget is told of the work for the forms, and later of that for each pair of them when it is first looked at. */
export function setupOf(
  task: PackingTask,
  measure: Measure,
  budget: Pick<WorkBudget, 'left' | 'spend'>,
): Setup {
  const spend = (work: number) => budget.spend(work);
  const { forms: bodyForms, ofBody } = formsOf(task, spend);
  const spaced = [...bodyForms];
  const keepOutsOf = task.stocks.map(({ keepOuts }) =>
    keepOuts.map(({ box }) => fixedAt(box, task.spacing, spaced)),
  );
  const forms = [...spaced];
  const edgesOf = task.stocks.map((stock) =>
    closedParts(stock).map((ring) => fixedRing(ring, forms)),
  );
  const rooms = task.stocks.map((stock, i) => ({
    ...usableBox(stock),
    keepOuts: [...(keepOutsOf[i] ?? []), ...(edgesOf[i] ?? [])],
  }));
  const bare = bareForms(task, { forms: bodyForms, ofBody }, spend);
  const edges = { bare, from: spaced.length };
  const rule = { forms, edges, spend };
  const forbidden = forbiddenTable({ ...rule, ringsOf: ({ parts }) => parts, room: MOST_CORNERS });
  const coarselyForbidden = forbiddenTable({
    ...rule,
    ringsOf: coarseParts,
    room: MOST_COARSE_CORNERS,
  });
  const sides = sidesTable(forms.length, forbidden);
  const overlaps = overlapsOf(forms, sides, measure, edges, spend);
  const turnsOfBody = turnsOf(task, measure);
  return {
    task,
    forms,
    formsOfBody: ofBody,
    turnsOfBody,
    forbidden,
    coarselyForbidden,
    overlaps,
    grids: rootGrids(forms, overlaps, {
      work: budget.left,
      count: countDrawn(ofBody, turnsOfBody),
    }),
    rooms,
  };
}

/** Of sums that are kept, about 90 and 35 million bytes. */
const MOST_CORNERS = 5e6;
const MOST_COARSE_CORNERS = 2e6;

/** The box as a fixed body; its form is put at the end of `forms`. */
function fixedAt({ minX, minY, maxX, maxY }: Box, spacing: number, forms: Form[]): Fixed {
  const form = forms.push(rectangleForm(maxX - minX, maxY - minY, spacing)) - 1;
  return { form, x: minX, y: minY };
}

/** The ring as a fixed body; its form is put at the end of `forms`. */
function fixedRing(ring: Ring, forms: Form[]): Fixed {
  const { minX, minY } = boxOf(ring);
  const form = forms.push(ringForm(ring)) - 1;
  return { form, x: minX, y: minY };
}

/** The forms of the bodies as they come to the edge of an odd-shaped sheet, which asks for no spacing; in the same order. */
function bareForms(
  task: PackingTask,
  grown: Forms,
  spend: (work: number) => void,
): readonly Form[] {
  const hasEdges = task.stocks.some(({ boundary }) => boundary !== null);
  return hasEdges && task.spacing > 0 ? formsOf({ ...task, spacing: 0 }, spend).forms : grown.forms;
}

/** Circles have few turns to choose from: by depth the others are looked at too, and both tracks go on from the better layout. */
function turnsOf({ bodies }: PackingTask, measure: Measure): readonly TurnChoices[] {
  const ofKind = new Map<number, TurnChoices>();
  return bodies.map((body) => {
    const known = ofKind.get(body.kind);
    if (known !== undefined) return known;
    const all = turnChoices(body);
    const choices = measure === 'circles' ? withFewTurns(all) : all;
    ofKind.set(body.kind, choices);
    return choices;
  });
}

/** How many forms a search looks at again and again. */
function countDrawn(formsOfBody: Forms['ofBody'], turns: readonly TurnChoices[]): number {
  return new Set(turns.flatMap(({ drawn }, body) => drawn.map((i) => formsOfBody[body]?.[i]))).size;
}
