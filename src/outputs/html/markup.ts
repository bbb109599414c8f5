import { escapeMarkup } from '../escape.ts';

/** Text that is known to be HTML; anything else is escaped before it stands in a page. */
export interface Markup {
  readonly markup: string;
}

type Filling = string | number | Markup | readonly Markup[];

/** HTML with its fillings: texts and numbers escaped, for elements and quoted attributes alike; markup as it is. */
export function markup(strings: TemplateStringsArray, ...fillings: readonly Filling[]): Markup {
  const rest = fillings.map((filling, i) => `${filled(filling)}${strings[i + 1]}`);
  return { markup: `${strings[0]}${rest.join('')}` };
}

/** Only for what other code of ours has made, such as a drawing. */
export function trusted(text: string): Markup {
  return { markup: text };
}

export const NOTHING: Markup = { markup: '' };

function filled(filling: Filling): string {
  if (typeof filling === 'string') return escapeMarkup(filling);
  if (typeof filling === 'number') return `${filling}`;
  if ('markup' in filling) return filling.markup;
  return filling.map((each) => each.markup).join('');
}
