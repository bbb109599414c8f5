import { type Box, boxContains, boxesOverlap, boxOf, growBox } from '../geometry/box.ts';
import { boxOfShape, placeContour, placePoint } from '../geometry/pose.ts';
import type { Pocket, Sides } from '../model/part.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import {
  circle,
  type DrawnPoint,
  type Group,
  type Item,
  line,
  type PathItem,
  rectangle,
} from './display-list.ts';
import { freeRectangles } from './free-rectangles.ts';
import { type Label, type LabelSite, placeLabel } from './label.ts';
import type { LabelFacts } from './label-forms.ts';
import { alertOf, frameAt, lettering } from './marks.ts';
import {
  contourRun,
  drawnBox,
  drawnPoint,
  middleOf,
  ringRun,
  scaleBox,
  shapeRuns,
} from './outline.ts';
import { AFTERWARDS, isCutAfterwards } from './saw-texts.ts';
import { doneText } from './sheet-table.ts';
import type { LaidPiece, LaidWaste, SheetView } from './sheet-view.ts';
import { LETTERS, SIGNS, type StyleName } from './styles.ts';
import { textWidth } from './text.ts';

const BAND_INSET = 0.55;
const THIN_INSET = 0.35;
/** A strip of less on paper has thin bands. */
const NARROW = 4;
const DIMENSION_INSET = 1.2;
const PLATE_MARGIN = 0.7;
/** Radius on paper from which a through hole has a cross. */
const LEAST_CROSS = 0.6;
const TAB_CLEARANCE = 0.9;
/** A piece smaller than this on paper has its size in the label, not along its edges. */
const LEAST_FOR_DIMENSIONS = { across: 15, up: 13 };

/** Something as it lies on the sheet, and what of its label has to lie above all others. */
export interface Drawn {
  readonly group: Group;
  readonly above: readonly Item[];
}

/** One piece with all that is written on it; `unit` is the drawing's millimetres for one of paper. */
export function drawPiece(view: SheetView, laid: LaidPiece, unit: number): Drawn {
  const { part, holding, piece } = laid;
  const action = holding?.action ?? 'none';
  const style = action === 'none' ? 'piece' : SIGNS[action].piece;
  const body: PathItem = { kind: 'path', style, runs: shapeRuns(laid.shape) };
  const holes = drawnHoles(laid, unit);
  const { dimensions, label } = writePiece(view, laid, holes, unit);
  const written = [...(label.bare ? [] : [label.box]), ...dimensions.map(({ box }) => box)];
  const plates =
    action === 'none'
      ? []
      : written.map((box) => plate(SIGNS[action].plate, box, drawnBox(laid.box), unit));
  const group = {
    id: `piece-${piece.index}`,
    title: pieceTitle(view, laid),
    items: [
      body,
      ...edgeBands(laid, part.edgeBands, unit),
      ...drawnPockets(laid),
      ...holes.flatMap((hole) => hole.items),
      ...plates,
      ...dimensions.flatMap(({ items }) => items),
      ...(label.bare ? [] : label.items),
    ],
  };
  return { group, above: label.bare ? bareItems('plate-number', label) : [] };
}

/** A number that sticks out is read on ground of its own. */
function bareItems(style: StyleName, { box, items }: Label): readonly Item[] {
  return [rectangle(style, { x: box.minX, y: box.minY }, { x: box.maxX, y: box.maxY }), ...items];
}

/** The inside of a cut-out, or a strip between pieces, that comes free: hatched, with its number. */
export function drawWaste(view: SheetView, waste: LaidWaste, unit: number): Drawn {
  const { holding, outline, name } = waste;
  const own = boxOf(outline);
  const within = view.pieces.map(({ box }) => box).filter((box) => boxContains(own, box));
  const label = placeLabel(
    {
      order: `${holding.cutOrder}`,
      kind: holding.kind,
      name: holding.kind,
      count: null,
      size: null,
      action: holding.action,
      alert: alertOf(holding),
      setTag: null,
      grain: null,
    },
    {
      rectangles: freeRectangles({ outer: outline, holes: [] }, within).map(drawnBox),
      centre: middleOf(drawnBox(own)),
      unit,
      fills: false,
    },
  );
  const ground: PathItem = { kind: 'path', style: 'waste', runs: [ringRun(outline)] };
  const written = label.bare
    ? []
    : [plate('plate-waste', label.box, drawnBox(own), unit), ...label.items];
  const group = {
    id: null,
    title: `${name}, number ${holding.cutOrder} to come free`,
    items: [ground, ...written],
  };
  return { group, above: label.bare ? bareItems('plate-waste', label) : [] };
}

