/** From the forces to the safety factors. */
import type { ReckoningLine } from '../model/holding.ts';
import { CONSTANTS } from './constants.ts';
import { amount, line } from './explain-numbers.ts';
import type { HeldThing } from './hold-sheet.ts';
import { downMoment, mostWrench, worstTip, worstTurn } from './margins.ts';

export function marginLines({ body, reckoned }: HeldThing): ReckoningLine[] {
  const { nominal, low } = reckoned;
  const { grip, load, margins } = nominal;
  const most = mostWrench(body, grip, load);
  const { push, arm, wrench } = worstTurn(body, load, most);
  const { tip } = worstTip(body.tips, load, downMoment(grip));
  return [
    line('Most push S', `friction ${grip.friction} x (F - L)`, amount(most.forceN, 1, 'N')),
    line('Margin against sliding', 'S / P', margins.slide.toFixed(2)),
    line(
      'Mean distance of the held area from its centre',
      'integral of the distance over the area / area',
      amount(body.meanRadiusMm, 2, 'mm'),
    ),
    line('Most moment T', 'S x mean distance', amount(most.momentNmm / 1000, 3, 'N m')),
    line(
      'Worst moment M',
      `push across ${amount(push.acrossN, 1, 'N')} x ${amount(arm.alongMm, 2, 'mm')} along the cut + push along ${amount(push.alongN, 1, 'N')} x ${amount(arm.acrossMm, 2, 'mm')} across it`,
      amount(wrench.momentNmm / 1000, 3, 'N m'),
    ),
    line('Push with it Q', 'sqrt(across^2 + along^2)', amount(wrench.forceN, 1, 'N')),
    line('Margin against twisting', '1 / sqrt((Q/S)^2 + (M/T)^2)', margins.turn.toFixed(2)),
    line(
      'Margin against lifting and tipping',
      `F c / (P b/2 + L e) over the worst side: c = ${amount(tip.centreMm, 2, 'mm')} from the centre, e = ${amount(tip.cutMm, 2, 'mm')} from the farthest cut`,
      margins.tip.toFixed(2),
    ),
    line('Margin', 'the smallest of the three', margins.least.toFixed(2)),
    line(
      'Margin at the low end',
      `the same with P and L x ${1 + CONSTANTS.forceBand.value}, friction ${low.grip.friction}, vacuum ${amount(low.vacuumKpa, 2, 'kPa')}, F ${amount(low.grip.forceN, 1, 'N')}`,
      low.margins.least.toFixed(2),
    ),
  ];
}
