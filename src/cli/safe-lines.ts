import { visible } from '../index.ts';

/** A text that a terminal shows as it is: nothing in it moves the cursor, sets colours or turns the writing direction; only its line ends stay. */
export function safeLines(text: string): string {
  return text.split('\n').map(visible).join('\n');
}
