import { usableBox } from '../../model/stock.ts';
import type { PackingTask } from '../task.ts';
import { type Sides, sidesTable } from './depth.ts';
import { type Forbidden, forbiddenTable } from './forbidden.ts';
import { type Form, formsOf, rectangleForm } from './forms.ts';
import type { PairTable } from './pair-table.ts';

/** What all searches of one task share: the forms, where they may not come to one another, and the room on each stock. */
export interface Setup {
  readonly task: PackingTask;
  readonly forms: readonly Form[];
  /** For each body the form of each of its orientations. */
  readonly formsOfBody: readonly (readonly number[])[];
  readonly forbidden: PairTable<Forbidden>;
  /** The sides of the forbidden sums, for the depth of an overlap. */
  readonly sides: PairTable<Sides>;
  readonly rooms: readonly Room[];
}

/** The usable part of a stock, and what lies on it from the start. */
export interface Room {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly keepOuts: readonly Fixed[];
}

/** A form at its place. */
export interface Fixed {
  readonly form: number;
  readonly x: number;
  readonly y: number;
}

/** `spend` is told of the work for the forms, and later of that for each pair of them when it is first looked at. */
export function setupOf(task: PackingTask, spend: (work: number) => void): Setup {
  const { forms: bodyForms, ofBody } = formsOf(task, spend);
  const forms = [...bodyForms];
  const rooms = task.stocks.map((stock) => {
    const keepOuts = stock.keepOuts.map(({ box }) => {
      const { minX, minY, maxX, maxY } = box;
      const form = forms.push(rectangleForm(maxX - minX, maxY - minY, task.spacing)) - 1;
      return { form, x: minX, y: minY };
    });
    return { ...usableBox(stock), keepOuts };
  });
  const forbidden = forbiddenTable(forms, spend);
  const sides = sidesTable(forms.length, forbidden);
  return { task, forms, formsOfBody: ofBody, forbidden, sides, rooms };
}
