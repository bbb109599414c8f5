/**
 * The air under one sheet: its pump, its leaks, and the vacuum while the kerfs open.
 *
 * Air comes in through the table beside the sheet, through every open kerf (as wide as its leak
 * makes it), and a little through the sheet itself. The vacuum follows from the operating point and
 * is rounded to the printed 0.01 kPa, so that a person can go on from there.
 * Where we differ: the edge of the sheet is taken as sealed, and parts of the sheet that hang over a
 * smaller table as held. Of an odd-shaped sheet the table counts as bare where the sheet is missing from its
 * box, as it is beside a small sheet; a table without a size is taken to end with the sheet.
 */
import type { Band, PumpPoint, Table } from '../model/machine.ts';
import { type Material, type SheetStock, sheetArea } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { airPressurePa } from './atmosphere.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';
import { borderLossMm, layerResistancePerM, leakWidthMm, porousFlowM3h } from './leak.ts';
import { operatingVacuumKpa } from './operating-point.ts';
import { curveAtPressure } from './pump.ts';

/** With the numbers as they are, or at the cautious end of their bands. */
export type BandEnd = keyof Band;

export interface Air {
  readonly atmospherePa: number;
  /** Where the table stands. */
  readonly curve: readonly PumpPoint[];
  readonly tableMm2: number;
  readonly bareMm2: number;
  readonly coveredMm2: number;
  readonly leakWidthMm: number;
  readonly borderMm: number;
  /** Of the spoilboard. */
  readonly boardPerM: Band;
  /** Of the sheet; infinite where its faces are sealed. */
  readonly sheetPerM: number;
}

export function airOf(table: Table, kerf: number, material: Material, stock: SheetStock): Air {
  const boardMm = toMm(table.spoilboard.thickness);
  const { nominal, low } = table.spoilboard.permeabilityM2;
  const atmospherePa = airPressurePa(table.altitudeM);
  const share = atmospherePa / CONSTANTS.seaLevelPressure.value;
  return {
    atmospherePa,
    curve: curveAtPressure(table.pump.curve, share),
    ...areasMm2(table, stock),
    leakWidthMm: leakWidthMm(toMm(kerf), boardMm),
    borderMm: borderLossMm(boardMm),
    boardPerM: {
      nominal: layerResistancePerM(boardMm, nominal),
      low: layerResistancePerM(boardMm, low),
    },
    sheetPerM: sheetResistancePerM(material),
  };
}

/** The vacuum under the sheet with `openKerfMm` of kerf open, kPa. */
export function vacuumAt(air: Air, openKerfMm: number, end: BandEnd): number {
  const openMm2 = openAreaMm2(air, openKerfMm);
  const boardPerM = air.boardPerM[end];
  const vacuum = operatingVacuumKpa(air.curve, (vacuumKpa) => {
    const open = porousFlowM3h(openMm2, boardPerM, vacuumKpa, air.atmospherePa);
    const through = boardPerM + air.sheetPerM;
    return open + porousFlowM3h(air.coveredMm2, through, vacuumKpa, air.atmospherePa);
  });
  return Math.round(vacuum * 100) / 100;
}

/** Bare table and open kerfs, never more than the table has. */
export function openAreaMm2(air: Air, openKerfMm: number): number {
  return Math.min(air.tableMm2, air.bareMm2 + openKerfMm * air.leakWidthMm);
}

function areasMm2(
  { size }: Table,
  stock: SheetStock,
): Pick<Air, 'tableMm2' | 'bareMm2' | 'coveredMm2'> {
  const sheet = sidesMm(stock.length, stock.width);
  const share = stock.boundary === null ? 1 : sheetArea(stock) / (stock.length * stock.width);
  const table = size === null ? sheet : sidesMm(size.length, size.width);
  const overlapMm2 = Math.min(sheet.long, table.long) * Math.min(sheet.short, table.short);
  const coveredMm2 = overlapMm2 * share;
  const tableMm2 = size === null ? coveredMm2 : table.long * table.short;
  return { tableMm2, bareMm2: tableMm2 - coveredMm2, coveredMm2 };
}

/** A sheet lies on the table with its long side along that of the table. */
function sidesMm(a: number, b: number): { readonly long: number; readonly short: number } {
  return { long: toMm(Math.max(a, b)), short: toMm(Math.min(a, b)) };
}

function sheetResistancePerM({ family, filmFaced, thickness }: Material): number {
  if (filmFaced) return Number.POSITIVE_INFINITY;
  return layerResistancePerM(toMm(thickness), FAMILY_CONSTANTS[family].permeabilityM2);
}
