import { gaugeTable } from '../../src/gauge.ts';
import { gaugeLines } from '../../src/index.ts';
import { CODES, type Corpus } from './corpus.ts';
import type { Reader } from './fuzz-case.ts';
import { mutated } from './mutate.ts';
import { drawnReadings } from './parts-file-nodes.ts';
import { WORDS } from './read-parts-text.ts';
import { severityFaults, toldFaults } from './told.ts';

const OWN_WORDS = [
  ...WORDS,
  'readings',
  'kind',
  'vacuum',
  'bare',
  'covered',
  'kerf',
  'hole',
  'tilt',
  'pull',
  'angle',
  'force',
  'square',
  'sheet',
  'kPa',
  '°',
];

/** Files of readings at a table, up to what is printed of them. */
export function readingsReader({ readings }: Corpus): Reader {
  return (draw) => {
    const text = draw.weighed<() => string>([
      [6, () => drawnReadings(draw)],
      [3, () => mutated(drawnReadings(draw), draw, OWN_WORDS)],
      [2, () => mutated(draw.pick(readings), draw, OWN_WORDS)],
    ])();
    return {
      shown: text,
      read: () => {
        const result = gaugeTable(text);
        const { problems } = result;
        const lines =
          result.readings === null ? [] : gaugeLines(result.readings, result.calibration);
        const printed = lines.map((line) => line.text).join('\n');
        return {
          isRead: result.readings !== null,
          codes: problems.map(({ code }) => code),
          faults: [
            ...toldFaults(problems, text, CODES),
            ...severityFaults(problems, result.readings !== null),
            ...(/NaN|Infinity|undefined/.test(printed) ? [`printed: ${printed}`] : []),
          ],
          later: null,
        };
      },
    };
  };
}
