import { FAMILIES } from '../../../src/model/stock.ts';
import type { Dice, Keys, Ruler, Tree } from './dice.ts';

export interface RandomMaterial {
  readonly key: string;
  readonly kind: 'sheets' | 'boards' | 'lumber' | 'sheets and boards';
  readonly thickness: number;
  /** The roomiest sheet inside its trim, or the longest board inside its own, as far as parts need to know. */
  readonly room: readonly [length: number, width: number];
  readonly longest: number;
  readonly keys: Keys;
}

const KINDS = [...FAMILIES, 'solid'] as const;

/** A material under a key of its own. Either all of its stock has a price, or none, or whatever comes. */
export function materialOf(dice: Dice, ruler: Ruler, index: number): RandomMaterial {
  const kind = dice.among(
    index === 0
      ? (['sheets', 'sheets', 'sheets', 'sheets', 'sheets and boards', 'boards'] as const)
      : (['sheets', 'sheets', 'boards', 'lumber', 'sheets and boards'] as const),
  );
  const { length } = ruler;
  const thickness = dice.among([3, 6, 9, 12, 15, 18, 18, 19, 22, 25]);
  const family = dice.among(kind === 'lumber' ? (['hardwood', 'softwood'] as const) : KINDS);
  const priced = dice.among([0, 0, 1, 1, 0.5]);
  const sheets = dice.times(dice.among([1, 1, 2, 3]), (k) => sheetOf(dice, ruler, priced, k === 0));
  const boards = dice.times(dice.whole(1, 3), () => boardOf(dice, ruler, priced));
  const hasSheets = kind === 'sheets' || kind === 'sheets and boards';
  const hasBoards = kind === 'boards' || kind === 'sheets and boards';
  const rooms = sheets.map(({ room }) => room);
  const room = rooms.reduce((best, each) => (areaOf(each) > areaOf(best) ? each : best));
  return {
    key: dice.among([`m${index}`, `ply ${index}`, `Holz-${index}`, `öl_${index}`]),
    kind,
    thickness,
    room,
    longest: Math.max(...boards.map(({ longest }) => longest)),
    keys: {
      ...dice.maybe(0.6, () => ({
        name: dice.among(['Birke Multiplex', 'MDF | "roh"', "O'ak & co <b>", 'Kiefer']),
      })),
      ...dice.maybe(0.9, () => ({ family })),
      thickness: ruler.number(thickness),
      ...dice.maybe(0.2, () => ({ density: dice.whole(400, 900) })),
      ...dice.maybe(0.2, () => ({ surface: dice.among(['raw', 'film-faced']) })),
      ...(hasSheets ? { sheets: sheets.map(({ keys }) => keys) } : {}),
      ...(hasBoards ? { boards: boards.map(({ keys }) => keys) } : {}),
      ...(kind === 'lumber' ? { lumber: lumberOf(dice, ruler, thickness) } : {}),
      ...(hasBoards ? dice.maybe(0.3, () => ({ 'least-leftover': length(400) })) : {}),
    },
  };
}

interface RandomSheet {
  readonly room: readonly [length: number, width: number];
  readonly keys: Keys;
}

function sheetOf(dice: Dice, ruler: Ruler, priced: number, isFirst: boolean): RandomSheet {
  const { length: write } = ruler;
  const length = dice.among([2440, 2500, 2800, 1525, dice.whole(700, 2400)]);
  const width = dice.among([1220, 1250, 1525, dice.whole(500, 1300)]);
  const trim = dice.among([0, 5, 10, 12.7]);
  const isOdd = dice.chance(0.15);
  const isUneven = !isOdd && dice.chance(0.2);
  const isFew = dice.chance(isFirst ? 0.1 : 0.4);
  const isPriced = dice.chance(priced);
  return {
    room: isOdd
      ? [length * 0.45, width * 0.45]
      : [length - (isUneven ? 30 : 2 * trim), width - (isUneven ? 20 : 2 * trim)],
    keys: {
      ...dice.maybe(0.2, () => ({ name: dice.among(['Groß', 'half & half', 'rest'] as const) })),
      ...(isOdd
        ? { points: oddCorners(dice, ruler, length, width) }
        : { size: ruler.size(length, width) }),
      ...(isPriced ? { price: dice.among<Tree>([92, 61.5, '48.20', dice.whole(5, 120)]) } : {}),
      ...(isFew ? { 'on-hand': dice.whole(isFirst ? 1 : 0, 3) } : {}),
      ...(isPriced && !isFew ? dice.maybe(0.2, () => ({ pack: dice.whole(2, 5) })) : {}),
      ...(isUneven
        ? { trim: { left: write(10), right: write(20), top: write(15), bottom: write(5) } }
        : trim > 0
          ? { trim: ruler.number(trim) }
          : {}),
      ...dice.maybe(isOdd ? 1 : 0.6, () => ({ grain: dice.among(['first', 'second', 'none']) })),
      ...dice.maybe(0.2, () => ({ 'keep-out': keepOutsOf(dice, ruler, length, width) })),
      ...dice.maybe(0.1, () => ({
        lifted: {
          [dice.among(['left', 'right', 'top', 'bottom'])]: { gap: '0.3mm', depth: '9cm' },
        },
      })),
    },
  };
}

