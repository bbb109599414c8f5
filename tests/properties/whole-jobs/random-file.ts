import { stringify } from 'yaml';
import { type Dice, diceOf, type Keys, type Ruler, rulerOf, type Tree } from './dice.ts';
import { extrasOf } from './extras.ts';
import { machineOf } from './machine.ts';
import type { Drawing } from './outlines.ts';
import { randomPart } from './parts.ts';
import { spoiled } from './spoil.ts';
import { materialOf, type RandomMaterial } from './stock.ts';

/** A whole job as it lies on the disk. */
export interface RandomFile {
  /** The parts file. */
  readonly text: string;
  readonly drawings: ReadonlyMap<string, string>;
  /** The rack beside it; null for none. */
  readonly rack: string | null;
  readonly machine: 'router' | 'panel-saw';
  /** Every key that it has, and beside them what no key says: its unit, a rack, line ends of Windows. */
  readonly has: ReadonlySet<string>;
  /** Whether something in it was made wrong on purpose, which may or may not matter. */
  readonly isSpoiled: boolean;
}

const SPOILED_SHARE = 0.1;

/** Any job that a small shop could have, and some that it had better not: the same file for the same seed. */
export function randomFile(seed: number): RandomFile {
  const dice = diceOf(seed);
  const machine = dice.chance(0.65) ? 'router' : 'panel-saw';
  const ruler = rulerOf(dice, dice.chance(0.7) ? 'mm' : 'in');
  const materials = dice.times(dice.among([1, 1, 2, 3]), (k) => materialOf(dice, ruler, k));
  const parts = dice.times(dice.among([1, 2, 2, 3, 3, 4, 6]), (k) =>
    randomPart(dice, ruler, dice.among(materials), k),
  );
  const drawings = parts.flatMap(({ drawing }): Drawing[] => (drawing === null ? [] : [drawing]));
  const file: Keys = {
    ...dice.maybe(0.9, () => ({ job: dice.among(['Window seat', 'Küche & <Bad> "2"', 7, 'a|b']) })),
    unit: ruler.unit,
    ...dice.maybe(0.7, () => ({
      currency: dice.among(['EUR', 'USD', 'GBP', 'CHF', 'PLN', 'JPY', 'KWD']),
    })),
    ...machineOf(dice, ruler, machine),
    materials: Object.fromEntries(materials.map(({ key, keys }) => [key, keys])),
    parts: parts.map(({ keys }) => keys),
    ...extrasOf(dice, ruler, machine),
    ...dice.maybe(0.1, () => variantsOf(dice, ruler)),
  };
  const written = textOf(dice, file);
  const rack = dice.chance(0.25) ? rackOf(dice, ruler, materials) : null;
  const isSpoiled = dice.chance(SPOILED_SHARE);
  return {
    text: isSpoiled ? spoiled(dice, written) : written,
    drawings: new Map(drawings.map(({ name, text }) => [name, text])),
    rack,
    machine,
    has: new Set([
      ...keysIn(file),
      machine,
      ruler.unit,
      ...(rack === null ? [] : ['rack']),
      ...(written.includes('\r') ? ['CRLF'] : []),
    ]),
    isSpoiled,
  };
}

function keysIn(tree: Tree): readonly string[] {
  if (typeof tree !== 'object' || tree === null) return [];
  if (Array.isArray(tree)) return tree.flatMap(keysIn);
  return Object.entries(tree).flatMap(([key, each]) => [key, ...keysIn(each)]);
}

function variantsOf(dice: Dice, ruler: Ruler): Keys {
  const variants: readonly Keys[] = [
    { name: 'Saw', machine: { kind: 'panel-saw', kerf: ruler.number(3.2) }, layers: null },
    { name: 'No limits', limits: null },
    { name: 'Free', parts: { all: { grain: 'any' } } },
  ];
  return { variants: [dice.among(variants)] };
}

/** In blocks or in braces, with line ends of either kind, with and without the mark of UTF-8 and a remark. */
function textOf(dice: Dice, file: Keys): string {
  const text = stringify(file, {
    collectionStyle: dice.among(['block', 'flow', 'any'] as const),
    defaultStringType: dice.among(['PLAIN', 'QUOTE_DOUBLE', 'QUOTE_SINGLE'] as const),
    defaultKeyType: 'PLAIN',
    indent: dice.among([2, 4]),
    lineWidth: dice.among([0, 80]),
    aliasDuplicateObjects: false,
  });
  const whole = `${dice.chance(0.1) ? '\ufeff' : ''}${dice.chance(0.3) ? '# to be cut on Friday\n' : ''}${text}`;
  return dice.chance(0.3) ? whole.replaceAll('\n', '\r\n') : whole;
}

/** Offcuts of the job's materials, one of another thickness, and used ones. */
function rackOf(dice: Dice, ruler: Ruler, materials: readonly RandomMaterial[]): string {
  const offcuts = dice.times(dice.whole(0, 5), (k): Tree => {
    const { key, thickness } = dice.among(materials);
    return {
      id: `R${k + 1}`,
      material: key,
      thickness: ruler.number(thickness + (dice.chance(0.1) ? 1 : 0)),
      size: ruler.size(dice.whole(150, 1300), dice.whole(100, 900)),
      grain: dice.among(['first', 'second', 'none']),
      ...dice.maybe(0.3, () => ({ trim: ruler.length(5) })),
      ...dice.maybe(0.2, () => ({
        'keep-out': [{ at: ruler.point(0, 0), size: ruler.size(40, 30), why: 'chip' }],
      })),
      ...dice.maybe(0.2, () => ({ state: 'used' })),
    };
  });
  return stringify({ format: 'holdfast-rack/1', unit: ruler.unit, offcuts });
}
