import { MAX_BOARD_LENGTH, MAX_SHAPE_SPAN, MAX_SHEET_SPAN, toMm } from './units.ts';

/** How much of one thing is read or written. These are not the limits that a parts file sets for its job. */
export interface ResourceLimit {
  /** What is taken unless somebody says otherwise. */
  readonly usual: number;
  /** What is counted, as it stands behind a number. */
  readonly unit: string;
  /** The largest value that it may be given; the usual one where that is the end of the engine itself. */
  readonly most: number;
  /** What ends at `most`. */
  readonly end: string;
  /** What it is counted in, and what it keeps from happening. */
  readonly guards: string;
}

const STRING_END = 'a text in memory is at most 536 MB';
const PLAN_END = 'the record of a plan has at most 100,000 entries in a list';
const PAIRS_END = 'pairs are looked at, and a larger number takes hours';
const STACK_END = 'each level takes its share of the stack';
const EXACT_END = 'beyond it geometry in whole numbers is not exact';
const MEMORY_END = 'beyond it several gigabytes of memory are needed';

const [SHEET_MM, SHAPE_MM, BOARD_MM] = [MAX_SHEET_SPAN, MAX_SHAPE_SPAN, MAX_BOARD_LENGTH].map(
  (span) => Math.floor(toMm(span)),
) as [number, number, number];

