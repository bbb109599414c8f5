import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { EFFORTS } from '../../src/model/plan.ts';

export const NAMES = [
  'rectangles',
  'furniture',
  'saw',
  'scaling',
  'strips',
  'outlines',
  'boards',
  'holding',
  'rack',
  'kill',
  'leftover',
  'drawings',
  'fuzz',
  'jobs',
] as const;
export type Name = (typeof NAMES)[number];

/** What one command line asks for. */
export interface Request {
  readonly benchmark: Name;
  readonly file: string | null;
  readonly efforts: readonly string[];
  readonly seeds: readonly number[];
  /** Empty for all. */
  readonly variants: readonly string[];
  /** Instances by their names or the groups they begin with; empty for all. */
  readonly only: readonly string[];
  readonly every: number;
  readonly draw: number | null;
  /** Of inputs for each reader; null for as many as are usual. */
  readonly count: number | null;
  readonly jobs: number;
  readonly fresh: boolean;
}

/** The request of a command line, or the exit code of one that asks for help or is wrong. */
export function parseRequest(
  argv: readonly string[],
  write: (text: string) => void,
): Request | number {
  let request: Request | null = null;
  const program = newProgram((asked) => {
    request = asked;
  });
  for (const command of [program, ...program.commands])
    command.exitOverride().configureOutput({ writeOut: write, writeErr: write });
  try {
    program.parse([...argv], { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode;
    throw error;
  }
  return request ?? 1;
}

interface Options {
  readonly effort?: string;
  readonly work?: readonly string[];
  readonly seed?: number;
  readonly seeds?: number;
  readonly turned?: boolean;
  readonly still?: boolean;
  readonly only?: readonly string[];
  readonly every?: number;
  readonly draw?: number;
  readonly count?: number;
  readonly jobs?: number;
  readonly fresh?: boolean;
  readonly stages?: readonly string[];
  readonly what?: readonly string[];
}

function newProgram(asked: (request: Request) => void): Command {
  const program = new Command('npm run bench --').description(
    'Prints the figures of the packing; see "Benchmark figures" in DEVELOPERS.md.',
  );
  const add = (benchmark: Name, about: string, file: string | null) => {
    const command = program.command(benchmark).description(about);
    if (file !== null) command.argument(file, 'where the data is; the project has no copy');
    command.action((first: unknown, second: unknown) => {
      const given = typeof first === 'string' ? first : null;
      const options = (file === null ? first : second) as Options;
      asked(requestOf(benchmark, given, options));
    });
    return withCommonOptions(command);
  };
  withVariants(
    withEffort(
      add('rectangles', 'the 500 published bin packing instances, and maxrects alone', null),
    ),
  );
  withVariants(withEffort(add('furniture', 'orders of furniture makers', '<file>')));
  withVariants(
    withEffort(
      add('saw', 'the same and cabinet pieces cut from edge to edge', '[furniture orders]'),
    ),
  ).option('--stages <list>', 'free, 2, 3: most changes of direction', listed, ['free']);
  withEffort(add('scaling', '100 to 10,000 cabinet pieces: time, memory, growth', null));
  withEffort(add('strips', 'strips of rectangles without waste, on one long sheet', '<file>'));
  withVariants(add('outlines', 'strips and sheets of outlines', '[file or folder]'))
    .option('--work <list>', 'amounts of work of each of two tracks', works, ['1e9'])
    .option('--seeds <n>', 'how many seeds are tried', whole, 1);
  withEffort(add('leftover', 'what orders of furniture makers leave in one piece', '<file>'));
  withEffort(add('boards', 'lengths from boards, and large jobs of them', '<file>'));
  add('holding', '125 to 1,000 pieces: time of the hold-down, growth', null).option(
    '--seed <n>',
    'seed of the sizes',
    whole,
    1,
  );
  withEffort(add('rack', 'quarters of a shop: 60 jobs each, with a rack and without', null));
  add(
    'kill',
    '200 runs killed at random moments, 100 stopped: the rack, the folder of a plan',
    null,
  )
    .option('--seed <n>', 'seed of the moments', whole, 1)
    .option('--what <list>', 'rack, plan, moving, signal: which of them', listed);
  add('drawings', 'drawings that are wrong or far too much: time until it is said', null);
  add('fuzz', 'inputs drawn at random through every reader', null)
    .option('--seed <n>', 'seed of the inputs', whole, 1)
    .option('--count <n>', 'inputs a reader, rounded up to thousands; 100,000 if left out', whole);
  add('jobs', 'random whole jobs, from the parts file to all outputs and back', null)
    .option('--seed <n>', 'seed of the jobs', whole, 1)
    .option('--count <n>', 'how many, rounded up to hundreds; 10,000 if left out', whole);
  return program;
}

function withCommonOptions(command: Command): Command {
  return command
    .option('--only <list>', 'instances, or groups of them: 4,6_40', listed, [])
    .option('--every <n>', 'take each n-th instance', whole, 1)
    .option('--jobs <n>', 'processes at a time', whole, 1)
    .option('--fresh', 'run again what has been run');
}

function withEffort(command: Command): Command {
  return command
    .addOption(
      new Option('--effort <effort>', 'how long to search').choices(EFFORTS).default('quick'),
    )
    .option('--seed <n>', 'seed of the search', whole, 1)
    .option('--draw <n>', 'a random n of the instances not proved at a lower effort', whole);
}

function withVariants(command: Command): Command {
  return command
    .addOption(new Option('--turned', 'only with quarter turns').conflicts('still'))
    .option('--still', 'only without turns');
}

function requestOf(benchmark: Name, file: string | null, options: Options): Request {
  const { effort, work, seed = 1, seeds } = options;
  const { only = [], every = 1, draw, count, jobs = 1, fresh = false } = options;
  return {
    benchmark,
    file,
    efforts: work ?? [effort ?? 'quick'],
    seeds: seeds === undefined ? [seed] : Array.from({ length: seeds }, (_, k) => k + 1),
    variants: variantsOf(options),
    only,
    every,
    draw: draw ?? null,
    count: count ?? null,
    jobs,
    fresh,
  };
}

/** Of a benchmark with stages each turning is a variant for each of them. */
function variantsOf({ turned, still, stages, what }: Options): readonly string[] {
  if (what !== undefined) return what;
  const turning = turned ? ['turned'] : still ? ['still'] : [];
  if (stages === undefined) return turning;
  const all = turning.length > 0 ? turning : ['still', 'turned'];
  return all.flatMap((each) => stages.map((stage) => `${each}-${stage}`));
}

export function whole(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError('A whole number from 1 is needed.');
  return value;
}

export function listed(text: string): string[] {
  return text.split(',').filter((item) => item !== '');
}

function works(text: string): string[] {
  const list = listed(text);
  if (list.length === 0 || !list.every((work) => Number(work) > 0))
    throw new InvalidArgumentError('An amount of work is a number above 0, as 1e8.');
  return list;
}
