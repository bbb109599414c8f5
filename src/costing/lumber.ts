// Reckons how much rough lumber to buy for parts that are not laid out.
// Idea: a part takes its finished length and width out of the rough thickness. The waste allowance is added, boards in the shop are taken off, and the
//   rest is rounded up to what is sold: whole board feet of hardwood, hundredths of softwood, litres of a cubic metre.
// Source: the board foot in `tally.ts`; allowances are the shop's own.
// Where we differ: the two meanings of a waste allowance are both known and never guessed. 30 % of net makes 130 of 100; 30 % of gross makes 142.9.
// Cost: linear in the parts.
// Degenerate cases: no parts buy nothing; a shop that has enough buys nothing.
import type { LumberCosts } from '../model/costs.ts';
import type { Lumber } from '../model/lumber.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { boardFeet, tallyBoardFeet } from './tally.ts';

/** Amounts are rounded to these decimals, what is bought upwards. */
const DECIMALS = { hardwood: 0, softwood: 2, m3: 3 } as const;
const NET_DECIMALS = { bf: 2, m3: 4 } as const;

export function costLumber(lumber: Lumber, index: number): LumberCosts {
  const { measure, priceCents } = lumber;
  const net = lumber.parts.reduce((sum, part) => sum + part.count * volumeOf(lumber, part), 0);
  const waste = wasteOn(net, lumber.waste);
  const onHand = ownVolume(lumber);
  const decimals = measure === 'm3' ? DECIMALS.m3 : DECIMALS[lumber.tally];
  const buy = Math.max(0, roundUp(net + waste - onHand, decimals));
  const shown = (amount: number) => roundTo(amount, NET_DECIMALS[measure]);
  return {
    lumber: index,
    net: shown(net),
    waste: shown(waste),
    onHand: shown(onHand),
    buy,
    priceCents: priceCents === null ? null : Math.round(buy * priceCents),
  };
}

/** What a waste allowance adds to the net amount. */
export function wasteOn(net: number, { share, of }: Lumber['waste']): number {
  return of === 'net' ? net * share : net / (1 - share) - net;
}

interface Face {
  readonly length: number;
  readonly width: number;
}

function volumeOf({ measure, rough }: Lumber, face: Face): number {
  return measure === 'bf' ? boardFeet({ ...face, thickness: rough }) : cubicMetres(rough, face);
}

/** Board feet by the rules of the trade, as a seller would count the boards; cubic metres as they are. */
function ownVolume({ measure, rough, tally, onHand }: Lumber): number {
  if (measure === 'bf') {
    const boards = onHand.flatMap(({ length, width, count }) =>
      Array.from({ length: count }, () => ({ length, width, thickness: rough })),
    );
    return tallyBoardFeet(boards, tally);
  }
  return onHand.reduce((sum, board) => sum + board.count * cubicMetres(rough, board), 0);
}

function cubicMetres(thickness: number, { length, width }: Face): number {
  const perMetre = 1000 * UNITS_PER_MM;
  return (thickness / perMetre) * (length / perMetre) * (width / perMetre);
}

function roundTo(amount: number, decimals: number): number {
  return Math.round(amount * 10 ** decimals) / 10 ** decimals;
}

/** The last digits of a double are not worth another board foot. */
function roundUp(amount: number, decimals: number): number {
  return Math.ceil(amount * 10 ** decimals - 1e-9) / 10 ** decimals;
}
