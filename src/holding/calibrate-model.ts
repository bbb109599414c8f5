/**
 * What the gauge would show at a table of given figures: the forward model of the calibration.
 *
 * At the table or the hole as much air comes in as the pump moves at that vacuum. With a plate between pump and table
 * the same flow also passes its hole: the vacuum at the table then follows from the flow by Darcy's law turned round,
 * that at the pump from its curve, and the flow that fits the hole between the two is found by halving.
 * Sources: as in leak.ts; the plate is a nozzle whose outer side is the table.
 * Where we differ: a sheet is taken as airtight with sealed edges, and as lying wholly over the table as far as it goes.
 * The discharge coefficient of a hole is one number, though at deep vacuum a sharp-edged hole lets through up to a third
 * more (from memory): holes should be so large that the gauge stays under 40 kPa.
 * Degenerate: where nothing comes in the pump holds its deepest vacuum, with or without a plate.
 */
import type { Pipe, PumpPoint, Table } from '../model/machine.ts';
import type { AirReading, TableReading } from '../model/readings.ts';
import { toMm, toMm2 } from '../model/units.ts';
import { airPressurePa } from './atmosphere.ts';
import { CONSTANTS } from './constants.ts';
import {
  layerResistancePerM,
  leakWidthMm,
  nozzleFluxKgPerM2s,
  orificeFlowM3h,
  porousFlowM3h,
} from './leak.ts';
import { operatingVacuumKpa } from './operating-point.ts';
import { pipeLossKpa } from './pipe.ts';
import { curveAtPressure } from './pump.ts';

/** What is to be found: the permeability, and by how much the pump differs from its curve. */
export interface AirFigures {
  readonly permeabilityM2: number;
  readonly flowFactor: number;
  readonly vacuumFactor: number;
}

/** The vacuum at the gauge, kPa. */
export function reckonedVacuumKpa(table: Table, reading: AirReading, figures: AirFigures): number {
  const atmospherePa = airPressurePa(table.altitudeM);
  const share = atmospherePa / CONSTANTS.seaLevelPressure.value;
  const curve = curveAtPressure(scaledCurve(table.pump.curve, figures), share);
  if (reading.kind === 'hole') {
    const areaMm2 = discMm2(reading.diameter);
    const leak = (vacuumKpa: number) => orificeFlowM3h(areaMm2, vacuumKpa, atmospherePa);
    return operatingVacuumKpa(curve, leak, table.pipe);
  }
  const areaMm2 = openMm2(table, reading);
  const perM = layerResistancePerM(toMm(table.spoilboard.thickness), figures.permeabilityM2);
  if (reading.throttle > 0 && areaMm2 > 0) {
    const holeMm2 = discMm2(reading.throttle);
    return throttledVacuumKpa({ curve, pipe: table.pipe, areaMm2, perM, atmospherePa, holeMm2 });
  }
  const leak = (vacuumKpa: number) => porousFlowM3h(areaMm2, perM, vacuumKpa, atmospherePa);
  return operatingVacuumKpa(curve, leak, table.pipe);
}

/** The curve with its flow and its vacuum stretched. */
export function scaledCurve(
  curve: readonly PumpPoint[],
  { flowFactor, vacuumFactor }: Pick<AirFigures, 'flowFactor' | 'vacuumFactor'>,
): readonly PumpPoint[] {
  return curve.map(({ flowM3h, vacuumKpa }) => ({
    flowM3h: flowM3h * flowFactor,
    vacuumKpa: vacuumKpa * vacuumFactor,
  }));
}

/** Area of the table through which air comes in: what no sheet covers, and the strip as which each kerf counts. */
export function openMm2({ size, spoilboard }: Table, reading: TableReading): number {
  if (size === null) return 0;
  const { sheet, kerfLength, kerfWidth } = reading;
  const table = toMm2(size.length * size.width);
  const covered =
    sheet === null
      ? 0
      : toMm2(Math.min(size.length, sheet.length) * Math.min(size.width, sheet.width));
  const fieldMm = toMm(spoilboard.thickness) * Math.sqrt(spoilboard.alongRatio);
  const kerf = kerfLength === 0 ? 0 : toMm(kerfLength) * leakWidthMm(toMm(kerfWidth), fieldMm);
  return Math.min(table, table - covered + kerf);
}

interface Throttled {
  readonly curve: readonly PumpPoint[];
  readonly pipe: Pipe | null;
  readonly areaMm2: number;
  readonly perM: number;
  readonly atmospherePa: number;
  readonly holeMm2: number;
}

function throttledVacuumKpa(line: Throttled): number {
  let low = 0;
  let high = line.curve.reduce((most, point) => Math.max(most, point.flowM3h), 0);
  for (let halving = 0; halving < HALVINGS; halving++) {
    const flow = (low + high) / 2;
    const atPump = vacuumAtFlow(line.curve, flow) - pipeLossKpa(line.pipe, flow);
    if (plateFlowM3h(line, vacuumBehindBoardKpa(line, flow), atPump) >= flow) low = flow;
    else high = flow;
  }
  return vacuumBehindBoardKpa(line, low);
}

const HALVINGS = 60;

/** The vacuum that draws a flow through the board; that of empty space where none is enough. */
function vacuumBehindBoardKpa({ areaMm2, perM, atmospherePa }: Throttled, flowM3h: number): number {
  const perPa = porousFlowM3h(areaMm2, perM, atmospherePa / 1000, atmospherePa) / atmospherePa;
  const inside2 = atmospherePa * (atmospherePa - flowM3h / perPa);
  return (atmospherePa - Math.sqrt(Math.max(0, inside2))) / 1000;
}

/** Free air through the hole of the plate from the vacuum of the table to the deeper one of the pump. */
function plateFlowM3h({ holeMm2, atmospherePa }: Throttled, tableKpa: number, pumpKpa: number) {
  const { dischargeCoefficient, airGasConstant, shopTemperature } = CONSTANTS;
  const outer = atmospherePa - tableKpa * 1000;
  if (pumpKpa <= tableKpa || outer <= 0) return 0;
  const flux = nozzleFluxKgPerM2s(atmospherePa - pumpKpa * 1000, outer);
  const massKgPerS = dischargeCoefficient.value * holeMm2 * 1e-6 * flux;
  return ((massKgPerS * airGasConstant.value * shopTemperature.value) / atmospherePa) * 3600;
}

/** The deepest vacuum at which the pump still moves a flow; 0 for more than it can. The curve is ordered by rising vacuum. */
function vacuumAtFlow(curve: readonly PumpPoint[], flowM3h: number): number {
  for (let i = curve.length - 1; i >= 0; i--) {
    const from = curve[i] as PumpPoint;
    if (from.flowM3h < flowM3h) continue;
    const to = curve[i + 1];
    if (to === undefined || to.flowM3h === from.flowM3h) return (to ?? from).vacuumKpa;
    const share = (from.flowM3h - flowM3h) / (from.flowM3h - to.flowM3h);
    return from.vacuumKpa + share * (to.vacuumKpa - from.vacuumKpa);
  }
  return 0;
}

function discMm2(diameter: number): number {
  const radius = toMm(diameter) / 2;
  return Math.PI * radius * radius;
}
