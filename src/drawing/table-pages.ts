import { inStretches, MARGINS, PAGE } from './arrangement.ts';
import { type Drawing, group, type Layer, rectangle } from './display-list.ts';
import { drawTitle, offcutName } from './furniture.ts';
import { frameAt } from './marks.ts';
import { sheetRows, type TableRow } from './sheet-table.ts';
import type { SheetView } from './sheet-view.ts';
import {
  drawStretches,
  rowsOfHeight,
  TABLE_GAP,
  type TableColumns,
  tableColumns,
} from './table-drawing.ts';

const ROOM = {
  width: PAGE.width - 2 * MARGINS.edge,
  height: PAGE.height - 2 * MARGINS.edge - MARGINS.title,
};

/** Pages that list what is cut from one sheet, where the list is too long for the sheet's own page; in millimetres of paper. */
export function tablePages(view: SheetView): readonly Drawing[] {
  const rows = sheetRows(view);
  const columns = tableColumns(rows);
  const side = Math.max(1, Math.floor((ROOM.width + TABLE_GAP) / (columns.total + TABLE_GAP)));
  const perPage = side * rowsOfHeight(ROOM.height);
  const pages: Drawing[] = [];
  for (let first = 0; first < rows.length; first += perPage) {
    const stretches = inStretches(rows.slice(first, first + perPage), side);
    pages.push(tablePage(view, pages.length + 1, columns, stretches));
  }
  return pages;
}

function tablePage(
  view: SheetView,
  page: number,
  columns: TableColumns,
  stretches: readonly (readonly TableRow[])[],
): Drawing {
  const layer = (name: Layer['name'], items: Layer['groups'][number]['items']): Layer => ({
    name,
    groups: [group(items)],
  });
  const paper = frameAt({ x: 0, y: 0 }, 1);
  const corner = paper.at(MARGINS.edge, PAGE.height - MARGINS.edge);
  const below = paper.at(corner.x, corner.y - MARGINS.title);
  return {
    id: `sheet-${view.number}-list-${page}`,
    title: `Sheet ${view.number} of ${view.of}: ${view.material.name}${offcutName(view.stock)}, list of pieces`,
    left: 0,
    bottom: 0,
    width: PAGE.width,
    height: PAGE.height,
    paperScale: 1,
    toScale: false,
    layers: [
      layer('background', [
        rectangle('background', paper.at(0, 0), paper.at(PAGE.width, PAGE.height)),
      ]),
      layer('table', drawStretches(stretches, columns, frameAt(below, 1))),
      layer('title', drawTitle(view, ROOM.width, frameAt(corner, 1))),
    ],
  };
}
