import type { Dice, Keys, Ruler, Tree } from './dice.ts';

/** The machine and its table; no keys at all where the file leaves the defaults to the reader. */
export function machineOf(dice: Dice, ruler: Ruler, kind: 'router' | 'panel-saw'): Keys {
  if (kind === 'panel-saw') return { machine: sawOf(dice, ruler) };
  return {
    ...dice.maybe(0.9, () => ({ machine: routerOf(dice, ruler) })),
    ...dice.maybe(0.55, () => ({ table: tableOf(dice, ruler) })),
  };
}

function sawOf(dice: Dice, { length, size }: Ruler): Keys {
  return {
    kind: 'panel-saw',
    ...dice.maybe(0.9, () => ({ kerf: length(dice.among([3.2, 4, 4.4, 2.2, 1])) })),
    ...dice.maybe(0.75, () => ({ stages: dice.among([2, 3, 4, 'free']) })),
    ...dice.maybe(0.4, () => ({ 'first-cut': dice.among(['along', 'across', 'better']) })),
    ...dice.maybe(0.15, () => ({ 'longest-rip': length(dice.whole(2450, 3300)) })),
    ...dice.maybe(0.15, () => ({ 'longest-crosscut': length(dice.whole(1300, 2600)) })),
    ...dice.maybe(0.4, () => ({ stack: length(dice.whole(20, 90)) })),
    ...dice.maybe(0.3, () => ({ 'least-feed': size(dice.whole(60, 200), dice.whole(100, 400)) })),
  };
}

function routerOf(dice: Dice, { length, number }: Ruler): Keys {
  const diameter = dice.among([3, 4, 6, 6.35, 8, 9.525, 10, 12]);
  const spiral = dice.among(['straight', 'up-cut', 'down-cut', 'compression']);
  const isCommon = dice.chance(0.12);
  const isTipped = spiral === 'compression';
  return {
    ...dice.maybe(0.8, () => ({ kind: 'router' })),
    cutter: {
      diameter: number(diameter),
      ...dice.maybe(0.5, () => ({ flutes: dice.whole(1, 4) })),
      ...dice.maybe(0.7, () => ({
        spiral,
        ...(isTipped ? { upcut: length(dice.whole(3, 7)) } : {}),
      })),
      ...dice.maybe(0.3, () => ({ worn: dice.among(['yes', 'no', true, false]) })),
    },
    ...dice.maybe(0.6, () => ({ speed: dice.among([18_000, '18000 rpm', '12000 rpm', 24_000]) })),
    ...dice.maybe(0.6, () => ({ feed: dice.among([number(9000), '6 m/min', '9 m/min']) })),
    ...dice.maybe(0.6, () => ({ 'pass-depth': length(dice.whole(4, 12)) })),
    ...dice.maybe(0.15, () => ({ 'last-pass': length(1) })),
    ...dice.maybe(0.15, () => ({ finish: number(0.3) })),
    ...(isCommon
      ? { spacing: 0, 'common-cuts': 'yes' }
      : dice.maybe(0.6, () => ({
          spacing: number(diameter + dice.among([0.3, 0.65, 1, 2, 3.175, 6])),
        }))),
    ...dice.maybe(0.3, () => ({ kerf: length(dice.among([2.4, 3.2, 4])) })),
  };
}

function tableOf(dice: Dice, ruler: Ruler): Keys {
  const { size, point } = ruler;
  const rest = dice.among(['spoilboard', 'spoilboard', 'gasket', 'pods', 'none']);
  return {
    ...dice.maybe(0.6, () => ({
      size: size(dice.whole(1200, 3000), dice.whole(800, 1500)),
      ...dice.maybe(0.3, () => ({ masked: [{ at: point(0, 0), size: size(300, 100) }] })),
      ...dice.maybe(0.3, () => ({
        zones: [
          { at: point(0, 0), size: size(600, 800) },
          { at: point(600, 0), size: size(600, 800), ...dice.maybe(0.4, () => ({ shut: 'yes' })) },
        ],
      })),
    })),
    ...dice.maybe(0.2, () => ({
      'sheet-at': point(dice.whole(0, 60), dice.whole(0, 60)),
    })),
    ...dice.maybe(0.8, () => ({ pump: pumpOf(dice) })),
    ...dice.maybe(0.4, () => ({ pipe: pipeOf(dice, ruler) })),
    ...restOf(dice, ruler, rest),
    ...dice.maybe(0.4, () => ({ altitude: dice.among(['300 m', '2000 ft', '1500 m', '0 m']) })),
    ...dice.maybe(0.4, () => ({ friction: dice.among<Tree>([0.4, [0.4, 0.3], [0.5, 0.2]]) })),
    ...dice.maybe(0.2, () => ({ 'friction-film-faced': dice.among<Tree>([0.25, [0.25, 0.2]]) })),
  };
}

function pumpOf(dice: Dice): Keys {
  const plate = () => ({
    kind: dice.among(['vane', 'claw', 'liquid-ring', 'blower']),
    flow: dice.whole(60, 500),
    vacuum: dice.whole(12, 28),
  });
  const curve = () => ({
    curve: [
      [dice.whole(400, 600), 0],
      [dice.whole(200, 380), dice.whole(5, 9)],
      [0, dice.whole(10, 28)],
    ],
    ...dice.maybe(0.5, () => ({ kind: 'blower' })),
    ...dice.maybe(0.3, () => ({ volume: dice.among(['free-air', 'inlet']) })),
  });
  return {
    ...(dice.chance(0.5) ? plate() : curve()),
    ...dice.maybe(0.3, () => ({ count: dice.whole(1, 3) })),
  };
}

function pipeOf(dice: Dice, { length }: Ruler): Keys {
  if (dice.chance(0.4)) return { loss: dice.among([0.5, 1, 2]), flow: dice.whole(100, 300) };
  return {
    bore: length(dice.among([38, 50, 75, 100])),
    length: length(dice.whole(500, 9000)),
    ...dice.maybe(0.5, () => ({ elbows: dice.whole(0, 6) })),
  };
}

function restOf(dice: Dice, { length, size }: Ruler, kind: string): Keys {
  switch (kind) {
    case 'spoilboard':
      return {
        spoilboard: {
          kind: 'mdf',
          thickness: length(dice.whole(6, 25)),
          ...dice.maybe(0.4, () => ({
            permeability: dice.among<Tree>([3e-13, [3e-13, 6e-13], '5e-13']),
          })),
          ...dice.maybe(0.2, () => ({ 'along-ratio': dice.whole(1, 4) })),
        },
      };
    case 'gasket':
      return {
        gasket: dice.chance(0.5)
          ? { around: 'pieces', inset: length(dice.whole(5, 20)) }
          : { around: 'sheet', grooves: size(8, dice.whole(30, 80)) },
      };
    case 'pods':
      return {
        pods: {
          size: dice.chance(0.5) ? size(140, 115) : size(120, 50),
          ...dice.maybe(0.5, () => ({ 'per-piece': dice.whole(1, 4) })),
        },
      };
    default:
      return {};
  }
}
