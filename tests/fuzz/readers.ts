import { type Corpus, corpusOf } from './corpus.ts';
import type { Reader } from './fuzz-case.ts';
import { dxfReader, svgReader } from './read-drawing.ts';
import { lengthsReader } from './read-lengths.ts';
import { listReader } from './read-list.ts';
import { partsFileReader } from './read-parts-text.ts';
import { rackReader } from './read-rack-text.ts';
import { readingsReader } from './read-readings-text.ts';
import { recordReader } from './read-record-text.ts';
import { type TinyPlan, tinyPlans } from './tiny-plans.ts';

/** By the kind of text that is read. */
export const READERS = [
  'yaml',
  'readings',
  'rack',
  'lengths',
  'svg',
  'dxf',
  'csv',
  'record',
] as const;
export type ReaderName = (typeof READERS)[number];

/** All readers, each with its inputs; `root` is the folder of the project. */
export async function readersOf(root: string): Promise<Readonly<Record<ReaderName, Reader>>> {
  const corpus: Corpus = corpusOf(root);
  const plans: readonly TinyPlan[] = await tinyPlans();
  return {
    yaml: partsFileReader(corpus),
    readings: readingsReader(corpus),
    rack: rackReader(corpus, plans),
    lengths: lengthsReader,
    svg: svgReader(corpus),
    dxf: dxfReader(corpus),
    csv: listReader,
    record: recordReader(plans),
  };
}

/** The seed of one input, so that each can be made again alone. */
export function seedOf(reader: ReaderName, seed: number, input: number): number {
  return (seed * 10_000_019 + READERS.indexOf(reader) * 1_000_003 + input) | 0;
}
