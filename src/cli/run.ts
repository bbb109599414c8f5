import { resourceLimits } from 'node:worker_threads';
import { Command, CommanderError } from 'commander';
import {
  AssertionError,
  GAUGE_HELP,
  IMPORT_HELP,
  OFFCUTS_HELP,
  PRICE_HELP,
  TOOL_VERSION,
} from '../index.ts';
import { memoryFault } from '../thread-memory.ts';
import { CHECK_HELP, checkCommand } from './check-command.ts';
import { compareCommand } from './compare-command.ts';
import { diskReason, isRefusal } from './disk-reason.ts';
import { explainCommand } from './explain-command.ts';
import { gaugeCommand } from './gauge-command.ts';
import { importCommand } from './import-command.ts';
import { limitsOf } from './limit-option.ts';
import { newCommand } from './new-command.ts';
import { offcutsCommand } from './offcuts-command.ts';
import { OPTIONS } from './option-table.ts';
import { type CommandName, faultOf, flagsOf, type Settings } from './options.ts';
import { planCommand } from './plan-command.ts';
import { priceCommand } from './price-command.ts';
import { printProblems } from './read-job.ts';
import { safeLines } from './safe-lines.ts';
import { schemaCommand } from './schema-command.ts';
import { verifyCommand } from './verify-command.ts';
import { CommandFailure, EXIT, type Surroundings, type World } from './world.ts';

/** What a command is: its words, its help, and what it does; the result is the exit code. */
interface CommandEntry {
  readonly name: CommandName;
  readonly usage: string;
  readonly help: string;
  /** What its own help says below the options. */
  readonly more?: string;
  readonly act: (world: World, words: readonly string[], settings: Settings) => Promise<number>;
}

export const COMMANDS: readonly CommandEntry[] = [
  {
    name: 'plan',
    usage: '<parts-file>',
    help: 'lay the parts out, prove the sheet count, reckon the hold-down, and write plan, drawings and report',
    act: planCommand,
  },
  {
    name: 'check',
    usage: '<parts-file...>',
    help: 'report problems, broken limits and changes since a plan, of one file or many; writes only what --sarif asks for',
    more: CHECK_HELP,
    act: checkCommand,
  },
  {
    name: 'compare',
    usage: '<parts-file>',
    help: 'plan the file and each of its variants, and set them side by side; writes nothing',
    act: compareCommand,
  },
  {
    name: 'price',
    usage: '<parts-file>',
    help: 'print what the job costs and what each part and group bears of it; writes nothing',
    more: PRICE_HELP,
    act: priceCommand,
  },
  {
    name: 'explain',
    usage: '<parts-file> [part]',
    help: 'show the hold-down reckoning of a part and what would make it stay; without a part, all that needs care',
    act: explainCommand,
  },
  {
    name: 'verify',
    usage: '<plan> <parts-file>',
    help: 'check a plan.json, or the folder it is in, against its parts file, also one that was edited by hand; writes nothing',
    act: verifyCommand,
  },
  {
    name: 'gauge',
    usage: '<readings-file>',
    help: 'reckon permeability, pump and friction of your table from readings, for the parts file; writes nothing',
    more: GAUGE_HELP,
    act: gaugeCommand,
  },
  {
    name: 'offcuts',
    usage: '<action> [what...]',
    help: 'keep the rack of offcuts: list it, add the leftovers of a plan that was cut, mark what is used, take that back',
    more: OFFCUTS_HELP,
    act: offcutsCommand,
  },
  {
    name: 'import',
    usage: '<list>',
    help: 'make a parts file of a cut list (CSV), and list what could not be read',
    more: IMPORT_HELP,
    act: importCommand,
  },
  {
    name: 'new',
    usage: '<parts-file>',
    help: 'write a commented starter file',
    act: newCommand,
  },
  {
    name: 'schema',
    usage: '',
    help: 'print the JSON Schema of the parts file, for editors',
    act: schemaCommand,
  },
];

