import type { Dice, Keys, Ruler, Tree } from './dice.ts';

/** All that a file may say beside its machine, stock and parts. */
export function extrasOf(dice: Dice, ruler: Ruler, kind: 'router' | 'panel-saw'): Keys {
  const { size } = ruler;
  return {
    ...dice.maybe(0.4, () => ({ limits: limitsOf(dice, kind) })),
    ...dice.maybe(0.3, () => ({
      offcuts: {
        ...dice.maybe(0.8, () => ({ least: size(dice.whole(80, 600), dice.whole(60, 300)) })),
        ...dice.maybe(0.5, () => ({ prefer: dice.among(['area', 'strips']) })),
      },
    })),
    ...dice.maybe(0.4, () => ({ costs: costsOf(dice, ruler, kind) })),
    ...(kind === 'router' ? dice.maybe(0.3, () => ({ layers: layersOf(dice) })) : {}),
    ...dice.maybe(0.3, () => ({ labels: labelsOf(dice, ruler) })),
  };
}

function limitsOf(dice: Dice, kind: string): Keys {
  return {
    ...dice.maybe(0.6, () => ({ sheets: dice.whole(0, 6) })),
    ...dice.maybe(0.6, () => ({ yield: dice.among(['70 %', '30%', 0.5]) })),
    ...dice.maybe(0.4, () => ({ cost: dice.whole(10, 900) })),
    ...(kind === 'router'
      ? dice.maybe(0.5, () => ({ holding: dice.among(['no piece moves', 'no piece marginal']) }))
      : {}),
    ...dice.maybe(0.3, () => ({ proof: 'yes' })),
    ...dice.maybe(0.3, () => ({ time: dice.among(['90 min', '2 h']) })),
    ...dice.maybe(0.3, () => ({ weight: dice.among(['25 kg', '60 lb']) })),
  };
}

function costsOf(dice: Dice, { unit }: Ruler, kind: string): Keys {
  const measure = unit === 'mm' ? 'm' : 'ft';
  return {
    ...dice.maybe(0.7, () => ({ labour: { machine: '65 per h', bench: '48 per h' } })),
    ...dice.maybe(0.5, () => ({ setup: '20 min' })),
    ...dice.maybe(0.5, () => ({ loading: '4 min', 'tool-change': '1 min', hole: '3 s' })),
    ...(kind === 'panel-saw' ? dice.maybe(0.6, () => ({ 'saw-cut': '40 s' })) : {}),
    ...dice.maybe(0.4, () => ({ 'board-cut': '30 s' })),
    ...dice.maybe(0.4, () => ({
      'edge-band': { price: `0.85 per ${measure}`, time: `40 s per ${measure}`, waste: '10 %' },
    })),
    ...dice.maybe(0.4, () => ({
      hardware: [
        { name: 'Hinge', price: 2.4, count: 8, ...dice.maybe(0.5, () => ({ group: 'Carcass' })) },
        { name: 'Knob', price: 3.2 },
      ],
    })),
    ...dice.maybe(0.3, () => ({ waste: '5 %' })),
    ...dice.maybe(0.6, () => ({
      margin: '20 %',
      ...dice.maybe(0.3, () => ({ 'margin-of': dice.among(['cost', 'price']) })),
    })),
    ...dice.maybe(0.5, () => ({ tax: dice.among(['19 %', '7.7 %']) })),
  };
}

function layersOf(dice: Dice): Keys {
  return {
    ...dice.maybe(0.6, () => ({ outline: 'CUT' })),
    ...dice.maybe(0.6, () => ({ hole: 'DRILL_{diameter}_{depth}' })),
    ...dice.maybe(0.4, () => ({ label: 'none', grain: 'none', order: 'none' })),
    ...dice.maybe(0.4, () => ({ skin: 'SKIN_{skin}', tab: 'TAB_{width}' })),
    ...dice.maybe(0.5, () => ({ tabs: dice.among(['marks', 'gaps']) })),
  };
}

function labelsOf(dice: Dice, { size, length }: Ruler): Keys {
  return dice.among<Keys>([
    { paper: 'a4', columns: 3, rows: 8 },
    { paper: 'letter', columns: 3, rows: 10 },
    { paper: 'a4', columns: 2, rows: 7, margin: { top: length(15) } },
    { paper: 'a4', columns: 5, rows: 13 },
    { roll: size(dice.whole(30, 100), dice.whole(20, 60)) as Tree },
  ]);
}
