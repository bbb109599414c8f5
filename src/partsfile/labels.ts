import type { FileUnit } from '../model/job.ts';
import {
  centredGrid,
  extentOf,
  KNOWN_GRIDS,
  knownGrid,
  LABEL_PAPERS,
  LARGEST_PAPER,
  type LabelGrid,
  type LabelPaper,
  type LabelSheet,
  type LabelSize,
  LEAST_LABEL,
} from '../model/label-grid.ts';
import { showLength, showSize } from './lengths.ts';
import { child, type Field, isFlawed, keySpot, keysOf, textOf } from './tree.ts';
import {
  type LengthRange,
  NOT_NEGATIVE,
  POSITIVE,
  type Reading,
  readLength,
  readSize,
  readWhole,
} from './values.ts';
import { quote } from './visible.ts';

/** The labels of the pieces; null after a problem, undefined where the file leaves them to the paper of the other outputs. */
export function readLabels(field: Field | null, reading: Reading): LabelGrid | null | undefined {
  if (field === null) return undefined;
  if (isFlawed(field)) return null;
  const roll = child(field, 'roll');
  return roll === null ? readSheet(field, reading) : readRoll(field, roll, reading);
}

function readRoll(labels: Field, roll: Field, reading: Reading): LabelGrid | null {
  const others = keysOf(labels).filter((key) => key !== 'roll');
  for (const key of others) {
    const message = `${key} does not go with a roll, which has one label behind the other`;
    const hint = `take out ${key}, or roll`;
    reading.report.error(keySpot(labels, key), 'misplaced-key', message, hint);
  }
  const label = readMeasure(roll, reading, POSITIVE);
  if (label === null || others.length > 0) return null;
  const sound = acceptPaper(roll, label, reading) && acceptLabel(roll, label, reading);
  return sound ? { kind: 'roll', label } : null;
}

function readSheet(labels: Field, reading: Reading): LabelGrid | null {
  const paper = readPaper(labels, reading);
  const measures = readMeasures(labels, reading);
  if (paper === null || measures === null) return null;
  const counts = readCounts(labels, reading);
  if (counts === null) return null;
  const known = paper.name === null ? null : knownGrid(paper.name, counts ?? null);
  const label = measures.size ?? known?.label ?? null;
  if (counts === undefined && known !== null && measures.size === undefined)
    return acceptGrid(labels, moved(known, measures), reading);
  if (counts === undefined || label === null) {
    const missing = counts === undefined ? 'columns' : 'size';
    const message = `${missing} is missing here`;
    reading.report.error(labels, 'missing-key', message, missingHint(missing, paper.name, reading));
    return null;
  }
  const pitch = measures.pitch ?? (measures.size === undefined ? known?.pitch : undefined) ?? label;
  const grid = centredGrid({ paper: paper.size, ...counts, label, pitch });
  return acceptGrid(labels, moved(grid, measures), reading);
}

interface Measures {
  readonly size: LabelSize | undefined;
  readonly pitch: LabelSize | undefined;
  readonly left: number | undefined;
  readonly top: number | undefined;
}

/** Null after a problem. */
function readMeasures(labels: Field, reading: Reading): Measures | null {
  const measure = (key: string) => {
    const field = child(labels, key);
    return field === null ? undefined : readMeasure(field, reading, POSITIVE);
  };
  const margin = child(labels, 'margin');
  const edge = (key: string) => {
    const field = child(margin, key);
    return field === null ? undefined : readLength(field, reading, NOT_NEGATIVE);
  };
  const [size, pitch, left, top] = [measure('size'), measure('pitch'), edge('left'), edge('top')];
  const isMarginFlawed = margin !== null && isFlawed(margin);
  if (size === null || pitch === null || left === null || top === null || isMarginFlawed)
    return null;
  return { size, pitch, left, top };
}

function moved(grid: LabelSheet, { pitch, left, top }: Measures): LabelSheet {
  const wider = pitch === undefined ? grid : centredGrid({ ...grid, pitch });
  return { ...wider, left: left ?? wider.left, top: top ?? wider.top };
}

/** Both or neither; null after a problem, undefined where the file gives neither. */
function readCounts(
  labels: Field,
  { report }: Reading,
): Pick<LabelSheet, 'columns' | 'rows'> | null | undefined {
  const fields = [child(labels, 'columns'), child(labels, 'rows')];
  if (fields.some((field) => field !== null && isFlawed(field))) return null;
  const [columns = null, rows = null] = fields.map(readWhole);
  if (columns !== null && rows !== null) return { columns, rows };
  if (columns === null && rows === null) return undefined;
  const missing = columns === null ? 'columns' : 'rows';
  report.error(
    labels,
    'missing-key',
    `${missing} is missing here`,
    'columns and rows belong together',
  );
  return null;
}

