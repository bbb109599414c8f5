import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { HOSTILE_DXF, HOSTILE_SVG } from '../helpers/hostile-drawings.ts';
import { jobText } from '../helpers/job-text.ts';
import type { Benchmark, Report } from './benchmark.ts';
import { seconds, type Table, whole } from './table.ts';

interface Figures {
  readonly letters: number;
  /** What is said of the drawing; null where it is read. */
  readonly code: string | null;
  readonly ms: number;
  /** Of the processor, which others on the same machine change less. */
  readonly cpuMs: number;
}

const ALL = [...HOSTILE_DXF, ...HOSTILE_SVG];

/** What no drawing may take, in seconds. */
const MOST_SECONDS = 2;

/** How long drawings that are wrong, or far too much, keep a parts file waiting; each in a process of its own, so the first run of the code counts. */
export const drawings: Benchmark<Figures> = {
  variants: ['hostile'],
  ownProcess: true,
  instances: () => ALL.map((_, k) => String(k + 1)),
  measure: () => (task) => {
    const { file, text, code } = ALL[Number(task.instance) - 1]!;
    const drawing = text();
    const cpu = process.cpuUsage();
    const start = performance.now();
    const { problems } = readPartsFile(jobText(`outline: ${file}`), () => ({
      ok: true,
      text: drawing,
      sha256: '',
    }));
    const ms = performance.now() - start;
    const { user, system } = process.cpuUsage(cpu);
    const said = problems[0]?.code ?? null;
    return {
      proved: false,
      faults: said === code ? 0 : 1,
      figures: {
        letters: drawing.length,
        code: said,
        ms: Math.round(ms),
        cpuMs: Math.round((user + system) / 1000),
      },
    };
  },
  tables: (report) => [drawingsTable(report)],
};

function drawingsTable({ rows }: Report<Figures>): Table {
  const wrong = rows.filter(({ faults }) => faults > 0).length;
  const slow = rows.filter(({ figures }) => figures.ms > MOST_SECONDS * 1000).length;
  const slowest = Math.max(...rows.map(({ figures }) => figures.ms));
  return {
    title: 'Hostile drawings: from their text to their problem',
    columns: ['drawing', 'letters', 's', 'processor s', 'what is said'],
    rows: rows.map(({ instance, figures }) => {
      const { name, file } = ALL[Number(instance) - 1]!;
      const kind = file.slice(-3).toUpperCase();
      return [
        `${kind}: ${name}`,
        whole(figures.letters),
        seconds(figures.ms),
        seconds(figures.cpuMs),
        figures.code ?? 'read',
      ];
    }),
    notes: [
      'Each in a fresh process, so the first run of the code counts; the disk does not.',
      `The slowest took ${seconds(slowest)} s; over ${MOST_SECONDS} s: ${slow}.`,
      wrong === 0
        ? 'All were told as they should be.'
        : `${wrong} FAULTS: another problem was told.`,
    ],
  };
}