interface Written {
  readonly box: Box;
  readonly items: readonly Item[];
}

/** Label and sizes: along the edges where that leaves the label in comfort, else the size is part of the label. */
function writePiece(
  view: SheetView,
  laid: LaidPiece,
  holes: readonly Written[],
  unit: number,
): { label: Label; dimensions: readonly Written[] } {
  const tabs = (laid.holding?.tabs ?? []).map(({ at }) => aroundTab(drawnPoint(at), unit));
  const taken = [...holes.map(({ box }) => box), ...tabs];
  const recesses = laid.part.pockets.map((pocket) => pocketBox(laid, pocket));
  const dimensions = edgeDimensions(laid, [...taken, ...recesses], unit);
  if (dimensions.length > 0) {
    const obstacles = [...taken, ...dimensions.map(({ box }) => box)];
    const facts = { ...pieceFacts(view, laid), size: null };
    const label = placeLabel(facts, labelSite(laid, obstacles, unit));
    if (label.comfortable) return { label, dimensions };
  }
  const site = labelSite(laid, taken, unit);
  const facts = pieceFacts(view, laid);
  if (view.sawing !== null && isCutAfterwards(laid.part)) {
    const label = placeLabel({ ...facts, size: `${laid.size}, ${AFTERWARDS}` }, site);
    if (label.comfortable) return { label, dimensions: [] };
  }
  return { label: placeLabel(facts, site), dimensions: [] };
}

function aroundTab({ x, y }: DrawnPoint, unit: number): Box {
  return growBox({ minX: x, maxX: x, minY: y, maxY: y }, TAB_CLEARANCE * unit);
}

function pieceFacts(view: SheetView, laid: LaidPiece): LabelFacts {
  const { holding } = laid;
  return {
    order: `${holding?.cutOrder ?? laid.doneBy ?? '–'}`,
    kind: 'piece',
    name: laid.name,
    count: laid.count === '1/1' ? null : laid.count,
    size: laid.size,
    action: holding?.action ?? 'none',
    alert: holding === null ? null : alertOf(holding),
    setTag: laid.setTag,
    grain: view.stock.grainAxis,
  };
}

function labelSite(
  { region, box, doneBy }: LaidPiece,
  obstacles: readonly Box[],
  unit: number,
): LabelSite {
  const inUnits = obstacles.map((obstacle) => scaleBox(obstacle, UNITS_PER_MM));
  return {
    rectangles: freeRectangles(region, inUnits).map(drawnBox),
    centre: middleOf(drawnBox(box)),
    unit,
    fills: doneBy !== null,
  };
}

function pieceTitle(view: SheetView, laid: LaidPiece): string {
  const unit = view.job.unit === 'mm' ? ' mm' : ' in';
  const order = laid.holding === null ? '' : `, number ${laid.holding.cutOrder} to come free`;
  const done = laid.holding === null ? '' : doneText(view.job.unit, laid.holding);
  return `${laid.name} ${laid.count}, ${laid.size}${unit}${order}${done === '' ? '' : `, ${done}`}`;
}

/** The size along the lower and the left edge, where the piece is a rectangle and has room for both; else nothing. */
function edgeDimensions(
  laid: LaidPiece,
  blocked: readonly Box[],
  unit: number,
): readonly Written[] {
  const { part, placement } = laid;
  const box = drawnBox(laid.box);
  const across = box.maxX - box.minX;
  const up = box.maxY - box.minY;
  const small = across < LEAST_FOR_DIMENSIONS.across * unit || up < LEAST_FOR_DIMENSIONS.up * unit;
  if (!part.rectangular || placement.turn % 90 !== 0 || small) return [];
  const sideways = placement.turn % 180 !== 0;
  const [onX, onY] = sideways ? [...laid.measures].reverse() : laid.measures;
  const taken = [...blocked, ...laid.region.holes.map((hole) => drawnBox(boxOf(hole)))];
  const inset = (DIMENSION_INSET + LETTERS.size / 2) * unit;
  const along = firstClear(taken, (share) =>
    dimension({ x: box.minX + share * across, y: box.minY + inset }, onX!, 0, unit),
  );
  const upwards = firstClear(taken, (share) =>
    dimension({ x: box.minX + inset, y: box.minY + share * up }, onY!, 90, unit),
  );
  return along === null || upwards === null ? [] : [along, upwards];
}

