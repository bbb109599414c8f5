/** From the air outside to the force that holds. */
import { counted } from '../model/format.ts';
import type { ReckoningLine } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { Seal } from '../model/machine.ts';
import type { Material } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import { leakM3h, openAreaMm2, openSlotMm2 } from './air.ts';
import { CONSTANTS } from './constants.ts';
import { fromPa, newtonToLbf } from './conversions.ts';
import { amount, line, power } from './explain-numbers.ts';
import { floorAirLines, floorLines } from './explain-pockets.ts';
import type { HeldThing } from './hold-sheet.ts';
import { gapFlowM3h } from './lifted.ts';
import { pipeLossKpa } from './pipe.ts';
import type { Setting } from './stand.ts';

export function airLines(job: RouterJob, setting: Setting, thing: HeldThing): ReckoningLine[] {
  return [
    ...sourceLines(job, setting),
    ...leakLines(job, setting),
    ...floorAirLines(setting, thing),
    ...vacuumLines(job, setting, thing),
    ...forceLines(job, setting, thing),
  ];
}

function sourceLines(job: RouterJob, { air }: Setting): ReckoningLine[] {
  const { table } = job;
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
      air.curve
        .map((p) => `${Number(p.flowM3h.toFixed(1))} m3/h at ${p.vacuumKpa.toFixed(2)} kPa`)
        .join(', '),
    ),
    ...pipeLines(air),
    ...placeLines(job),
  ];
}

function pipeLines({ pipe }: Setting['air']): ReckoningLine[] {
  if (pipe === null) return [];
  const at = 100;
  const formula =
    pipe.kind === 'measured'
      ? `read: ${pipe.lossKpa} kPa at ${Number(pipe.flowM3h.toFixed(1))} m3/h, with the square of the flow`
      : `(${CONSTANTS.pipeFriction.value} x ${toMm(pipe.length)} mm / ${toMm(pipe.bore)} mm + ${CONSTANTS.elbowLoss.value} x ${counted(pipe.elbows, 'elbow')}) x density x speed^2 / 2`;
  return [
    line('Loss in the pipe', formula, `${amount(pipeLossKpa(pipe, at), 2, 'kPa')} at ${at} m3/h`),
  ];
}

function placeLines({ table }: RouterJob): ReckoningLine[] {
  const shut = table.zones.filter((zone) => zone.shut).length;
  if (table.zones.length === 0 && table.masked.length === 0) return [];
  const zones = `${table.zones.length - shut} of ${Math.max(1, table.zones.length)} zones may be open`;
  const open = table.zones.length === 0 ? 'one zone' : zones;
  return [
    line(
      'Working table',
      'zones that are not shut and have sheet on them, less what is masked',
      `${open}, ${table.masked.length} places masked`,
    ),
  ];
}

function leakLines(job: RouterJob, setting: Setting): ReckoningLine[] {
  const { seal } = job.table;
  const lines = seal === null ? boardLines(job, setting) : sealLines(seal, setting);
  return [...lines, ...gapLines(setting)];
}

function sealLines(seal: Seal, { air, material }: Setting): ReckoningLine[] {
  return [
    line('Air goes', 'past the seals of the table', sealText(seal)),
    sheetLine(material, air),
    line(
      'Opening past the seals',
      `${air.slotMm2} mm2 as the table stands + ${air.slotPerKerfMm.toFixed(3)} mm2 a mm of open kerf`,
      'as a sharp-edged orifice',
    ),
  ];
}

function sealText(seal: Seal): string {
  if (seal.kind === 'pods')
    return `pods of ${toMm(seal.length)} × ${toMm(seal.width)} mm, up to ${seal.perPiece} under a piece`;
  const where = `${toMm(seal.inset)} mm inside its edge`;
  return seal.around === 'pieces'
    ? `a cord round each piece, ${where}`
    : `one cord round the sheet, ${where}, grooves over ${(seal.grooveShare * 100).toFixed(0)} %`;
}

function gapLines({ air }: Setting): ReckoningLine[] {
  const board = air.boardPerM.nominal;
  return air.gaps.map((gap) =>
    line(
      'Air under an edge that stands up',
      `${gap.lengthMm} mm long, ${gap.heightMm} mm high, ${gap.depthMm} mm deep, as between two plates${board > 0 ? ' and down into the board' : ''}`,
      `${amount(gapFlowM3h([gap], board, 10, air.atmospherePa), 1, 'm3/h')} at 10 kPa`,
    ),
  );
}

function sheetLine({ filmFaced, family, thickness }: Material, air: Setting['air']): ReckoningLine {
  return line(
    'Resistance of the sheet Rw',
    `${toMm(thickness)} mm of ${family}${filmFaced ? ', faced' : ''}`,
    power(air.sheetPerM, '1/m'),
  );
}

