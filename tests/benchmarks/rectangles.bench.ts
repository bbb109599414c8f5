import { it } from 'vitest';
import { EFFORTS, type Effort } from '../../src/model/plan.ts';
import { fromMm } from '../../src/model/units.ts';
import { pack } from '../../src/packing/pack.ts';
import { cabinetPieces } from '../packing/cabinet-pieces.ts';
import { CLASSES, classInstance, SIZES } from '../packing/class-instances.ts';
import { jobOf } from '../packing/jobs.ts';
import { faultsOf } from '../packing/legal.ts';

/** HOLDFAST_EFFORT is quick, normal or long; HOLDFAST_EVERY takes each so many-th of the 500 instances. */
const EFFORT = EFFORTS.find((effort) => effort === process.env.HOLDFAST_EFFORT) ?? 'quick';
const EVERY = Number(process.env.HOLDFAST_EVERY ?? 1);
const TURNS = [0, 90, 180, 270];

it.each([
  { name: 'not turned', turns: [0] },
  { name: 'turned', turns: TURNS },
])('the 500 published instances, $name', ({ name, turns }) => {
  const total = { instances: 0, sheets: 0, bounds: 0, proved: 0, faults: 0, ms: 0 };
  let index = 0;
  for (const group of CLASSES) {
    const before = { ...total };
    for (const size of SIZES) {
      for (let number = 1; number <= 10; number++) {
        if (index++ % EVERY !== 0) continue;
        const { side, pieces } = classInstance(group, size, number);
        const job = jobOf(
          [{ length: side, width: side }],
          pieces.map((piece) => ({ ...piece, turns })),
        );
        const { layout, ms } = timed(job, EFFORT);
        total.instances += 1;
        total.sheets += layout.used;
        total.bounds += layout.bound.atLeast;
        total.proved += layout.status === 'proved' ? 1 : 0;
        total.faults += faultsOf(job, layout).length;
        total.ms += ms;
      }
    }
    print(
      `class ${group}: ${total.sheets - before.sheets} sheets, ${Math.round(total.ms - before.ms)} ms`,
    );
  }
  print(`${name}, ${EFFORT}: ${JSON.stringify({ ...total, ms: Math.round(total.ms) })}`);
});

it.each([100, 1000, 10_000])('%i cabinet pieces', (count) => {
  const sheet = { length: fromMm(2440), width: fromMm(1220) };
  const sketches = cabinetPieces(count, 1).map(({ width, height }) => ({
    width: fromMm(width),
    height: fromMm(height),
    turns: TURNS,
  }));
  const { layout, ms } = timed(jobOf([sheet], sketches), EFFORT);
  print(
    `${count} cabinet pieces, ${EFFORT}: ${layout.used} sheets, bound ${layout.bound.atLeast}, ${Math.round(ms)} ms`,
  );
});

function timed(job: ReturnType<typeof jobOf>, effort: Effort) {
  const start = performance.now();
  const { layout } = pack(job, 0, {
    effort,
    seed: 1,
    shouldStop: () => false,
    onProgress: () => {},
  });
  return { layout, ms: performance.now() - start };
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
