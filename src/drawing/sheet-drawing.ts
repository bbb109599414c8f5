import type { Plan } from '../model/plan.ts';
import { sheetRing, usableRegions } from '../model/stock.ts';
import {
  type Arrangement,
  arrangeAlone,
  arrangeAt,
  arrangeForPage,
  arrangeForScreen,
  MARGINS,
  type PAGE,
} from './arrangement.ts';
import { type Drawing, group, type Item, type Layer, polygon, rectangle } from './display-list.ts';
import {
  drawScaleBar,
  drawSheetDimensions,
  drawTitle,
  offcutName,
  SCALE_BAR_HEIGHT,
} from './furniture.ts';
import { drawLegend } from './legend.ts';
import { type Frame, frameAt } from './marks.ts';
import { drawnPoint } from './outline.ts';
import { drawPiece, drawWaste } from './piece-drawing.ts';
import { drawCuts } from './saw-marks.ts';
import { sequencePages } from './saw-pages.ts';
import { drawStripNames } from './saw-strips.ts';
import { drawKeepOuts, drawOffcuts, drawSetLinks, drawSets, drawTabs } from './sheet-marks.ts';
import { type SheetView, viewSheet } from './sheet-view.ts';
import { drawNotes, drawStretches } from './table-drawing.ts';
import { tablePages } from './table-pages.ts';
import { plainText } from './text.ts';
import { drawVacuumChart } from './vacuum-chart.ts';

/** The sheet with this index in the whole job, from 0, to scale, with the table of its pieces beside it or below. */
export function drawSheet(plan: Plan, sheetIndex: number): Drawing {
  const view = viewSheet(plan, sheetIndex);
  return sheetPicture(view, arrangeForScreen(view));
}

/** A scale that was asked for, and how much room a page has at 1 : 1. */
export interface AskedScale {
  readonly scale: number;
  readonly room: typeof PAGE;
}

/** The same for paper, as large as it fits or at a scale: where the table is too long for the sheet's page, it follows on pages of its own. */
export function drawSheetPages(
  plan: Plan,
  sheetIndex: number,
  asked: AskedScale | null = null,
): readonly Drawing[] {
  const view = viewSheet(plan, sheetIndex);
  const arrangement =
    asked === null ? arrangeForPage(view) : arrangeAt(view, asked.scale, asked.room);
  const picture = sheetPicture(view, arrangement);
  return [picture, ...(arrangement.tableApart ? tablePages(view) : []), ...sequencePages(view)];
}

/** The same without its title and tables, for a page that has them beside the drawing. */
export function drawSheetAlone(plan: Plan, sheetIndex: number): Drawing {
  const view = viewSheet(plan, sheetIndex);
  const picture = sheetPicture({ ...view, vacuum: null }, arrangeAlone(view), 0);
  const spoken: readonly Layer['name'][] = ['table', 'chart', 'title'];
  return { ...picture, layers: picture.layers.filter(({ name }) => !spoken.includes(name)) };
}

function sheetPicture(
  view: SheetView,
  arrangement: Arrangement,
  titleHeight: number = MARGINS.title,
): Drawing {
  const { unit, sheetLength, sheetWidth, totalWidth, totalHeight, legend } = arrangement;
  const left = -(MARGINS.edge + MARGINS.leftOfSheet);
  const top = sheetWidth + MARGINS.aboveSheet + titleHeight + MARGINS.edge;
  const bottom = top - totalHeight;
  const paper = frameAt({ x: 0, y: 0 }, unit);
  const frame = (x: number, y: number) => frameAt(paper.at(x, y), unit);
  const whole = rectangle('background', paper.at(left, bottom), paper.at(left + totalWidth, top));
  const titleAt = frame(left + MARGINS.edge, top - MARGINS.edge);
  const barAt = frame(sheetLength, -MARGINS.belowSheet + SCALE_BAR_HEIGHT);
  return {
    id: `sheet-${view.number}`,
    title: `Sheet ${view.number} of ${view.of}: ${plainText(view.material.name)}${offcutName(view.stock)}`,
    left: left * unit,
    bottom: bottom * unit,
    width: totalWidth * unit,
    height: totalHeight * unit,
    paperScale: unit,
    toScale: true,
    layers: [
      layer('background', [whole]),
      ...sheetLayers(view, unit),
      layer('dimensions', [
        ...drawSheetDimensions(view, arrangement, paper),
        ...drawScaleBar(unit, view.job.unit, barAt),
      ]),
      layer('legend', drawLegend(legend.rows, frame(legend.x, legend.y))),
      layer('table', placeTable(arrangement, paper)),
      layer('chart', placeChart(view, arrangement, paper)),
      layer('title', drawTitle(view, totalWidth - 2 * MARGINS.edge, titleAt)),
    ],
  };
}

/** All that lies on the sheet itself. */
function sheetLayers(view: SheetView, unit: number): readonly Layer[] {
  const { stock } = view;
  const trimmed = Object.values(stock.trim).some((width) => width > 0);
  const sheet = polygon('sheet', sheetRing(stock).map(drawnPoint));
  const trims = usableRegions(stock).map(({ outer }) => polygon('trim', outer.map(drawnPoint)));
  const waste = view.waste.map((each) => drawWaste(view, each, unit));
  const pieces = view.pieces.map((laid) => drawPiece(view, laid, unit));
  const offcuts = drawOffcuts(view, unit);
  const numbers = [...waste, ...pieces].flatMap(({ above }) => above);
  const pieceGroups = pieces.map(({ group: own }) => own);
  return [
    layer('sheet', [sheet, ...(trimmed ? trims : [])]),
    { name: 'offcuts', groups: offcuts },
    { name: 'waste', groups: waste.map(({ group: own }) => own) },
    { name: 'keep-outs', groups: drawKeepOuts(view, unit) },
    { name: 'sets', groups: drawSets(view) },
    { name: 'pieces', groups: pieceGroups },
    { name: 'set-links', groups: drawSetLinks(view, unit) },
    { name: 'tabs', groups: [drawTabs(view, unit)] },
    ...(numbers.length > 0 ? [layer('numbers', numbers)] : []),
    ...(view.sawing === null
      ? []
      : [
          {
            name: 'cuts' as const,
            groups: [
              ...drawCuts(view, [...pieceGroups, ...offcuts], unit),
              drawStripNames(view, unit),
            ],
          },
        ]),
  ];
}

function layer(name: Layer['name'], items: readonly Item[]): Layer {
  return { name, groups: [group(items)] };
}

function placeChart({ vacuum, job }: SheetView, { chart }: Arrangement, paper: Frame): Item[] {
  if (vacuum === null || chart === null) return [];
  return drawVacuumChart(vacuum, job.unit, frameAt(paper.at(chart.x, chart.y), paper.unit));
}

function placeTable({ table, notes, totalWidth }: Arrangement, paper: Frame): Item[] {
  const frame = (x: number, y: number) => frameAt(paper.at(x, y), paper.unit);
  return [
    ...drawStretches(table.stretches, table.columns, frame(table.x, table.y)),
    ...drawNotes(notes.lines, totalWidth, frame(notes.x, notes.y)),
  ];
}
