import type { Job } from '../../model/job.ts';
import { type Compared, comparePlans, type Figures, type NamedPlan } from './compare.ts';
import { type CompareRow, compareRows, OTHER } from './compare-rows.ts';
import { type Line, shorten, WIDTH, wrap } from './line.ts';

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
  const blocks = blocksOf(labels, columns).map((block) =>
    labels.map((_, i) =>
      block
        .map((column) => column[i]!)
        .join(GAP)
        .trimEnd(),
    ),
  );
  const isMarked = rows.some(isOther);
  const others = isMarked ? `; ${OTHER} differs from it otherwise` : '';
  const legend = `In brackets: more (+) or less (-) than "${compared[0]?.name ?? ''}", yields in points${others}.`;
  return [
    ...blocks.flatMap((lines, i): Line[] => [
      ...(i === 0 ? [] : [{ tone: 'plain' as const, text: '' }]),
      ...lines.map((text, k): Line => ({ tone: k === 0 ? 'heading' : 'plain', text })),
    ]),
    ...(compared.length < 2 ? [] : wrap('quiet', legend)),
    ...openLines(compared),
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

/** Columns that stand beside the labels and the first one as long as they fit; never none. */
function blocksOf(
  labels: readonly string[],
  [base = [], ...others]: readonly (readonly string[])[],
): readonly (readonly (readonly string[])[])[] {
  const widthOf = (column: readonly string[]) => [...(column[0] ?? '')].length + GAP.length;
  const start = widthOf(labels) - GAP.length + widthOf(base);
  const blocks: (readonly string[])[][] = [[labels, base]];
  let used = start;
  for (const column of others) {
    if (WIDTH < used + widthOf(column) && blocks.at(-1)!.length > 2) {
      blocks.push([labels, base]);
      used = start;
    }
    blocks.at(-1)!.push(column);
    used += widthOf(column);
  }
  return blocks;
}

/** All as wide as the widest, longer ones cut short. */
function padded(texts: readonly string[], most: number, side: 'left' | 'right'): readonly string[] {
  const short = texts.map((text) => shorten(text, most));
  const width = Math.max(...short.map((text) => [...text].length));
  return short.map((text) => {
    const pad = ' '.repeat(width - [...text].length);
    return side === 'left' ? text + pad : pad + text;
  });
}
