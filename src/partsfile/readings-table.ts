/**
 * The `table:` of a readings file: as in a parts file, but what the readings are to give may be left out.
 *
 * Those keys, and others that the readings do not rest on, are filled in before the ordinary reader sees the section, so
 * that it neither asks for them nor names them as assumed.
 */
import type { Table } from '../model/machine.ts';
import type { GaugeReading } from '../model/readings.ts';
import { readTable } from './table.ts';
import { child, type Entry, type Field, isFlawed, keySpot, keysOf, type Tree } from './tree.ts';
import type { Reading } from './values.ts';

export interface GivenTable {
  readonly table: Table;
  readonly given: ReadonlySet<string>;
}

type Kind = GaugeReading['kind'];

/** `field` is null where the file has no table. Null after a problem. */
export function readGivenTable(
  root: Field,
  kinds: ReadonlySet<Kind>,
  restsOnBoard: boolean,
  reading: Reading,
): GivenTable | null {
  const field = child(root, 'table');
  if (field !== null && isFlawed(field)) return null;
  if (!hasNeeded(root, field, { kinds, restsOnBoard }, reading)) return null;
  if (field !== null && !isPlain(field, kinds, reading)) return null;
  const given = new Set(field === null ? [] : keysOf(field));
  if (child(child(field, 'spoilboard'), 'permeability') !== null) given.add('permeability');
  const whole = field ?? {
    ...root,
    tree: { kind: 'mapping', entries: new Map(), place: root.place },
  };
  const table = readTable(filledIn(whole, given), reading);
  if (table === null) return null;
  const size = given.has('size') ? table.size : null;
  return { table: { ...table, size }, given };
}

const ON_TABLE: readonly Kind[] = ['bare', 'covered', 'kerf'];

function hasNeeded(
  root: Field,
  field: Field | null,
  { kinds, restsOnBoard }: { readonly kinds: ReadonlySet<Kind>; readonly restsOnBoard: boolean },
  { report }: Reading,
): boolean {
  const isOnTable = ON_TABLE.some((kind) => kinds.has(kind));
  const needed = [
    ...(isOnTable ? ['size'] : []),
    ...(isOnTable || restsOnBoard ? ['spoilboard'] : []),
  ];
  const missing = needed.find((key) => child(field, key) === null);
  if (missing === undefined) return true;
  const hint = 'write table: { size: 2500 x 1250, spoilboard: { kind: mdf, thickness: 18 } }';
  const message = `${field === null ? 'table' : missing} is missing here`;
  report.error(field ?? root, 'missing-key', message, hint);
  return false;
}

/** The board is reckoned as one piece that is open all over. */
function isPlain(field: Field, kinds: ReadonlySet<Kind>, { report }: Reading): boolean {
  const refuse = (key: string, why: string, hint: string): boolean => {
    if (child(field, key) === null) return true;
    report.error(keySpot(field, key), 'misplaced-key', `the table has ${key}: ${why}`, hint);
    return false;
  };
  if (ON_TABLE.some((kind) => kinds.has(kind)) || kinds.has('pull')) {
    const why = 'these readings are of a spoilboard';
    const hint = 'on gaskets or pods take readings of kind hole and tilt only';
    for (const key of ['gasket', 'pods']) if (!refuse(key, why, hint)) return false;
  }
  const why = 'readings are taken with all of it open';
  const hint = 'open every valve, take the masking off, and write the key into the parts file only';
  return ['zones', 'masked', 'sheet-at'].every((key) => refuse(key, why, hint));
}

/** Values that nothing is reckoned with. */
const FILLED: Readonly<Record<string, string | readonly string[]>> = {
  size: '1000mm x 1000mm',
  friction: ['0.4', '0.3'],
  'friction-film-faced': ['0.25', '0.2'],
};

function filledIn(field: Field, given: ReadonlySet<string>): Field {
  if (field.tree.kind !== 'mapping') return field;
  const { place } = field;
  const entry = (value: Tree): Entry => ({ keyPlace: place, value });
  const scalar = (text: string): Tree => ({ kind: 'scalar', value: text, text, place });
  const entries = new Map(field.tree.entries);
  for (const [key, value] of Object.entries(FILLED)) {
    if (given.has(key)) continue;
    const tree: Tree =
      typeof value === 'string' ? scalar(value) : { kind: 'list', items: value.map(scalar), place };
    entries.set(key, entry(tree));
  }
  const board = entries.get('spoilboard')?.value;
  const sealed = given.has('gasket') || given.has('pods');
  if (!sealed && board?.kind !== 'flawed') {
    const boardEntries = new Map(board?.kind === 'mapping' ? board.entries : []);
    if (!given.has('spoilboard')) boardEntries.set('thickness', entry(scalar('18mm')));
    if (!given.has('permeability')) boardEntries.set('permeability', entry(scalar('3e-13')));
    entries.set('spoilboard', entry({ kind: 'mapping', entries: boardEntries, place }));
  }
  return { ...field, tree: { kind: 'mapping', entries, place } };
}
