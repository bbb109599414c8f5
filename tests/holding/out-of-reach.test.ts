import { describe, expect, it } from 'vitest';
import type { Box } from '../../src/geometry/box.ts';
import { boxRegion } from '../../src/geometry/shape.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { missTexts } from '../../src/holding/out-of-reach.ts';
import type { Table } from '../../src/model/machine.ts';
import type { LiftedEdge } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { at, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { shopJob } from './jobs.ts';

const SIZE = { length: fromMm(2500), width: fromMm(1300) };
const CORD = {
  kind: 'gasket',
  around: 'sheet',
  inset: fromMm(12),
  grooveShare: 0.1,
  leakMm2: 50,
} as const;
const LEFT: LiftedEdge = { side: 'left', gap: fromMm(1), depth: fromMm(100) };

describe('why the vacuum does not reach a piece', () => {
  it.each<readonly [string, Partial<Table>, readonly LiftedEdge[], readonly string[]]>([
    ['flat on a whole table', { size: SIZE }, [], []],
    ['over the end of a short table', { size: { ...SIZE, length: fromMm(150) } }, [], ['beside']],
    ['on a mask', { size: SIZE, masked: [box(0, 0, 120, 1300)] }, [], ['masked']],
    [
      'half over a shut zone',
      {
        size: SIZE,
        zones: [
          { box: box(0, 0, 150, 1300), shut: true },
          { box: box(150, 0, 2500, 1300), shut: false },
        ],
      },
      [],
      ['shut zone'],
    ],
    ['over the cord', { seal: CORD }, [], ['gasket cord, 12 mm inside']],
    ['on an edge that stands up', {}, [LEFT], ['left edge stands up']],
    ['over the cord of such a sheet', { seal: CORD }, [LEFT], ['gasket cord', 'left edge']],
  ])('%s', (_, table, lifted, causes) => {
    const job = shopJob([partOf(rect(200, 200))], {
      table,
      sheet: sheetOf(2440, 1220, { lifted }),
    });
    const stock = job.materials[0]!.sheets[0]!;
    const texts = missTexts(job.table, stock, boxRegion(box(8, 8, 208, 208)), 'mm');
    expect(texts).toHaveLength(causes.length);
    for (const [i, cause] of causes.entries()) expect(texts[i]).toContain(cause);
    const { loose } = holdSheets(job, [layoutOf([{ stock: 0, placements: [at(0, 8, 8)] }])])[0]!;
    const { why } = loose.find(({ kind }) => kind === 'piece')!;
    expect(why.includes('as it lies')).toBe(causes.length > 0);
    for (const text of texts) expect(why).toContain(text);
  });
});

function box(minX: number, minY: number, maxX: number, maxY: number): Box {
  return { minX: fromMm(minX), minY: fromMm(minY), maxX: fromMm(maxX), maxY: fromMm(maxY) };
}
