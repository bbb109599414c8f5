import pc from 'picocolors';
import type { Tone } from '../index.ts';
import type { Settings } from './options.ts';
import { safeLines } from './safe-lines.ts';
import type { World } from './world.ts';

/** Gives a text the colour of its tone, or leaves it plain where colour is not wanted. */
export type Paint = (tone: Tone, text: string) => string;

export function paintFor(world: World, settings: Settings): Paint {
  const wish = settings.colour;
  const auto = world.outIsTerminal && !world.env.NO_COLOR;
  const colours = pc.createColors(wish === 'always' || (wish === 'auto' && auto));
  const inks: Readonly<Record<Tone, (text: string) => string>> = {
    plain: (text) => text,
    heading: colours.bold,
    good: colours.green,
    care: colours.yellow,
    bad: colours.red,
    quiet: colours.dim,
  };
  // Names may come from a list or a record that nobody checked.
  return (tone, text) => inks[tone](safeLines(text));
}
