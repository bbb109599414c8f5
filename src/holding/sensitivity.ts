/**
 * Which inputs of the reckoning move the margins most.
 *
 * Each input goes alone to the bad end of its band, and the nominal margins of a few pieces are reckoned anew by the
 * functions of the holding plan; cutting order and open kerf stay. What counts is the sum of the logarithms of the ratios
 * of new to old, so that halving weighs as much as doubling; of an input that can err either way the end with the lower
 * sum is the bad one. The pieces are those nearest to the line between staying and not, since there a margin is a verdict.
 * Where we differ: a change of two inputs together is not looked at, and the low end of the margin is not shown.
 * Cost: some fifteen settings a material, and as many reckonings for each of at most six pieces.
 * Degenerate: an input that moves nothing, such as the spoilboard on a table without one, is left out.
 */
import { formatLength } from '../model/format.ts';
import type { Influence } from '../model/holding.ts';
import type { FileUnit, RouterJob } from '../model/job.ts';
import type { Router, Table } from '../model/machine.ts';
import type { SheetStock } from '../model/stock.ts';
import { fromMm } from '../model/units.ts';
import { vacuumAt } from './air.ts';
import { type Body, bodyOf } from './body.ts';
import { feedText } from './changes.ts';
import { CONSTANTS } from './constants.ts';
import type { PassForce } from './cutting-force.ts';
import type { HeldThing } from './hold-sheet.ts';
import { heldRegions } from './reach.ts';
import { type Setting, settingOf, standAt } from './stand.ts';
import { STAYS } from './verdict.ts';

/** A piece with the setting of its sheet. */
export interface Sensed {
  readonly setting: Setting;
  readonly stock: SheetStock;
  readonly thing: HeldThing;
}

/** The strongest first; `pieces` hold no waste. */
export function sensitivityOf(job: RouterJob, pieces: readonly Sensed[]): readonly Influence[] {
  const sensed = nearestToTheLine(pieces);
  if (sensed.length === 0) return [];
  const known = new Map<Setting, readonly Input[]>();
  const inputsOf = ({ setting, stock }: Sensed): readonly Input[] => {
    const inputs = known.get(setting) ?? inputsFor(job, setting, stock);
    known.set(setting, inputs);
    return inputs;
  };
  const moves = inputsOf(sensed[0]!).flatMap((input, i) => {
    const ends = input.ends.map((_, end) => moveOf(sensed, (each) => inputsOf(each)[i]!, end));
    return ends.length === 0 ? [] : [ends.reduce((a, b) => (b.sum < a.sum ? b : a))];
  });
  return moves
    .filter(({ sum }) => sum !== 0)
    .sort((a, b) => Math.abs(b.sum) - Math.abs(a.sum))
    .map(({ influence }) => influence);
}

/** Few enough that the whole takes no time that a person would notice. */
const MOST_PIECES = 6;

/** Equal pieces of a material once. */
function nearestToTheLine(pieces: readonly Sensed[]): Sensed[] {
  const different = pieces.filter(
    ({ setting, thing }, i) =>
      pieces.findIndex(
        (other) => other.setting.material === setting.material && other.thing.body === thing.body,
      ) === i,
  );
  const away = ({ thing: { holding } }: Sensed): number =>
    Math.abs(
      Math.log(
        Math.max(
          LEAST,
          Math.min(holding.margin / STAYS.margin, holding.marginLow / STAYS.marginLow),
        ),
      ),
    );
  return different.sort((a, b) => away(a) - away(b)).slice(0, MOST_PIECES);
}

/** Half of the last printed digit of a margin stands for none. */
const LEAST = 0.005;

interface Input {
  readonly name: string;
  readonly from: string;
  readonly ends: readonly End[];
}

interface End {
  readonly to: string;
  readonly setting: Setting;
}

interface Move {
  /** Of the logarithms: below 0 where the margins fall. */
  readonly sum: number;
  readonly influence: Influence;
}

/** What one end of an input does to all pieces; shown of the first that it moves. */
function moveOf(sensed: readonly Sensed[], inputOf: (each: Sensed) => Input, end: number): Move {
  const moved = sensed.map((each): Move => {
    const { name, from, ends } = inputOf(each);
    const { to, setting } = ends[end]!;
    const { piece, margin } = each.thing.holding;
    const marginTo = marginUnder(setting, each);
    const sum = Math.log(Math.max(LEAST, marginTo) / Math.max(LEAST, margin));
    const influence = { input: name, from, to, piece: piece!, marginFrom: margin, marginTo };
    return { sum, influence };
  });
  const { influence } = moved.find(({ sum }) => sum !== 0) ?? moved[0]!;
  return { sum: moved.reduce((total, { sum }) => total + sum, 0), influence };
}

function marginUnder(setting: Setting, { setting: given, thing }: Sensed): number {
  const vacuumKpa = vacuumAt(setting.air, thing.reckoned.openKerfMm, 'nominal');
  const body = bodyUnder(setting, given, thing);
  return standAt(setting, body, vacuumKpa, { end: 'nominal' }).margins.least;
}

/** Only another border holds another part of it. */
function bodyUnder(setting: Setting, given: Setting, { body, region, floors }: HeldThing): Body {
  if (setting.air.borderMm === given.air.borderMm) return body;
  return bodyOf(region, heldRegions(setting.air, region, 'piece'), body.liftedMm, floors);
}

