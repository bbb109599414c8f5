// The drawing of a sheet that a machine is set up from: each kind of thing on its layer, what is cut in the order of the cuts.
// It is not made to be looked at: no line weights, no hatches, letters as large as they fit.
import { type Box, boxOf } from '../geometry/box.ts';
import type { FileUnit } from '../model/job.ts';
import { cutWidth } from '../model/machine.ts';
import type { LayerClass } from '../model/machine-layers.ts';
import type { Plan } from '../model/plan.ts';
import { sheetRing, usableRegions } from '../model/stock.ts';
import { layerName } from './layer-name.ts';
import { machineCuts } from './machine-cuts.ts';
import {
  boxShape,
  type Classed,
  cornersOfShape,
  lineShape,
  type MachineShape,
  ringShape,
} from './machine-shapes.ts';
import { machineTexts } from './machine-texts.ts';
import { cutLine } from './saw-marks.ts';
import { type SheetView, viewSheet } from './sheet-view.ts';

/** One thing on its layer; several classes may share a layer. */
export interface MachineItem {
  readonly layer: string;
  readonly class: LayerClass;
  readonly shape: MachineShape;
}

/** In millimetres from the lower-left corner of the sheet, y upwards; to be written in `unit`. */
export interface MachineDrawing {
  readonly unit: FileUnit;
  /** Of all but the letters. */
  readonly box: Box;
  readonly items: readonly MachineItem[];
}

/** The sheet with this index in the whole job, from 0. */
export function machineDrawing(plan: Plan, sheetIndex: number): MachineDrawing {
  const view = viewSheet(plan, sheetIndex);
  const { job, material, number } = view;
  const steps = plan.holding.find(({ sheet }) => sheet === number)?.steps ?? [];
  const things = [
    ...stockThings(view),
    ...machineCuts(view, steps),
    ...sawCuts(view),
    ...machineTexts(view),
  ];
  const { names } = job.layers;
  const items = things.flatMap(({ class: own, shape, values }) => {
    const pattern = names[own];
    if (pattern === null) return [];
    const all = { ...values, thickness: material.thickness, cutter: cutWidth(job.machine) };
    return [{ layer: layerName(pattern, all, job.unit), class: own, shape }];
  });
  const box = boxOf(items.flatMap(({ shape }) => cornersOfShape(shape)));
  return { unit: job.unit, box, items };
}

function stockThings({ stock, costs }: SheetView): readonly Classed[] {
  const isTrimmed = Object.values(stock.trim).some((width) => width > 0);
  const usable = isTrimmed ? usableRegions(stock) : [];
  return [
    { class: 'sheet', shape: ringShape(sheetRing(stock)) },
    ...usable.map(({ outer }): Classed => ({ class: 'trim', shape: ringShape(outer) })),
    ...stock.keepOuts.map(({ box }): Classed => ({ class: 'keep-out', shape: boxShape(box) })),
    ...(costs?.offcuts ?? []).map(
      ({ box }): Classed => ({ class: 'offcut', shape: boxShape(box) }),
    ),
  ];
}

/** In the middle of the kerf, in the order of the cuts. */
function sawCuts({ sawing, job }: SheetView): readonly Classed[] {
  return (sawing?.steps ?? []).map((step) => {
    const { from, to } = cutLine(step, cutWidth(job.machine));
    return { class: 'saw-cut', shape: lineShape(from, to) };
  });
}
