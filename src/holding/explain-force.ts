/** From feed and speed to the force of the pass that frees the piece. */
import { counted } from '../model/format.ts';
import type { ReckoningLine } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { Router } from '../model/machine.ts';
import { toMm } from '../model/units.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';
import { usualFeed } from './cut-warnings.ts';
import type { PassForce, Push } from './cutting-force.ts';
import { amount, line } from './explain-numbers.ts';
import type { HeldThing } from './hold-sheet.ts';
import type { Setting } from './stand.ts';

export function forceLines(
  job: RouterJob,
  setting: Setting,
  { body, reckoned }: HeldThing,
): ReckoningLine[] {
  const { machine, material } = setting;
  const { pass } = reckoned.nominal;
  const { cutter } = machine;
  const family = FAMILY_CONSTANTS[material.family];
  const density = material.densityKgPerM3 / family.referenceDensityKgPerM3;
  const usual = usualFeed(machine, material.family, pass.depthMm, job.unit);
  const worn = cutter.worn ? ` x ${CONSTANTS.wornEdgeFactor.value} (worn)` : '';
  const thicknessMm = toMm(material.thickness);
  return [
    line(
      'Feed per tooth h',
      `${machine.feedMmPerMin} mm/min / (${machine.spindleRpm} rpm x ${counted(cutter.flutes, 'flute')}); usual is ${usual.low} to ${usual.high} ${job.unit} (common practice)`,
      amount(pass.feedMm, 4, 'mm'),
    ),
    line(
      'Depth of the pass b',
      depthText(machine, thicknessMm, pass, body.liftedMm),
      amount(pass.depthMm, 3, 'mm'),
    ),
    line(
      'Edge force ke',
      `${family.edgeNPerMm} N/mm x density ${density.toFixed(3)}${worn}`,
      amount(pass.edgeNPerMm, 3, 'N/mm'),
    ),
    line(
      'Shear force kc',
      `${family.shearNPerMm2} N/mm2 x density ${density.toFixed(3)}`,
      amount(pass.shearNPerMm2, 3, 'N/mm2'),
    ),
    ...chipLines(pass),
    line(
      'Tangential force Ft',
      'b (ke + kc h), the peak of one tooth',
      amount(pass.tangentialN, 2, 'N'),
    ),
    line(
      'Cutting force P',
      `Ft sqrt(1 + r^2), radial share r = ${pass.radialRatio}`,
      amount(pass.resultantN, 2, 'N'),
    ),
    line(
      'Pushes looked at',
      'tooth a degrees from the front, chip h cos a: across |Ft (cos a - r sin a)|, along |Ft (sin a + r cos a)|',
      pass.pushes.map(pushText).join('; '),
    ),
    line(
      'Lift L',
      `Ft tan(helix ${cutter.helixDeg}) for what the ${cutter.spiral} flutes lift less what they press; a press counts as 0`,
      amount(Math.max(0, pass.axialN), 2, 'N'),
    ),
  ];
}

/** In a cut of full width the chip is as thick as the feed per tooth. */
function chipLines({ kind, frontDeg, chipMm }: PassForce): ReckoningLine[] {
  if (kind !== 'finishing') return [];
  const formula = `feed per tooth x cos ${frontDeg.toFixed(1)}, where the tooth is deepest in`;
  return [line('Chip of the finishing cut h', formula, amount(chipMm, 4, 'mm'))];
}

/** Which pass comes nearest to moving the piece. */
function depthText(
  { lastPass, finish }: Router,
  thicknessMm: number,
  pass: PassForce,
  liftedMm: number,
): string {
  switch (pass.kind) {
    case 'freeing':
      return lastPass > 0 && pass.depthMm < thicknessMm
        ? 'kept for the last pass, which frees it'
        : `the pass that frees it: ${thicknessMm} mm in ${passesText(Math.round(thicknessMm / pass.depthMm))}`;
    case 'above':
      return liftedMm === 0
        ? `the passes above the last ${toMm(lastPass)} mm, which tie it meanwhile`
        : `the passes above the last ${toMm(lastPass)} mm, of which ${Math.max(0, toMm(lastPass) - liftedMm)} mm tie it, as it stands up by ${liftedMm} mm`;
    case 'finishing':
      return `the finishing cut: ${toMm(finish)} mm off the sides over the whole thickness`;
  }
}

function passesText(passes: number): string {
  return passes === 1 ? 'one pass' : `${passes} equal passes`;
}

function pushText({ deg, acrossN, alongN }: Push): string {
  return `a = ${deg}: ${acrossN.toFixed(1)} N across, ${alongN.toFixed(1)} N along`;
}
