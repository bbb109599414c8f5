import type { DrawnPoint, Item, TextItem } from '../../src/drawing/display-list.ts';
import { textWidth } from '../../src/drawing/text.ts';
import type { Box } from '../../src/geometry/box.ts';

/** Shares of the em that accents stand above the base line and letters hang below it, in the embedded font. */
const ABOVE = 0.8;
const BELOW = 0.24;

/** What an item covers, lines and arcs without their weight; text that starts at its place and is not turned. */
export function itemBox(item: Item): Box {
  switch (item.kind) {
    case 'text':
      return textBox(item);
    case 'line':
      return around([item.from, item.to]);
    case 'circle': {
      const { centre, radius } = item;
      return around([
        { x: centre.x - radius, y: centre.y - radius },
        { x: centre.x + radius, y: centre.y + radius },
      ]);
    }
    case 'path':
      return around(item.runs.flatMap(({ start, sides }) => [start, ...sides]));
  }
}

export function around(points: readonly DrawnPoint[]): Box {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return {
    minX: Math.min(...xs),
    maxX: Math.max(...xs),
    minY: Math.min(...ys),
    maxY: Math.max(...ys),
  };
}

function textBox({ at, text, size, anchor, turn }: TextItem): Box {
  if (anchor !== 'start' || turn !== 0) throw new Error('a text that starts at its place');
  return {
    minX: at.x,
    maxX: at.x + textWidth(text, size),
    minY: at.y - BELOW * size,
    maxY: at.y + ABOVE * size,
  };
}
