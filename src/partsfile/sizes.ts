import type { FileUnit } from '../model/job.ts';
import { type LengthRead, parseLength, unitLength } from './lengths.ts';
import { plainLetters } from './numbers.ts';
import { quote } from './visible.ts';

/** The two lengths of a size text such as `2440 x 1220`, each with its own result; or why the text is none. */
export type SizeRead =
  | { readonly ok: true; readonly sides: readonly [LengthRead, LengthRead] }
  | { readonly ok: false; readonly message: string; readonly hint: string };

const LONGEST_SIZE = 120;

/**
 * Reads `2440 x 1220`, `2440x1220`, `48-1/2 x 96`, `48" x 96"`; a unit behind the second number alone is taken for both
 * only where it is the file's own, because otherwise nobody can know.
 */
export function parseSize(text: string, unit: FileUnit): SizeRead {
  const sides = text.length <= LONGEST_SIZE ? plainLetters(text).split(/ ?[x×*] ?/i) : [];
  const [first = '', second = ''] = sides;
  if (sides.length === 3 && sides.every((side) => side !== ''))
    return {
      ok: false,
      message: `${quote(text)} has three lengths, a size here has two`,
      hint: 'the thickness belongs to the material: materials: { …: { thickness: 18 } }',
    };
  if (sides.length !== 2 || first === '' || second === '')
    return {
      ok: false,
      message: `cannot read ${quote(text)} as a size`,
      hint: `write two lengths with an x between them, such as ${unit === 'mm' ? '720 x 560' : '23-1/4 x 30'}`,
    };
  const read = [parseLength(first, unit), parseLength(second, unit)] as const;
  const [a, b] = read;
  if (a.ok && b.ok && (a.ownUnit === null) !== (b.ownUnit === null) && !alike(a, b, unit))
    return {
      ok: false,
      message: `${quote(text)} has a unit with one of its lengths only`,
      hint: 'write the unit with both lengths, or with neither for the unit of the file',
    };
  return { ok: true, sides: read };
}

function alike(a: { ownUnit: number | null }, b: { ownUnit: number | null }, unit: FileUnit) {
  return (a.ownUnit ?? unitLength(unit)) === (b.ownUnit ?? unitLength(unit));
}
