import { child, type Field, isFlawed, keySpot, textOf } from './tree.ts';
import type { Reading } from './values.ts';

/** The forms in which a part says its outline. */
export type OutlineKind = 'size' | 'rounded' | 'disc' | 'points' | 'path' | 'outline' | 'matched';

/** Keys that each say an outline; a part has one of them (and `size` beside `shape: rounded`). */
const OUTLINE_KEYS = ['size', 'outline', 'path', 'points', 'shape', 'matched'] as const;

/** Keys that go with some forms only; the others go with all. */
const FORM_KEYS = [
  'edges',
  'oversize',
  'holes',
  'cut-outs',
  'pockets',
  'diameter',
  'radius',
  'run',
  'nest-inside',
  'drawing-unit',
];

const ALLOWED: Readonly<Record<OutlineKind, readonly string[]>> = {
  size: ['edges', 'oversize', 'holes', 'cut-outs', 'pockets', 'nest-inside'],
  rounded: ['radius', 'oversize', 'holes', 'cut-outs', 'pockets', 'nest-inside'],
  disc: ['diameter', 'oversize', 'holes', 'cut-outs', 'pockets', 'nest-inside'],
  points: ['holes', 'cut-outs', 'pockets', 'nest-inside'],
  path: ['holes', 'cut-outs', 'pockets', 'nest-inside'],
  outline: ['holes', 'cut-outs', 'pockets', 'nest-inside', 'drawing-unit'],
  matched: ['edges', 'oversize', 'run'],
};

/** What each form is called in messages. */
const NAMES: Readonly<Record<OutlineKind, string>> = {
  size: 'a part with a size',
  rounded: 'a rounded part',
  disc: 'a disc',
  points: 'a part with points',
  path: 'a part with a path',
  outline: 'a part with a drawing',
  matched: 'a matched set',
};

/** The form of a part's outline; null after a problem. Keys that do not go with the form are reported. */
export function outlineKind(part: Field, reading: Reading): OutlineKind | null {
  const kind = chooseKind(part, reading);
  if (kind === null) return null;
  for (const key of FORM_KEYS)
    if (child(part, key) !== null && !ALLOWED[kind].includes(key))
      refuseKey(part, key, kind, reading);
  return hasRest(part, kind, reading) ? kind : null;
}

function chooseKind(part: Field, { report }: Reading): OutlineKind | null {
  const shape = child(part, 'shape');
  if (shape !== null && isFlawed(shape)) return null;
  const kind = shape === null ? null : textOf(shape);
  const said = OUTLINE_KEYS.filter(
    (key) => child(part, key) !== null && !(key === 'size' && kind === 'rounded'),
  );
  const [first, second] = said;
  if (first === undefined) {
    const hint =
      child(part, 'diameter') === null
        ? 'write size: 720 x 560, or outline, path, points, shape or matched; length of a part from boards'
        : 'write shape: disc beside the diameter';
    report.error(part, 'no-outline', 'the part has neither a size nor an outline', hint);
    return null;
  }
  if (second !== undefined) {
    const message = `the part has both ${first} and ${second}`;
    report.error(keySpot(part, second), 'two-outlines', message, 'keep the one that is meant');
    return null;
  }
  return first === 'shape' ? (kind as 'rounded' | 'disc') : first;
}

function refuseKey(part: Field, key: string, kind: OutlineKind, { report }: Reading): void {
  const kinds = (Object.keys(ALLOWED) as OutlineKind[]).filter((k) => ALLOWED[k].includes(key));
  const message = `${key} does not go with ${NAMES[kind]}`;
  const hint = `it goes with ${kinds.map((k) => NAMES[k]).join(' or ')}`;
  report.error(keySpot(part, key), 'misplaced-key', message, hint);
}

function hasRest(part: Field, kind: OutlineKind, { report }: Reading): boolean {
  const needed: Partial<Record<OutlineKind, readonly string[]>> = {
    rounded: ['size', 'radius'],
    disc: ['diameter'],
  };
  const missing = (needed[kind] ?? []).filter((key) => child(part, key) === null);
  for (const key of missing)
    report.error(
      part,
      'missing-key',
      `${NAMES[kind]} needs a ${key}`,
      `write ${key}: and its value`,
    );
  return missing.length === 0;
}
