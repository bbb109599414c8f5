import { numbersOf } from './svg-units.ts';

/** How many numbers each kind of transform takes. */
const COUNTS: ReadonlyMap<string, readonly number[]> = new Map([
  ['matrix', [6]],
  ['translate', [1, 2]],
  ['scale', [1, 2]],
  ['rotate', [1, 3]],
  ['skewX', [1]],
  ['skewY', [1]],
]);

const LIST = /^\s*(?:[a-zA-Z]+\s*\([^()]*\)[\s,]*)*$/;

/** Whether a transform attribute says what it means: the path library takes what it cannot read for nothing. */
export function isTransform(text: string): boolean {
  if (!LIST.test(text)) return false;
  return [...text.matchAll(/([a-zA-Z]+)\s*\(([^()]*)\)/g)].every(([, kind = '', list = '']) => {
    const numbers = numbersOf(list);
    return numbers !== null && COUNTS.get(kind)?.includes(numbers.length) === true;
  });
}
