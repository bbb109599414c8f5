import { formatMoney, formatTenths } from '../../model/format.ts';
import type { Job } from '../../model/job.ts';
import type { Compared, ComparedStatus, Figures } from './compare.ts';

/** One line of the comparison: a figure of each plan, with how it differs from that of the first. */
export interface CompareRow {
  readonly label: string;
  readonly cells: readonly string[];
}

/** A figure in whole steps of what is printed, so that a difference is that of the printed figures. */
interface Figure {
  readonly label: string;
  /** Null where it is not known. */
  readonly value: (figures: Figures) => number | null;
  readonly text: (value: number) => string;
  /** A difference, not negative, without its sign. */
  readonly difference: (value: number) => string;
  /** In place of a figure that is not known. */
  readonly unknown: string;
}

/** Marks what differs from the first plan where no difference can be written. */
export const OTHER = '*';

const NOTHING = '–';
const STATUS_WORDS: Readonly<Record<ComparedStatus, string>> = {
  proved: 'proved',
  limit: 'not proved',
  impossible: 'too little stock',
};

/** Rows of which no plan has anything are left out. */
export function compareRows(
  compared: readonly Compared[],
  currency: Job['currency'],
): readonly CompareRow[] {
  const base = compared[0]?.figures ?? null;
  const rows = figureList(compared, currency).map((figure) => ({
    label: figure.label,
    cells: compared.map(({ figures }, i) => cellOf(figure, figures, i === 0 ? null : base)),
  }));
  const proofs = compared.map(({ figures }) => {
    if (figures === null) return NOTHING;
    const isOther = base !== null && base.status !== figures.status;
    return `${STATUS_WORDS[figures.status]}${isOther ? ` ${OTHER}` : ''}`;
  });
  return [...rows, { label: 'proof', cells: proofs }];
}

function cellOf(figure: Figure, figures: Figures | null, base: Figures | null): string {
  if (figures === null) return NOTHING;
  const value = figure.value(figures);
  const text = value === null ? figure.unknown : figure.text(value);
  const before = base === null ? value : figure.value(base);
  if (value === before) return text;
  if (value === null || before === null) return `${text} ${OTHER}`;
  return `${text} (${value < before ? '-' : '+'}${figure.difference(Math.abs(value - before))})`;
}

function figureList(compared: readonly Compared[], currency: Job['currency']): readonly Figure[] {
  const isAny = ({ value }: Figure) =>
    compared.some(({ figures }) => figures !== null && (value(figures) ?? 0) > 0);
  const minutes = (seconds: number | null) =>
    seconds === null ? null : Math.max(1, Math.round(seconds / 60));
  const minutesOrNone = (seconds: number | null) => (seconds === 0 ? 0 : minutes(seconds));
  const hasMoreAtBench = compared.some(
    ({ figures }) =>
      figures !== null && minutesOrNone(figures.benchS ?? 0) !== minutesOrNone(figures.handTimeS),
  );
  const figures = [
    ...countsOf('sheets', compared),
    ...countsOf('boards', compared),
    money(COST, ({ totalCents }) => totalCents, currency),
    money('price of the job', ({ priceCents }) => priceCents, currency),
    share('yield on purchase', ({ yieldShare }) => yieldShare),
    share('yield on area used', ({ usedYieldShare }) => usedYieldShare),
    share('yield of boards', ({ boardYieldShare }) => boardYieldShare),
    count('pieces that move', ({ moving }) => moving, 'no vacuum'),
    count('pieces marginal', ({ marginal }) => marginal, 'no vacuum'),
    count('cutting, minutes', ({ cutTimeS }) => minutes(cutTimeS)),
    count('by hand, minutes', ({ handTimeS }) => minutesOrNone(handTimeS)),
    count('machine, minutes', ({ machineS }) => minutes(machineS)),
    ...(hasMoreAtBench ? [count('bench, minutes', ({ benchS }) => minutesOrNone(benchS))] : []),
    count('pieces left over', ({ unplaced }) => unplaced),
  ];
  return figures.filter((figure) => ALWAYS.includes(figure.label) || isAny(figure));
}

const COST = 'cost of material';

/** A cost that is not known has to be said, and so has that no piece moves. */
const ALWAYS: readonly string[] = [COST, 'pieces that move', 'pieces marginal'];

/** In all, and of each material where several are cut from this kind of stock. */
function countsOf(kind: 'sheets' | 'boards', compared: readonly Compared[]): readonly Figure[] {
  const names = new Map(
    compared
      .flatMap(({ figures }) => figures?.materials ?? [])
      .filter((material) => material[kind] > 0)
      .map(({ material, name }) => [material, name]),
  );
  const own = [...names].map(([id, name]) =>
    count(`- ${name}`, ({ materials }) => {
      const material = materials.find((each) => each.material === id);
      return material === undefined ? 0 : material[kind];
    }),
  );
  return [count(kind, (figures) => figures[kind]), ...(own.length < 2 ? [] : own)];
}

function count(label: string, value: Figure['value'], unknown = 'not known'): Figure {
  return { label, value, text: String, difference: String, unknown };
}

/** In tenths of a per cent; the difference is in points. */
function share(label: string, value: Figure['value']): Figure {
  return {
    label,
    value: (figures) => {
      const part = value(figures);
      return part === null ? null : Math.round(part * 1000);
    },
    text: formatTenths,
    difference: (tenths) => (tenths / 10).toFixed(1),
    unknown: NOTHING,
  };
}

function money(label: string, value: Figure['value'], currency: Job['currency']): Figure {
  return {
    label,
    value,
    text: (cents) => formatMoney(cents, currency),
    difference: (cents) => formatMoney(cents, { ...currency, code: '' }).trim(),
    unknown: 'not known',
  };
}
