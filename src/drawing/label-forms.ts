import type { Holding } from '../model/holding.ts';
import type { Alert } from './marks.ts';
import { LETTERS, type StyleName } from './styles.ts';
import { fitText } from './text.ts';

/** What a label has to say; null where there is nothing of the kind. */
export interface LabelFacts {
  readonly order: string;
  readonly kind: Holding['kind'];
  readonly name: string;
  readonly count: string | null;
  readonly size: string | null;
  readonly action: Holding['action'];
  readonly alert: Alert | null;
  readonly setTag: string | null;
  readonly grain: 'x' | 'y' | null;
}

/** One thing in a row of a label. */
export type Mark =
  | { readonly kind: 'order' | 'sign' | 'alert' | 'small-alert' | 'tag' | 'arrow' }
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly size: number;
      readonly style: StyleName;
    };

/** Rows of marks from the top down, each centred. */
export type Form = readonly (readonly Mark[])[];

/** A form that is taken at a scale of `least` or more, and drawn at `most` or less. */
interface LesserForm {
  readonly form: Form;
  readonly least: number;
  readonly most: number;
}

/** Least share of its full size at which a label with words, and one of signs and a number, is taken. */
export const LEGIBLE = 0.72;
const BARE = { least: 0.62, most: 0.8 };

/** The forms that say all, and those that leave something out, down to a bare number. */
export function labelForms(facts: LabelFacts): {
  readonly full: readonly Form[];
  readonly lesser: readonly LesserForm[];
} {
  const order: Mark = { kind: 'order' };
  const signs: Mark[] = [];
  if (facts.action !== 'none') signs.push({ kind: 'sign' });
  if (facts.alert !== null) signs.push({ kind: 'alert' });
  const tag: Mark[] = facts.setTag === null ? [] : [{ kind: 'tag' }];
  const arrow: Mark[] = facts.grain === null ? [] : [{ kind: 'arrow' }];
  const size: Mark[] = facts.size === null ? [] : [textMark(facts.size, LETTERS.size, 'text-soft')];
  const full = textMark(withCount(facts.name, facts.count), LETTERS.name, 'text');
  const marks = [order, ...signs, ...tag];
  const forms: Form[] = [
    [
      [...marks, full],
      [...size, ...arrow],
    ],
    [[...marks, full, ...size, ...arrow]],
    [marks, [full], [...size, ...arrow]],
    [marks, [full], size, arrow],
    [[...marks, ...arrow], [full]],
  ];
  const shorter: Form[] = [14, 9, 5].flatMap((ems) => {
    const short = shortName(facts, ems);
    return [
      [
        [...marks, ...short],
        [...size, ...arrow],
      ],
      [[...marks, ...short, ...arrow]],
      [marks, short, [...size, ...arrow]],
      [marks, short, size, arrow],
      [[...marks, ...arrow], short],
    ];
  });
  const bare: Form[] = [
    [[...marks, ...arrow]],
    [marks, arrow],
    [[order, ...signs]],
    [[order], signs],
    // A piece that may move is nowhere without its triangle.
    ...(facts.alert === null ? [[[order]]] : []),
    numberForm(facts),
  ];
  return {
    full: forms.map(compact),
    lesser: [
      ...shorter.map((form) => ({ form: compact(form), least: LEGIBLE, most: 1 })),
      ...bare.map((form) => ({ form: compact(form), ...BARE })),
    ],
  };
}

/** Nothing but the place in the cutting order, the key to the table, and the triangle. */
export function numberForm({ order, alert }: LabelFacts): Form {
  const sign: Mark[] = alert === null ? [] : [{ kind: 'small-alert' }];
  return [[textMark(order, LETTERS.table, 'text'), ...sign]];
}

function textMark(text: string, size: number, style: StyleName): Mark {
  return { kind: 'text', text, size, style };
}

function withCount(name: string, count: string | null): string {
  return count === null ? name : `${name} ${count}`;
}

function shortName({ name, count }: LabelFacts, ems: number): Mark[] {
  const fitted = fitText(name, 1, 1, ems);
  return fitted === null
    ? []
    : [textMark(withCount(fitted.text, count), LETTERS.name * 0.9, 'text')];
}

function compact(form: Form): Form {
  return form.filter((row) => row.length > 0);
}
