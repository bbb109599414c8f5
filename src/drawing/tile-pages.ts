import { type Box, growBox } from '../geometry/box.ts';
import type { FileUnit } from '../model/job.ts';
import { drawCheckLine, scaleWords } from './check-line.ts';
import {
  type Drawing,
  type DrawnPoint,
  type Item,
  type Layer,
  line,
  polygon,
  rectangle,
} from './display-list.ts';
import { inkTest } from './ink.ts';
import { type Frame, frameAt, lettering } from './marks.ts';
import { middleOf } from './outline.ts';
import { LETTERS } from './styles.ts';
import { measuredNumber } from './template-numbers.ts';
import { textWidth } from './text.ts';
import { TILE, type Tile, type Tiling } from './tiles.ts';

/** One page: a part of the drawing, cut off at its window, and over it what belongs to the page. */
export interface TilePage {
  readonly page: Tiling['page'];
  readonly drawing: Drawing;
  readonly scale: number;
  readonly window: Box;
  /** Upper left corner of the window on the page, in millimetres from that of the page. */
  readonly left: number;
  readonly top: number;
  /** In millimetres of paper, from the lower left corner of the page. */
  readonly furniture: readonly Item[];
  readonly foot: string;
}

const DIAMOND = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;
const MAP = { width: 34, height: 11, from: 15.5 } as const;
/** A thick line whose middle lies just outside still shows. */
const LINE_REACH = 1;
/** The diamond round the cross tells it from the mark of a hole. */
const CROSS = { arm: 4.5, diamond: 2.6 } as const;
/** Above the lower margin: the check line over the words of the foot, the title over both. */
const ROWS = { check: 3.9, howTo: 9.2, title: 14 } as const;

export function tilePages(drawing: Drawing, tiling: Tiling, unit: FileUnit): TilePage[] {
  const layers = drawing.layers.map(withTests);
  return tiling.tiles.map((tile) => tilePage(drawing, tiling, tile, { unit, layers }));
}

interface Contents {
  readonly unit: FileUnit;
  readonly layers: readonly TestedLayer[];
}

interface TestedLayer {
  readonly layer: Layer;
  readonly shows: ReadonlyMap<Item, (box: Box) => boolean>;
}

function tilePage(
  drawing: Drawing,
  tiling: Tiling,
  tile: Tile,
  { unit, layers }: Contents,
): TilePage {
  const { page, scale } = tiling;
  const { window } = tile;
  const left = (page.width - (window.maxX - window.minX) / scale) / 2;
  const top = TILE.margin;
  const onPage = ({ x, y }: DrawnPoint) => ({
    x: left + (x - window.minX) / scale,
    y: page.height - top - (window.maxY - y) / scale,
  });
  const items = [
    ...drawSeams(tile, onPage, unit),
    ...drawFoot(tiling, tile, drawing.title, unit),
    ...(tiling.tiles.length > 1 ? drawMap(tiling, tile) : []),
  ];
  return {
    page,
    drawing: {
      ...drawing,
      layers: layers.map((layer) => within(layer, growBox(window, LINE_REACH * scale))),
    },
    scale,
    window,
    left,
    top,
    furniture: items,
    foot: scaleWords(scale, unit),
  };
}

/** Hatched and filled bodies may cover a page without their outline. */
function withTests(layer: Layer): TestedLayer {
  const items = layer.groups.flatMap((each) => each.items);
  const isSurface = (item: Item) => item.kind === 'path' && item.style !== 'template';
  return {
    layer,
    shows: new Map(items.map((item) => [item, isSurface(item) ? () => true : inkTest(item)])),
  };
}

function within({ layer, shows }: TestedLayer, box: Box): Layer {
  return {
    ...layer,
    groups: layer.groups.map((each) => ({
      ...each,
      items: each.items.filter((item) => shows.get(item)?.(box)),
    })),
  };
}

