// Says what is drilled and recessed in a part, and how deep; alike things together, in the order of the file.
import { counted, formatLength } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import type { Hole, Part, Pocket } from '../model/part.ts';

/** "4 of 5 mm, 12 mm deep", "1 of 35 mm, through". */
export function holeTexts(holes: readonly Hole[], unit: FileUnit): readonly string[] {
  return countedTexts(holes, ({ diameter, depth }) => {
    const how = depth === null ? 'through' : deepText(depth, unit);
    return `${formatLength(diameter, unit)}, ${how}`;
  }).map(({ text, count }) => `${count} of ${text}`);
}

/** "2, 6 mm deep". */
export function pocketTexts(pockets: readonly Pocket[], unit: FileUnit): readonly string[] {
  return countedTexts(pockets, ({ depth }) => deepText(depth, unit)).map(
    ({ text, count }) => `${count}, ${text}`,
  );
}

/** "4 holes of 5 mm, 12 mm deep; 1 pocket, 6 mm deep": all that does not go through; null where everything does. */
export function depthText({ holes, pockets }: Part, unit: FileUnit): string | null {
  const blind = countedTexts(
    holes.filter(({ depth }) => depth !== null),
    ({ diameter, depth }) => `of ${formatLength(diameter, unit)}, ${deepText(depth!, unit)}`,
  ).map(({ text, count }) => `${counted(count, 'hole')} ${text}`);
  const recessed = countedTexts(pockets, ({ depth }) => deepText(depth, unit)).map(
    ({ text, count }) => `${counted(count, 'pocket')}, ${text}`,
  );
  const texts = [...blind, ...recessed];
  return texts.length === 0 ? null : texts.join('; ');
}

function deepText(depth: number, unit: FileUnit): string {
  return `${formatLength(depth, unit)} deep`;
}

interface Counted {
  readonly text: string;
  readonly count: number;
}

function countedTexts<T>(things: readonly T[], textOf: (thing: T) => string): readonly Counted[] {
  const counts = new Map<string, number>();
  for (const thing of things) counts.set(textOf(thing), (counts.get(textOf(thing)) ?? 0) + 1);
  return [...counts].map(([text, count]) => ({ text, count }));
}
