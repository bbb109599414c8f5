import { ringArea } from '../geometry/area.ts';
import { type Box, growBox } from '../geometry/box.ts';
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import type { Point } from '../geometry/point.ts';
import type { Ring } from '../geometry/shape.ts';
import type { Tab } from '../model/holding.ts';
import { toMm, UNITS_PER_MM } from '../model/units.ts';
import {
  type DrawnPoint,
  type Group,
  group,
  type Item,
  polygon,
  rectangle,
} from './display-list.ts';
import { type Frame, frameAt, lettering } from './marks.ts';
import { offcutNumbers, rawNumbers } from './offcut-texts.ts';
import { drawnBox, drawnPoint, middleOf } from './outline.ts';
import type { LaidPiece, SheetView } from './sheet-view.ts';
import { LETTERS, type StyleName } from './styles.ts';
import { plainText, textWidth } from './text.ts';

const LINK_SHARE = 0.88;

/** Places that no piece may touch, cross-hatched, with number and reason. */
export function drawKeepOuts({ stock }: SheetView, unit: number): readonly Group[] {
  return stock.keepOuts.map(({ box, why }, i) => {
    const texts = [`K${i + 1} ${plainText(why)}`, `K${i + 1}`];
    return {
      id: null,
      title: `keep out: ${plainText(why)}`,
      items: [boxItem('keep-out', box), ...textInBox(drawnBox(box), texts, unit, 'plate-keep-out')],
    };
  });
}

/** Leftovers worth keeping, outlined, with their size. */
export function drawOffcuts({ costs, job }: SheetView, unit: number): readonly Group[] {
  return (costs?.offcuts ?? []).map((offcut) => {
    const { box } = offcut;
    const size = offcutNumbers(job, offcut);
    const raw = rawNumbers(job, offcut);
    const texts = [`offcut ${size}`, size];
    const shown = drawnBox(growBox(box, -0.5 * unit * UNITS_PER_MM));
    return {
      id: null,
      title: `offcut ${size}`,
      items: [
        rectangle('offcut', { x: shown.minX, y: shown.minY }, { x: shown.maxX, y: shown.maxY }),
        ...textInBox(
          shown,
          raw === null ? texts : [...texts.map((text) => `${text} (${raw})`), ...texts],
          unit,
          null,
        ),
      ],
    };
  });
}

/** Ground under each matched set, that fills the gaps between its pieces and frames them. */
export function drawSets(view: SheetView): readonly Group[] {
  return matchedSets(view).map(({ name, members }) => ({
    id: null,
    title: `matched set ${name}`,
    items: [boxItem('set', growBox(boxAround(members), view.job.machine.spacing / 2))],
  }));
}

/** A link over each gap of a matched set, from one piece into the next. */
export function drawSetLinks(view: SheetView, unit: number): readonly Group[] {
  return matchedSets(view).map(({ members }) =>
    group(members.slice(1).map((next, i) => link(members[i] ?? next, next, unit))),
  );
}

/** A mark across the cut for each tab, at its place. */
export function drawTabs({ pieces, waste, job }: SheetView, unit: number): Group {
  const mark = (style: StyleName, ring: Ring) => (tab: Tab) =>
    tabMark(tab, ring, { style, unit, spacing: toMm(job.machine.spacing) });
  return group([
    ...pieces.flatMap(({ holding, shape }) => {
      if (holding === null || holding.tabs.length === 0) return [];
      return holding.tabs.map(
        mark('tab', flattenContour(shape.outer, 'curve', DRAWING_CHORD_ERROR)),
      );
    }),
    ...waste.flatMap(({ holding, outline }) => holding.tabs.map(mark('tab-waste', outline))),
  ]);
}

function boxItem(style: StyleName, box: Box): Item {
  const { minX, minY, maxX, maxY } = drawnBox(box);
  return rectangle(style, { x: minX, y: minY }, { x: maxX, y: maxY });
}

/** The first of the texts that fits the box, upright or turned; the last one in any case, small where it has to be. */
function textInBox(
  box: Box,
  texts: readonly string[],
  unit: number,
  plate: StyleName | null,
): readonly Item[] {
  const across = (box.maxX - box.minX) / unit;
  const up = (box.maxY - box.minY) / unit;
  const size = LETTERS.table;
  const fits = (text: string, along: number, over: number) =>
    textWidth(text, size) + 2 <= along && size + 1.6 <= over;
  for (const text of texts) {
    if (fits(text, across, up)) return plateText(frameAt(middleOf(box), unit), text, plate);
    if (fits(text, up, across)) return plateText(frameAt(middleOf(box), unit, 90), text, plate);
  }
  const last = texts.at(-1) ?? '';
  const room = Math.min(across / (textWidth(last, size) + 2), up / (size + 1.6));
  const small = Math.max(LETTERS.smallest / size, Math.min(1, room));
  return plateText(frameAt(middleOf(box), unit * small), last, plate);
}

