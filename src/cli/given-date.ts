import type { Settings } from './options.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** The date of an output, from the option or from SOURCE_DATE_EPOCH (seconds since 1970); null for none. */
export function givenDate(world: World, settings: Settings): Date | null {
  if (settings.date !== undefined) return new Date(`${settings.date}T00:00:00Z`);
  const epoch = world.env.SOURCE_DATE_EPOCH;
  if (epoch === undefined || epoch === '') return null;
  const date = new Date(Number(epoch) * 1000);
  if (!/^\d+$/.test(epoch) || Number.isNaN(date.getTime())) {
    throw new CommandFailure(EXIT.usage, `SOURCE_DATE_EPOCH is "${epoch}", not a count of seconds`);
  }
  return date;
}
