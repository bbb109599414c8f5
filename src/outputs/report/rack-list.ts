import { formatMoney, formatSize, lengthNumber } from '../../model/format.ts';
import type { Job } from '../../model/job.ts';
import type { Deed, Rack, RackEntry } from '../../model/rack.ts';
import { sheetArea } from '../../model/stock.ts';
import { toMm, toMm2 } from '../../model/units.ts';
import { csvText } from '../csv.ts';
import { type Line, table, wrap } from './line.ts';

/** The rack as a table of at most 80 columns, by material, the largest first; what was used only where it is asked for. */
export function rackLines(rack: Rack, withUsed: boolean): readonly Line[] {
  const shown = shownEntries(rack, withUsed);
  const onRack = rack.entries.filter(({ used }) => used === null);
  const areaM2 = onRack.reduce((sum, { stock }) => sum + toMm2(sheetArea(stock)) / 1e6, 0);
  const used = rack.entries.length - onRack.length;
  const pieces = onRack.length === 1 ? '1 offcut' : `${onRack.length} offcuts`;
  const others = used === 0 ? '' : `, ${used} used${withUsed ? '' : ' (--all lists them as well)'}`;
  const total = `${pieces} on the rack, ${areaM2.toFixed(2)} m2${others}.`;
  const rows = shown.map((entry) => rowOf(rack, entry));
  const texts = shown.length === 0 ? [] : table([HEADS, ...rows], COLUMNS, FROM);
  return [
    ...texts.map((text, i): Line => {
      if (i === 0) return { tone: 'heading', text };
      return { tone: shown[i - 1]!.used === null ? 'plain' : 'quiet', text };
    }),
    ...wrap('plain', total),
  ];
}

const HEADS = ['id', 'material', 'thick', 'size', 'grain', 'from', 'date'];
const FROM = 5;
const COLUMNS = [
  { most: 8, right: false },
  { most: 12, right: false },
  { most: 7, right: true },
  { most: 19, right: false },
  { most: 6, right: false },
  { most: 30, right: false },
  { most: 10, right: false },
];

function rowOf({ unit }: Rack, entry: RackEntry): readonly string[] {
  const { id, material, thickness, stock, from, used, note } = entry;
  const words = [...(used === null ? [] : ['used']), ...originWords(from), note ?? ''];
  return [
    id,
    material,
    lengthNumber(thickness, unit),
    formatSize(stock.length, stock.width, unit),
    grainWord(entry),
    words.filter((word) => word !== '').join('; '),
    from.date ?? '',
  ];
}

/** Every offcut as comma-separated text, lengths in the unit of the rack. */
export function rackCsv(rack: Rack, withUsed: boolean): string {
  const { unit, currency } = rack;
  const heads = [
    'id',
    'material',
    `thickness ${unit}`,
    `length ${unit}`,
    `width ${unit}`,
    'grain',
    `price ${currency?.code ?? ''}`.trim(),
    'job',
    'sheet',
    'date',
    'state',
    'used by',
    'note',
  ];
  const rows = shownEntries(rack, withUsed).map((entry) => [
    entry.id,
    entry.material,
    decimal(entry.thickness, unit),
    decimal(entry.stock.length, unit),
    decimal(entry.stock.width, unit),
    grainWord(entry),
    priceNumber(entry, currency),
    entry.from.job,
    entry.from.sheet,
    entry.from.date,
    stateWord(entry),
    entry.used?.job ?? null,
    entry.note,
  ]);
  return csvText([heads, ...rows]);
}

/** The same as JSON; lengths are millimetres whatever the unit of the rack. */
export function rackRecord(rack: Rack, withUsed: boolean): string {
  const record = {
    format: 'holdfast-rack-list/1',
    currency: rack.currency?.code ?? null,
    offcuts: shownEntries(rack, withUsed).map((entry) => ({
      id: entry.id,
      material: entry.material,
      thickness: toMm(entry.thickness),
      length: toMm(entry.stock.length),
      width: toMm(entry.stock.width),
      grain: grainWord(entry),
      trim: toMm(entry.stock.trim.left),
      priceMinor: entry.stock.priceCents,
      from: entry.from,
      note: entry.note,
      state: stateWord(entry),
      usedBy: entry.used,
    })),
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}

function shownEntries({ entries }: Rack, withUsed: boolean): readonly RackEntry[] {
  const materials = [...new Set(entries.map(({ material }) => material))];
  return entries
    .filter(({ used }) => withUsed || used === null)
    .toSorted(
      (a, b) =>
        materials.indexOf(a.material) - materials.indexOf(b.material) ||
        sheetArea(b.stock) - sheetArea(a.stock),
    );
}

function grainWord({ stock: { grainAxis } }: RackEntry): string {
  if (grainAxis === null) return 'none';
  return grainAxis === 'x' ? 'first' : 'second';
}

function stateWord({ used }: RackEntry): string {
  return used === null ? 'on-rack' : 'used';
}

function originWords({ job, sheet }: Deed): readonly string[] {
  if (job === null) return [];
  return [sheet === null ? job : `${job}, sheet ${sheet}`];
}

/** To be reckoned with, so never a fraction. */
function decimal(length: number, unit: Job['unit']): number {
  const perUnit = unit === 'mm' ? 1 : 25.4;
  return Math.round((toMm(length) / perUnit) * 1e4) / 1e4;
}

function priceNumber({ stock }: RackEntry, currency: Rack['currency']): number | null {
  if (currency === null || stock.priceCents === null) return null;
  return Number(formatMoney(stock.priceCents, currency).split(' ')[0]);
}
