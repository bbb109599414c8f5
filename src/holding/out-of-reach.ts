/** Why the vacuum does not reach all of a loose thing: each cause that applies to it, with what undoes that one. */
import { intersect, subtract, unite } from '../geometry/boolean.ts';
import { boxRegion, type Region } from '../geometry/shape.ts';
import { formatLength } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import type { Table } from '../model/machine.ts';
import type { SheetStock } from '../model/stock.ts';
import { sheetRing } from '../model/stock.ts';
import { liftedBox } from './lifted.ts';
import { sealedSheet, tableOnSheet } from './reach.ts';

/** To follow "it lies"; none where all of the region, as it lies on the sheet, is reached. */
export function missTexts(
  table: Table,
  stock: SheetStock,
  region: Region,
  unit: FileUnit,
): readonly string[] {
  return [...tableMisses(table, stock, region), ...sheetMisses(table, stock, region, unit)];
}

function tableMisses(table: Table, stock: SheetStock, region: Region): string[] {
  const on = tableOnSheet(table, stock);
  if (on === null) return [];
  const all = on.zones === null ? [on.whole] : unite([...on.zones.open, ...on.zones.shut]);
  const shut = on.zones === null ? [] : subtract(on.zones.shut, on.zones.open);
  return [
    ...told(subtract([region], all), 'beside the working table (move the sheet)'),
    ...told(intersect([region], on.masked), 'on a masked place (take the mask off)'),
    ...told(intersect([region], shut), 'over a shut zone (open the zone)'),
  ];
}

function sheetMisses({ seal }: Table, stock: SheetStock, region: Region, unit: FileUnit): string[] {
  const sheet: Region = { outer: sheetRing(stock), holes: [] };
  const inset = formatLength(seal?.kind === 'gasket' ? seal.inset : 0, unit);
  const cord = `over or outside the gasket cord, ${inset} inside the edge of the sheet (a trim as wide keeps pieces inside it)`;
  return [
    ...told(subtract([region], sealedSheet(seal, sheet)), cord),
    ...stock.lifted.flatMap((edge) =>
      told(
        intersect([region], [boxRegion(liftedBox(stock, edge))]),
        `where the ${edge.side} edge stands up (press the edge down)`,
      ),
    ),
  ];
}

function told(missed: readonly Region[], text: string): string[] {
  return missed.length === 0 ? [] : [text];
}
