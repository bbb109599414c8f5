/**
 * The air under one sheet: its pump, its leaks, and the vacuum while the kerfs open.
 *
 * On a porous spoilboard air comes in through the table beside the sheet, through every open kerf (as wide as its leak
 * makes it), under edges that stand up, and a little through the sheet itself, more where a pocket leaves only a floor of it. On a table with gaskets or pods it comes in where these are nicked,
 * and through what a cord round the whole sheet leaves open when a kerf crosses its grooves. The vacuum follows from the
 * operating point and is rounded to the printed 0.01 kPa, so that a person can go on from there.
 * Where we differ: the edge of the sheet is taken as sealed, and the border that a thing loses is that at the deepest
 * vacuum of the pump, once for all steps.
 */
import type { Band, Pipe, PumpPoint, Table } from '../model/machine.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { airPressurePa } from './atmosphere.ts';
import { borderLossMm } from './border.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';
import { type Floor, floorMm2, floorPerM } from './floors.ts';
import { layerResistancePerM, leakWidthMm, orificeFlowM3h, porousFlowM3h } from './leak.ts';
import { type Gap, gapFlowM3h, gapsOf } from './lifted.ts';
import { operatingVacuumKpa } from './operating-point.ts';
import { curveAtPressure, deepestVacuumKpa } from './pump.ts';
import { type Footing, type Reach, reachOf } from './reach.ts';

/** With the numbers as they are, or at the cautious end of their bands. */
export type BandEnd = keyof Band;

export interface Air extends Reach, Footing {
  readonly atmospherePa: number;
  /** Where the table stands. */
  readonly curve: readonly PumpPoint[];
  readonly pipe: Pipe | null;
  /** 0 on a table without a spoilboard. */
  readonly leakWidthMm: number;
  /** Of the spoilboard; 0 without one. */
  readonly boardPerM: Band;
  /** Of the sheet; infinite where its faces are sealed. */
  readonly sheetPerM: number;
  /** Openings past gaskets or pods before the first cut, and what each millimetre of open kerf adds to them. */
  readonly slotMm2: number;
  readonly slotPerKerfMm: number;
  /** Under edges of the sheet that do not lie down. */
  readonly gaps: readonly Gap[];
  readonly thicknessMm: number;
  /** Of all pieces on the sheet. */
  readonly floors: readonly Floor[];
}

export function airOf(
  table: Table,
  cutter: number,
  material: Material,
  stock: SheetStock,
  floors: readonly Floor[] = [],
): Air {
  const atmospherePa = airPressurePa(table.altitudeM);
  const share = atmospherePa / CONSTANTS.seaLevelPressure.value;
  const curve = curveAtPressure(table.pump.curve, share);
  const insideShare = Math.max(0, 1 - (deepestVacuumKpa(curve) * 1000) / atmospherePa);
  const { seal, pipe } = table;
  const way = seal === null ? throughBoard(table, cutter, insideShare) : pastSeal(seal, cutter);
  const reach = reachOf(table, stock);
  return {
    ...reach,
    // Inside cords or on pods the table around them is no way in.
    ...(seal === null ? {} : { tableMm2: reach.coveredMm2, bareMm2: 0 }),
    ...way,
    atmospherePa,
    curve,
    pipe,
    seal,
    cutter,
    sheetPerM: sheetResistancePerM(material),
    gaps: gapsOf(stock),
    thicknessMm: toMm(material.thickness),
    floors,
  };
}

/** The vacuum under the sheet with `openKerfMm` of kerf open, kPa. */
export function vacuumAt(air: Air, openKerfMm: number, end: BandEnd): number {
  const vacuum = operatingVacuumKpa(
    air.curve,
    (vacuumKpa) => leakM3h(air, openKerfMm, end, vacuumKpa),
    air.pipe,
  );
  return Math.round(vacuum * 100) / 100;
}

/** Bare table and open kerfs, never more than the table has. */
export function openAreaMm2(air: Air, openKerfMm: number): number {
  return Math.min(air.tableMm2, air.bareMm2 + openKerfMm * air.leakWidthMm);
}

/** Openings past gaskets or pods. */
export function openSlotMm2(air: Air, openKerfMm: number): number {
  return air.slotMm2 + openKerfMm * air.slotPerKerfMm;
}

/** Free air that comes in at a vacuum. */
export function leakM3h(air: Air, openKerfMm: number, end: BandEnd, vacuumKpa: number): number {
  const { atmospherePa, coveredMm2, sheetPerM, floors } = air;
  const boardPerM = air.boardPerM[end];
  const open = porousFlowM3h(openAreaMm2(air, openKerfMm), boardPerM, vacuumKpa, atmospherePa);
  const wholeMm2 = Math.max(0, coveredMm2 - floorMm2(floors));
  const through = porousFlowM3h(wholeMm2, boardPerM + sheetPerM, vacuumKpa, atmospherePa);
  const slot = openSlotMm2(air, openKerfMm);
  const under = gapFlowM3h(air.gaps, boardPerM, vacuumKpa, atmospherePa);
  const thin = floorFlowM3h(air, end, vacuumKpa);
  return open + through + thin + under + orificeFlowM3h(slot, vacuumKpa, atmospherePa);
}

/** Through the floors of pockets and blind holes. */
export function floorFlowM3h(air: Air, end: BandEnd, vacuumKpa: number): number {
  const { atmospherePa, sheetPerM, thicknessMm, floors } = air;
  return floors.reduce((sum, { areaMm2, depthMm }) => {
    const perM = air.boardPerM[end] + floorPerM(sheetPerM, thicknessMm, depthMm);
    return sum + porousFlowM3h(areaMm2, perM, vacuumKpa, atmospherePa);
  }, 0);
}

/** Thickness of the spoilboard in the field beside a kerf: more where air goes more easily along it than through it. */
export function fieldMm({ spoilboard }: Table): number {
  return toMm(spoilboard.thickness) * Math.sqrt(spoilboard.alongRatio);
}

type Way = Pick<Air, 'leakWidthMm' | 'borderMm' | 'boardPerM' | 'slotMm2' | 'slotPerKerfMm'>;

function throughBoard(table: Table, cutter: number, insideShare: number): Way {
  const { spoilboard } = table;
  const boardMm = toMm(spoilboard.thickness);
  const { nominal, low } = spoilboard.permeabilityM2;
  return {
    leakWidthMm: leakWidthMm(toMm(cutter), fieldMm(table)),
    borderMm: borderLossMm(fieldMm(table), insideShare, toMm(cutter)),
    boardPerM: {
      nominal: layerResistancePerM(boardMm, nominal),
      low: layerResistancePerM(boardMm, low),
    },
    slotMm2: 0,
    slotPerKerfMm: 0,
  };
}

function pastSeal(seal: NonNullable<Table['seal']>, cutter: number): Way {
  const openShare = seal.kind === 'gasket' && seal.around === 'sheet' ? seal.grooveShare : 0;
  return {
    leakWidthMm: 0,
    borderMm: 0,
    boardPerM: { nominal: 0, low: 0 },
    slotMm2: seal.leakMm2,
    slotPerKerfMm: toMm(cutter) * openShare,
  };
}

function sheetResistancePerM({ family, filmFaced, thickness }: Material): number {
  if (filmFaced) return Number.POSITIVE_INFINITY;
  return layerResistancePerM(toMm(thickness), FAMILY_CONSTANTS[family].permeabilityM2);
}
