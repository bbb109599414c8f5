import {
  LIMIT_NAMES,
  type LimitName,
  nearest,
  RESOURCE_LIMITS,
  type ResourceLimits,
  USUAL_LIMITS,
} from '../index.ts';

/** The limits of a run: the usual ones, and those of `--limit` in their place. The text is sound. */
export function limitsOf(text: string | undefined): ResourceLimits {
  if (text === undefined) return USUAL_LIMITS;
  const given = entriesOf(text).map(([name, value]) => [name, Number(value)]);
  return { ...USUAL_LIMITS, ...Object.fromEntries(given) };
}

/** What is wrong with the value of `--limit`, all of it at once; null where nothing is. */
export function limitsFault(text: string): string | null {
  const faults = entriesOf(text).flatMap(([name, value]) => entryFault(name, value) ?? []);
  return faults.length === 0 ? null : faults.join('\nholdfast: ');
}

function entriesOf(text: string): readonly (readonly [string, string | undefined])[] {
  return text.split(',').map((entry) => {
    const [name = '', ...values] = entry.split('=').map((each) => each.trim());
    return [name, values.length === 1 ? values[0] : undefined];
  });
}

function entryFault(name: string, value: string | undefined): string | null {
  if (!isLimitName(name)) return nameFault(name);
  const { usual, most, unit, end } = RESOURCE_LIMITS[name];
  if (value === undefined || !/^\d{1,15}$/.test(value) || Number(value) < 1)
    return `--limit ${name} takes a whole number of ${unit} from 1, as in --limit ${name}=${usual}, not "${value ?? ''}"`;
  return Number(value) <= most ? null : `--limit ${name} goes to ${most} ${unit} at most: ${end}`;
}

function isLimitName(name: string): name is LimitName {
  return Object.hasOwn(RESOURCE_LIMITS, name);
}

/** Those that `check` fails on have names as well, and are asked for here by mistake. */
const OF_THE_JOB = ['yield', 'cost', 'holding', 'proof', 'time', 'weight', 'drift'];

function nameFault(name: string): string {
  if (OF_THE_JOB.includes(name))
    return `--limit has no "${name}": that is a limit of the job, for check, and stands in the parts file: limits: { ${name}: … }`;
  const close = nearest(name, LIMIT_NAMES);
  const hint = close === null ? `there are ${LIMIT_NAMES.join(', ')}` : `did you mean "${close}"?`;
  return `--limit has no "${name}"; ${hint}`;
}
