import { basename, resolve } from 'node:path';
import {
  BYTES_PER_MB,
  counted,
  importList,
  type ListImport,
  type ListOptions,
  type ListTrouble,
  type ListUnit,
  listTooLarge,
  type Separator,
  wrap,
} from '../index.ts';
import { writeNew } from './new-file.ts';
import type { Settings } from './options.ts';
import { type Paint, paintFor } from './paint.ts';
import { readNamed } from './read-file.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** More than anyone mends in one go. */
const MOST_LISTED = 500;

export async function importCommand(
  world: World,
  [name]: readonly string[],
  settings: Settings,
): Promise<number> {
  const { cwd, limits } = world;
  const read = readNamed(resolve(cwd, name!), name!, limits.list * BYTES_PER_MB);
  if ('size' in read)
    throw new CommandFailure(EXIT.usage, `${name}: ${listTooLarge(read.size, limits)}`);
  const result = importList(read.bytes, basename(name!), optionsOf(settings), limits);
  if (!('text' in result)) {
    printTroubles(world, name!, result.troubles);
    const faults = result.faults.map((fault) =>
      fault.startsWith('--') ? fault : `${name}: ${fault}`,
    );
    throw new CommandFailure(EXIT.usage, `${faults.join('\nholdfast: ')}`);
  }
  const target = settings.out ?? name!.replace(/(?<=[^/\\])\.[^./\\]*$/, '').concat('.yaml');
  writeNew(world, target, result.text, '; --out takes another name');
  printTroubles(world, name!, result.troubles);
  printResult(world, { list: name!, target, result }, paintFor(world, settings));
  return result.troubles.length > 0 ? EXIT.failed : EXIT.done;
}

function optionsOf(settings: Settings): ListOptions {
  return {
    columns: settings.columns ?? null,
    separator: (settings.separator as Separator | undefined) ?? null,
    unit: (settings.unit as ListUnit | undefined) ?? null,
    material: settings.material ?? null,
    thickness: settings.thickness ?? null,
    sheet: settings.sheet ?? null,
    band: settings.band ?? null,
  };
}

function printTroubles(world: World, name: string, troubles: readonly ListTrouble[]): void {
  for (const { row, column, why } of troubles.slice(0, MOST_LISTED)) {
    const where = column === null ? `row ${row}` : `row ${row}, column ${column}`;
    world.err(`${name}: ${where}: ${why}\n`);
  }
  const more = troubles.length - MOST_LISTED;
  if (more > 0) world.err(`${name}: and ${more} more that could not be read\n`);
}

function printResult(
  world: World,
  { list, target, result }: { list: string; target: string; result: ListImport },
  paint: Paint,
): void {
  const { parts, pieces, materials, columns, unused, skipped, checks, troubles } = result;
  const say = (tone: Parameters<Paint>[0], text: string, indent = '  ', first = '') => {
    for (const line of wrap(tone, text, indent, first)) world.out(`${paint(tone, line.text)}\n`);
  };
  const counts = [counted(parts, 'part'), counted(pieces, 'piece'), counted(materials, 'material')];
  say('heading', `${target}: ${counts.join(', ')} from ${list}`);
  say('plain', `Columns: ${columns.join(', ')}`);
  if (unused.length > 0) say('care', `Not used: ${unused.join(', ')}`);
  if (skipped.length > 0) say('quiet', `Passed over: ${skipped.join('; ')}`);
  if (checks.length > 0) say('care', 'Check, as it was assumed:');
  for (const check of checks) say('plain', check, '    ', '  -');
  const rows = new Set(troubles.map(({ row }) => row)).size;
  if (rows > 0) say('bad', `${counted(rows, 'row')} could not be read in full, as listed.`);
  say('quiet', `Next: holdfast plan ${target}`);
}
