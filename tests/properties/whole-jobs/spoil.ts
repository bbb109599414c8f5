import type { Dice } from './dice.ts';

/** The text with one thing in it as it should not be: what slips in when a file is typed, cut off or merged badly. */
export function spoiled(dice: Dice, text: string): string {
  const lines = text.split('\n');
  const at = dice.whole(0, lines.length - 1);
  const line = lines[at]!;
  const changed = (other: readonly string[]) =>
    [...lines.slice(0, at), ...other, ...lines.slice(at + 1)].join('\n');
  const spot = dice.whole(0, text.length);
  const ways: readonly (() => string)[] = [
    () => changed([]),
    () => changed([line, line]),
    () => changed([`\t${line}`]),
    () => changed([line.replace(/\d+/, (digits) => `-${digits}`)]),
    () => changed([line.replace(/\d+/, '0')]),
    () => changed([line.replace(/\d+/, (digits) => `${digits},5`)]),
    () => changed([line.replace(/\d+/, '1e99')]),
    () => changed([line.replace(/[a-z]{4,}/, 'nosuch')]),
    () => changed([line.replace(/:.*/, ':')]),
    () => text.slice(0, spot),
    () =>
      `${text.slice(0, spot)}${dice.among(['"', "'", '{', ']', '&a', '\u0000', '\ud800', ': '])}${text.slice(spot)}`,
    () => '',
  ];
  return dice.among(ways)();
}
