import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROBLEM_CODES } from '../../src/partsfile/problem.ts';
import { starterFile } from '../../src/partsfile/starter.ts';
import { HOSTILE_DXF, HOSTILE_SVG } from '../helpers/hostile-drawings.ts';
import { BOARDS_FIXTURES } from '../partsfile/fixtures/boards.ts';
import { DRAWINGS_FIXTURES } from '../partsfile/fixtures/drawings.ts';
import { PARTS_FIXTURES } from '../partsfile/fixtures/parts.ts';
import { STOCK_FIXTURES } from '../partsfile/fixtures/stock.ts';
import { TEXT_FIXTURES } from '../partsfile/fixtures/text.ts';
import { VALUES_FIXTURES } from '../partsfile/fixtures/values.ts';
import { smallRack } from '../rack/racks.ts';
import { ODD } from '../record/planned.ts';

/** What the inputs are made of by small changes. */
export interface Corpus {
  /** Whole files that are right, and small ones that have one thing wrong. */
  readonly files: readonly string[];
  readonly small: readonly string[];
  readonly readings: readonly string[];
  readonly racks: readonly string[];
  readonly svgs: readonly string[];
  readonly dxfs: readonly string[];
}

/** Every word of a problem that the readers of texts know. */
export const CODES: ReadonlySet<string> = new Set([
  ...PROBLEM_CODES,
  'impossible-reading',
  'bad-date',
  'mixed-currency',
]);

/** Longer drawings cost more than they tell. */
const LONGEST = 4000;

/** `root` is the folder of the project. */
export function corpusOf(root: string): Corpus {
  const example = (name: string) => readFileSync(join(root, 'examples', name), 'utf8');
  const fixtures = [
    ...TEXT_FIXTURES,
    ...VALUES_FIXTURES,
    ...STOCK_FIXTURES,
    ...BOARDS_FIXTURES,
    ...PARTS_FIXTURES,
    ...DRAWINGS_FIXTURES,
  ];
  const drawings = fixtures.flatMap(({ drawings: own = {} }) => Object.values(own));
  const drawn = (kind: RegExp) =>
    drawings.flatMap((each) => (each.ok && kind.test(each.text) ? [each.text] : []));
  const short = (texts: readonly string[]) => texts.filter((text) => text.length <= LONGEST);
  return {
    files: [
      ...[
        'boat-shed-cart',
        'bookcase-router',
        'bookcase-saw',
        'cloakroom-benches',
        'reading-nook',
      ].map((name) => example(`${name}.yaml`)),
      starterFile('mm'),
      starterFile('in'),
      ODD,
    ],
    small: short(fixtures.map(({ text }) => text)),
    readings: [example('readings/blower-table.yaml')],
    racks: [smallRack(), smallRack('next-number: 9\ncurrency: EUR\n')],
    svgs: short([
      example('canopy-rail.svg'),
      ...drawn(/<svg/),
      ...HOSTILE_SVG.map(({ text }) => text()),
    ]),
    dxfs: short([
      example('cloakroom-benches.dxf'),
      ...drawn(/SECTION/),
      ...HOSTILE_DXF.map(({ text }) => text()),
    ]),
  };
}
