import type { Table } from '../benchmarks/table.ts';
import { FOLDERS, folderOf } from './draw.ts';
import type { Fault } from './faults.ts';
import type { Row } from './rows.ts';
import { SAME, type Same } from './same.ts';

/** What became of one fault. */
export interface Tried {
  readonly number: number;
  readonly fault: Fault;
  /** The verdict that caught it, or null. */
  readonly caught: Row | null;
}

export function tablesOf(tried: readonly Tried[], unfit: readonly Fault[]): Table[] {
  return [summary(tried, unfit), list(tried)];
}

function summary(tried: readonly Tried[], unfit: readonly Fault[]): Table {
  const row = (title: string, of: (fault: Fault) => boolean) => {
    const mine = tried.filter(({ fault }) => of(fault));
    const caught = mine.filter((each) => each.caught !== null);
    const late = caught.filter((each) => each.caught?.outcome !== 'failed');
    const same = mine.filter((each) => each.caught === null && sameOf(each.fault) !== null);
    const left = mine.length - caught.length - same.length;
    const broken = unfit.filter(of);
    return [title, ...[mine, caught, late, same].map(({ length }) => `${length}`)].concat(
      `${left}`,
      share(caught.length, mine.length),
      `${broken.length}`,
    );
  };
  return {
    title: 'By folder',
    columns: ['folder', 'faults', 'caught', 'by time', 'same', 'survived', 'share', 'types'],
    rows: [
      ...FOLDERS.map((folder) => row(folder, ({ file }) => folderOf(file) === folder)),
      row('all', () => true),
    ],
    notes: [
      '`by time`: of the caught, those that never ended or broke the process down;',
      '`same`: survivors that change nothing that could be seen, each with its reason in `same.ts`;',
      '`share`: the caught of all faults, those that are the same included;',
      '`types`: faults that the types alone caught, which are not counted and were drawn again.',
    ],
  };
}

function share(caught: number, all: number): string {
  return all === 0 ? '-' : `${((100 * caught) / all).toFixed(0)} %`;
}

function list(tried: readonly Tried[]): Table {
  return {
    title: 'Fault by fault',
    columns: ['no.', 'place', 'what was changed', 'caught by'],
    rows: tried.map(({ number, fault, caught }) => [
      `${number}`,
      `${fault.file.replace('src/', '')}:${fault.line}`,
      changeOf(fault),
      fateOf(fault, caught),
    ]),
    notes: [],
  };
}

/** What is changed, into what, and the line where it is. */
export function changeOf({ operator, was, now, at, nth }: Fault): string {
  const [from, to] = [was, now].map(shortened);
  const line = at === was ? '' : ` in ${code(shortened(at))}`;
  const which = nth === 1 ? '' : `, place ${nth}`;
  return `${operator}: ${code(from!)} → ${code(to!)}${line}${which}`;
}

export function fateOf(fault: Fault, caught: Row | null): string {
  if (caught === null) return sameOf(fault) === null ? 'SURVIVED' : 'survived: the same';
  const how = { late: ' (never ended)', ended: ' (broke down)' } as const;
  const { file, outcome } = caught;
  return `${file.replace('tests/', '')}${outcome in how ? how[outcome as keyof typeof how] : ''}`;
}

export function sameOf(fault: Fault): Same | null {
  const names = ['file', 'at', 'was', 'now', 'nth'] as const;
  return SAME.find((each) => names.every((name) => each[name] === fault[name])) ?? null;
}

const LONGEST = 70;

function shortened(text: string): string {
  const line = text.replace(/\s+/g, ' ');
  return line.length > LONGEST ? `${line.slice(0, LONGEST - 1)}…` : line;
}

/** As code of Markdown in a table. */
function code(text: string): string {
  const fence = text.includes('`') ? '`` ' : '`';
  return `${fence}${text.replaceAll('|', '\\|')}${[...fence].reverse().join('')}`;
}
