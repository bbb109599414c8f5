import type { FileUnit } from '../model/job.ts';

/** The lengths of the starter file, in whole figures of each unit. */
const FIGURES = {
  mm: {
    sheet: '2440 x 1220',
    trim: '10',
    thickness: '18',
    cutter: '6.35',
    upcut: '6',
    feed: '9000',
    shelf: '764 x 250',
    band: '1',
    brace: '764 x 100',
    bracket: 'M0 0 H260 V60 Q80 80 60 300 H0 Z',
    bracketHole: '[30, 40]',
    bracketRow: '{ row: 4, pitch: 32, from: [30, 150], along: width, diameter: 5, depth: 12 }',
    bigHole: '8',
    opening: '{ at: [332, 30], size: 100 x 40, radius: 20 }',
    front: '[[380, 140], [380, 140], [380, 200]]',
    knob: '60',
    others: '18.5, 3/4in and 300 m',
  },
  in: {
    sheet: '96 x 48',
    trim: '3/8',
    thickness: '23/32',
    cutter: '1/4',
    upcut: '1/4',
    feed: '350',
    shelf: '30 x 9-3/4',
    band: '1/32',
    brace: '30 x 4',
    bracket: 'M0 0 H10 V2.5 Q3 3.25 2.5 12 H0 Z',
    bracketHole: '[1-1/4, 1-1/2]',
    bracketRow:
      '{ row: 4, pitch: 1-1/4, from: [1-1/4, 6], along: width, diameter: 1/4, depth: 1/2 }',
    bigHole: '5/16',
    opening: '{ at: [13, 1-1/4], size: 4 x 1-1/2, radius: 3/4 }',
    front: '[[15, 5-1/2], [15, 5-1/2], [15, 8]]',
    knob: '2-1/2',
    others: '23-1/4, 23 1/4, 23.25 and 18mm',
  },
} as const;

/** A commented parts file to start from: it plans as it is. The bracket is lopsided, so that a mirrored one would be seen. */
export function starterFile(unit: FileUnit): string {
  const f = FIGURES[unit];
  return `# yaml-language-server: $schema=./holdfast.schema.json
# A parts file. Try: holdfast plan this-file.yaml
# The line above helps editors: holdfast schema > holdfast.schema.json makes the file it names.

job: Wall shelf
${remarked(`unit: ${unit}`)}# of every length without one of its own; ${f.others} read too
currency: ${unit === 'mm' ? 'EUR' : 'USD'}

machine:                       # leave it out, or parts of it: cautious values are taken, and named in every output
  kind: router
  cutter: { diameter: ${f.cutter}, flutes: 2, spiral: compression, upcut: ${f.upcut} }
  speed: 18000 rpm
${remarked(`  feed: ${f.feed}`)}# ${unit === 'mm' ? 'mm' : 'inches'} a minute

materials:
  birch:                       # parts name the material by this key
    name: Birch plywood
    family: plywood            # or mdf, particleboard, osb, hardboard, softwood, hardwood …
    thickness: ${f.thickness}
    sheets:                    # grain along the longer side, unless a sheet says grain: short-side or none
      - { size: ${f.sheet}, price: 92.00, trim: ${f.trim} }

parts:
  - name: Shelf
    material: birch
${remarked(`    size: ${f.shelf}`)}# finished size; the edge band is deducted for the cut
    count: 3
    grain: along               # along the first number of size; across: the second; any: of no account
    edges: { bottom: ${f.band} }

  - name: Bracket              # a path is drawn as in SVG, y downwards; outline: file.svg reads a drawing
    material: birch
    path: ${f.bracket}
    count: 4
    grain: across
    holes:                     # measured from the lower-left corner of the part, good face up
      - { at: ${f.bracketHole}, diameter: ${f.bigHole}, depth: through }
      - ${f.bracketRow}

  - name: Back rail
    material: birch
    size: ${f.brace}
    grain: along
    cut-outs: [${f.opening}]

  - name: Drawer fronts        # a matched set lies side by side in this order, so that the figure runs through
    material: birch
    matched: ${f.front}
    grain: along

  - { name: Knob, material: birch, shape: disc, diameter: ${f.knob}, count: 3, turns: any }   # small: what holds it down?

limits:                        # holdfast check fails where one of these is not met
  sheets: 1
  yield: 30 %
  cost: 100
  holding: no piece moves
`;
}

/** With blanks up to the column of the remarks. */
function remarked(line: string): string {
  return line.padEnd(31);
}
