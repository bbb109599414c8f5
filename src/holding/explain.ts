/**
 * The reckoning of one piece step by step, so that a person can follow it with a calculator.
 *
 * Every line names a quantity, how it follows from the lines above it, and its value with the unit.
 * The values are those of the holding plan itself, not reckoned anew.
 */
import type { Box } from '../geometry/box.ts';
import { counted, formatLength } from '../model/format.ts';
import type { Holding, ReckoningLine } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { type NumberedSheet, numberedSheets } from '../model/plan.ts';
import { toMm } from '../model/units.ts';
import { CONSTANTS } from './constants.ts';
import { cutWarnings } from './cut-warnings.ts';
import { airLines } from './explain-air.ts';
import { forceLines } from './explain-force.ts';
import { marginLines } from './explain-margins.ts';
import { line } from './explain-numbers.ts';
import { vacuumLines } from './explain-order.ts';
import { pocketingLines } from './explain-pockets.ts';
import { influenceLines, whatIfLines } from './explain-what-if.ts';
import { type HeldThing, holdSheet } from './hold-sheet.ts';
import { sensitivityOf } from './sensitivity.ts';
import type { Setting } from './stand.ts';
import { MOVES, STAYS } from './verdict.ts';

/** `piece` is an index of the job. A piece that lies on no sheet has no reckoning: no lines. */
export function explainPiece(
  job: RouterJob,
  layouts: readonly Layout[],
  piece: number,
): readonly ReckoningLine[] {
  const numbered = numberedSheets(layouts).find(({ sheet }) =>
    sheet.placements.some((placement) => placement.piece === piece),
  );
  if (numbered === undefined) return [];
  const held = holdSheet(job, numbered);
  const stock = job.materials[numbered.material]!.sheets[numbered.sheet.stock]!;
  const thing = held.things.find(
    ({ holding }) => holding.kind === 'piece' && holding.piece === piece,
  )!;
  const weak = new Set(thing.holding.verdict === 'stays' ? [] : [numbered.material]);
  return [
    ...assumedLines(job),
    ...stepLines(job, held.setting, thing),
    ...vacuumLines(held.plan),
    ...whatIfLines(job, numbered, { piece, cutOrder: thing.holding.cutOrder }),
    ...influenceLines(sensitivityOf(job, [{ setting: held.setting, stock, thing }])),
    ...cutWarnings(job, [numbered.material], weak).map((text) =>
      line('Look at the cutter', '', text),
    ),
  ];
}

/** The steps to the verdict of every piece of a sheet, by its index, without what a change would do: the sheet is reckoned once. */
export function explainSheet(
  job: RouterJob,
  numbered: NumberedSheet,
): ReadonlyMap<number, readonly ReckoningLine[]> {
  const { setting, things } = holdSheet(job, numbered);
  return new Map(
    things.flatMap((thing) => {
      const { kind, piece } = thing.holding;
      return kind === 'piece' && piece !== null
        ? [[piece, stepLines(job, setting, thing)] as const]
        : [];
    }),
  );
}

function stepLines(job: RouterJob, setting: Setting, thing: HeldThing): readonly ReckoningLine[] {
  return [
    ...airLines(job, setting, thing),
    ...forceLines(job, setting, thing),
    ...marginLines(thing),
    ...pocketingLines(thing),
    ...verdictLines(job, thing.holding),
  ];
}

function assumedLines({ machine, table }: RouterJob): ReckoningLine[] {
  const assumed = [...machine.assumed, ...table.assumed];
  return assumed.length === 0
    ? []
    : [line('Taken as given', 'not in the parts file', assumed.join('; '))];
}

function verdictLines(job: RouterJob, holding: Holding): ReckoningLine[] {
  const rule = `stays: margin >= ${STAYS.margin} and low end >= ${STAYS.marginLow}; moves: margin < ${MOVES}; else marginal`;
  const lines = [line('Verdict', rule, holding.verdict)];
  if (holding.action === 'none') return lines;
  const after = `${holding.marginAfter.toFixed(2)}, ${holding.verdictAfter}`;
  return [...lines, line('Margin after the remedy', remedyText(job, holding), after)];
}

function remedyText(
  job: RouterJob,
  { action, cutOrder, skin, skinFor, tabs, clamp }: Holding,
): string {
  switch (action) {
    case 'none':
      return '';
    case 'earlier':
      return `cut as number ${cutOrder} of the sheet`;
    case 'skin':
      return `skin of ${formatLength(skin, job.unit)}${skinFor === 'waste' ? ' for the strip of waste beside it' : ''}: worse of the passes above it and the last pass with every kerf open`;
    case 'tabs':
      return `${counted(tabs.length, 'tab')}: friction plus the worst tab, or tipping against all of them`;
    case 'clamp':
      return `a clamp presses ${CONSTANTS.clampForce.value} N${clamp === null ? '' : `; to have its place in waste: ${keepOutText(clamp)}`}`;
  }
}

/** The place of a clamp as a parts file takes it, in mm whatever the unit of the file. */
function keepOutText({ minX, minY, maxX, maxY }: Box): string {
  const [x, y, length, width] = [minX, minY, maxX - minX, maxY - minY].map((l) =>
    Number(toMm(l).toFixed(1)),
  );
  return `keep-out: [{ at: [${x}mm, ${y}mm], size: ${length}mm x ${width}mm, why: clamp }]`;
}
