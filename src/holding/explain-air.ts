/** From the air outside to the force that holds. */
import type { ReckoningLine } from '../model/holding.ts';
import type { Job } from '../model/job.ts';
import { toMm } from '../model/units.ts';
import { openAreaMm2 } from './air.ts';
import { CONSTANTS } from './constants.ts';
import { fromPa, newtonToLbf } from './conversions.ts';
import { amount, line, power } from './explain-numbers.ts';
import type { HeldThing } from './hold-sheet.ts';
import { pumpFlowM3h } from './pump.ts';
import type { Setting } from './stand.ts';

export function airLines(job: Job, setting: Setting, thing: HeldThing): ReckoningLine[] {
  return [
    ...sourceLines(job, setting),
    ...leakLines(job, setting),
    ...vacuumLines(job, setting, thing),
    ...forceLines(job, setting, thing),
  ];
}

function sourceLines({ table }: Job, { air }: Setting): ReckoningLine[] {
  const share = air.atmospherePa / CONSTANTS.seaLevelPressure.value;
  return [
    line(
      'Air pressure pa',
      `standard atmosphere at ${table.altitudeM} m`,
      amount(air.atmospherePa / 1000, 3, 'kPa'),
    ),
    line(
      'Pump',
      `${table.pump.kind}, free air at each vacuum; vacuums times ${share.toFixed(4)} for the altitude`,
      air.curve.map((p) => `${p.flowM3h} m3/h at ${p.vacuumKpa.toFixed(2)} kPa`).join(', '),
    ),
  ];
}

function leakLines({ machine, table }: Job, { air, material }: Setting): ReckoningLine[] {
  const boardMm = toMm(table.spoilboard.thickness);
  const permeability = table.spoilboard.permeabilityM2.nominal;
  const cutterMm = toMm(machine.cutter.diameter);
  const faced = material.filmFaced ? ', faced' : '';
  return [
    line(
      'Resistance of the spoilboard Rs',
      `thickness / permeability = ${boardMm} mm / ${permeability} m2`,
      power(air.boardPerM.nominal, '1/m'),
    ),
    line(
      'Resistance of the sheet Rw',
      `${toMm(material.thickness)} mm of ${material.family}${faced}`,
      power(air.sheetPerM, '1/m'),
    ),
    line(
      'Leak width of a kerf',
      `2 t K(k) / K'(k) with k = tanh(pi w / 4 t), w = ${cutterMm} mm, t = ${boardMm} mm`,
      amount(air.leakWidthMm, 2, 'mm'),
    ),
  ];
}

function vacuumLines({ unit }: Job, { air }: Setting, thing: HeldThing): ReckoningLine[] {
  const { openKerfMm, nominal } = thing.reckoned;
  const { action, cutOrder } = thing.holding;
  const place = action === 'earlier' ? 'at its place on the shortest way' : `${cutOrder}`;
  const covered = `${(air.coveredMm2 / 1e6).toFixed(4)} m2/(Rs + Rw)`;
  const drive = `(pa^2 - (pa - v)^2) / (2 x ${CONSTANTS.airViscosity.value} Pa s x pa)`;
  const flow = pumpFlowM3h(air.curve, nominal.vacuumKpa).toFixed(1);
  const mercury = ` (${fromPa(nominal.vacuumKpa * 1000, 'inHg').toFixed(2)} inHg)`;
  return [
    line(
      'Open kerf',
      `when cut ${place} is done, shared kerfs once`,
      amount(openKerfMm / 1000, 3, 'm'),
    ),
    line(
      'Open area A',
      `bare table ${(air.bareMm2 / 1e6).toFixed(4)} m2 + open kerf x leak width, at most the table`,
      amount(openAreaMm2(air, openKerfMm) / 1e6, 4, 'm2'),
    ),
    line(
      'Vacuum v',
      `where the pump moves what leaks in: (A/Rs + ${covered}) ${drive} = ${flow} m3/h`,
      `${amount(nominal.vacuumKpa, 2, 'kPa')}${unit === 'in' ? mercury : ''}`,
    ),
  ];
}

function forceLines({ table, unit }: Job, setting: Setting, thing: HeldThing): ReckoningLine[] {
  const { air, material } = setting;
  const { body } = thing;
  const { nominal } = thing.reckoned;
  const pounds = ` (${newtonToLbf(nominal.grip.forceN).toFixed(1)} lbf)`;
  return [
    line(
      'Border lost along each cut',
      `(2 ln 2 / pi) t = ${CONSTANTS.borderLoss.value.toFixed(4)} x ${toMm(table.spoilboard.thickness)} mm`,
      amount(air.borderMm, 2, 'mm'),
    ),
    line('Area of the piece', 'openings taken out', amount(body.areaMm2, 0, 'mm2')),
    line('Held area', 'the same less the lost border', amount(body.heldAreaMm2, 0, 'mm2')),
    line(
      'Share of the vacuum under the piece',
      'Rw / (Rw + Rs)',
      amount(nominal.reachShare, 4, ''),
    ),
    line(
      'Weight',
      `area x thickness x ${material.densityKgPerM3} kg/m3 x ${CONSTANTS.gravity.value} m/s2`,
      amount(nominal.weightN, 2, 'N'),
    ),
    line(
      'Holding force F',
      'v x share x held area + weight',
      `${amount(nominal.grip.forceN, 1, 'N')}${unit === 'in' ? pounds : ''}`,
    ),
  ];
}