/** A corner cut off, a notch, or a triangle, in either direction and from any origin. */
function oddCorners(dice: Dice, { point }: Ruler, length: number, width: number): Tree {
  const [x, y] = [dice.whole(length * 0.3, length * 0.7), dice.whole(width * 0.3, width * 0.7)];
  const shapes: readonly (readonly (readonly [number, number])[])[] = [
    [
      [0, 0],
      [length, 0],
      [length, y],
      [x, width],
      [0, width],
    ],
    [
      [0, 0],
      [length, 0],
      [length, y],
      [x, y],
      [x, width],
      [0, width],
    ],
    [
      [0, 0],
      [length, 0],
      [0, width],
    ],
    [
      [0, y],
      [x, 0],
      [length, y],
      [length - x / 3, width],
      [x / 3, width],
    ],
    [
      [0, 0],
      [x, 0],
      [x, y / 2],
      [x + 4, y / 2],
      [x + 4, 0],
      [length, 0],
      [length, width],
      [0, width],
    ],
  ];
  const [dx, dy] = dice.chance(0.3) ? [dice.whole(-400, 400), dice.whole(-400, 400)] : [0, 0];
  const corners = dice.among(shapes).map(([px, py]) => point(px + dx, py + dy));
  return dice.chance(0.3) ? corners.reverse() : corners;
}

function keepOutsOf(dice: Dice, { point, size }: Ruler, length: number, width: number): Tree {
  return dice.times(dice.whole(1, 2), () => ({
    at: point(dice.whole(0, length * 0.8), dice.whole(0, width * 0.8)),
    size: size(dice.whole(5, length * 0.15), dice.whole(5, width * 0.15)),
    ...dice.maybe(0.5, () => ({ why: dice.among(['knot', 'broken corner', 'screw <3 & "x"']) })),
  }));
}

function boardOf(dice: Dice, { length: write, number }: Ruler, priced: number) {
  const length = dice.among([2400, 3000, 4200, dice.whole(1200, 5000)]);
  const trim = dice.among([0, 0, 15, 20]);
  const isFlawed = dice.chance(0.25);
  return {
    longest: isFlawed ? length / 3 : length - 2 * trim,
    keys: {
      length: number(length),
      ...(dice.chance(priced) ? { price: dice.among<Tree>([14.5, 18.9, dice.whole(5, 60)]) } : {}),
      ...dice.maybe(0.2, () => ({ 'on-hand': dice.whole(0, 5) })),
      ...(trim > 0 ? { trim: write(trim) } : {}),
      ...(isFlawed
        ? {
            defects: dice.times(dice.whole(1, 2), (k) => ({
              at: number(dice.whole(length * 0.4 * (k + 1), length * 0.45 * (k + 1))),
              length: write(dice.among([2, 30, 60])),
              ...dice.maybe(0.5, () => ({ why: 'knot' })),
            })),
          }
        : {}),
    },
  };
}

function lumberOf(dice: Dice, { length, size, unit }: Ruler, thickness: number): Keys {
  return {
    rough: length(thickness + dice.whole(4, 10)),
    ...dice.maybe(0.4, () => ({ length: length(2500) })),
    ...dice.maybe(0.7, () => ({ price: unit === 'mm' ? '1450 per m3' : '9.50 per bf' })),
    ...dice.maybe(0.6, () => ({ waste: '30 %', 'waste-of': dice.among(['net', 'gross']) })),
    ...dice.maybe(0.2, () => ({ tally: dice.among(['hardwood', 'softwood']) })),
    ...dice.maybe(0.3, () => ({ 'on-hand': [{ size: size(2400, 180), count: dice.whole(1, 3) }] })),
  };
}

function areaOf([length, width]: readonly [number, number]): number {
  return length * width;
}
