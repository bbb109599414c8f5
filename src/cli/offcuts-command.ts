import { resolve } from 'node:path';
import {
  addLine,
  addPlan,
  type CutPlan,
  type Deed,
  emptyRack,
  nearest,
  type OffcutLine,
  type Outcome,
  type Rack,
  rackCsv,
  rackLines,
  rackRecord,
  readPlanRecord,
  readRack,
  takeBackIds,
  takeBackPlan,
  useIds,
  usePlan,
} from '../index.ts';
import { givenDate } from './given-date.ts';
import type { Settings } from './options.ts';
import { paintFor } from './paint.ts';
import { isFolder, readPlanText } from './plan-file.ts';
import { changeRack, type RackText, readExistingRack } from './rack-file.ts';
import { NO_RACK, USUAL_RACK } from './rack-stock.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** What an action works with. */
interface Order {
  readonly world: World;
  /** The name of the rack file. */
  readonly name: string;
  readonly words: readonly string[];
  readonly settings: Settings;
}

const ACTIONS: Readonly<Record<string, (order: Order) => void | Promise<void>>> = {
  list: listRack,
  add: addOffcuts,
  use: useOffcuts,
  'take-back': takeBackOffcuts,
};

export async function offcutsCommand(
  world: World,
  [action, ...words]: readonly string[],
  settings: Settings,
): Promise<number> {
  const names = Object.keys(ACTIONS);
  const act = names.includes(action!) ? ACTIONS[action!] : undefined;
  if (act === undefined) {
    const meant = nearest(action!, names);
    const hint = meant === null ? `there are ${names.join(', ')}` : `did you mean ${meant}?`;
    throw new CommandFailure(EXIT.usage, `offcuts has no action "${action}"; ${hint}`);
  }
  const name = settings.rack ?? USUAL_RACK;
  if (name === NO_RACK)
    throw new CommandFailure(
      EXIT.usage,
      `offcuts ${action} needs a rack; --rack none is for plans (a file of that name is --rack ./none)`,
    );
  await act({ world, name, words, settings });
  return EXIT.done;
}

function listRack({ world, name, words, settings }: Order): void {
  refuse(words, 'offcuts list');
  const { rack } = readExistingRack(world, name);
  const withUsed = settings.all !== undefined;
  if (settings.format === 'json') world.out(rackRecord(rack, withUsed));
  else if (settings.format === 'csv') world.out(rackCsv(rack, withUsed));
  else {
    const paint = paintFor(world, settings);
    for (const { tone, text } of rackLines(rack, withUsed)) world.out(`${paint(tone, text)}\n`);
  }
}

function refuse(words: readonly string[], after: string): void {
  if (words.length === 0) return;
  throw new CommandFailure(EXIT.usage, `"${words.join(' ')}" is too much after ${after}`);
}

const BY_HAND = [
  'size',
  'material',
  'thickness',
  'grain',
  'price',
  'currency',
  'job',
  'id',
  'note',
] as const;
const NEEDED = ['size', 'material', 'thickness', 'grain'] as const;

async function addOffcuts(order: Order): Promise<void> {
  const { words, settings } = order;
  const [planName, ...others] = words;
  const given = BY_HAND.filter((key) => settings[key] !== undefined);
  if (planName === undefined) {
    const missing = NEEDED.filter((key) => settings[key] === undefined);
    if (missing.length > 0)
      throw new CommandFailure(
        EXIT.usage,
        given.length === 0
          ? 'offcuts add takes the folder of a plan that was cut, or one offcut: --size, --material, --thickness, --grain'
          : `the offcut needs --${missing.join(', --')} as well`,
      );
    await change(order, freshRack(order, 'mm'), (kept) =>
      settings.unit !== undefined && settings.unit !== kept.rack.unit
        ? {
            ok: false,
            why: 'wrong',
            said: [
              `this rack is in ${kept.rack.unit}: write units with the lengths, such as 31in or 800mm`,
            ],
          }
        : addLine(kept, handLine(kept.rack, order), settings.currency ?? null),
    );
    return;
  }
  refuse(others, `offcuts add ${planName}`);
  if (given.length > 0)
    throw new CommandFailure(
      EXIT.usage,
      `--${given.join(', --')} is for an offcut without a plan: add the two one after the other`,
    );
  const plan = cutPlan(order, planName);
  await change(order, freshRack(order, plan.record.unit), (kept) => addPlan(kept, plan));
}