function plateText(frame: Frame, text: string, plate: StyleName | null): readonly Item[] {
  const half = { x: textWidth(text, LETTERS.table) / 2 + 0.6, y: LETTERS.table / 2 + 0.4 };
  const how = { style: 'text', size: LETTERS.table, anchor: 'middle' } as const;
  const ground =
    plate === null
      ? []
      : [
          polygon(plate, [
            frame.at(-half.x, -half.y),
            frame.at(half.x, -half.y),
            frame.at(half.x, half.y),
            frame.at(-half.x, half.y),
          ]),
        ];
  return [...ground, ...lettering(frame, 0, 0, text, { ...how, maxWidth: 2 * half.x })];
}

function boxAround(members: readonly LaidPiece[]): Box {
  const boxes = members.map(({ box }) => box);
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
}

/** The pieces of each matched set on the sheet, in order. */
function matchedSets({
  pieces,
  job,
}: SheetView): readonly { name: string; members: readonly LaidPiece[] }[] {
  return job.sets.flatMap((set) => {
    const members = pieces
      .filter(({ piece }) => piece.set === set.index)
      .sort((a, b) => (a.piece.setOrder ?? 0) - (b.piece.setOrder ?? 0));
    return members.length === 0 ? [] : [{ name: plainText(set.name), members }];
  });
}

/** A bar from one piece into the next, near the end of the edges that they share. */
function link(one: LaidPiece, next: LaidPiece, unit: number): Item {
  const [a, b] = [drawnBox(one.box), drawnBox(next.box)];
  const reach = 1.2 * unit;
  const half = 0.5 * unit;
  const [left, right] = a.minX <= b.minX ? [a, b] : [b, a];
  if (left.maxX <= right.minX) {
    const low = Math.max(a.minY, b.minY);
    const y = low + LINK_SHARE * (Math.min(a.maxY, b.maxY) - low);
    return rectangle(
      'set-link',
      { x: left.maxX - reach, y: y - half },
      { x: right.minX + reach, y: y + half },
    );
  }
  const [lower, upper] = a.minY <= b.minY ? [a, b] : [b, a];
  const low = Math.max(a.minX, b.minX);
  const x = low + LINK_SHARE * (Math.min(a.maxX, b.maxX) - low);
  return rectangle(
    'set-link',
    { x: x - half, y: lower.maxY - reach },
    { x: x + half, y: upper.minY + reach },
  );
}

interface TabLook {
  readonly style: StyleName;
  readonly unit: number;
  readonly spacing: number;
}

/** As wide as the tab but never too narrow to see; from inside the outline across the cut. */
function tabMark(tab: Tab, ring: Ring, { style, unit, spacing }: TabLook): Item {
  const along = directionAt(ring, tab.at);
  const outward = { x: along.y, y: -along.x };
  const half = Math.max(toMm(tab.width) / 2, 0.7 * unit);
  const reach = Math.max(spacing, 0.6 * unit);
  const foot = drawnPoint(tab.at);
  const corner = (on: number, out: number): DrawnPoint => ({
    x: foot.x + along.x * on + outward.x * out,
    y: foot.y + along.y * on + outward.y * out,
  });
  const depth = -0.8 * unit;
  return polygon(style, [
    corner(-half, depth),
    corner(half, depth),
    corner(half, reach),
    corner(-half, reach),
  ]);
}

/** Unit vector along the edge of the ring nearest to `point`, with the inside on its left. */
function directionAt(ring: Ring, point: Point): DrawnPoint {
  let best = { x: 1, y: 0 };
  let least = Number.POSITIVE_INFINITY;
  ring.forEach((from, i) => {
    const to = ring[(i + 1) % ring.length] ?? from;
    const edge = { x: to.x - from.x, y: to.y - from.y };
    const length2 = edge.x * edge.x + edge.y * edge.y;
    if (length2 === 0) return;
    const share = ((point.x - from.x) * edge.x + (point.y - from.y) * edge.y) / length2;
    const on = Math.max(0, Math.min(1, share));
    const dx = from.x + on * edge.x - point.x;
    const dy = from.y + on * edge.y - point.y;
    const distance2 = dx * dx + dy * dy;
    if (distance2 >= least) return;
    least = distance2;
    const length = Math.sqrt(length2);
    best = { x: edge.x / length, y: edge.y / length };
  });
  return ringArea(ring) < 0 ? { x: -best.x, y: -best.y } : best;
}
