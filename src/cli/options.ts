import { EFFORTS, LIST_UNITS, PAPER_NAMES, SEPARATORS } from '../index.ts';

export type CommandName =
  | 'plan'
  | 'check'
  | 'compare'
  | 'price'
  | 'explain'
  | 'verify'
  | 'gauge'
  | 'offcuts'
  | 'import'
  | 'schema'
  | 'new';

/** The values of a command's options, each as the text that was given or its default; a missing one was not set. */
export type Settings = Readonly<Record<string, string | undefined>>;

/** One option: all that help, checks, defaults and the README's table need. */
export interface Option {
  readonly name: string;
  /** What stands behind the name; null for a switch. */
  readonly argument: string | null;
  readonly kind: 'word' | 'whole number' | 'number' | 'date' | 'scale' | 'text' | 'switch';
  readonly words: readonly string[];
  readonly least: number;
  readonly most: number;
  /** Null: not set unless given. */
  readonly fallback: string | null;
  readonly help: string;
  readonly commands: readonly CommandName[];
}

const SEARCHING: readonly CommandName[] = ['plan', 'check', 'compare', 'price', 'explain'];
const PLAIN = { words: [], least: 0, most: 0, fallback: null } as const;

/** An option that describes one offcut. */
function byHand(name: string, argument: string, help: string): readonly Option[] {
  return [{ ...PLAIN, name, argument, kind: 'text', help, commands: ['offcuts'] }];
}

/** An option that says something of a list. */
function ofList(name: string, argument: string, help: string): readonly Option[] {
  return [{ ...PLAIN, name, argument, kind: 'text', help, commands: ['import'] }];
}

