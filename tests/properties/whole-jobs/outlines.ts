import { type Dice, type Keys, type Ruler, rounded } from './dice.ts';
import { drawnPart } from './drawings.ts';

/** The keys of an outline that is no plain size, about so long and so wide in mm, and the drawing that it names. */
export interface RandomOutline {
  readonly keys: Keys;
  readonly drawing: Drawing | null;
}

export interface Drawing {
  readonly name: string;
  readonly text: string;
}

type Corner = readonly [x: number, y: number];

/** A drawn shape of any kind: straight, round, hollow, at any angle. */
export function outlineOf(
  dice: Dice,
  ruler: Ruler,
  w: number,
  h: number,
  index: number,
): RandomOutline {
  const plain = (keys: Keys): RandomOutline => ({ keys, drawing: null });
  switch (dice.among(['disc', 'rounded', 'points', 'path', 'path', 'drawing'] as const)) {
    case 'disc':
      return plain({ shape: 'disc', diameter: ruler.length(Math.min(w, h)) });
    case 'rounded': {
      const radius = dice.whole(2, Math.min(w, h) * 0.45);
      return plain({ shape: 'rounded', size: ruler.size(w, h), radius: ruler.number(radius) });
    }
    case 'points':
      return plain({ points: cornersOf(dice, w, h).map(([x, y]) => ruler.point(x, y)) });
    case 'path':
      return plain({ path: pathOf(dice, ruler, w, h) });
    case 'drawing':
      return drawnPart(dice, w, h, index);
  }
}

/** Straight-sided: letters L, U and T, a rectangle at an angle, a star, a star with as many points as there is room for. */
function cornersOf(dice: Dice, w: number, h: number): readonly Corner[] {
  const t = dice.between(0.2, 0.45) * Math.min(w, h);
  const shapes: readonly (() => readonly Corner[])[] = [
    () => [
      [0, 0],
      [w, 0],
      [w, t],
      [t, t],
      [t, h],
      [0, h],
    ],
    () => [
      [0, 0],
      [w, 0],
      [w, h],
      [w - t, h],
      [w - t, t],
      [t, t],
      [t, h],
      [0, h],
    ],
    () => [
      [0, h],
      [0, h - t],
      [(w - t) / 2, h - t],
      [(w - t) / 2, 0],
      [(w + t) / 2, 0],
      [(w + t) / 2, h - t],
      [w, h - t],
      [w, h],
    ],
    () =>
      turned(
        [
          [0, 0],
          [w * 0.7, 0],
          [w * 0.7, h * 0.5],
          [0, h * 0.5],
        ],
        dice.between(0, 360),
      ),
    () => star(dice, w, h),
    () => [
      [0, 0],
      [w, 0],
      [dice.between(0, w), h],
    ],
    () => [
      [0, 0],
      [w, 0],
      [w - t / 2, h],
      [t / 2, h],
    ],
  ];
  return dice
    .among(shapes)()
    .map(([x, y]) => [rounded(x, 1e3), rounded(y, 1e3)]);
}

function star(dice: Dice, w: number, h: number): readonly Corner[] {
  const rays = dice.whole(5, 14);
  return dice.times(rays, (k) => {
    const angle = (2 * Math.PI * (k + dice.between(0, 0.5))) / rays;
    const out = dice.between(0.35, 1);
    return [(w / 2) * (1 + out * Math.cos(angle)), (h / 2) * (1 + out * Math.sin(angle))];
  });
}

export function turned(corners: readonly Corner[], degrees: number): readonly Corner[] {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return corners.map(([x, y]) => [cos * x - sin * y, sin * x + cos * y]);
}

/** Path text in the file's unit: arcs of circles and ellipses, curves, and lines. */
function pathOf(dice: Dice, { number }: Ruler, w: number, h: number): string {
  const n = (mm: number) => String(number(mm));
  const r = dice.between(0.2, 0.45) * Math.min(w, h);
  const deep = dice.between(0.1, 0.4) * h;
  const paths: readonly (() => string)[] = [
    () => `M0 0 H${n(w)} V${n(h)} A${n(w)} ${n(w)} 0 0 0 0 ${n(h)} Z`,
    () =>
      `M0 ${n(h)} V${n(w / 2)} A${n(w / 2)} ${n(w / 2)} 0 0 1 ${n(w)} ${n(w / 2)} V${n(h + w / 2)} H0 Z`,
    () => `M0 0 h${n(w - r)} a${n(r)} ${n(r)} 0 0 1 ${n(r)} ${n(r)} v${n(h - r)} h${n(-w)} z`,
    () =>
      `M0 0 C${n(w * 0.3)} ${n(-deep)} ${n(w * 0.6)} ${n(deep)} ${n(w)} 0 V${n(h)} Q${n(w / 2)} ${n(h + deep)} 0 ${n(h)} Z`,
    () =>
      `M0 ${n(h / 2)} A${n(w / 2)} ${n(h / 2)} 0 1 1 ${n(w)} ${n(h / 2)} A${n(w / 2)} ${n(h / 2)} 0 1 1 0 ${n(h / 2)} Z`,
    () => `M0 0 H${n(w)} V${n(h)} H0 Z`,
    () =>
      `M0 0 H${n(w)} V${n(h)} H${n(w / 2 + r)} A${n(r)} ${n(r)} 0 0 0 ${n(w / 2 - r)} ${n(h)} H0 Z`,
    () => `M0 0 L${n(w)} ${n(deep)} L${n(w - r / 3)} ${n(h)} L${n(r / 3)} ${n(h - deep / 2)} Z`,
  ];
  return dice.among(paths)();
}