/** All of them, in the order in which people come upon them. */
const TABLE = {
  file: {
    ...{ usual: 5, unit: 'MB', most: 100, end: MEMORY_END },
    guards: 'a parts file, a rack, a file of readings',
  },
  words: {
    ...{ usual: 1_200_000, unit: 'words and signs', most: 20_000_000, end: MEMORY_END },
    guards: 'YAML of one file; 10,000 parts of a line each have fewer',
  },
  depth: {
    ...{ usual: 40, unit: 'levels', most: 200, end: STACK_END },
    guards: 'lists inside lists in a file; a parts file needs 6',
  },
  aliases: {
    ...{ usual: 100_000, unit: 'values', most: 10_000_000, end: MEMORY_END },
    guards: 'what anchors (`*name`) put in, all together',
  },
  problems: {
    ...{ usual: 500, unit: 'problems', most: 100_000, end: MEMORY_END },
    guards: 'the problems of one file that are listed',
  },
  parts: {
    ...{ usual: 10_000, unit: 'parts', most: 50_000, end: PLAN_END },
    guards: 'entries of the list of parts',
  },
  pieces: {
    ...{ usual: 10_000, unit: 'pieces', most: 50_000, end: PLAN_END },
    guards: 'all parts with their counts; time and memory of the search, size of the output',
  },
  variants: {
    ...{ usual: 20, unit: 'variants', most: 1000, end: 'each is read as a whole file' },
    guards: 'variants of one file, each planned on its own',
  },
  vertices: {
    ...{ usual: 5000, unit: 'lines and arcs', most: 100_000, end: PAIRS_END },
    guards: 'one outline with its cut-outs, drawn or written',
  },
  'all-vertices': {
    ...{ usual: 100_000, unit: 'lines and arcs', most: 10_000_000, end: MEMORY_END },
    guards: 'the outlines of all parts of a file',
  },
  corners: {
    ...{ usual: 20_000, unit: 'short lines', most: 200_000, end: PAIRS_END },
    guards: 'the curves of one part, taken as lines within 0.01 mm',
  },
  holes: {
    ...{ usual: 1000, unit: 'holes', most: 20_000, end: PAIRS_END },
    guards: 'the holes of one part, those of rows counted each',
  },
  'all-holes': {
    ...{ usual: 100_000, unit: 'holes', most: 2_000_000, end: MEMORY_END },
    guards: 'the holes of all parts of a file',
  },
  'sheet-corners': {
    ...{ usual: 60, unit: 'corners', most: 60, end: 'the stairs along slanted edges are 64' },
    guards: 'the edge of an odd-shaped sheet',
  },
  'sheet-length': {
    ...{ usual: SHEET_MM, unit: 'mm', most: SHEET_MM, end: EXACT_END },
    guards: 'either side of a sheet, and of any rectangle; 27.5 ft',
  },
  'outline-length': {
    ...{ usual: SHAPE_MM, unit: 'mm', most: SHAPE_MM, end: EXACT_END },
    guards: 'either side of a part that is no rectangle, and of an odd-shaped sheet; 13.7 ft',
  },
  'board-length': {
    ...{ usual: BOARD_MM, unit: 'mm', most: BOARD_MM, end: EXACT_END },
    guards: 'a board, and a part that is cut from one',
  },
  drawing: {
    ...{ usual: 5, unit: 'MB', most: 100, end: MEMORY_END },
    guards: 'one SVG or DXF drawing',
  },
  drawings: {
    ...{ usual: 20, unit: 'MB', most: 500, end: MEMORY_END },
    guards: 'all drawings of a file, an SVG again for each id that is asked for',
  },
  entities: {
    ...{ usual: 20_000, unit: 'lines, arcs and corners', most: 1_000_000, end: MEMORY_END },
    guards: 'one DXF drawing as it is written',
  },
  placed: {
    ...{ usual: 50_000, unit: 'lines, arcs and blocks', most: 5_000_000, end: MEMORY_END },
    guards: 'one DXF drawing with its blocks put in place',
  },
  'drawing-depth': {
    ...{ usual: 100, unit: 'levels', most: 1000, end: STACK_END },
    guards: 'blocks inside blocks of a DXF drawing, groups inside groups of an SVG',
  },
  list: {
    ...{ usual: 20, unit: 'MB', most: 400, end: STRING_END },
    guards: 'a cut list that is imported',
  },
  rows: {
    ...{ usual: 100_000, unit: 'rows', most: 2_000_000, end: MEMORY_END },
    guards: 'a cut list that is imported',
  },
  offcuts: {
    ...{ usual: 10_000, unit: 'offcuts', most: 100_000, end: 'the rack is read whole each time' },
    guards: 'entries of a rack, used ones as well',
  },
  readings: {
    ...{ usual: 200, unit: 'readings', most: 200, end: 'the fit looks at all of them at once' },
    guards: 'a file of readings',
  },
  record: {
    ...{ usual: 300, unit: 'MB', most: 500, end: STRING_END },
    guards: 'a `plan.json` that is read',
  },
  entries: {
    ...{ usual: 100_000, unit: 'entries', most: 100_000, end: 'a plan has 50,000 pieces at most' },
    guards: 'any one list in a `plan.json` that is read',
  },
  sheets: {
    ...{ usual: 2000, unit: 'sheets', most: 50_000, end: 'there is a sheet a piece at most' },
    guards: 'sheets of a plan that is written: two drawings and a page each',
  },
  pages: {
    ...{ usual: 120, unit: 'pages', most: 10_000, end: 'nobody joins more' },
    guards: 'the pages that one sheet or template is spread over',
  },
  memory: {
    ...{ usual: 800, unit: 'MB', most: 16_000, end: 'few machines have more' },
    guards: 'what the command keeps in memory, and each part of its search',
  },
} as const;

export type LimitName = keyof typeof TABLE;

export const RESOURCE_LIMITS: Readonly<Record<LimitName, ResourceLimit>> = TABLE;

export const LIMIT_NAMES = Object.keys(TABLE) as readonly LimitName[];

/** The value of each limit in one run. */
export type ResourceLimits = Readonly<Record<LimitName, number>>;

export const USUAL_LIMITS: ResourceLimits = Object.fromEntries(
  LIMIT_NAMES.map((name) => [name, RESOURCE_LIMITS[name].usual]),
) as Record<LimitName, number>;

export const BYTES_PER_MB = 1_000_000;