function boardLines({ machine, table }: RouterJob, { air, material }: Setting): ReckoningLine[] {
  const boardMm = toMm(table.spoilboard.thickness);
  const permeability = table.spoilboard.permeabilityM2.nominal;
  const cutterMm = toMm(machine.cutter.diameter);
  return [
    line(
      'Resistance of the spoilboard Rs',
      `thickness / permeability = ${boardMm} mm / ${permeability} m2`,
      power(air.boardPerM.nominal, '1/m'),
    ),
    sheetLine(material, air),
    line(
      'Leak width of a kerf',
      `2 t K(k) / K'(k) with k = tanh(pi w / 4 t), w = ${cutterMm} mm, t = ${boardMm} mm${widened(table)}`,
      amount(air.leakWidthMm, 2, 'mm'),
    ),
  ];
}

/** A board that lets more through along than across counts as a thicker one in the field beside a kerf. */
function widened({ spoilboard }: RouterJob['table']): string {
  return spoilboard.alongRatio === 1 ? '' : ` x sqrt(${spoilboard.alongRatio})`;
}

function vacuumLines({ unit }: RouterJob, { air }: Setting, thing: HeldThing): ReckoningLine[] {
  const { openKerfMm, nominal } = thing.reckoned;
  const { action, cutOrder } = thing.holding;
  const place = action === 'earlier' ? 'at its place on the shortest way' : `${cutOrder}`;
  const drive = `(pa^2 - (pa - v)^2) / (2 x ${CONSTANTS.airViscosity.value} Pa s x pa)`;
  const coveredM2 = (air.coveredMm2 / 1e6).toFixed(4);
  const under = `${air.gaps.length > 0 ? ' + what comes in under the edges' : ''}${air.floors.length > 0 ? ' + through floors' : ''}`;
  const leaks =
    air.seal === null
      ? `(A/Rs + ${coveredM2} m2/(Rs + Rw)) ${drive}${under}`
      : `orifice of O + ${coveredM2} m2/Rw ${drive}${under}`;
  const flow = leakM3h(air, openKerfMm, 'nominal', nominal.vacuumKpa).toFixed(1);
  const mercury = ` (${fromPa(nominal.vacuumKpa * 1000, 'inHg').toFixed(2)} inHg)`;
  return [
    line(
      'Open kerf',
      `when cut ${place} is done, shared kerfs once`,
      amount(openKerfMm / 1000, 3, 'm'),
    ),
    openLine(air, openKerfMm),
    line(
      'Vacuum v',
      `where the pump moves what leaks in: ${leaks} = ${flow} m3/h`,
      `${amount(nominal.vacuumKpa, 2, 'kPa')}${unit === 'in' ? mercury : ''}`,
    ),
  ];
}

function openLine(air: Setting['air'], openKerfMm: number): ReckoningLine {
  if (air.seal !== null) {
    const formula = 'the opening past the seals with this kerf open';
    return line('Opening O', formula, amount(openSlotMm2(air, openKerfMm), 1, 'mm2'));
  }
  return line(
    'Open area A',
    `bare table ${(air.bareMm2 / 1e6).toFixed(4)} m2 + open kerf x leak width, at most the table`,
    amount(openAreaMm2(air, openKerfMm) / 1e6, 4, 'm2'),
  );
}

/** How much of the piece the vacuum reaches, and with what share. */
function reachLines(
  { table }: RouterJob,
  { air }: Setting,
  { body, reckoned }: HeldThing,
): ReckoningLine[] {
  const held = amount(body.heldAreaMm2, 0, 'mm2');
  if (air.seal !== null) return [line('Held area', 'inside the seals, over a working table', held)];
  const board = `${toMm(table.spoilboard.thickness)} mm${widened(table)}`;
  const kerf = `a kerf of ${toMm(air.cutter)} mm over ${board}, pump at its deepest`;
  const off = air.within === null ? '' : ', over a working table only';
  return [
    line(
      'Border lost along each cut',
      `integral of the lost share of the vacuum beside ${kerf}`,
      amount(air.borderMm, 2, 'mm'),
    ),
    line('Held area', `the area less the lost border${off}`, held),
    line(
      'Share of the vacuum under the piece',
      'squared pressures divide as Rw to Rs: (pa - pi) / v with pi^2 = pa^2 - (pa^2 - (pa - v)^2) Rw / (Rw + Rs)',
      amount(reckoned.nominal.reachShare, 4, ''),
    ),
  ];
}

function forceLines(job: RouterJob, setting: Setting, thing: HeldThing): ReckoningLine[] {
  const { material } = setting;
  const { body } = thing;
  const { nominal } = thing.reckoned;
  const hasFloors = thing.floors.length > 0;
  const pounds = ` (${newtonToLbf(nominal.grip.forceN).toFixed(1)} lbf)`;
  return [
    line('Area of the piece', 'openings taken out', amount(body.areaMm2, 0, 'mm2')),
    ...reachLines(job, setting, thing),
    ...floorLines(setting, thing),
    line(
      'Weight',
      `${hasFloors ? '(area x thickness - W)' : 'area x thickness'} x ${material.densityKgPerM3} kg/m3 x ${CONSTANTS.gravity.value} m/s2`,
      amount(nominal.weightN, 2, 'N'),
    ),
    line(
      'Holding force F',
      hasFloors
        ? 'v x share x held area, under floors with their share, + weight'
        : 'v x share x held area + weight',
      `${amount(nominal.grip.forceN, 1, 'N')}${job.unit === 'in' ? pounds : ''}`,
    ),
  ];
}
