import { formatArea, formatRun, formatShare, formatTenths } from '../../model/format.ts';
import type { FileUnit } from '../../model/job.ts';
import type { Plan } from '../../model/plan.ts';
import {
  YIELD_USES,
  type Yield,
  type YieldKind,
  type YieldUse,
  yieldWord,
} from '../../model/yield.ts';
import { plain, table } from './markdown-text.ts';

/** Where everything that is bought goes: each sheet and board, each material, and all; empty where nothing is laid out. */
export function yieldSection(plan: Plan): string {
  const { job } = plan.costs.yields;
  if (job.sheets === null && job.boards === null) return '';
  return [
    '## Where the stock goes',
    ...(job.sheets === null ? [] : [kindTable(plan, 'sheets', job.sheets)]),
    ...(job.boards === null ? [] : [kindTable(plan, 'boards', job.boards)]),
    meaningOf(plan),
  ].join('\n\n');
}

/** Columns in which nothing stands are left out. */
function kindTable(plan: Plan, kind: YieldKind, all: Yield): string {
  const uses = YIELD_USES.filter((use) => use === 'pieces' || all.amounts[use] > 0);
  const heads = [
    kind === 'sheets' ? 'Sheet' : 'Board',
    'Bought',
    ...uses.map((use) => capital(yieldWord(use, kind))),
    kind === 'sheets' ? 'Yield on area used' : 'Yield on length used',
  ];
  const cells = (own: Yield) => [
    amount(own.bought, kind, plan.job.unit),
    ...uses.map((use) => formatTenths(own.tenths[use])),
    formatShare(own.onUsed),
  ];
  const rows = [
    ...joinAlike(plan.costs.yields[kind].map(cells)),
    ...sumRows(plan, kind, all).map(([title, own]) => [title, ...cells(own)]),
  ];
  return table(heads, rows, `l${'r'.repeat(heads.length - 1)}`);
}

/** Numbered from 1; neighbours of which everything printed is alike in one row. */
function joinAlike(rows: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const runs: { readonly from: number; to: number; readonly row: readonly string[] }[] = [];
  rows.forEach((row, i) => {
    const last = runs.at(-1);
    if (last?.row.join('|') === row.join('|')) last.to = i + 1;
    else runs.push({ from: i + 1, to: i + 1, row });
  });
  return runs.map(({ from, to, row }) => [
    from === to ? `${from}` : `${from} to ${to}, each`,
    ...row,
  ]);
}

/** Each material where there are several, then all together. */
function sumRows({ job, costs: { yields } }: Plan, kind: YieldKind, all: Yield): [string, Yield][] {
  const materials = job.materials.flatMap(({ name, index }): [string, Yield][] => {
    const own = yields.materials[index]![kind];
    return own === null ? [] : [[`All of ${plain(name)}`, own]];
  });
  return [...(materials.length < 2 ? [] : materials), [`All ${kind}`, all]];
}

/** What the columns mean that the table has. */
function meaningOf({ costs: { yields } }: Plan): string {
  const both = [yields.job.sheets, yields.job.boards].filter((own) => own !== null);
  const has = (use: YieldUse) => both.some(({ amounts }) => amounts[use] > 0);
  return [
    'From pieces on, each row makes 100.0 %. The share of the pieces is the yield on purchase;',
    'the yield on what is used leaves out what is kept.',
    ...(has('skeleton')
      ? ['Skeleton is what still holds together after the last cut, loose waste what comes free.']
      : []),
  ].join(' ');
}

function amount(bought: number, kind: YieldKind, unit: FileUnit): string {
  return kind === 'sheets' ? formatArea(bought, unit) : formatRun(bought, unit);
}

function capital(text: string): string {
  return `${text[0]!.toUpperCase()}${text.slice(1)}`;
}
