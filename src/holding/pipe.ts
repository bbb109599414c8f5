/**
 * What the pipe between pump and table takes of the vacuum.
 *
 * The loss grows with the square of the flow. It is either scaled from one that was read, or follows from the measures:
 * friction along the wall and so many dynamic pressures an elbow.
 * Source: Darcy-Weisbach equation; friction factor and elbows from memory.
 * Where we differ: the air is taken as dense as outside, so at deep vacuum the loss is reckoned too small by the ratio
 * of the pressures; at such a vacuum hardly any air flows.
 */
import type { Pipe } from '../model/machine.ts';
import { toMm } from '../model/units.ts';
import { CONSTANTS } from './constants.ts';

/** In kPa at a flow of free air. */
export function pipeLossKpa(pipe: Pipe | null, flowM3h: number): number {
  if (pipe === null) return 0;
  if (pipe.kind === 'measured') return pipe.lossKpa * (flowM3h / pipe.flowM3h) ** 2;
  const { airDensity, pipeFriction, elbowLoss } = CONSTANTS;
  const boreM = toMm(pipe.bore) / 1000;
  const speed = flowM3h / 3600 / ((Math.PI * boreM * boreM) / 4);
  const dynamicPa = (airDensity.value * speed * speed) / 2;
  const wall = (pipeFriction.value * toMm(pipe.length)) / toMm(pipe.bore);
  return (dynamicPa * (wall + elbowLoss.value * pipe.elbows)) / 1000;
}
