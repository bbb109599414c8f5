import { limitsFault } from './limit-option.ts';

export type CommandName =
  | 'plan'
  | 'check'
  | 'compare'
  | 'price'
  | 'explain'
  | 'verify'
  | 'gauge'
  | 'offcuts'
  | 'import'
  | 'schema'
  | 'new';

/** The values of a command's options, each as the text that was given or its default; a missing one was not set. */
export type Settings = Readonly<Record<string, string | undefined>>;

/** One option: all that help, checks, defaults and the README's table need. */
export interface Option {
  readonly name: string;
  /** What stands behind the name; null for a switch. */
  readonly argument: string | null;
  readonly kind:
    | 'word'
    | 'whole number'
    | 'number'
    | 'date'
    | 'scale'
    | 'limits'
    | 'text'
    | 'switch';
  readonly words: readonly string[];
  readonly least: number;
  readonly most: number;
  /** Null: not set unless given. */
  readonly fallback: string | null;
  readonly help: string;
  readonly commands: readonly CommandName[];
}

/** The flags as help shows them, for example `--seed <number>`. */
export function flagsOf(option: Option): string {
  return option.argument === null
    ? `--${option.name}`
    : `--${option.name} <${option.words.length > 0 ? option.words.join('|') : option.argument}>`;
}

/** What is wrong with `text` as a value of `option`, as a sentence; null where nothing is. */
export function faultOf(option: Option, text: string): string | null {
  const { name, kind, words, least, most } = option;
  if (kind === 'word' && !words.includes(text)) {
    return `--${name} takes one of ${words.join(', ')}, not "${text}"`;
  }
  if (kind === 'whole number' || kind === 'number') {
    const pattern = kind === 'number' ? /^\d+(\.\d+)?$/ : /^\d+$/;
    const value = Number(text);
    if (!pattern.test(text) || value < least || value > most) {
      return `--${name} takes a ${kind} from ${least} to ${most}, not "${text}"`;
    }
  }
  if (kind === 'scale' && text !== 'fit') {
    const scale = readScale(text);
    if (scale === null || scale < least || scale > most)
      return `--${name} takes fit or a scale from 1:${least} to 1:${most}, such as 1:10, not "${text}"`;
  }
  if (kind === 'limits') return limitsFault(text);
  if (kind === 'date' && !isDate(text))
    return `--${name} takes a date like 2026-03-31, not "${text}"`;
  return null;
}

/** The n of "1:n"; null for "fit" and for what is no scale. */
export function readScale(text: string): number | null {
  const [, n] = /^1 ?: ?(\d+(?:\.\d{1,2})?)$/.exec(text.trim()) ?? [];
  return n === undefined ? null : Number(n);
}

function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}
