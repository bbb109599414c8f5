import { formatShare } from '../model/format.ts';
import type { Plan } from '../model/plan.ts';
import type { Yield } from '../model/yield.ts';

/**
 * What stands beside the yield of the job: the yield on what is used up where offcuts are kept, and the yields of the
 * materials where there are several. Null where there is nothing to add.
 */
export function yieldSentence({ job, costs: { yields } }: Plan): string | null {
  const kept = (['sheets', 'boards'] as const).flatMap((kind) => {
    const all = yields.job[kind];
    if (all === null || all.amounts.offcuts === 0) return [];
    const of = yields.job.sheets !== null && yields.job.boards !== null ? ` of the ${kind}` : '';
    return [`${formatShare(all.onUsed)}${of}`];
  });
  const materials = job.materials.flatMap(({ name, index }) =>
    (['sheets', 'boards'] as const).flatMap((kind) => {
      const own = yields.materials[index]![kind];
      return own === null ? [] : [`${name}${kind === 'boards' ? ' boards' : ''} ${both(own)}`];
    }),
  );
  const sentences = [
    ...(kept.length === 0 ? [] : [`Less the offcuts kept, the yield is ${kept.join(' and ')}.`]),
    ...(materials.length < 2
      ? []
      : [
          `Yield by material${kept.length === 0 ? '' : ' (less the offcuts kept)'}: ${materials.join(', ')}.`,
        ]),
  ];
  return sentences.length === 0 ? null : sentences.join(' ');
}

/** On purchase, then on what is used up where that differs. */
function both({ onPurchase, onUsed, amounts }: Yield): string {
  const bought = formatShare(onPurchase);
  return amounts.offcuts === 0 ? bought : `${bought} (${formatShare(onUsed)})`;
}
