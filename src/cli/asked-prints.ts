import {
  formatSize,
  type Job,
  nearest,
  type Paper,
  type Part,
  pagesOfSheet,
  pagesOfTemplate,
  type ResourceLimits,
  raiseHint,
} from '../index.ts';
import { readScale, type Settings } from './options.ts';
import { CommandFailure, EXIT } from './world.ts';

/** What is to be printed beyond the usual, known before the search begins. */
export interface AskedPrints {
  readonly paper: Paper;
  readonly scale: number | null;
  /** None: no templates are asked for. */
  readonly templates: readonly Part[];
  readonly notes: readonly string[];
}

/** A message lists no more parts than a person would read. */
const MOST_NAMES = 20;

/** Reads the options for paper. Throws `CommandFailure` with every fault at once. */
export function askedPrints(job: Job, settings: Settings, limits: ResourceLimits): AskedPrints {
  const paper = settings.paper as Paper;
  const scale = readScale(settings.scale ?? 'fit');
  const faults = scale === null ? [] : scaleFaults(job, scale, { paper, limits });
  const { parts, faults: unknown } = readNames(job, settings.templates);
  const templates = withoutRepeats(parts);
  faults.push(...unknown, ...templates.flatMap((part) => sizeFaults(job, part, { paper, limits })));
  if (faults.length > 0) throw new CommandFailure(EXIT.usage, faults.join('\nholdfast: '));
  return { paper, scale, templates, notes: templates.flatMap((part) => plainNote(job, part)) };
}

interface Printing {
  readonly paper: Paper;
  readonly limits: ResourceLimits;
}

function scaleFaults(job: Job, scale: number, { paper, limits }: Printing): string[] {
  const pages = pagesOfSheet(job, scale, paper);
  if (pages <= limits.pages) return [];
  return [
    `--scale 1:${scale} would spread a sheet over ${pages} pages, more than ${limits.pages}; take a larger n, larger paper, or --templates for single parts, or ${raiseHint('pages', pages)}`,
  ];
}

function sizeFaults(job: Job, part: Part, { paper, limits }: Printing): string[] {
  const pages = pagesOfTemplate(job, part, paper);
  if (pages <= limits.pages) return [];
  return [
    `the template of "${part.name}" would take ${pages} pages, more than ${limits.pages}; take larger paper, or ${raiseHint('pages', pages)}`,
  ];
}

/** The parts of a list of names; a name may itself have commas in it. */
function readNames(job: Job, text: string | undefined): { parts: Part[]; faults: string[] } {
  const parts: Part[] = [];
  const faults: string[] = [];
  const words = (text ?? '').split(',');
  for (let first = 0; text !== undefined && first < words.length; ) {
    let end = words.length;
    while (end > first + 1 && partsNamed(job, words.slice(first, end)).length === 0) end--;
    const found = partsNamed(job, words.slice(first, end));
    if (found.length === 0) faults.push(nameFault(job, words[first]!.trim()));
    parts.push(...found);
    first = end;
  }
  return { parts, faults };
}

function partsNamed({ parts }: Job, words: readonly string[]): readonly Part[] {
  const wanted = plainName(words.join(','));
  return parts.filter(({ name }) => plainName(name) === wanted);
}

/** Terminals write accents in more than one way. */
function plainName(name: string): string {
  return name.normalize('NFC').trim();
}

function nameFault({ parts, lengthParts, lumber }: Job, name: string): string {
  if (name === '') return '--templates takes names of parts, with commas between them';
  const lengths = [...lengthParts, ...lumber.flatMap((each) => each.parts)];
  if (lengths.some((each) => plainName(each.name) === plainName(name)))
    return `"${name}" is cut to length from a board, which needs no template`;
  const names = [...new Set(parts.map((part) => part.name))];
  const close = nearest(name, names);
  const hint =
    close === null
      ? `there are ${names.slice(0, MOST_NAMES).join(', ')}`
      : `did you mean "${close}"?`;
  return `--templates: there is no part "${name}"; ${hint}`;
}

/** The members of a matched set are parts of one name, often all alike. */
function withoutRepeats(parts: readonly Part[]): readonly Part[] {
  const form = ({ name, shape, holes, pockets }: Part) =>
    JSON.stringify([name, shape, holes, pockets]);
  const seen = new Map(parts.map((part) => [form(part), part]));
  return [...seen.values()];
}

function plainNote({ unit }: Job, part: Part): string[] {
  const { shape, holes, pockets, rectangular, name, width, height } = part;
  if (!rectangular || shape.inner.length + holes.length + pockets.length > 0) return [];
  return [
    `"${name}" is a plain rectangle of ${formatSize(width, height, unit)}: a rule marks it out as well as a template.`,
  ];
}
