import { costLumber, wasteOn } from '../../src/costing/lumber.ts';
import {
  boardFeet,
  hardwoodBoardFeet,
  type SawnBoard,
  surfaceMeasures,
  tallyBoardFeet,
} from '../../src/costing/tally.ts';
import type { Lumber } from '../../src/model/lumber.ts';
import { UNITS_PER_INCH } from '../../src/model/units.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { type Computed, type Inputs, num } from './inputs.ts';

const board = (i: Inputs): SawnBoard => ({
  thickness: num(i, 'T_in') * UNITS_PER_INCH,
  width: num(i, 'W_in') * UNITS_PER_INCH,
  length: num(i, 'L_ft') * 12 * UNITS_PER_INCH,
});

const feet = (i: Inputs) => boardFeet(board(i));

/** Board feet, tally and waste of lumber. */
export const COMPUTED_LUMBER: Computed = {
  F_bf_0: feet,
  F_bf_1: feet,
  F_bf_2: feet,
  F_bf_3: feet,
  F_bf_4: feet,
  F_bf_5: feet,
  F_bf_6: feet,
  F_bf_thin: feet,
  F_bf_volume: (i) => {
    // A part of a square foot in inch stock is a board foot.
    const { job } = readPartsFile(
      `unit: in
materials: { oak: { family: hardwood, thickness: 1, lumber: { rough: 1, price: 1 per m3 } } }
parts: [{ name: Panel, material: oak, size: 12 x 12, count: ${num(i, 'bf')} }]
`,
      () => ({ ok: false, reason: 'missing', detail: '' }),
    );
    return costLumber(job!.lumber[0]!, 0).net;
  },
  F_hardwood_tally: (i) => hardwoodBoardFeet([board(i)]),
  F_softwood_tally: (i) => tallyBoardFeet([board(i)], 'softwood'),
  F_tally_round_down_length: (i) =>
    surfaceMeasures([
      {
        thickness: UNITS_PER_INCH,
        width: num(i, 'W_in') * UNITS_PER_INCH,
        length: num(i, 'L_in') * UNITS_PER_INCH,
      },
    ]),
  F_waste_30: (i) => num(i, 'net') + wasteOn(num(i, 'net'), gross(num(i, 'waste'))),
  F_waste_addon_30: (i) =>
    (i.added as readonly number[]).map((share) => {
      const waste = wasteOn(1, { share, of: 'net' });
      return waste / (1 + waste);
    }),
};

function gross(share: number): Lumber['waste'] {
  return { share, of: 'gross' };
}
