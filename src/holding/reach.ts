/**
 * Where on a sheet the vacuum works, and what of a loose thing it reaches.
 *
 * The table is its size, or those of its zones that are open and under the sheet, less what is masked. The sheet lies
 * with its long side along that of the table; what hangs over, stands up, or lies on a masked place or a shut zone, is not
 * held.
 * Over a porous spoilboard a thing loses a border along every open kerf; inside a gasket it loses what lies outside
 * the cord; on pods it keeps the area of as many pods as fit under it.
 * Where we differ: nobody lays a gasket or a pod under waste, so there only the weight holds it.
 * Degenerate: a table without a size ends with the sheet, and all of the sheet is reached.
 */
import { regionArea } from '../geometry/area.ts';
import { intersect, subtract, unite } from '../geometry/boolean.ts';
import type { Box } from '../geometry/box.ts';
import { offsetRegion } from '../geometry/offset.ts';
import type { Point } from '../geometry/point.ts';
import { boxRegion, type Region } from '../geometry/shape.ts';
import type { LooseKind } from '../model/holding.ts';
import type { Seal, Table } from '../model/machine.ts';
import { type SheetStock, sheetRing } from '../model/stock.ts';
import { fromMm, toMm, toMm2 } from '../model/units.ts';
import { liftedBox } from './lifted.ts';
import { podsUnder } from './pods.ts';

export interface Reach {
  readonly tableMm2: number;
  readonly bareMm2: number;
  readonly coveredMm2: number;
  /** The part of the sheet over a working table, in the coordinates of the sheet; null where that is all of it. */
  readonly within: readonly Region[] | null;
  /** Where an edge stands up, in the coordinates of the sheet. */
  readonly lifted: readonly LiftedStrip[];
}

export interface LiftedStrip {
  readonly region: Region;
  readonly gapMm: number;
}

export function reachOf(table: Table, stock: SheetStock): Reach {
  const sheet: Region = { outer: sheetRing(stock), holes: [] };
  const sealed = sealedSheet(table.seal, sheet);
  const working = workingTable(table, stock, sheet) ?? [sheet];
  const covered = intersect(sealed, working);
  const [tableMm2, coveredMm2] = [areaMm2(working), areaMm2(covered)];
  const lifted = stock.lifted.map((edge) => ({
    region: boxRegion(liftedBox(stock, edge)),
    gapMm: toMm(edge.gap),
  }));
  const strips = lifted.map(({ region }) => region);
  const down = strips.length === 0 ? covered : subtract(covered, strips);
  const within = subtract([sheet], down).length === 0 ? null : down;
  return { tableMm2, bareMm2: tableMm2 - coveredMm2, coveredMm2, within, lifted };
}

/** The sheet, or what of it lies inside a cord round it. */
export function sealedSheet(seal: Seal | null, sheet: Region): Region[] {
  const isRound = seal?.kind === 'gasket' && seal.around === 'sheet';
  return isRound ? offsetRegion(sheet, -seal.inset, 'mitre') : [sheet];
}

/** What a thing is held by: the border lost along its edges, and the seals of the table. */
export interface Footing extends Pick<Reach, 'lifted'> {
  readonly within: readonly Region[] | null;
  readonly borderMm: number;
  readonly seal: Seal | null;
  readonly cutter: number;
}

/** What of a region the vacuum reaches, as the region lies on its sheet. */
export function heldRegions(footing: Footing, region: Region, kind: LooseKind): Region[] {
  const held = sealedRegions(footing, region, kind);
  return footing.within === null ? held : intersect(held, footing.within);
}

/** Whether all of a region lies over a working table: then what is held of it does not depend on its place. */
export function isAllReached({ within }: Footing, region: Region): boolean {
  return within === null || subtract([region], within).length === 0;
}

/** How high a region stands up where it does so most. */
export function liftedMm({ lifted }: Pick<Reach, 'lifted'>, region: Region): number {
  const under = lifted.filter((strip) => intersect([region], [strip.region]).length > 0);
  return Math.max(0, ...under.map(({ gapMm }) => gapMm));
}

function sealedRegions(
  { seal, borderMm, cutter }: Footing,
  region: Region,
  kind: LooseKind,
): Region[] {
  if (seal === null) return offsetRegion(region, -fromMm(borderMm), 'mitre');
  if (kind !== 'piece') return [];
  if (seal.kind === 'pods') return podsUnder(region, seal, cutter);
  // Inside one cord the grooves carry the vacuum to the edge of every piece.
  return seal.around === 'sheet' ? [region] : offsetRegion(region, -seal.inset, 'mitre');
}

/** In the coordinates of the sheet; null where the table ends with the sheet. */
function workingTable(table: Table, stock: SheetStock, sheet: Region): Region[] | null {
  const on = tableOnSheet(table, stock);
  if (on === null) return null;
  const under = on.zones?.open.filter((zone) => intersect([zone], [sheet]).length > 0);
  return subtract(under === undefined ? [on.whole] : unite(under), on.masked);
}

/** The parts of a table in the coordinates of a sheet on it. */
export interface TableOnSheet {
  readonly whole: Region;
  /** Null where the table has none. */
  readonly zones: { readonly open: readonly Region[]; readonly shut: readonly Region[] } | null;
  readonly masked: readonly Region[];
}

/** Null where the table ends with the sheet. */
export function tableOnSheet(
  { size, zones, masked, sheetAt }: Table,
  stock: SheetStock,
): TableOnSheet | null {
  if (size === null) return null;
  const onSheet = sheetMap(size, stock, sheetAt);
  const place = (box: Box): Region => ({ outer: boxRegion(box).outer.map(onSheet), holes: [] });
  const zonesThat = (areShut: boolean): Region[] =>
    zones.filter(({ shut }) => shut === areShut).map(({ box }) => place(box));
  return {
    whole: place({ minX: 0, minY: 0, maxX: size.length, maxY: size.width }),
    zones: zones.length === 0 ? null : { open: zonesThat(false), shut: zonesThat(true) },
    masked: masked.map(place),
  };
}

/** From the table to the sheet, which is turned a quarter counter-clockwise where its long side would lie across the table. */
function sheetMap(
  table: { readonly length: number; readonly width: number },
  { length, width }: SheetStock,
  at: Point,
): (point: Point) => Point {
  return isTurned(table, { length, width })
    ? ({ x, y }) => ({ x: y - at.y, y: width - (x - at.x) })
    : ({ x, y }) => ({ x: x - at.x, y: y - at.y });
}

/** Whether the sheet lies a quarter turned, so that its long side goes with that of the table. */
export function isTurned(
  table: { readonly length: number; readonly width: number },
  { length, width }: { readonly length: number; readonly width: number },
): boolean {
  return length !== width && length > width !== table.length >= table.width;
}

function areaMm2(regions: readonly Region[]): number {
  return toMm2(regions.reduce((sum, region) => sum + regionArea(region), 0));
}
