import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Job } from '../../src/model/job.ts';
import { MAX_SHEET_SPAN, toMm } from '../../src/model/units.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { polygon } from '../helpers/shapes.ts';
import {
  isStrip,
  normalised,
  type Outline,
  type Strip,
  stripJob,
} from '../packing-outlines/strips.ts';
import { curvedPieces } from './curved-pieces.ts';
import { kitchenMix } from './kitchen-mix.ts';
import { type Published, publishedDensities } from './outline-targets.ts';

/** Strips are measured by their density, all others by their sheets; of `known` ones the fewest sheets are known. */
export type Group = 'strip' | 'known' | 'kitchen' | 'growth';

export interface Instance {
  readonly name: string;
  readonly group: Group;
  /** `given`: with the turns that the file or the rule gives. */
  readonly variants: readonly string[];
  /** Whether the only measure is the length that is used of one long sheet. */
  readonly isStrip: boolean;
  readonly optimum: number | null;
  readonly published: Published | null;
  readonly job: (variant: string) => Job;
}

/** A job whose sheets can be filled without any waste, as its file has it, in mm. */
interface KnownJob {
  readonly name: string;
  readonly binWidth: number;
  readonly binHeight: number;
  readonly optimumBins: number;
  readonly items: readonly {
    readonly quantity: number;
    readonly allowedRotationsDegrees: readonly number[];
    readonly outline: Outline;
  }[];
}

const GROWTH = [20, 50, 100, 200, 500];
const GIVEN = { variants: ['given'], optimum: null, published: null };

/** A unit of a strip file is taken as a millimetre, or a tenth of one where the strip is too wide for a sheet. */
const MOST_WIDTH = 1500;

/** Length of the sheet of a strip over the least that its items need, as far as a sheet may be so long; on a short one a search may as well keep a strip along it free. */
const LENGTHS = 9;
const LONGEST_MM = Math.floor(toMm(MAX_SHEET_SPAN));

/** The kitchen's strip would be longer than any sheet, so it is taken four times smaller. */
const KITCHEN_SCALE = 0.25;

/** All there is in a file or folder, by default that of the tests, and the jobs that are made by a rule. */
export function outlineInstances(file: string | null, root: string): readonly Instance[] {
  const path = file ?? join(root, 'tests', 'packing-outlines', 'strips');
  const isFolder = statSync(path).isDirectory();
  const files = isFolder ? jsonFiles(path) : [path];
  const published = publishedDensities(isFolder ? path : dirname(path));
  const read = files.map((name): unknown => JSON.parse(readFileSync(name, 'utf8')));
  const strips = read.filter(isStrip);
  const known = read.filter(isKnownJobs).flatMap(({ instances }) => instances);
  return [
    ...strips.map((strip) => stripInstance(strip, published.get(strip.name) ?? null)),
    ...known.map(knownInstance),
    ...kitchens(),
    ...GROWTH.map((count): Instance => {
      const job = () => curvedPieces(count);
      return { ...GIVEN, name: `growth_${count}`, group: 'growth', isStrip: false, job };
    }),
  ];
}

function jsonFiles(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => join(folder, name));
}

function isKnownJobs(value: unknown): value is { readonly instances: readonly KnownJob[] } {
  if (typeof value !== 'object' || value === null || !('instances' in value)) return false;
  return Array.isArray(value.instances) && value.instances.every((one) => 'optimumBins' in one);
}

function stripInstance(strip: Strip, published: Published | null): Instance {
  const mm = strip.stripWidth > MOST_WIDTH ? 0.1 : 1;
  const job = () => stripJob(strip, { mm, lengths: LENGTHS, longestMm: LONGEST_MM });
  return { ...GIVEN, name: strip.name, group: 'strip', isStrip: true, published, job };
}

function knownInstance({ name, binWidth, binHeight, optimumBins, items }: KnownJob): Instance {
  const job = (variant: string) =>
    jobOf({
      spacing: 0,
      sheets: [sheetOf(binWidth, binHeight)],
      parts: items.map(({ quantity, allowedRotationsDegrees, outline }) =>
        partOf(polygon(...normalised(outline)), {
          count: quantity,
          turns: variant === 'turned' ? allowedRotationsDegrees : [0],
        }),
      ),
    });
  return {
    name: `sheets_${name}`,
    group: 'known',
    variants: ['still', 'turned'],
    isStrip: false,
    optimum: optimumBins,
    published: null,
    job,
  };
}

function kitchens(): Instance[] {
  const strip = sheetOf(LONGEST_MM, KITCHEN_SCALE * 1220);
  return [
    {
      ...GIVEN,
      name: 'kitchen_strip',
      group: 'strip',
      isStrip: true,
      job: () => kitchenMix(strip, KITCHEN_SCALE),
    },
    {
      ...GIVEN,
      name: 'kitchen_sheets',
      group: 'kitchen',
      isStrip: false,
      job: () => kitchenMix(sheetOf(2440, 1220)),
    },
  ];
}