/** Runs one command line; never throws. The result is the exit code. */
export async function run(argv: readonly string[], surroundings: Surroundings): Promise<number> {
  let exitCode: number = EXIT.done;
  const program = buildProgram(surroundings, (code) => {
    exitCode = code;
  });
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return exitCode;
  } catch (error) {
    return failureCode(surroundings, error);
  }
}

function buildProgram(world: Surroundings, finish: (exitCode: number) => void): Command {
  const program = new Command('holdfast')
    .description(
      'Lays furniture parts out on sheets, proves how few sheets are possible, and says which pieces will not stay put under vacuum.',
    )
    .version(TOOL_VERSION, '--version', 'print the version')
    .helpOption('--help', 'print this help')
    .helpCommand(false)
    .configureOutput({ writeOut: world.out, writeErr: (text) => world.err(safeLines(text)) })
    .exitOverride();
  for (const entry of COMMANDS) {
    const command = program
      .command(`${entry.name} ${entry.usage}`.trim())
      .description(entry.help)
      .helpOption('--help', 'print this help')
      .action(async (...words: unknown[]) => {
        const settings = checkedSettings(entry.name, command.opts());
        const operands = words.flat().filter((word): word is string => typeof word === 'string');
        const allowed = {
          limits: limitsOf(settings.limit),
          drawingsFrom: settings['drawings-from'] ?? null,
        };
        const err = (text: string) => world.err(safeLines(text));
        const progress = world.err;
        finish(await entry.act({ ...world, ...allowed, err, progress }, operands, settings));
      });
    for (const option of OPTIONS.filter(({ commands }) => commands.includes(entry.name))) {
      const help = option.fallback === null ? option.help : `${option.help} (${option.fallback})`;
      command.option(flagsOf(option), help, (value, before: string | undefined) =>
        option.kind === 'limits' && before !== undefined ? `${before},${value}` : value,
      );
    }
    if (entry.more !== undefined) command.addHelpText('after', `\n${entry.more}`);
  }
  return program;
}

/** The given options with defaults filled in. Throws `CommandFailure` with every fault at once. */
function checkedSettings(command: CommandName, given: Settings): Settings {
  const faults: string[] = [];
  const settings: Record<string, string> = {};
  for (const option of OPTIONS.filter(({ commands }) => commands.includes(command))) {
    const text = given[propertyOf(option.name)] ?? option.fallback;
    if (text === null) continue;
    const fault = faultOf(option, text);
    if (fault !== null) faults.push(fault);
    settings[option.name] = text;
  }
  if (faults.length > 0) throw new CommandFailure(EXIT.usage, faults.join('\nholdfast: '));
  return settings;
}

/** Under what the parser of the command line keeps an option. */
function propertyOf(name: string): string {
  return name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
}

function failureCode(surroundings: Surroundings, error: unknown): number {
  const world = { ...surroundings, err: (text: string) => surroundings.err(safeLines(text)) };
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
  if (error instanceof CommandFailure) {
    if (error.found !== null) printProblems(world, error.found.file, error.found.problems);
    world.err(`holdfast: ${error.message}\n`);
    return error.exitCode;
  }
  const memory = memoryFault(error, resourceLimits);
  if (memory !== null) {
    world.err(`holdfast: ${memory}\n`);
    return EXIT.usage;
  }
  if (isRefusal(error)) {
    const where = error.path === undefined ? '' : `${error.path}: `;
    world.err(`holdfast: ${where}${diskReason(error)}\n`);
    return EXIT.disk;
  }
  const what = error instanceof AssertionError ? error.message : String(error);
  world.err(
    `holdfast: this is a mistake in holdfast, not in your file; nothing was written. ${what}\n`,
  );
  if (world.env.HOLDFAST_TRACE !== undefined && error instanceof Error) {
    world.err(`${error.stack}\n`);
  }
  return EXIT.ours;
}
