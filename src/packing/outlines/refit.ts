import { costOf, pricesOf } from '../priced.ts';
import type { Candidate, PackedSheet } from '../task.ts';
import { type Construction, construct } from './construct.ts';
import type { Setup } from './setup.ts';

/**
 * Puts the bodies of a sheet on a cheaper one where they fit there as a whole, sheet by sheet.
 *
 * Idea: searches shift bodies between the sheets that were opened, and may leave one with so little on it that a smaller stock would do.
 * Cost: one construction for each sheet and cheaper stock. Only matters where sheets are of several stocks that count differently.
 */
export function refit(tools: Construction, candidate: Candidate): Candidate {
  const sheets = [...candidate.sheets];
  for (const [i, sheet] of candidate.sheets.entries()) {
    const cheaper = cheaperStocks(tools.setup, sheets, i).map((stock) =>
      movedTo(tools, sheet, stock),
    );
    sheets[i] = cheaper.find((moved) => moved !== null) ?? sheet;
  }
  return { ...candidate, sheets };
}

/** The stocks with a sheet to spare with which all sheets together cost less, the cheapest first. */
function cheaperStocks(
  { task }: Setup,
  sheets: readonly PackedSheet[],
  changed: number,
): readonly number[] {
  const prices = pricesOf(task);
  const others = sheets.filter((_, i) => i !== changed);
  const cost = (stock: number) => costOf(prices, [...others, { stock }]);
  const now = costOf(prices, sheets);
  const spare = (stock: number) => {
    const used = sheets.filter((sheet) => sheet.stock === stock).length;
    return (task.stocks[stock]?.onHand ?? Number.POSITIVE_INFINITY) - used;
  };
  return [...task.stocks.keys()]
    .filter((stock) => cost(stock) < now && spare(stock) > 0)
    .sort((a, b) => cost(a) - cost(b) || a - b);
}

function movedTo(tools: Construction, { spots }: PackedSheet, stock: number): PackedSheet | null {
  const held = tools.setup.task.bodies.map(() => -1);
  const order = [...spots].sort((a, b) => a.x - b.x || a.y - b.y).map(({ body }) => body);
  const { sheets, unplaced } = construct(tools, { order, held, stocks: [[stock]] });
  const [only, ...others] = sheets;
  return unplaced.length === 0 && others.length === 0 ? (only ?? null) : null;
}
