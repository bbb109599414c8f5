import { adviceOf, type Holding, type ReckoningLine } from '../../model/holding.ts';
import type { Plan } from '../../model/plan.ts';
import { looseName } from '../care.ts';
import { ADVICE_WORDS, adviceSentence, CAUTIONS, orderSentence } from '../wording.ts';
import { type Line, wrap } from './line.ts';

/** A piece's reckoning step by step, then the verdict and what to do. */
export function explanation(
  plan: Plan,
  piece: number,
  reckoning: readonly ReckoningLine[],
): readonly Line[] {
  const isIt = (each: Holding) => each.kind === 'piece' && each.piece === piece;
  const sheet = plan.holding.find((each) => each.loose.some(isIt));
  const loose = sheet?.loose.find(isIt);
  if (sheet === undefined || loose === undefined) return [];
  return [
    ...wrap(
      'heading',
      `${looseName(plan, loose)} on sheet ${loose.sheet}, cut ${loose.cutOrder} of its sheet`,
    ),
    { tone: 'plain', text: '' },
    ...reckoning.flatMap(reckoningLines),
    { tone: 'plain', text: '' },
    ...verdictLines(loose),
    ...(loose.verdictAfter !== 'stays' && reckoning.some(isWayOut)
      ? wrap('plain', 'With another setting it stays by itself: see What if, above.')
      : []),
    ...wrap('plain', orderSentence(sheet, plan.job.unit) ?? ''),
    { tone: 'plain', text: '' },
    ...CAUTIONS.slice(0, 1).flatMap((caution) => wrap('quiet', caution)),
  ];
}

/** A change of settings with which the piece stays. */
function isWayOut({ quantity, value }: ReckoningLine): boolean {
  return quantity.startsWith('What if ') && value.endsWith(': stays');
}

function reckoningLines({ quantity, formula, value }: ReckoningLine): readonly Line[] {
  const head = `${quantity} = ${value}`;
  return [
    ...wrap('plain', head, '    '),
    ...(formula === '' ? [] : wrap('quiet', formula, '      ', '    ')),
  ];
}

function verdictLines(loose: Holding): readonly Line[] {
  const advice = adviceOf(loose);
  const tone = loose.verdict === 'stays' ? 'good' : loose.verdict === 'marginal' ? 'care' : 'bad';
  return [
    ...wrap(
      tone,
      `Verdict: ${loose.verdict}, margin ${loose.margin.toFixed(2)}, at the low end ${loose.marginLow.toFixed(2)}.`,
    ),
    ...wrap('plain', loose.why),
    ...(advice === loose.action
      ? wrap('plain', `Do: ${advice}. ${adviceSentence(advice)}`)
      : wrap(tone, `In this run: ${ADVICE_WORDS[advice]}.`)),
  ];
}
