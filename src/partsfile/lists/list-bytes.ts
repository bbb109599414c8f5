import type { ResourceLimits } from '../../model/resource-limits.ts';
import { megabytes, raiseHint } from '../limit-fault.ts';

/** The text of a list and what had to be assumed for it, or why it is none. */
export type Decoded =
  | { readonly text: string; readonly note: string | null }
  | { readonly why: string };

/**
 * Reads the bytes of a list as spreadsheets save them: UTF-8 with or without a byte-order mark, UTF-16 with one, and what is no UTF-8 as
 * Windows-1252, the older Western habit, in which every byte is some letter. Line ends become `\n`.
 */
export function decodeList(bytes: Uint8Array, limits: ResourceLimits): Decoded {
  const tooLarge = listTooLarge(bytes.length, limits);
  if (tooLarge !== null) return { why: tooLarge };
  const [first, second, third] = bytes;
  if (first === 0x50 && second === 0x4b && third === 3) return { why: WORKBOOK };
  const wide = first === 0xff && second === 0xfe ? 'utf-16le' : null;
  const encoding = first === 0xfe && second === 0xff ? 'utf-16be' : wide;
  if (encoding !== null) return checked(decode(bytes, encoding) ?? '', null);
  const text = decode(bytes, 'utf-8');
  if (text !== null) return checked(text, null);
  return checked(decode(bytes, 'windows-1252') ?? '', OLD_LETTERS);
}

/** Why a list of so many bytes is not read, which need not be read to be told; null where it is. */
export function listTooLarge(bytes: number, limits: ResourceLimits): string | null {
  const found = megabytes(bytes);
  if (found <= limits.list) return null;
  return `it has ${found} MB; the most is ${limits.list}: split it, or ${raiseHint('list', found)}`;
}

const WORKBOOK =
  'it is a workbook or an archive, not text: save the sheet of the list as CSV first';

const OLD_LETTERS =
  'The list is no UTF-8 and was read as Windows-1252; look at the letters with accents.';

function decode(bytes: Uint8Array, encoding: string): string | null {
  try {
    return new TextDecoder(encoding, { fatal: encoding === 'utf-8' }).decode(bytes);
  } catch {
    return null;
  }
}

function checked(text: string, note: string | null): Decoded {
  if (text.includes('\0'))
    return { why: 'it has characters that no text has: save the list as CSV in UTF-8' };
  // A letter that was lost before is none that a parts file could keep.
  return { text: text.replace(/\r\n?/g, '\n').replaceAll('\ufffd', '?'), note };
}
