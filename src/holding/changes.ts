/**
 * What a shop can change about its machine and table so that a piece is pushed less or held more.
 *
 * Each change is a job made from the job, so that its effect comes out of the same reckoning; only those that the model
 * covers are here, and only where there is something to change.
 * Sizes are such as a person would type: pass depths to 0.1 mm or 1/64 inch, feeds to 10 mm or 1 inch a minute.
 */
import type { Box } from '../geometry/box.ts';
import { formatLength } from '../model/format.ts';
import type { FileUnit, RouterJob } from '../model/job.ts';
import { passCount, type Router, type Spiral, type Table } from '../model/machine.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import { UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import type { Air } from './air.ts';
import { CONSTANTS } from './constants.ts';
import { fromPa } from './conversions.ts';
import { deepestVacuumKpa } from './pump.ts';
import { isTurned } from './reach.ts';

export type ChangeKind = 'passes' | 'feed' | 'spiral' | 'edge' | 'mask' | 'zones' | 'vacuum';

export interface Change {
  readonly kind: ChangeKind;
  readonly text: string;
  /** Setting up, once; null where nobody here can say what it costs. */
  readonly setUpS: number | null;
  readonly apply: (job: RouterJob) => RouterJob;
}

/** All that can be changed where this material is cut from this stock, in no order of merit. */
export function changesFor(
  job: RouterJob,
  material: Material,
  stock: SheetStock,
  air: Air,
): Change[] {
  const { machine, unit } = job;
  return [
    ...[1, 2].map((more) => passChange(machine, material.thickness, more, unit)),
    ...lastPassChanges(machine, material.thickness, unit),
    ...[3 / 4, 1 / 2].map((share) => feedChange(machine, share, unit)),
    ...spiralChanges(machine, unit),
    ...edgeChanges(machine),
    ...maskChanges(job.table, stock, air),
    ...zoneChanges(job.table),
    ...vacuumChanges(air, unit),
  ];
}

/** Time that the cutter takes for a length of kerf, rapid moves and plunges left out. */
export function cutS(machine: Router, thickness: number, kerfMm: number): number {
  return (passCount(machine, thickness) * kerfMm * 60) / machine.feedMmPerMin;
}

export function feedText(feedMmPerMin: number, unit: FileUnit): string {
  return unit === 'in'
    ? `${Math.round(feedMmPerMin / MM_PER_INCH)} in/min`
    : `${Math.round(feedMmPerMin)} mm/min`;
}

const MM_PER_INCH = UNITS_PER_INCH / UNITS_PER_MM;

function passChange(machine: Router, thickness: number, more: number, unit: FileUnit): Change {
  const { lastPass } = machine;
  const depth = lastPass < thickness ? thickness - lastPass : thickness;
  const now = Math.ceil(depth / machine.passDepth);
  const least = Math.ceil(depth / (now + more));
  const round = roundUp(least, unit);
  const passDepth = Math.ceil(depth / round) === now + more ? round : least;
  const above = depth < thickness ? ' above the last one' : '';
  return {
    kind: 'passes',
    text: `pass depth ${formatLength(passDepth, unit)}: ${now + more} passes${above} in place of ${now}`,
    setUpS: 0,
    apply: (job) => withMachine(job, { passDepth }),
  };
}

function lastPassChanges({ lastPass }: Router, thickness: number, unit: FileUnit): Change[] {
  if (lastPass === 0) {
    const kept = unit === 'in' ? UNITS_PER_INCH / 32 : UNITS_PER_MM;
    if (thickness < 3 * kept) return [];
    const text = `a last pass of ${formatLength(kept, unit)} kept`;
    const apply = (job: RouterJob): RouterJob => withMachine(job, { lastPass: kept });
    return [{ kind: 'passes', text, setUpS: 0, apply }];
  }
  const half = roundUp(lastPass / 2, unit);
  if (thickness <= lastPass || half === lastPass) return [];
  const text = `last pass ${formatLength(half, unit)} in place of ${formatLength(lastPass, unit)}`;
  const apply = (job: RouterJob): RouterJob => withMachine(job, { lastPass: half });
  return [{ kind: 'passes', text, setUpS: 0, apply }];
}

function roundUp(length: number, unit: FileUnit): number {
  const step = unit === 'in' ? UNITS_PER_INCH / 64 : UNITS_PER_MM / 10;
  return Math.ceil(length / step) * step;
}

function feedChange({ feedMmPerMin }: Router, share: number, unit: FileUnit): Change {
  const step = unit === 'in' ? MM_PER_INCH : 10;
  const slower = Math.max(1, Math.round((feedMmPerMin * share) / step)) * step;
  return {
    kind: 'feed',
    text: `feed ${feedText(slower, unit)} in place of ${feedText(feedMmPerMin, unit)}`,
    setUpS: 0,
    apply: (job) => withMachine(job, { feedMmPerMin: slower }),
  };
}