/** The middle of the edge if nothing is there, else a place towards one end. */
function firstClear(taken: readonly Box[], at: (share: number) => Written): Written | null {
  for (const share of [0.5, 0.2, 0.8, 0.12, 0.88]) {
    const written = at(share);
    if (!taken.some((other) => boxesOverlap(written.box, other))) return written;
  }
  return null;
}

function dimension(centre: DrawnPoint, text: string, turn: 0 | 90, unit: number): Written {
  const size = LETTERS.size;
  const width = textWidth(text, size) * 1.001;
  const half = { along: ((width + 0.8) / 2) * unit, across: ((size + 0.4) / 2) * unit };
  const x = turn === 0 ? half.along : half.across;
  const y = turn === 0 ? half.across : half.along;
  const how = { style: 'text-soft', size, anchor: 'middle', maxWidth: width } as const;
  return {
    box: { minX: centre.x - x, maxX: centre.x + x, minY: centre.y - y, maxY: centre.y + y },
    items: lettering(frameAt(centre, unit, turn), 0, 0, text, how),
  };
}

function pocketBox({ placement }: LaidPiece, { contour }: Pocket): Box {
  return drawnBox(boxOfShape({ outer: placeContour(contour, placement), inner: [] }));
}

function drawnPockets({ part, placement }: LaidPiece): readonly Item[] {
  return part.pockets.map(({ contour }) => ({
    kind: 'path',
    style: 'pocket',
    runs: [contourRun(placeContour(contour, placement))],
  }));
}

/** Through holes are open, with a cross where they are large enough for one; blind ones are filled. */
function drawnHoles({ part, placement }: LaidPiece, unit: number): readonly Written[] {
  return part.holes.map((hole) => {
    const centre = drawnPoint(placePoint(hole, placement));
    const r = hole.diameter / 2 / UNITS_PER_MM;
    const box = growBox({ minX: centre.x, maxX: centre.x, minY: centre.y, maxY: centre.y }, r);
    if (hole.depth !== null) return { box, items: [circle('hole-blind', centre, r)] };
    const ring = circle('hole-through', centre, r);
    if (r < LEAST_CROSS * unit) return { box, items: [ring] };
    return {
      box,
      items: [
        ring,
        line('hole-cross', { x: centre.x - r, y: centre.y }, { x: centre.x + r, y: centre.y }),
        line('hole-cross', { x: centre.x, y: centre.y - r }, { x: centre.x, y: centre.y + r }),
      ],
    };
  });
}

/** A thick line just inside each edge that gets a band. */
function edgeBands(
  { part, placement, doneBy }: LaidPiece,
  bands: Sides,
  unit: number,
): readonly Item[] {
  // At a saw strips come narrow, and a band must not be taken for the strip.
  const narrow = Math.min(part.width, part.height) < NARROW * unit * UNITS_PER_MM;
  const isThin = doneBy !== null && narrow;
  const wanted = (isThin ? THIN_INSET : BAND_INSET) * unit * UNITS_PER_MM;
  const inset = Math.min(wanted, part.width / 4, part.height / 4);
  const low = { x: inset, y: inset };
  const high = { x: part.width - inset, y: part.height - inset };
  const edge = (thickness: number, from: DrawnPoint, to: DrawnPoint): Item[] => {
    if (thickness === 0) return [];
    const style = isThin ? 'band-thin' : 'band';
    return [
      line(style, drawnPoint(placePoint(from, placement)), drawnPoint(placePoint(to, placement))),
    ];
  };
  return [
    ...edge(bands.left, low, { x: low.x, y: high.y }),
    ...edge(bands.right, { x: high.x, y: low.y }, high),
    ...edge(bands.bottom, low, { x: high.x, y: low.y }),
    ...edge(bands.top, { x: low.x, y: high.y }, high),
  ];
}

/** Plain ground under writing, short of the outline so that the hatch still shows around it. */
function plate(style: StyleName, box: Box, within: Box, unit: number): Item {
  const grown = growBox(box, PLATE_MARGIN * unit);
  const limit = growBox(within, -PLATE_MARGIN * unit);
  return rectangle(
    style,
    { x: Math.max(grown.minX, limit.minX), y: Math.max(grown.minY, limit.minY) },
    { x: Math.min(grown.maxX, limit.maxX), y: Math.min(grown.maxY, limit.maxY) },
  );
}
