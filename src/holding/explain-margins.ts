/** From the forces to the safety factors. */
import type { ReckoningLine } from '../model/holding.ts';
import { CONSTANTS } from './constants.ts';
import { amount, line } from './explain-numbers.ts';
import type { HeldThing } from './hold-sheet.ts';
import { type CutPush, downMoment, holdOf, worstTip, worstTurn } from './margins.ts';
import { type Hold, holdAboutNmm, momentAboutNmm, type Turning } from './turning.ts';

export function marginLines({ body, reckoned }: HeldThing): ReckoningLine[] {
  const { nominal, low } = reckoned;
  const { grip, load, margins } = nominal;
  const hold = holdOf(grip, load);
  const turning = worstTurn(body, hold, load);
  const { tip } = worstTip(body.tips, load, downMoment(grip));
  return [
    line('Most push S', `friction ${grip.friction} x (F - L)`, amount(hold.frictionN, 1, 'N')),
    line('Margin against sliding', 'S / P', margins.slide.toFixed(2)),
    ...turningLines(turning, hold),
    line(
      'Margin against twisting',
      turning.about === null ? 'as against sliding: it slides before it turns' : 'T / M',
      margins.turn.toFixed(2),
    ),
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

/** About the point where a push comes nearest to turning the thing. */
function turningLines({ push: at, about }: Turning<CutPush>, hold: Hold): ReckoningLine[] {
  const { push, cut } = at;
  const pushN = Math.sqrt(push.acrossN ** 2 + push.alongN ** 2);
  const pushLine = line(
    'Push Q that turns it first',
    `root of the squares of ${amount(push.acrossN, 1, 'N')} across the cut and ${amount(push.alongN, 1, 'N')} along it`,
    amount(pushN, 1, 'N'),
  );
  if (about === null) return [pushLine];
  const awayMm = Math.sqrt(about.xMm ** 2 + about.yMm ** 2);
  const momentNmm = Math.abs(momentAboutNmm(about, at));
  return [
    line(
      'Point it turns about first',
      'search; distance from the centre of pressure',
      amount(awayMm, 2, 'mm'),
    ),
    line(
      'Mean distance r of the held area from it',
      'integral of the distance over the area / area',
      amount(about.meanMm, 2, 'mm'),
    ),
    line('Most moment T', 'S x r', amount(holdAboutNmm(about, hold) / 1000, 3, 'N m')),
    pushLine,
    line(
      'Distance d of its line from that point',
      `cut point ${amount(cut.alongMm, 2, 'mm')} along the cut and ${amount(cut.acrossMm, 2, 'mm')} across it from the centre of pressure`,
      amount(momentNmm / pushN, 2, 'mm'),
    ),
    line('Moment M', 'Q x d', amount(momentNmm / 1000, 3, 'N m')),
  ];
}