/** Straight and down-cut flutes lift alike: not at all. */
function spiralChanges({ cutter }: Router, unit: FileUnit): Change[] {
  if (cutter.spiral === 'straight' || cutter.spiral === 'down-cut') return [];
  const now = cutter.spiral === 'up-cut' ? 'up-cut one' : 'compression one';
  const change = (spiral: Spiral, upcutLength: number, text: string): Change => ({
    kind: 'spiral',
    text: `${text} in place of the ${now}`,
    setUpS: CONSTANTS.cutterChange.value,
    apply: (job) => withCutter(job, { spiral, upcutLength }),
  });
  const downCut = change('down-cut', 0, 'a down-cut or straight cutter');
  if (cutter.spiral === 'compression') return [downCut];
  const tip = cutter.diameter;
  const compression = `a compression cutter with a tip of ${formatLength(tip, unit)}`;
  return [downCut, change('compression', tip, compression)];
}

function edgeChanges({ cutter }: Router): Change[] {
  if (!cutter.worn) return [];
  const setUpS = CONSTANTS.cutterChange.value;
  const text = 'a fresh cutter in place of the worn one';
  return [{ kind: 'edge', text, setUpS, apply: (job) => withCutter(job, { worn: false }) }];
}

function maskChanges({ size, sheetAt }: Table, stock: SheetStock, { bareMm2 }: Air): Change[] {
  if (size === null || bareMm2 <= 0) return [];
  const [length, width] = isTurned(size, stock)
    ? [stock.width, stock.length]
    : [stock.length, stock.width];
  const bare = boxesBeside(size, {
    minX: sheetAt.x,
    minY: sheetAt.y,
    maxX: sheetAt.x + length,
    maxY: sheetAt.y + width,
  });
  if (bare.length === 0) return [];
  return [
    {
      kind: 'mask',
      text: 'the bare table beside the sheet masked',
      setUpS: CONSTANTS.maskTable.value,
      apply: (job) => withTable(job, { masked: [...job.table.masked, ...bare] }),
    },
  ];
}

function zoneChanges({ zones }: Table): Change[] {
  if (!zones.some(({ shut }) => shut)) return [];
  const opened = zones.map((zone) => ({ ...zone, shut: false }));
  const apply = (job: RouterJob): RouterJob => withTable(job, { zones: opened });
  const setUpS = CONSTANTS.openZone.value;
  return [{ kind: 'zones', text: 'the shut zones opened', setUpS, apply }];
}

/** What of a table lies outside a box: a strip to the left and to the right, and one below and above between them. */
function boxesBeside(size: { readonly length: number; readonly width: number }, box: Box): Box[] {
  const { length: maxX, width: maxY } = size;
  const [left, right] = [Math.max(0, box.minX), Math.min(maxX, box.maxX)];
  return [
    { minX: 0, minY: 0, maxX: left, maxY },
    { minX: right, minY: 0, maxX, maxY },
    { minX: left, minY: 0, maxX: right, maxY: Math.max(0, box.minY) },
    { minX: left, minY: Math.min(maxY, box.maxY), maxX: right, maxY },
  ].filter((strip) => strip.minX < strip.maxX && strip.minY < strip.maxY);
}

/** What a gauge shows as a clear step. */
const DEEPER_KPA = 5;

/** At every flow, where the table stands; nobody is sent to look for a vacuum near that of empty space. */
function vacuumChanges({ atmospherePa, curve }: Air, unit: FileUnit): Change[] {
  if ((deepestVacuumKpa(curve) + DEEPER_KPA) * 1000 > DEEPEST_SHARE * atmospherePa) return [];
  const atSeaLevelKpa = (DEEPER_KPA * CONSTANTS.seaLevelPressure.value) / atmospherePa;
  const mercury = unit === 'in' ? ` (${fromPa(DEEPER_KPA * 1000, 'inHg').toFixed(1)} inHg)` : '';
  const deeper = (points: Table['pump']['curve']) =>
    points.map((point) => ({ ...point, vacuumKpa: point.vacuumKpa + atSeaLevelKpa }));
  return [
    {
      kind: 'vacuum',
      text: `a pump that pulls ${DEEPER_KPA} kPa${mercury} deeper`,
      setUpS: null,
      apply: (job) =>
        withTable(job, { pump: { ...job.table.pump, curve: deeper(job.table.pump.curve) } }),
    },
  ];
}

const DEEPEST_SHARE = 0.95;

function withMachine(job: RouterJob, changed: Partial<Router>): RouterJob {
  return { ...job, machine: { ...job.machine, ...changed } };
}

function withCutter(job: RouterJob, changed: Partial<Router['cutter']>): RouterJob {
  return withMachine(job, { cutter: { ...job.machine.cutter, ...changed } });
}

function withTable(job: RouterJob, changed: Partial<Table>): RouterJob {
  return { ...job, table: { ...job.table, ...changed } };
}
