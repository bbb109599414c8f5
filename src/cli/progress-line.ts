import { formatMoney, type Job, type Progress } from '../index.ts';
import type { World } from './world.ts';

const SHOW_EVERY_MS = 100;
const COLUMNS = 79;
const CLEAR = '\r\u001b[K';

export interface ProgressLine {
  readonly show: (progress: Progress) => void;
  readonly clear: () => void;
}

/** One line on a terminal that says where the search stands, written over and over; nothing elsewhere. */
export function progressLine(world: World, job: Job): ProgressLine {
  let last = Number.NEGATIVE_INFINITY;
  let isShown = false;
  return {
    show: (progress) => {
      if (!world.errIsTerminal || world.now() - last < SHOW_EVERY_MS) return;
      last = world.now();
      isShown = true;
      world.progress(`${CLEAR}${[...textOf(job, progress)].slice(0, COLUMNS).join('')}`);
    },
    clear: () => {
      if (isShown) world.progress(CLEAR);
      isShown = false;
    },
  };
}

function textOf(job: Job, { material, objective, used, atLeast, workLeft }: Progress): string {
  const amount = (value: number) =>
    objective === 'cost' ? formatMoney(value, job.currency) : String(value);
  const found = used === null ? 'no layout yet' : `${amount(used)} so far`;
  const left = Math.round(workLeft * 100);
  return `${job.materials[material]?.id}: ${found}, at least ${amount(atLeast)}, ${left} % of the work left`;
}
