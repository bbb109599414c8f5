import type { RecordFault } from '../model/recheck.ts';

/** Numbers are written to six decimals; the last may differ between engines. */
const LAST_DIGITS = 2e-6;

/**
 * Where `given` says otherwise than `wanted`, which leads: keys that only `given` has are passed over, as later records may have more of them, and so are
 * keys that it has not, as earlier ones have fewer. Lists of another length are told once.
 */
export function differences(
  wanted: unknown,
  given: unknown,
  path: string,
  code: string,
): readonly RecordFault[] {
  if (Array.isArray(wanted)) {
    if (!Array.isArray(given)) return [told(path, code, 'a list', given)];
    if (given.length !== wanted.length) {
      const has = given.length === 1 ? '1 entry' : `${given.length} entries`;
      return [{ code, path, message: `the list has ${has}; it should have ${wanted.length}` }];
    }
    return wanted.flatMap((each, i) => differences(each, given[i], `${path}[${i}]`, code));
  }
  if (typeof wanted === 'object' && wanted !== null) {
    if (typeof given !== 'object' || given === null || Array.isArray(given))
      return [told(path, code, 'a group of keys', given)];
    return Object.entries(wanted).flatMap(([key, each]) => {
      const own = path === '' ? key : `${path}.${key}`;
      const there = Object.getOwnPropertyDescriptor(given, key);
      return there === undefined ? [] : differences(each, there.value, own, code);
    });
  }
  return isSame(wanted, given) ? [] : [told(path, code, shown(wanted), given)];
}

function isSame(wanted: unknown, given: unknown): boolean {
  if (typeof wanted !== 'number' || typeof given !== 'number') return wanted === given;
  if (Number.isInteger(wanted) && Number.isInteger(given)) return wanted === given;
  return Math.abs(wanted - given) <= LAST_DIGITS;
}

function told(path: string, code: string, wanted: string, given: unknown): RecordFault {
  return { code, path, message: `${shown(given)} should be ${wanted}` };
}

const MOST_SHOWN = 60;

function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'a group of keys';
  const text = JSON.stringify(value);
  return text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}…` : text;
}
