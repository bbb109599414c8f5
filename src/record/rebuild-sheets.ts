import type { Placement, SawCut, SheetLayout } from '../model/layout.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import { fromMm } from '../model/units.ts';
import { differences } from './differences.ts';
import { sheetFacts } from './facts.ts';
import { gridFaults, mentionFault, nameOf, type Rebuilding } from './rebuilding.ts';
import type { MaterialRecord, PlanFile, SheetRecord } from './schema.ts';

/** Of a sheet whose stock there is not. */
export const NO_STOCK = -1;

/** The sheets of a material, in the order of the record. */
export function rebuildSheets(
  material: Material,
  { sheets }: MaterialRecord,
  path: string,
  rebuilding: Rebuilding,
  { costs }: PlanFile,
): readonly SheetLayout[] {
  const taken = material.sheets.map(() => 0);
  const prices = new Map(costs?.sheets.map(({ number, priceMinor }) => [number, priceMinor]));
  return sheets.map((sheet, i) => {
    const place = `${path}.sheets[${i}]`;
    const placements = rebuildPlacements(sheet, place, rebuilding);
    const cuts = rebuildCuts(sheet, place, rebuilding);
    const stock = stockOf(material, sheet, taken, prices.get(sheet.number));
    if (stock === null) {
      rebuilding.faults.push(unknownStock(material, sheet, place));
      return { stock: NO_STOCK, placements, cuts };
    }
    taken[stock.index]!++;
    rebuilding.faults.push(...differences(sheetFacts(stock), sheet, place, 'sheet'));
    return { stock: stock.index, placements, cuts };
  });
}

/** By its label or its name; of several so named the one that is most like what the record says. */
function stockOf(
  { sheets }: Material,
  record: SheetRecord,
  taken: readonly number[],
  price: number | null | undefined,
): SheetStock | null {
  const named = sheets.filter(({ rack, name }) =>
    record.rack === null ? rack === null && name === record.stock : rack === record.rack,
  );
  const unlike = (stock: SheetStock) =>
    [
      ...differences(sheetFacts(stock), record, '', ''),
      ...(price === undefined || price === stock.priceCents ? [] : ['price']),
      ...(stock.onHand === null || taken[stock.index]! < stock.onHand ? [] : ['on hand']),
    ].length;
  return named.toSorted((a, b) => unlike(a) - unlike(b))[0] ?? null;
}

function unknownStock({ id }: Material, { rack, stock }: SheetRecord, path: string) {
  const [key, message] =
    rack === null
      ? ['stock', `${id} has no sheet ${stock}`]
      : ['rack', `no offcut ${rack} of ${id} is on the rack; --rack says which file it is`];
  return { code: 'unknown-stock', path: `${path}.${key}`, message };
}

function rebuildPlacements(
  { placements }: SheetRecord,
  path: string,
  { names, faults, seen }: Rebuilding,
): readonly Placement[] {
  return placements.flatMap(({ part, piece, x, y, turn, mirrored }, i) => {
    const place = `${path}.placements[${i}]`;
    const name = nameOf(part, piece);
    const index = names.pieces.get(name);
    faults.push(...gridFaults(`${place}.x`, x), ...gridFaults(`${place}.y`, y));
    const fault = mentionFault(name, index, seen, place);
    if (fault === null) return [{ piece: index!, x: fromMm(x), y: fromMm(y), turn, mirrored }];
    faults.push(fault);
    return [];
  });
}

function rebuildCuts(
  { cuts }: SheetRecord,
  path: string,
  { faults }: Rebuilding,
): readonly SawCut[] {
  return cuts.map(({ axis, panel, at, fence, stage, care }, i) => {
    const place = `${path}.cuts[${i}]`;
    const { minX, minY, maxX, maxY } = panel;
    faults.push(...gridFaults(`${place}.at`, at));
    for (const [key, side] of Object.entries(panel))
      faults.push(...gridFaults(`${place}.panel.${key}`, side));
    return {
      panel: { minX: fromMm(minX), minY: fromMm(minY), maxX: fromMm(maxX), maxY: fromMm(maxY) },
      axis: axis === 'along' ? 'x' : 'y',
      at: fromMm(at),
      fence,
      stage,
      care,
    };
  });
}
