import { importList, type ListTrouble } from '../../src/partsfile/lists/import-list.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import type { Draw } from './draw.ts';
import { bytesOf, drawnList, listOptions } from './drawn-list.ts';
import type { FuzzCase, Outcome, Reader } from './fuzz-case.ts';
import { mutated } from './mutate.ts';
import { jobFaults } from './sound-job.ts';
import { NO_DRAWING, planFaults } from './tiny-plans.ts';
import { sentenceFaults } from './told.ts';

const WORDS = [
  ',',
  ';',
  '\t',
  '"',
  '""',
  '\n',
  'Length',
  'Width',
  'Qty',
  'Material',
  'mm',
  'in',
  '3/4',
  '1,5',
  'x',
  'Total',
  '= ',
  'sep=;\n',
];

/** Cut lists as bytes, with what a person may say of them; what comes out is read as a parts file. */
export const listReader: Reader = (draw) => {
  const text = draw.chance(0.3) ? mutated(drawnList(draw), draw, WORDS) : drawnList(draw);
  const bytes = bytesOf(text, draw);
  const options = listOptions(draw);
  const name = draw.chance(0.9)
    ? 'list.csv'
    : draw.pick(['a\u001bb.csv', '.csv', 'é'.repeat(300), '{x: 1}.csv', 'a\nb: c.csv', '\ud800']);
  return listCase(bytes, name, options, draw);
};

function listCase(
  bytes: Uint8Array,
  name: string,
  options: Parameters<typeof importList>[2],
  draw: Draw,
): FuzzCase {
  const isPlanned = draw.chance(0.01);
  return {
    shown: `${JSON.stringify(options)} ${JSON.stringify(name)}\n${Buffer.from(bytes).toString('latin1')}`,
    read: (): Outcome => {
      const result = importList(bytes, name, options);
      const rows = bytes.length + 1;
      const faults = result.troubles.flatMap((trouble) => troubleFaults(trouble, rows));
      const codes = result.troubles.map(({ why }) => kindOf(why));
      if (!('text' in result))
        return {
          isRead: false,
          codes: [...codes, ...result.faults.map(kindOf)],
          faults: [
            ...faults,
            ...result.faults.flatMap(sentenceFaults),
            ...(result.faults.length === 0 ? ['refused without a word'] : []),
          ],
          later: null,
        };
      const { job, problems } = readPartsFile(result.text, NO_DRAWING);
      if (job === null) faults.push(`what was made does not read: ${problems[0]?.message}`);
      else {
        faults.push(...jobFaults(job));
        const pieces = job.pieces.length;
        if (result.parts !== job.parts.length || result.pieces !== pieces)
          faults.push(
            `${result.parts} parts and ${result.pieces} pieces are told of ${job.parts.length} and ${pieces}`,
          );
      }
      for (const said of [...result.columns, ...result.unused, ...result.skipped, ...result.checks])
        faults.push(...sentenceFaults(said));
      const isSmall = job !== null && job.pieces.length <= 30;
      return {
        isRead: true,
        codes,
        faults,
        later: isPlanned && isSmall ? () => planFaults(job) : null,
      };
    },
  };
}

function troubleFaults({ row, why, column }: ListTrouble, rows: number): string[] {
  const isRow = Number.isInteger(row) && 1 <= row && row <= rows;
  return [
    ...(isRow ? [] : [`there is no row ${row}`]),
    ...sentenceFaults(why),
    ...(column === null ? [] : sentenceFaults(column)),
  ];
}

/** Troubles of lists are sentences: without what is quoted and without figures they tell the kind. */
function kindOf(why: string): string {
  return why
    .replace(/"[^"]*("|$)/g, '…')
    .replace(/\d[\d./-]*/g, '0')
    .slice(0, 40);
}
