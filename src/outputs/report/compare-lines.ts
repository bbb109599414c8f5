import type { Job } from '../../model/job.ts';
import { type Compared, comparePlans, type Figures, type NamedPlan } from './compare.ts';
import { type CompareRow, compareRows, OTHER } from './compare-rows.ts';
import { broken, type Line, WIDTH, wrap } from './line.ts';

const MOST_LABEL = 24;
const MOST_NAME = 24;
const GAP = '  ';

/** The plans side by side, at most 80 columns wide: where there are more than fit, in blocks that each begin with the first plan. */
export function compareLines(plans: readonly NamedPlan[], job: Job): readonly Line[] {
  const compared = comparePlans(plans);
  const rows = compareRows(compared, job.currency);
  const labels = padded([job.name, ...rows.map(({ label }) => label)], MOST_LABEL, 'left');
  const columns = compared.map(({ name }, i) =>
    padded([name, ...rows.map(({ cells }) => cells[i]!)], MOST_NAME, 'right'),
  );
  const blocks = blocksOf(labels, columns);
  const isMarked = rows.some(isOther);
  const others = isMarked ? `; ${OTHER} differs from it otherwise` : '';
  const legend = `In brackets: more (+) or less (-) than "${compared[0]?.name ?? ''}", yields in points${others}.`;
  return [
    ...blocks.flatMap((block, i): Line[] => [
      ...(i === 0 ? [] : [{ tone: 'plain' as const, text: '' }]),
      ...labels.flatMap((_, k) =>
        rowLines(block, k).map((text): Line => ({ tone: k === 0 ? 'heading' : 'plain', text })),
      ),
    ]),
    ...(compared.length < 2 ? [] : wrap('quiet', legend)),
    ...unknownLines(compared),
    ...openLines(compared),
  ];
}

/** Why a price is not known, plans that lack the same together. */
function unknownLines(compared: readonly Compared[]): readonly Line[] {
  const planned = compared.flatMap(({ name, figures }) =>
    figures === null ? [] : [{ name, ...figures }],
  );
  const bare = planned.filter(({ isMaterialOnly }) => isMaterialOnly);
  const reasons = new Map<string, string[]>();
  for (const { name, unknown } of planned)
    for (const reason of unknown) reasons.set(reason, [...(reasons.get(reason) ?? []), name]);
  const whose = (names: readonly string[]) =>
    names.length === planned.length ? '' : ` (${names.join(', ')})`;
  return [
    ...(bare.length === 0
      ? []
      : wrap(
          'quiet',
          `No price of the job${whose(bare.map(({ name }) => name))}: without costs only the stock is priced.`,
          '  ',
        )),
    ...[...reasons].flatMap(([reason, names]) =>
      wrap('bad', `Price not known${whose(names)}: ${reason}.`, '  '),
    ),
  ];
}

/** What is missing, and what another run may find otherwise. */
function openLines(compared: readonly Compared[]): readonly Line[] {
  const namesOf = (isIt: (figures: Figures | null) => boolean) =>
    compared.filter(({ figures }) => isIt(figures)).map(({ name }) => name);
  const missing = namesOf((figures) => figures === null);
  const stopped = namesOf((figures) => figures !== null && figures.stopped !== null);
  return [
    ...(missing.length === 0 ? [] : wrap('bad', `Not planned: ${missing.join(', ')}.`)),
    ...(stopped.length === 0
      ? []
      : wrap(
          'care',
          `The search was stopped, another run may end elsewhere: ${stopped.join(', ')}.`,
        )),
  ];
}

function isOther({ cells }: CompareRow): boolean {
  return cells.some((cell) => cell.endsWith(OTHER));
}

/** Each text in lines that are all as wide as the widest of the column. */
type Column = readonly (readonly string[])[];

/** Columns that stand beside the labels and the first one as long as they fit; never none. */
function blocksOf(
  labels: Column,
  [base = [], ...others]: readonly Column[],
): readonly (readonly Column[])[] {
  const start = widthOf(labels) + GAP.length + widthOf(base);
  const blocks: Column[][] = [[labels, base]];
  let used = start;
  for (const column of others) {
    const more = GAP.length + widthOf(column);
    if (WIDTH < used + more && blocks.at(-1)!.length > 2) {
      blocks.push([labels, base]);
      used = start;
    }
    blocks.at(-1)!.push(column);
    used += more;
  }
  return blocks;
}

function widthOf(column: Column): number {
  return [...(column[0]?.[0] ?? '')].length;
}

/** One row of a block; what is too long for its column goes on below. */
function rowLines(block: readonly Column[], row: number): readonly string[] {
  const height = Math.max(...block.map((column) => column[row]!.length));
  return Array.from({ length: height }, (_, i) =>
    block
      .map((column) => column[row]![i] ?? ' '.repeat(widthOf(column)))
      .join(GAP)
      .trimEnd(),
  );
}

function padded(texts: readonly string[], most: number, side: 'left' | 'right'): Column {
  const parts = texts.map((text) => broken(text, most, side === 'left' ? '  ' : ''));
  const width = Math.max(...parts.flat().map((text) => [...text].length));
  return parts.map((lines) =>
    lines.map((text) => {
      const pad = ' '.repeat(width - [...text].length);
      return side === 'left' ? text + pad : pad + text;
    }),
  );
}