function missingHint(missing: string, paper: LabelPaper | null, { unit }: Reading): string {
  const counts = KNOWN_GRIDS.filter((grid) => grid.paper === paper).map(
    ({ columns, rows }) => `${columns} x ${rows}`,
  );
  const own =
    missing === 'size'
      ? `write size: ${unit === 'mm' ? '63.5 x 33.9' : '2-5/8 x 1'}, or whatever a label measures`
      : 'write columns: and rows: and the size of a label';
  return counts.length === 0
    ? own
    : `${own}; ${paper} has columns x rows of ${counts.join(', ')} without`;
}

/** The paper and its name, null for a size; null after a problem. */
function readPaper(
  labels: Field,
  reading: Reading,
): { readonly name: LabelPaper | null; readonly size: LabelSize } | null {
  const field = child(labels, 'paper');
  if (field === null) {
    const hint = `write paper: a4, paper: letter or a size such as ${PAPER_EXAMPLES[reading.unit]}, or for a roll roll: 62mm x 40mm`;
    reading.report.error(labels, 'missing-key', 'paper is missing here', hint);
    return null;
  }
  if (isFlawed(field)) return null;
  const word = textOf(field).trim().toLowerCase();
  if (word === 'a4' || word === 'letter') return { name: word, size: LABEL_PAPERS[word] };
  if (/^[a-z]/.test(word)) {
    const message = `paper cannot be ${quote(textOf(field))}`;
    const hint = `write a4, letter, or a size such as ${PAPER_EXAMPLES[reading.unit]}`;
    reading.report.error(field, 'unknown-word', message, hint);
    return null;
  }
  const size = readMeasure(field, reading, POSITIVE);
  return size !== null && acceptPaper(field, size, reading) ? { name: null, size } : null;
}

const PAPER_EXAMPLES: Readonly<Record<FileUnit, string>> = { mm: '210 x 297', in: '8-1/2 x 11' };

function readMeasure(field: Field, reading: Reading, range: LengthRange): LabelSize | null {
  const pair = readSize(field, reading, range);
  return pair === null ? null : { width: pair[0], height: pair[1] };
}

function acceptPaper(field: Field, { width, height }: LabelSize, reading: Reading): boolean {
  if (Math.max(width, height) <= LARGEST_PAPER) return true;
  const message = `the paper is ${showSize(width, height, reading.unit)}; the most is ${showLength(LARGEST_PAPER, reading.unit)}`;
  reading.report.error(field, 'out-of-range', message, 'is the unit right?');
  return false;
}

function acceptLabel(field: Field, { width, height }: LabelSize, { unit, report }: Reading) {
  if (width >= LEAST_LABEL.width && height >= LEAST_LABEL.height) return true;
  const least = showSize(LEAST_LABEL.width, LEAST_LABEL.height, unit);
  const message = `a label of ${showSize(width, height, unit)} is too small to read`;
  report.error(field, 'out-of-range', message, `the least is ${least}, width x height`);
  return false;
}

/** The grid where its labels lie beside one another on the paper. */
function acceptGrid(labels: Field, grid: LabelSheet, reading: Reading): LabelSheet | null {
  const { unit, report } = reading;
  const { label, pitch, paper, left, top, columns, rows } = grid;
  if (!acceptLabel(child(labels, 'size') ?? labels, label, reading)) return null;
  const isTight =
    (columns > 1 && pitch.width < label.width) || (rows > 1 && pitch.height < label.height);
  if (isTight) {
    const message = `labels of ${showSize(label.width, label.height, unit)} overlap at a pitch of ${showSize(pitch.width, pitch.height, unit)}`;
    const hint = 'the pitch is from the left edge of a label to that of the next, gap included';
    report.error(child(labels, 'pitch') ?? labels, 'bad-label-grid', message, hint);
    return null;
  }
  const extent = extentOf(grid);
  const over = {
    across: left + extent.width - paper.width,
    down: top + extent.height - paper.height,
  };
  if (over.across <= 0 && over.down <= 0 && left >= 0 && top >= 0) return grid;
  const [count, words, beyond, room] =
    over.across > 0 || left < 0
      ? [columns, 'columns', Math.max(over.across, -left), paper.width]
      : [rows, 'rows', Math.max(over.down, -top), paper.height];
  const message = `${count} ${words} of labels reach ${showLength(beyond, unit)} over the edge of the paper, which has ${showLength(room, unit)}`;
  const hint = `check ${words}, size, pitch and margin; the paper is ${showSize(paper.width, paper.height, unit)}, width x height`;
  report.error(labels, 'bad-label-grid', message, hint);
  return null;
}