export const OPTIONS: readonly Option[] = [
  {
    ...PLAIN,
    name: 'effort',
    argument: 'how-much',
    kind: 'word',
    words: EFFORTS,
    fallback: 'quick',
    help: 'how much counted work the search may do: about 1, 10 or 60 seconds for 100 pieces',
    commands: SEARCHING,
  },
  {
    ...PLAIN,
    name: 'seed',
    argument: 'number',
    kind: 'whole number',
    most: 2 ** 31 - 1,
    fallback: '1',
    help: 'where the search starts; the same seed gives the same plan',
    commands: SEARCHING,
  },
  {
    ...PLAIN,
    name: 'seconds',
    argument: 'number',
    kind: 'number',
    least: 0.1,
    most: 86_400,
    help: 'an extra stop by the clock; the plan then says so and may differ elsewhere',
    commands: SEARCHING,
  },
  {
    ...PLAIN,
    name: 'workers',
    argument: 'number',
    kind: 'word',
    words: ['1', '2'],
    fallback: '2',
    help: 'threads that search side by side; the plan is the same with either',
    commands: SEARCHING,
  },
  {
    ...PLAIN,
    name: 'out',
    argument: 'folder',
    kind: 'text',
    help: 'where to write; default: the name of the parts file with "-plan", beside it',
    commands: ['plan'],
  },
  {
    ...PLAIN,
    name: 'paper',
    argument: 'size',
    kind: 'word',
    words: PAPER_NAMES,
    fallback: 'a4',
    help: 'paper of the PDF',
    commands: ['plan'],
  },
  {
    ...PLAIN,
    name: 'first-label',
    argument: 'number',
    kind: 'whole number',
    least: 1,
    most: 10_000,
    fallback: '1',
    help: 'which label of a begun sheet is the first one left, row by row',
    commands: ['plan'],
  },
  {
    ...PLAIN,
    name: 'scale',
    argument: 'fit|1:n',
    kind: 'scale',
    least: 1,
    most: 100,
    fallback: 'fit',
    help: 'scale of the sheets in the PDF: as large as a page takes, or 1:10, over several pages where needed',
    commands: ['plan'],
  },
  {
    ...PLAIN,
    name: 'templates',
    argument: 'part,...',
    kind: 'text',
    help: 'also write templates.pdf: these parts at full size, over pages to be joined',
    commands: ['plan'],
  },
  {
    ...PLAIN,
    name: 'date',
    argument: 'yyyy-mm-dd',
    kind: 'date',
    help: 'the date to print; without it, and without SOURCE_DATE_EPOCH, none is printed',
    commands: ['plan', 'offcuts'],
  },
  {
    ...PLAIN,
    name: 'rack',
    argument: 'file',
    kind: 'text',
    help: 'the rack of offcuts; default: that of the parts file, or rack.yaml beside it if there is one; none: without a rack',
    commands: SEARCHING,
  },
  {
    ...PLAIN,
    name: 'rack',
    argument: 'file',
    kind: 'text',
    help: 'the rack of offcuts; default: rack.yaml in this folder',
    commands: ['offcuts'],
  },
  {
    ...PLAIN,
    name: 'rack',
    argument: 'file',
    kind: 'text',
    help: 'the rack that the plan took offcuts from; default: as for plan',
    commands: ['verify'],
  },
  ...byHand('size', 'length x width', 'length and width of an offcut that is added by hand'),
  ...byHand('material', 'key', 'its material: the key that parts files have for it'),
  ...byHand('thickness', 'length', 'its thickness'),
  {
    ...PLAIN,
    name: 'grain',
    argument: 'way',
    kind: 'word',
    words: ['first', 'second', 'none'],
    help: 'which number of its size the grain runs along',
    commands: ['offcuts'],
  },
  ...byHand('price', 'amount', 'what it counts in a plan; nothing if left out'),
  ...byHand('currency', 'code', 'of the price, such as EUR, where the rack names none'),
  ...byHand('job', 'name', 'what it comes from, or goes into'),
  ...byHand('id', 'label', 'its label; default: the next one, such as R12'),
  ...byHand('note', 'text', 'a remark'),
  {
    ...PLAIN,
    name: 'all',
    argument: null,
    kind: 'switch',
    help: 'list what was used as well',
    commands: ['offcuts'],
  },
  {
    ...PLAIN,
    name: 'variants',
    argument: null,
    kind: 'switch',
    help: 'in place of the price, the file and its variants side by side, as compare has them',
    commands: ['price'],
  },
  {
    ...PLAIN,
    name: 'piece',
    argument: 'number',
    kind: 'whole number',
    least: 1,
    most: 10_000,
    help: 'which copy of the part; default: the one that is held worst',
    commands: ['explain'],
  },
  {
    ...PLAIN,
    name: 'format',
    argument: 'form',
    kind: 'word',
    words: ['text', 'json', 'sarif'],
    fallback: 'text',
    help: 'how to print the result; sarif: version 2.1.0, for what shows results of checks',
    commands: ['check'],
  },
  {
    ...PLAIN,
    name: 'sarif',
    argument: 'file',
    kind: 'text',
    help: 'write the result as SARIF to this file as well',
    commands: ['check'],
  },
  {
    ...PLAIN,
    name: 'against',
    argument: 'plan.json',
    kind: 'text',
    help: "the plan, or its folder, that must not have changed; default: that of the limit drift; beside: each file's own one",
    commands: ['check'],
  },
  {
    ...PLAIN,
    name: 'format',
    argument: 'form',
    kind: 'word',
    words: ['text', 'json'],
    fallback: 'text',
    help: 'how to print the result',
    commands: ['verify'],
  },
  {
    ...PLAIN,
    name: 'format',
    argument: 'form',
    kind: 'word',
    words: ['text', 'json', 'csv'],
    fallback: 'text',
    help: 'how to print the result',
    commands: ['compare', 'price'],
  },
  {
    ...PLAIN,
    name: 'format',
    argument: 'form',
    kind: 'word',
    words: ['text', 'json', 'csv'],
    fallback: 'text',
    help: 'how to print the list',
    commands: ['offcuts'],
  },
  {
    ...PLAIN,
    name: 'unit',
    argument: 'unit',
    kind: 'word',
    words: ['mm', 'in'],
    fallback: 'mm',
    help: 'the unit of the new file',
    commands: ['new'],
  },
  {
    ...PLAIN,
    name: 'unit',
    argument: 'unit',
    kind: 'word',
    words: ['mm', 'in'],
    help: 'the unit of a new rack; default: that of the plan, by hand mm',
    commands: ['offcuts'],
  },
  ...ofList(
    'columns',
    'what=where,…',
    'which column is what, by header, letter or number: length=L,width=C,count=4',
  ),
  {
    ...PLAIN,
    name: 'separator',
    argument: 'sign',
    kind: 'word',
    words: Object.keys(SEPARATORS),
    help: 'what stands between the cells; default: that by which most columns are known',
    commands: ['import'],
  },
  {
    ...PLAIN,
    name: 'unit',
    argument: 'unit',
    kind: 'word',
    words: LIST_UNITS,
    help: 'of lengths without one, where no header names it; default: in where there are fractions, else mm',
    commands: ['import'],
  },
  ...ofList('material', 'name', 'the material of rows that name none'),
  ...ofList('thickness', 'length', 'the thickness of materials where the list says none'),
  ...ofList('sheet', 'length x width', 'the sheets of all materials; default: a common size'),
  ...ofList('band', 'length', 'the thickness of edge bands that are only marked; default: 1mm'),
  ...ofList(
    'out',
    'file',
    'the parts file to write; default: the name of the list with .yaml, beside it',
  ),
  {
    ...PLAIN,
    name: 'colour',
    argument: 'when',
    kind: 'word',
    words: ['auto', 'always', 'never'],
    fallback: 'auto',
    help: 'colour the terminal output; NO_COLOR is honoured too',
    commands: [
      'plan',
      'check',
      'compare',
      'price',
      'explain',
      'verify',
      'gauge',
      'offcuts',
      'import',
    ],
  },
];

/** The flags as help shows them, for example `--seed <number>`. */
export function flagsOf(option: Option): string {
  return option.argument === null
    ? `--${option.name}`
    : `--${option.name} <${option.words.length > 0 ? option.words.join('|') : option.argument}>`;
}

/** What is wrong with `text` as a value of `option`, as a sentence; null where nothing is. */
export function faultOf(option: Option, text: string): string | null {
  const { name, kind, words, least, most } = option;
  if (kind === 'word' && !words.includes(text)) {
    return `--${name} takes one of ${words.join(', ')}, not "${text}"`;
  }
  if (kind === 'whole number' || kind === 'number') {
    const pattern = kind === 'number' ? /^\d+(\.\d+)?$/ : /^\d+$/;
    const value = Number(text);
    if (!pattern.test(text) || value < least || value > most) {
      return `--${name} takes a ${kind} from ${least} to ${most}, not "${text}"`;
    }
  }
  if (kind === 'scale' && text !== 'fit') {
    const scale = readScale(text);
    if (scale === null || scale < least || scale > most)
      return `--${name} takes fit or a scale from 1:${least} to 1:${most}, such as 1:10, not "${text}"`;
  }
  if (kind === 'date' && !isDate(text))
    return `--${name} takes a date like 2026-03-31, not "${text}"`;
  return null;
}

/** The n of "1:n"; null for "fit" and for what is no scale. */
export function readScale(text: string): number | null {
  const [, n] = /^1 ?: ?(\d+(?:\.\d{1,2})?)$/.exec(text.trim()) ?? [];
  return n === undefined ? null : Number(n);
}

function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}
