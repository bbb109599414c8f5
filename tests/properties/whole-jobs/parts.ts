import type { Dice, Keys, Ruler, Tree } from './dice.ts';
import { type Drawing, outlineOf } from './outlines.ts';
import type { RandomMaterial } from './stock.ts';

export interface RandomPart {
  readonly keys: Keys;
  readonly drawing: Drawing | null;
}

/** Names that any of the writers could stumble over. */
const NAMES = [
  'Side',
  'Tür links',
  'A & B <"c">',
  'x|y\\z',
  'Dřevo',
  '棚板',
  "Bob's shelf",
  'A very long name of a part that no label has any room for at all, not even a large one',
  '#1: top, [left]',
];

/** A part of a material that the machine can cut. */
export function randomPart(
  dice: Dice,
  ruler: Ruler,
  material: RandomMaterial,
  index: number,
): RandomPart {
  const name = `${dice.chance(0.3) ? dice.among(NAMES) : 'P'} ${index}`;
  const common = {
    name,
    material: material.key,
    ...dice.maybe(0.3, () => ({ group: dice.among(['Carcass', 'Fronts', 'Rück <wand>']) })),
    ...dice.maybe(0.1, () => ({ note: dice.among(['sand first', 'a "b" & <c>']) })),
    ...dice.maybe(0.1, () => ({ hardware: [{ name: 'Knob', price: 3.2, count: 2 }] })),
  };
  const { kind } = material;
  if (kind === 'boards' || (kind === 'sheets and boards' && dice.chance(0.5)))
    return { keys: { ...common, ...lengthKeys(dice, ruler, material) }, drawing: null };
  if (kind === 'lumber') {
    const size = ruler.size(dice.whole(100, 2000), dice.whole(30, 140));
    return { keys: { ...common, size, count: dice.whole(1, 8) }, drawing: null };
  }
  const { keys, drawing } = sheetKeys(dice, ruler, material, index);
  return { keys: { ...common, ...keys }, drawing };
}

function lengthKeys(dice: Dice, { number }: Ruler, { longest }: RandomMaterial): Keys {
  const length = dice.whole(40, Math.min(longest, dice.among([400, 900, longest])));
  return { length: number(length), count: dice.among([1, 2, 4, dice.whole(1, 20)]) };
}

function sheetKeys(
  dice: Dice,
  ruler: Ruler,
  { room, thickness }: RandomMaterial,
  index: number,
): RandomPart {
  const share = dice.among([0.15, 0.3, 0.5, 0.9]);
  const w = dice.whole(25, Math.max(40, room[0] * share));
  const h = dice.whole(20, Math.max(40, room[1] * share));
  const counts = share < 0.5 ? [1, 2, 3, 4, 6] : [1, 1, 2];
  const lay = {
    ...dice.maybe(0.7, () => ({ count: dice.among(counts) })),
    ...dice.maybe(0.4, () => ({ grain: dice.among(['along', 'across', 'any', 'along']) })),
    ...dice.maybe(0.3, () => ({ turns: dice.among(['none', 'half', 'quarter', 'quarter']) })),
    ...dice.maybe(0.2, () => ({ face: dice.among(['up', 'either']) })),
  };
  switch (dice.among(['plain', 'plain', 'plain', 'rich', 'set', 'drawn', 'drawn'] as const)) {
    case 'plain':
      return { keys: { size: ruler.size(w, h), ...lay, ...edgeKeys(dice, ruler) }, drawing: null };
    case 'rich':
      return {
        keys: { size: ruler.size(w, h), ...lay, ...openingKeys(dice, ruler, w, h, thickness) },
        drawing: null,
      };
    case 'set':
      return {
        keys: setKeys(dice, ruler, Math.min(w, room[0] / 5), Math.min(h, room[1] / 3)),
        drawing: null,
      };
    case 'drawn': {
      const { keys, drawing } = outlineOf(
        dice,
        ruler,
        Math.max(30, w * 0.7),
        Math.max(30, h * 0.7),
        index,
      );
      const any = dice.maybe(0.15, () => ({ turns: 'any', face: 'either', grain: 'any' }));
      return { keys: { ...keys, ...lay, ...any }, drawing };
    }
  }
}

function edgeKeys(dice: Dice, { length, number }: Ruler): Keys {
  const side = () => dice.among(['left', 'right', 'top', 'bottom'] as const);
  return {
    ...dice.maybe(0.3, () => ({ edges: { left: number(1), [side()]: length(2) } })),
    ...dice.maybe(0.1, () => ({ oversize: length(dice.whole(1, 5)) })),
    ...dice.maybe(0.1, () => ({ 'show-edge': dice.among<Tree>(['all', side(), [side()]]) })),
  };
}

/** Holes in the lower third, cut-outs in the middle one, pockets in the upper one, so that nothing overlaps. */
function openingKeys(dice: Dice, ruler: Ruler, w: number, h: number, thickness: number): Keys {
  const { number, point, size } = ruler;
  const most = Math.min(w / 8, h / 8);
  const depth = () => number(Math.max(1, Math.round(thickness * dice.between(0.2, 0.7))));
  const diameter = dice.between(1, Math.max(1.5, Math.min(12, most)));
  const hole: Keys = {
    at: point(w / 4, h / 6),
    diameter: number(diameter),
    ...dice.maybe(0.6, () => ({ depth: dice.among<Tree>(['through', depth()]) })),
  };
  const row: Keys = {
    row: dice.whole(2, 4),
    pitch: number((diameter + 1) * 1.2),
    from: point(w / 2, h / 5),
    along: 'length',
    diameter: number(Math.min(diameter, w / 14)),
    depth: depth(),
  };
  const opening = (y: number): Keys =>
    dice.chance(0.5)
      ? { at: point(w / 5, y), size: size(Math.max(2, w * 0.5), Math.max(2, h * 0.2)) }
      : { at: point(w / 2, y + h * 0.12), diameter: number(2 * most) };
  return {
    ...dice.maybe(0.7, () => ({ holes: dice.among([[hole], [hole, row]]) })),
    ...dice.maybe(0.6, () => ({
      'cut-outs': [opening(h * 0.35)],
      ...dice.maybe(0.5, () => ({ 'nest-inside': 'yes' })),
    })),
    ...dice.maybe(0.5, () => ({ pockets: [{ ...opening(h * 0.68), depth: depth() }] })),
  };
}

function setKeys(dice: Dice, { number }: Ruler, w: number, h: number): Keys {
  const isUp = dice.chance(0.4);
  const fronts = dice.times(dice.whole(2, 4), () => {
    const own = number(Math.round(dice.between(0.5, 1) * (isUp ? h : w)));
    return isUp ? [number(Math.round(w)), own] : [own, number(Math.round(h))];
  });
  return {
    matched: fronts,
    run: isUp ? 'second' : 'first',
    ...dice.maybe(0.5, () => ({ grain: dice.among(['along', 'across']) })),
    ...dice.maybe(0.3, () => ({ edges: { left: number(1), top: number(1) } })),
    ...dice.maybe(0.2, () => ({ count: 2 })),
  };
}