/** Where to cut, and the crosses with their place in the drawing. */
function drawSeams(tile: Tile, onPage: (at: DrawnPoint) => DrawnPoint, unit: FileUnit): Item[] {
  const { window } = tile;
  const middle = middleOf(window);
  return [
    ...tile.seams.map(({ from, to }) => line('seam', onPage(from), onPage(to))),
    ...tile.marks.flatMap((mark) => {
      const at = frameAt(onPage(mark), 1);
      const isRight = mark.x > middle.x;
      const above = mark.y > middle.y ? -1 : 1;
      const text = `x ${measuredNumber(mark.x, unit)}  y ${measuredNumber(mark.y, unit)}`;
      return [
        line('register', at.at(-CROSS.arm, 0), at.at(CROSS.arm, 0)),
        line('register', at.at(0, -CROSS.arm), at.at(0, CROSS.arm)),
        polygon(
          'register',
          DIAMOND.map(([x, y]) => at.at(x * CROSS.diamond, y * CROSS.diamond)),
        ),
        ...lettering(at, isRight ? -1.6 : 1.6, above * 3, text, {
          style: 'text-soft',
          size: 1.9,
          anchor: isRight ? 'end' : 'start',
          maxWidth: 40,
        }),
      ];
    }),
  ];
}

function drawFoot({ page, tiles }: Tiling, tile: Tile, title: string, unit: FileUnit): Item[] {
  const frame = frameAt({ x: TILE.margin, y: TILE.margin }, 1);
  const single = tiles.length === 1;
  const name = single ? '' : tile.name;
  const indent = single ? 0 : textWidth(name, 6) + 2.5;
  const room = page.width - 2 * TILE.margin - indent - (single ? 0 : MAP.width + 3);
  const howTo = single
    ? ''
    : 'Cut along the dashed lines and join so that the crosses meet; their figures count from the corner 0.';
  const middle = { x: page.width / 2, y: TILE.margin + ROWS.check };
  return [
    ...lettering(frame, 0, ROWS.title - 1.6, name, {
      style: 'text',
      size: 6,
      anchor: 'start',
      maxWidth: 30,
    }),
    ...wordsAt(frame, indent, ROWS.title, title, 'text', LETTERS.name, room),
    ...wordsAt(frame, indent, ROWS.howTo + 0.8, howTo, 'text-soft', LETTERS.subtitle, room),
    ...drawCheckLine(unit, frameAt(middle, 1)),
  ];
}

function wordsAt(
  frame: Frame,
  x: number,
  y: number,
  text: string,
  style: 'text' | 'text-soft',
  size: number,
  maxWidth: number,
): Item[] {
  return lettering(frame, x, y, text, { style, size, anchor: 'start', maxWidth });
}

/** All pages as they lie together, this one dark, in the lower right corner. */
function drawMap({ page, columns, rows, tiles }: Tiling, own: Tile): Item[] {
  const { window } = own;
  const [wide, high] = [window.maxX - window.minX, window.maxY - window.minY];
  const factor = Math.min(MAP.width / (columns * wide), MAP.height / (rows * high));
  const [cellWidth, cellHeight] = [wide * factor, high * factor];
  const left = page.width - TILE.margin - columns * cellWidth;
  const top = MAP.from + (MAP.height + rows * cellHeight) / 2;
  return tiles.flatMap((tile) => {
    const isOwn = tile.name === own.name;
    const low = { x: left + tile.column * cellWidth, y: top - (tile.row + 1) * cellHeight };
    const high = { x: low.x + cellWidth, y: low.y + cellHeight };
    const middle = frameAt({ x: (low.x + high.x) / 2, y: (low.y + high.y) / 2 }, 1);
    const size = Math.min(2, 0.8 * cellHeight, (0.8 * cellWidth) / textWidth(tile.name, 1));
    return [
      rectangle(isOwn ? 'bar-dark' : 'bar-light', low, high),
      ...(size < LETTERS.smallest
        ? []
        : lettering(middle, 0, 0, tile.name, {
            style: isOwn ? 'text-reversed' : 'text-soft',
            size,
            anchor: 'middle',
            maxWidth: cellWidth,
          })),
    ];
  });
}