/** As many for every material of a job, in the same order. */
function inputsFor(job: RouterJob, given: Setting, stock: SheetStock): Input[] {
  const { table, unit } = job;
  const anew = (machine: Router, changed: Table): Setting =>
    settingOf(machine, changed, given.material, stock, given.air.floors);
  return [
    forceInput(given),
    frictionInput(given),
    ...machineInputs(given.machine, unit, (machine) => anew(machine, table)),
    ...airInputs(given, table, (changed) => anew(given.machine, changed)),
    ...(table.seal === null
      ? boardInputs(given, job, (changed) => anew(given.machine, changed))
      : []),
  ];
}

function forceInput(given: Setting): Input {
  const band = CONSTANTS.forceBand.value;
  const [first, ...others] = given.passes;
  const end = (factor: number): End => ({
    to: percent(factor),
    setting: {
      ...given,
      passes: [timesForce(first, factor), ...others.map((pass) => timesForce(pass, factor))],
    },
  });
  return { name: 'cutting force', from: percent(1), ends: [end(1 + band), end(1 - band)] };
}

function timesForce(pass: PassForce, factor: number): PassForce {
  return {
    ...pass,
    edgeNPerMm: pass.edgeNPerMm * factor,
    shearNPerMm2: pass.shearNPerMm2 * factor,
    tangentialN: pass.tangentialN * factor,
    resultantN: pass.resultantN * factor,
    axialN: pass.axialN * factor,
    pushes: pass.pushes.map(({ deg, acrossN, alongN }) => ({
      deg,
      acrossN: acrossN * factor,
      alongN: alongN * factor,
    })),
  };
}

function frictionInput(given: Setting): Input {
  const { nominal, low } = given.friction;
  const setting = { ...given, friction: { nominal: low, low } };
  return { name: 'friction', from: `${nominal}`, ends: [{ to: `${low}`, setting }] };
}

const FEED_BAND = 0.2;

function machineInputs(
  machine: Router,
  unit: FileUnit,
  anew: (machine: Router) => Setting,
): Input[] {
  const { cutter, feedMmPerMin } = machine;
  const edge = (worn: boolean): string => (worn ? 'worn' : 'sharp');
  const feed = (factor: number): End => ({
    to: feedText(feedMmPerMin * factor, unit),
    setting: anew({ ...machine, feedMmPerMin: feedMmPerMin * factor }),
  });
  const otherEdge = anew({ ...machine, cutter: { ...cutter, worn: !cutter.worn } });
  return [
    {
      name: 'cutter',
      from: edge(cutter.worn),
      ends: [{ to: edge(!cutter.worn), setting: otherEdge }],
    },
    {
      name: 'feed',
      from: feedText(feedMmPerMin, unit),
      ends: [feed(1 + FEED_BAND), feed(1 - FEED_BAND)],
    },
  ];
}

const FLOW_LOSS = 0.2;
const WEATHER = 0.03;

function airInputs(given: Setting, { pump, ...table }: Table, anew: (table: Table) => Setting) {
  const curve = pump.curve.map((point) => ({ ...point, flowM3h: point.flowM3h * (1 - FLOW_LOSS) }));
  const weak = anew({ ...table, pump: { ...pump, curve } });
  const { air } = given;
  const atmospherePa = air.atmospherePa * (1 - WEATHER);
  // Low air makes every vacuum of the pump as much shallower.
  const low = air.curve.map((point) => ({ ...point, vacuumKpa: point.vacuumKpa * (1 - WEATHER) }));
  const kpa = (pressurePa: number): string => `${(pressurePa / 1000).toFixed(1)} kPa`;
  const rainy = { ...given, air: { ...air, atmospherePa, curve: low } };
  return [
    { name: 'pump flow', from: percent(1), ends: [{ to: percent(1 - FLOW_LOSS), setting: weak }] },
    {
      name: 'air pressure',
      from: kpa(air.atmospherePa),
      ends: [{ to: kpa(atmospherePa), setting: rainy }],
    },
  ];
}

const BOARD_BAND = 0.1;
/** Common practice: an edge that is worn, or a board that is not flat. */
const BORDER_BAND = 0.25;

function boardInputs(given: Setting, { table, unit }: RouterJob, anew: (table: Table) => Setting) {
  const { spoilboard } = table;
  const { thickness, permeabilityM2 } = spoilboard;
  const { low } = permeabilityM2;
  const porous = anew({
    ...table,
    spoilboard: { ...spoilboard, permeabilityM2: { nominal: low, low } },
  });
  const thick = (factor: number): End => {
    const other = Math.round(thickness * factor);
    const setting = anew({ ...table, spoilboard: { ...spoilboard, thickness: other } });
    return { to: formatLength(other, unit), setting };
  };
  const { borderMm } = given.air;
  const border = (factor: number): End => {
    const air = { ...given.air, borderMm: borderMm * factor };
    return { to: borderText(air.borderMm, unit), setting: { ...given, air } };
  };
  return [
    {
      name: 'spoilboard permeability',
      from: `${permeabilityM2.nominal} m2`,
      ends: [{ to: `${low} m2`, setting: porous }],
    },
    {
      name: 'spoilboard thickness',
      from: formatLength(thickness, unit),
      ends: [thick(1 + BOARD_BAND), thick(1 - BOARD_BAND)],
    },
    {
      name: 'border without vacuum',
      from: borderText(borderMm, unit),
      ends: [border(1 + BORDER_BAND), border(1 - BORDER_BAND)],
    },
  ];
}

function borderText(borderMm: number, unit: FileUnit): string {
  return formatLength(fromMm(Math.round(borderMm * 10) / 10), unit);
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
