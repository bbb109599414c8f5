/** What pockets and blind holes change: air and vacuum under their floors, wood taken off, and the sheet while they are cut. */
import type { ReckoningLine } from '../model/holding.ts';
import { toMm } from '../model/units.ts';
import { floorFlowM3h } from './air.ts';
import { amount, line, power } from './explain-numbers.ts';
import { type Floor, floorMm2, floorPerM, floorSizes } from './floors.ts';
import type { HeldThing } from './hold-sheet.ts';
import { type Setting, shareUnder } from './stand.ts';

/** Before the vacuum, on every sheet with floors: what comes in through all of them. */
export function floorAirLines({ air, material }: Setting, thing: HeldThing): ReckoningLine[] {
  const { vacuumKpa } = thing.reckoned.nominal;
  const flow = floorFlowM3h(air, 'nominal', vacuumKpa);
  // Under a row of small holes nothing comes in that a person would add up.
  if (flow < LEAST_FLOW_M3H) return [];
  const thicknessMm = toMm(material.thickness);
  return [
    line(
      'Air through floors of pockets and blind holes',
      `all of the sheet, from its first cut on: ${areasText(air.floors)}; each a layer of its share of the ${thicknessMm} mm of Rw, on Rs, at v`,
      amount(flow, 2, 'm3/h'),
    ),
  ];
}

/** Half of the last printed digit. */
const LEAST_FLOW_M3H = 0.005;

/** Of the piece itself. */
export function floorLines(setting: Setting, thing: HeldThing): ReckoningLine[] {
  const { air } = setting;
  const { heldFloors, takenMm3: taken } = thing.body;
  const floors = floorSizes(thing.floors);
  const [deepest] = floors;
  if (deepest === undefined) return [];
  const thicknessMm = air.thicknessMm;
  const { vacuumKpa } = thing.reckoned.nominal;
  const left = thicknessMm - deepest.depthMm;
  const shares = heldFloors.map(({ areaMm2, depthMm }) => {
    const share = shareUnder(air, vacuumKpa, 'nominal', depthMm);
    return `${share.toFixed(4)} under ${areaMm2.toFixed(0)} mm2`;
  });
  return [
    line(
      'Taken out by pockets and blind holes W',
      `area x depth, where they overlap the deepest: ${areasText(floors)}`,
      amount(taken / 1000, 1, 'cm3'),
    ),
    line(
      'Resistance of the thinnest floor',
      `Rw x ${left.toFixed(2)} mm / ${thicknessMm} mm`,
      power(floorPerM(air.sheetPerM, thicknessMm, deepest.depthMm), '1/m'),
    ),
    line(
      'Share of the vacuum under the floors',
      'as under the piece, with the resistance of each floor in place of Rw; of the held area',
      shares.length === 0 ? 'none of it is held' : shares.join(', '),
    ),
  ];
}

/** While the piece is still part of the sheet. */
export function pocketingLines({ pocketing }: HeldThing): ReckoningLine[] {
  if (pocketing === null) return [];
  const { nominal, low, verdict } = pocketing;
  return [
    line(
      'Cutting force of its pockets',
      `as P, for their deepest pass of ${amount(nominal.pass.depthMm, 3, 'mm')} over the full width`,
      amount(nominal.load.resultantN, 2, 'N'),
    ),
    line(
      'Margin of the sheet against it',
      `the whole sheet, of which the piece is still part: friction ${nominal.grip.friction}, F ${amount(nominal.grip.forceN, 0, 'N')} at ${amount(nominal.vacuumKpa, 2, 'kPa')}; low end ${low.margins.least.toFixed(2)}`,
      `${nominal.margins.least.toFixed(2)}: ${verdict}`,
    ),
  ];
}

/** "5400 mm2 6 mm deep, 962 mm2 12.5 mm deep". */
function areasText(floors: readonly Floor[]): string {
  const most = floors.slice(0, MOST_FLOORS);
  const rest = floors.slice(MOST_FLOORS);
  const texts = most.map(
    ({ areaMm2, depthMm }) => `${areaMm2.toFixed(0)} mm2 ${Number(depthMm.toFixed(3))} mm deep`,
  );
  const more = rest.length === 0 ? [] : [`${floorMm2(rest).toFixed(0)} mm2 less deep`];
  return [...texts, ...more].join(', ');
}

/** A line more would say no more. */
const MOST_FLOORS = 4;