function handLine(rack: Rack, { world, settings }: Order): OffcutLine {
  return {
    id: settings.id ?? `R${rack.nextNumber}`,
    material: settings.material!,
    thickness: settings.thickness!,
    size: settings.size!,
    grain: settings.grain as OffcutLine['grain'],
    price: settings.price ?? null,
    from: { job: settings.job ?? null, sheet: null, plan: null, date: dayOf(world, settings) },
    note: settings.note ?? null,
  };
}

async function useOffcuts(order: Order): Promise<void> {
  const { world, settings } = order;
  const plan = namedPlan(order, 'use');
  const by: Deed = {
    job: settings.job ?? null,
    sheet: null,
    plan: null,
    date: dayOf(world, settings),
  };
  await change(order, null, (kept) =>
    plan === null ? useIds(kept, order.words, by) : usePlan(kept, plan),
  );
}

async function takeBackOffcuts(order: Order): Promise<void> {
  const plan = namedPlan(order, 'take-back');
  await change(order, null, (kept) =>
    plan === null ? takeBackIds(kept, order.words) : takeBackPlan(kept, plan.sha256),
  );
}

/** Changes the rack and says what was done. `fresh` is what is changed where there is no rack yet; null: that is an error. */
async function change(
  { world, name }: Order,
  fresh: RackText | null,
  act: (kept: RackText) => Outcome,
): Promise<void> {
  const said = await changeRack(world, name, (found) => {
    const outcome = act(found ?? fresh ?? readExistingRack(world, name));
    if (outcome.ok) return { text: outcome.text, result: outcome.said };
    const code = outcome.why === 'taken' ? EXIT.failed : EXIT.usage;
    throw new CommandFailure(code, outcome.said.join('\nholdfast: '));
  });
  for (const line of said) world.out(`${line}\n`);
}

function freshRack({ world: { limits }, settings }: Order, usual: Rack['unit']): RackText {
  const text = emptyRack((settings.unit ?? usual) as Rack['unit']);
  return { text, rack: readRack(text).rack!, limits };
}

/** The plan that the only word names, or null where the words are labels. */
function namedPlan(order: Order, action: string): CutPlan | null {
  const [first, ...others] = order.words;
  if (first === undefined)
    throw new CommandFailure(
      EXIT.usage,
      `offcuts ${action} takes labels such as R12, or the folder of a plan`,
    );
  if (!isPlanName(order.world, first)) return null;
  refuse(others, `offcuts ${action} ${first}`);
  return cutPlan(order, first);
}

/** No label has a dot or a slash; a folder of a label's name is still a plan. */
function isPlanName(world: World, word: string): boolean {
  return /[./\\]/.test(word) || isFolder(resolve(world.cwd, word));
}

function cutPlan({ world, settings }: Order, name: string): CutPlan {
  const { file, text, sha256 } = readPlanText(world, name);
  const record = readPlanRecord(text);
  if ('fault' in record) {
    const where = record.fault === '' ? '' : ` (see ${record.fault})`;
    throw new CommandFailure(
      EXIT.usage,
      `${file} is not the plan.json that holdfast plan writes${where}`,
    );
  }
  return { record, sha256, date: dayOf(world, settings) };
}

function dayOf(world: World, settings: Settings): string | null {
  return givenDate(world, settings)?.toISOString().slice(0, 10) ?? null;
}
